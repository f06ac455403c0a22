"""What would cure a stall: each cure is tried by living the year again with it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final

from sourloam.base.days import WEEKDAYS
from sourloam.fleet.life import Life
from sourloam.science.places.soil_tub.soil_tub import SoilTub
from sourloam.site.site import Site
from sourloam.site.vessels import Vessel

MOST_MORE: Final = 8  # vessels beyond those owned that are tried
COLD_L: Final = 10.0
TUB_L: Final = 60.0
TUB_WIDTHS: Final = 3.0  # a soil tub holds the soil too, so it must be so many times the product

Living = Callable[[Site], Life]


@dataclass(frozen=True)
class Cure:
    """A change, and the stalled days that are left with it."""

    kind: str
    what: str  # in the voice of "What if you ...?"
    stalled_days: int
    turned_away_kg: float

    @property
    def is_whole(self) -> bool:
        """Whether nothing is left of the stall."""
        return self.stalled_days == 0


def cures(site: Site, life: Life, live: Living, *, indoors_c: float) -> tuple[Cure, ...]:
    """Try the cures that fit what binds: first those that cost nothing, then those that must be bought.

    The order by cost is a judgement; prices are a keeper's own.
    """
    if life.stalled_days == 0:
        return ()
    tried = []
    for kind, what, changed in _candidates(site, life, indoors_c):
        after = live(changed)
        tried.append(Cure(kind, what, after.stalled_days, after.turned_away_kg))
        if tried[-1].is_whole and kind == "vessel":
            break
    whole = [each for each in tried if each.is_whole]
    partly = sorted((each for each in tried if not each.is_whole), key=lambda each: each.stalled_days)
    return tuple(whole + [each for each in partly if each.stalled_days < life.stalled_days])


def fewest_from(near: int, is_enough: Callable[[int], bool], *, most: int) -> int | None:
    """Return the fewest vessels that are enough, looking up or down from `near`; nothing if `most` are not."""
    if is_enough(near):
        while near > 1 and is_enough(near - 1):
            near -= 1
        return near
    return next((number for number in range(near + 1, most + 1) if is_enough(number)), None)


def with_vessels(site: Site, number: int) -> Site:
    """Return the site with so many vessels: the first ones, or copies of the commonest added."""
    if number <= len(site.vessels):
        return replace(site, vessels=site.vessels[:number])
    model = commonest(site)
    more = (
        replace(model, id=f"{model.id}-more-{each + 1}", state="empty") for each in range(number - len(site.vessels))
    )
    return replace(site, vessels=(*site.vessels, *more))


def commonest(site: Site) -> Vessel:
    """Return a vessel of the commonest size; of equals, the first."""
    sizes = [each.volume_l for each in site.vessels]
    return max(site.vessels, key=lambda each: sizes.count(each.volume_l))


def _candidates(site: Site, life: Life, indoors_c: float) -> Iterator[tuple[str, str, Site]]:
    keeper = site.keeper
    if site.keeper.cold_l < COLD_L:
        colder = replace(keeper, fridge_l=keeper.fridge_l + COLD_L)
        yield "cold", f"hold back up to {COLD_L:.0f} L of scraps in the fridge or freezer", replace(site, keeper=colder)
    warmed = tuple(_warmed(each, indoors_c) for each in site.vessels)
    if warmed != site.vessels:
        yield "warmth", "let every vessel ferment indoors", replace(site, vessels=warmed)
    if len(keeper.days) == 1:
        more_days = tuple(sorted({*keeper.days, _opposite(keeper.days[0])}))
        yield "day", "find a second work day in the week", replace(site, keeper=replace(keeper, days=more_days))
    if any(binding == "places" for _, _, binding in life.stalls()):
        yield from _outlets(site)
    for number in range(1, MOST_MORE + 1):
        added = "one more vessel" if number == 1 else f"{_WORDS[number]} more vessels"
        yield (
            "vessel",
            f"add {added} of {commonest(site).volume_l:.3g} L",
            with_vessels(site, len(site.vessels) + number),
        )


_WORDS: Final = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")


def _warmed(vessel: Vessel, indoors_c: float) -> Vessel:
    if vessel.stands in ("kitchen", "indoors") and (vessel.temperature_c is None or vessel.temperature_c >= indoors_c):
        return vessel
    return replace(vessel, stands="indoors", temperature_c=None)


def _opposite(day: str) -> str:
    """Return the weekday that lies half a week away."""
    return WEEKDAYS[(WEEKDAYS.index(day) + 3) % 7]


def _outlets(site: Site) -> Iterator[tuple[str, str, Site]]:
    volume = max(TUB_L, TUB_WIDTHS * max(each.usable_l for each in site.vessels))
    tub = SoilTub(id="soil-tub-more", volume_l=volume)
    yield "tub", f"set up a soil tub of {volume:.0f} L", replace(site, soil_tubs=(*site.soil_tubs, tub))
