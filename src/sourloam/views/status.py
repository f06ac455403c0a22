"""How everything stands by the record: the shelf, what is in the cupboard, and what each place was given."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Final

from sourloam.base.days import YEAR_D
from sourloam.logbook.entries import Worked
from sourloam.logbook.state import State
from sourloam.plan.words import Speech, days, when
from sourloam.science.places.offer import PlaceState
from sourloam.site.situation import VesselState

STATUS: Final = "sourloam.status/1"


@dataclass(frozen=True)
class Shelved:
    """One vessel as it stands."""

    vessel: str
    name: str
    phase: str  # empty, filling, fermenting, ready; failed, damaged
    says: str
    mass_kg: float
    batch: str


@dataclass(frozen=True)
class Grounded:
    """What a place was given."""

    place: str
    name: str
    says: str
    mass_kg: float  # in the last year
    nitrogen_g: float  # in the last year
    usable_on: date | None


@dataclass(frozen=True)
class StatusView:
    """How everything stands."""

    site: str
    site_id: str
    on: date
    last_on: date | None
    shelf: tuple[Shelved, ...]
    stocks: tuple[tuple[str, str], ...]
    ground: tuple[Grounded, ...]
    batches: tuple[int, int]  # seen to their end, of which failed


def status_view(state: State, on: date) -> StatusView:
    """Return how everything stands on a day."""
    site, situation = state.must()
    speech = Speech(site.keeper.units)
    past = state.past
    return StatusView(
        site.facts.name or site.facts.id,
        site.facts.id,
        on,
        state.last.on if state.last else None,
        tuple(_shelved(state, each, on, speech) for each in situation.vessels),
        stocks_of(state, speech),
        tuple(_grounded(state, each, on, speech) for each in situation.places),
        (past.batches, past.failed),
    )


def stocks_of(state: State, speech: Speech) -> tuple[tuple[str, str], ...]:
    """Return what is in the cupboard, in words."""
    _, situation = state.must()
    rest = ((thing.replace("-", " "), f"{amount:.3g}") for thing, amount in sorted(state.stocks.items()) if amount)
    return ("bran", speech.kg(situation.bran_kg)), ("serum", speech.litres(situation.serum_l)), *rest


def status_object(view: StatusView) -> dict[str, Any]:
    """Return how everything stands as a plain object."""
    return {
        "schema": STATUS,
        "site": view.site_id,
        "on": view.on.isoformat(),
        "last_on": view.last_on.isoformat() if view.last_on else None,
        "shelf": [
            {"id": each.vessel, "phase": each.phase, "batch": each.batch, "mass_kg": each.mass_kg, "says": each.says}
            for each in view.shelf
        ],
        "stocks": dict(view.stocks),
        "ground": [
            {
                "id": each.place,
                "mass_kg": each.mass_kg,
                "nitrogen_g": each.nitrogen_g,
                "usable_on": each.usable_on.isoformat() if each.usable_on else None,
                "says": each.says,
            }
            for each in view.ground
        ],
        "batches": {"ended": view.batches[0], "failed": view.batches[1]},
    }


def _shelved(state: State, vessel: VesselState, on: date, speech: Speech) -> Shelved:
    name = state.must()[0].name_of(vessel.vessel)
    if vessel.phase == "empty":
        is_damaged = vessel.vessel in state.damaged
        phase, says = ("damaged", "damaged, not used") if is_damaged else ("empty", "empty")
        return Shelved(vessel.vessel, name, phase, says, 0.0, "")
    record = state.batch(vessel)
    phase = "failed" if record.failed else vessel.phase
    says = ", ".join([f"{speech.kg(vessel.mass_kg)}", *_told(state, vessel, on, speech)])
    return Shelved(vessel.vessel, name, phase, says, vessel.mass_kg, record.id)


def _told(state: State, vessel: VesselState, on: date, speech: Speech) -> Iterator[str]:
    record = state.batch(vessel)
    if record.failed:
        yield f"failed: {record.failed}"
    elif vessel.phase == "filling":
        yield f"being filled since {when(vessel.first_layer_on)}"
    elif vessel.sealed_on:
        ready = ", found ready" if vessel.phase == "ready" else ""
        yield f"sealed for {days((on - vessel.sealed_on).days)}{ready}"
    if record.drawn_l:
        yield f"{speech.litres(record.drawn_l)} drawn off"
    if record.readings:
        yield f"last looked at {when(record.readings[-1].on)}"


def _grounded(state: State, place: PlaceState, on: date, speech: Speech) -> Grounded:
    name = state.must()[0].name_of(place.place)
    year = place.since(on - timedelta(days=YEAR_D))
    given = [each for each in year if each.batch and each.on <= on]
    mass = sum(each.mass_kg for each in given)
    nitrogen = sum(each.nitrogen_g for each in given)
    usable = max((each.usable_on for each in given), default=None)
    told = [f"{speech.kg(mass)} in the last year, the last on {when(given[-1].on)}"] if given else ["nothing yet"]
    if usable is not None and usable > on:
        told.append(f"rests until {when(usable)}")
    worked = next((each for each in reversed(state.works) if getattr(each.value, "place", "") == place.place), None)
    if worked is not None and isinstance(worked.value, Worked):
        told.append(f"{worked.value.act} {when(worked.on)}")
    return Grounded(place.place, name, "; ".join(told), mass, nitrogen, usable)
