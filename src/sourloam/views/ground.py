"""The ground as it stands: what each place holds, how long it rests still, what is to grow there."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from types import MappingProxyType
from typing import Final

from sourloam.base.days import Span
from sourloam.logbook.state import State
from sourloam.plan.answer import Ground
from sourloam.plan.words import Speech, days, when
from sourloam.science.places.bed.bed import Bed
from sourloam.science.places.offer import Receipt
from sourloam.science.places.pile.pile import Pile
from sourloam.science.places.soil_tub.soil_tub import SoilTub
from sourloam.science.places.worm_bin.worm_bin import WormBin

RECENT_D: Final = 365
KINDS: Final[Mapping[str, str]] = MappingProxyType(
    {"bed": "bed", "pile": "pile", "worm-bin": "worm bin", "soil-tub": "tub of soil", "taker": "taker"}
)


@dataclass(frozen=True)
class PlaceStand:
    """How one place stands."""

    id: str
    name: str
    kind: str
    state: str  # free, resting, planted, frozen, closed
    says: str
    area_m2: float | None
    gone_d: int  # days of the rest that are over
    left_d: int  # and that are left
    crops: tuple[str, ...]
    got: tuple[str, ...]  # what it was given in the last year, newest first


@dataclass(frozen=True)
class GroundView:
    """All places of a site."""

    heading: str
    on: date
    places: tuple[PlaceStand, ...]
    speech: Speech


def ground_view(state: State, planned: Sequence[Ground], shut: Sequence[Span], on: date) -> GroundView:
    """Return how all places stand on a day."""
    site, _ = state.must()
    speech = Speech(site.keeper.units)
    by_place = {each.place: each for each in planned}
    is_frozen = any(each.first <= on <= each.last for each in shut)
    places = tuple(_places(state, by_place, on, speech, is_frozen=is_frozen))
    return GroundView(_heading(places), on, places, speech)


def _places(
    state: State, planned: Mapping[str, Ground], on: date, speech: Speech, *, is_frozen: bool
) -> Iterator[PlaceStand]:
    site, situation = state.must()
    held = {each.place: each for each in situation.places}
    parts: dict[str, tuple[Bed | Pile | WormBin | SoilTub, ...]] = {
        "bed": site.beds,
        "pile": site.piles,
        "worm-bin": site.worm_bins,
        "soil-tub": site.soil_tubs,
    }
    for kind, rows in parts.items():
        for each in rows:
            receipts = held[each.id].since(on - timedelta(days=RECENT_D)) if each.id in held else ()
            yield _stand(each.id, site.name_of(each.id), kind, receipts, on=on, speech=speech,
                         area_m2=getattr(each, "area_m2", None), ground=planned.get(each.id),
                         is_shut=is_frozen and kind == "bed")  # fmt: skip
    for taker in site.takers:
        receipts = held[taker.id].since(on - timedelta(days=RECENT_D)) if taker.id in held else ()
        yield _stand(taker.id, site.name_of(taker.id), "taker", receipts, on=on, speech=speech, area_m2=None,
                     ground=None, is_shut=False)  # fmt: skip


def _stand(
    id_: str, name: str, kind: str, receipts: Sequence[Receipt], *, on: date, speech: Speech,
    area_m2: float | None, ground: Ground | None, is_shut: bool,
) -> PlaceStand:  # fmt: skip
    last = max(receipts, key=lambda each: each.usable_on, default=None)
    left = max((last.usable_on - on).days, 0) if last else 0
    gone = (on - last.on).days if last and left else 0
    crops = tuple(_crop(*each, on=on) for each in (ground.plantings if ground else ()))
    state, says = _state(kind, left, is_shut=is_shut, usable=last.usable_on if last else None)
    got = tuple(f"{when(each.on)}: {speech.kg(each.mass_kg)} from {each.batch}" for each in reversed(receipts))
    return PlaceStand(id_, name, KINDS[kind], state, says, area_m2, gone, left, crops, got)


def _state(kind: str, left: int, *, is_shut: bool, usable: date | None) -> tuple[str, str]:
    if is_shut:
        return "frozen", "frozen: nothing can be dug in"
    if left and usable is not None:
        what = {"bed": "planted", "pile": "turned", "worm-bin": "fed", "soil-tub": "used"}.get(kind, "given more")
        return "resting", f"resting: {days(left)} left, may be {what} from {when(usable)}"
    return "free", "free" if kind == "bed" else "takes more"


def _crop(crop: str, on_day: date, warning: str, *, on: date) -> str:
    tense = "planted" if on_day <= on else "to plant on"
    return f"{crop}, {tense} {when(on_day)}{f': {warning}' if warning else ''}"


def _heading(places: Sequence[PlaceStand]) -> str:
    beds = [each for each in places if each.kind == "bed"]
    if not places:
        return "There is no ground yet"
    if not beds:
        return f"{len(places)} place{'' if len(places) == 1 else 's'}, and no bed"
    resting = [each for each in beds if each.state == "resting"]
    if any(each.state == "frozen" for each in beds):
        return "The beds are frozen"
    if not resting:
        return "All beds are free" if len(beds) > 1 else "The bed is free"
    first = min(resting, key=lambda each: each.left_d)
    return f"{first.name[:1].upper()}{first.name[1:]} rests {days(first.left_d)} more"
