"""What would cure a stall: each cure is tried by living the year again with it."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final, Literal

from sourloam.base.days import WEEKDAYS
from sourloam.fleet.life import Life
from sourloam.science.places.soil_tub.soil_tub import SoilTub
from sourloam.science.places.taker import Taker
from sourloam.site.site import Site
from sourloam.site.vessels import Vessel

MOST_TOGETHER: Final = 3  # cures that are put together, where one alone is not enough
BROWNS_L_PER_WEEK: Final = (60.0, 180.0)  # a sack, or three; JUDGEMENT
MOST_MORE: Final = 8  # vessels beyond those owned that are tried
COLD_L: Final = 10.0
TUB_L: Final = 60.0
TUB_WIDTHS: Final = 3.0  # a soil tub holds the soil too, so it must be so many times the product

Effort = Literal["nothing", "habit", "thing"]
EFFORTS: Final[tuple[Effort, ...]] = ("nothing", "habit", "thing")
EFFORT_OF: Final[Mapping[str, Effort]] = MappingProxyType(
    {
        "cold": "nothing",
        "press": "nothing",
        "warmth": "nothing",
        "day": "habit",
        "taker": "habit",
        "browns": "habit",
        "bran": "thing",
        "tub": "thing",
        "vessel": "thing",
        "size": "thing",
    }
)

Living = Callable[[Site], Life]


def effort_of(*kinds: str) -> Effort:
    """Return what changes of some kinds ask for together: the most that one of them does."""
    return max((EFFORT_OF[each] for each in kinds), key=EFFORTS.index)


@dataclass(frozen=True)
class Cure:
    """A change, and the stalled days that are left with it."""

    kind: str
    what: str  # in the voice of "What if you ...?"
    stalled_days: int
    turned_away_kg: float
    effort: Effort

    @property
    def is_whole(self) -> bool:
        """Whether nothing is left of the stall."""
        return self.stalled_days == 0


@dataclass(frozen=True)
class Trial:
    """A site that was changed, and how its year went."""

    cure: Cure
    site: Site
    life: Life


def cures(site: Site, life: Life, live: Living, *, indoors_c: float) -> tuple[Cure, ...]:
    """Try the cures that fit what binds: first those that cost nothing, then those that must be bought.

    Where none is enough alone, the best are put together. The order by cost is
    a judgement; prices are a keeper's own.
    """
    if life.stalled_days == 0:
        return ()
    trials = _trials(site, life, live, indoors_c)
    whole = [each.cure for each in trials if each.cure.is_whole]
    helping = sorted((each for each in trials if each.cure.stalled_days < life.stalled_days), key=_left)
    partly = [each.cure for each in helping if not each.cure.is_whole]
    if whole or not helping:
        return (*whole, *partly)
    together = _together(helping[0], live, indoors_c)
    return (together.cure, *partly) if together.cure.stalled_days < helping[0].cure.stalled_days else tuple(partly)


def _left(trial: Trial) -> int:
    return trial.cure.stalled_days


def _trials(site: Site, life: Life, live: Living, indoors_c: float) -> list[Trial]:
    is_place_bound = any(binding == "places" for _, _, binding in life.stalls())
    tried = (*candidates(site, indoors_c, is_place_bound=is_place_bound), _more_vessels(site, live))
    return [_tried(each, live) for each in tried]


def _tried(candidate: tuple[str, str, Site], live: Living) -> Trial:
    kind, what, changed = candidate
    after = live(changed)
    return Trial(Cure(kind, what, after.stalled_days, after.turned_away_kg, effort_of(kind)), changed, after)


def _together(first: Trial, live: Living, indoors_c: float) -> Trial:
    """Add to the best cure the best on top of it, until nothing is left or nothing more helps."""
    best, said, kinds = first, [first.cure.what], {first.cure.kind}
    while not best.cure.is_whole and len(said) < MOST_TOGETHER:
        others = [each for each in _trials(best.site, best.life, live, indoors_c) if each.cure.kind not in kinds]
        if not others:
            break
        more = min(others, key=_left)
        if more.cure.stalled_days >= best.cure.stalled_days:
            break
        said.append(more.cure.what)
        kinds.add(more.cure.kind)
        best = more
    *rest, last = said
    what = f"{', '.join(rest)} and {last}" if rest else last
    return replace(best, cure=replace(best.cure, kind="together", what=what, effort=effort_of(*kinds)))


def _more_vessels(site: Site, live: Living) -> tuple[str, str, Site]:
    """Return the fewest more vessels that cure the stall whole, or one more where no number does."""
    owned = len(site.vessels)
    enough = fewest_from(
        owned + 1, lambda number: live(with_vessels(site, number)).stalled_days == 0, most=owned + MOST_MORE
    )
    more = (enough or owned + 1) - owned
    added = "one more vessel" if more == 1 else f"{_WORDS[more]} more vessels"
    return "vessel", f"add {added} of {commonest(site).volume_l:.3g} L", with_vessels(site, owned + more)


def fewest_from(near: int, is_enough: Callable[[int], bool], *, most: int) -> int | None:
    """Return the fewest vessels that are enough; nothing if `most` are not.

    More is never worse, so the answer is hemmed in from `near` with strides that
    double, and then halved: every number that is tried costs a lived year.
    """
    low, high = _hemmed(near, is_enough, most)
    if high > most:
        return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if is_enough(middle) else (middle, high)
    return high


def _hemmed(near: int, is_enough: Callable[[int], bool], most: int) -> tuple[int, int]:
    """Return a number that is too few and one that is enough; one above `most` stands for none."""
    stride = 1
    if is_enough(near):
        high = near
        while high - stride >= 1:
            if not is_enough(high - stride):
                return high - stride, high
            high, stride = high - stride, stride * 2
        return 0, high
    low = near
    while low < most:
        tried = min(low + stride, most)
        if is_enough(tried):
            return low, tried
        low, stride = tried, stride * 2
    return most, most + 1


def with_vessels(site: Site, number: int) -> Site:
    """Return the site with so many vessels: the first ones, or copies of the commonest added."""
    if number <= len(site.vessels):
        return replace(site, vessels=site.vessels[:number])
    model = commonest(site)
    more = (
        replace(model, id=f"{model.id}-more-{each}", state="empty") for each in range(len(site.vessels) + 1, number + 1)
    )
    return replace(site, vessels=(*site.vessels, *more))


def commonest(site: Site) -> Vessel:
    """Return a vessel of the commonest size; of equals, the first."""
    sizes = [each.volume_l for each in site.vessels]
    return max(site.vessels, key=lambda each: sizes.count(each.volume_l))


def candidates(site: Site, indoors_c: float, *, is_place_bound: bool) -> Iterator[tuple[str, str, Site]]:
    """Give the changes that fit a site beside more vessels: kind, what in words, the site with it."""
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
    if is_place_bound:
        yield from _outlets(site)


_WORDS: Final = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")


def _warmed(vessel: Vessel, indoors_c: float) -> Vessel:
    if vessel.stands in ("kitchen", "indoors") and (vessel.temperature_c is None or vessel.temperature_c >= indoors_c):
        return vessel
    return replace(vessel, stands="indoors", temperature_c=None)


def _opposite(day: str) -> str:
    """Return the weekday that lies half a week away."""
    return WEEKDAYS[(WEEKDAYS.index(day) + 3) % 7]


def _outlets(site: Site) -> Iterator[tuple[str, str, Site]]:
    """Give more ways out, for where finished batches wait: browns for a pile, a tub, somebody who takes them."""
    if site.piles:
        for litres in BROWNS_L_PER_WEEK:
            fed = tuple(replace(each, browns_l_per_d=each.browns_l_per_d + litres / 7.0) for each in site.piles)
            what = f"bring {litres:.0f} L of leaves, straw or torn cardboard a week to the pile"
            yield "browns", what, replace(site, piles=fed)
    volume = max(TUB_L, TUB_WIDTHS * max(each.usable_l for each in site.vessels))
    tub = SoilTub(id=_new_id("soil-tub", site), volume_l=volume)
    yield "tub", f"set up a soil tub of {volume:.0f} L", replace(site, soil_tubs=(*site.soil_tubs, tub))
    taker = Taker(id=_new_id("taker", site), kind="neighbour", days=("sat",))
    yield "taker", "find somebody who takes a bucket every Saturday", replace(site, takers=(*site.takers, taker))


def _new_id(stem: str, site: Site) -> str:
    taken = {each.id for part in site.parts().values() for each in part}
    return next(each for each in (f"{stem}-more-{number}" for number in range(1, 100)) if each not in taken)
