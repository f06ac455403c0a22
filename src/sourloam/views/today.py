"""What today shows: what to do now and next, how everything stands, and what does not fit in the record."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from types import MappingProxyType
from typing import Final

from sourloam.logbook.state import State
from sourloam.plan.answer import Batch, Task
from sourloam.plan.words import Speech, days, when
from sourloam.site.site import Site
from sourloam.site.situation import VesselState
from sourloam.views.forecast import Between, KeptForecast, aged
from sourloam.views.logbook import clash_words
from sourloam.views.status import stocks_of

NEXT_D: Final = 7
AGAIN: Final = ("draw", "hold", "buy", "rice", "milk", "strain", "mix", "dry", "bag")  # kinds of task that come again
NONE: Final[Mapping[str, KeptForecast]] = MappingProxyType({})


@dataclass(frozen=True)
class Job:
    """Something to do."""

    id: str
    on: date
    what: str
    because: str
    is_overdue: bool = False


@dataclass(frozen=True)
class Stand:
    """How one vessel stands."""

    vessel: str
    name: str
    phase: str
    says: str


@dataclass(frozen=True)
class Forecasting:
    """The last forecast of a batch, as it is shown."""

    batch: str
    name: str
    says: str
    age: str
    is_current: bool
    kept: KeptForecast


@dataclass(frozen=True)
class TodayView:
    """Today, as the record has it."""

    site: str
    site_id: str
    on: date
    last_on: date | None  # the day of the last entry
    now: tuple[Job, ...]
    next: tuple[Job, ...]
    vessels: tuple[Stand, ...]
    forecasts: tuple[Forecasting, ...]
    stocks: tuple[tuple[str, str], ...]
    clashes: tuple[str, ...]


def today_view(
    state: State,
    tasks: tuple[Task, ...],
    planned: tuple[Batch, ...],
    on: date,
    *,
    forecasts: Mapping[str, KeptForecast] = NONE,
    failed: str = "",
    now: datetime | None = None,
) -> TodayView:
    """Return what is shown today; forecasts with their age at `now`, and with `failed` what is done with a bad one."""
    site, situation = state.must()
    speech = Speech(site.keeper.units)
    ready = {each.id: each for each in planned}
    jobs = [*_failed(state, on, failed), *_open(state, tasks, ready, on)]
    until = on + timedelta(days=NEXT_D)
    return TodayView(
        site.facts.name or site.facts.id,
        site.facts.id,
        on,
        state.last.on if state.last else None,
        now=tuple(each for each in jobs if each.on <= on),
        next=tuple(each for each in jobs if on < each.on <= until),
        vessels=tuple(
            _stand(state, each, _when(forecasts.get(each.batch), ready.get(each.batch), on), on)
            for each in situation.vessels
        ),
        forecasts=tuple(_forecast(each, site, now) for each in forecasts.values()),
        stocks=stocks_of(state, speech),
        clashes=tuple(clash_words(each, site) for each in state.clashes),
    )


def _forecast(kept: KeptForecast, site: Site, now: datetime | None) -> Forecasting:
    age = aged(kept.made, now or kept.made)
    name = site.name_of(kept.batch.partition("/")[0])
    head = f"{name}, {kept.batch}, "
    says = kept.says.removeprefix(head)
    return Forecasting(kept.batch, name, says, age, kept.is_current, kept)


def _failed(state: State, on: date, advice: str) -> Iterator[Job]:
    """A batch that spoiled is taken out first: the vessel is wanted, and it is no longer food for a bed."""
    site, situation = state.must()
    for vessel in situation.vessels:
        record = state.batches.get(vessel.batch)
        if vessel.phase != "empty" and record and record.failed:
            what = f"Empty {site.name_of(vessel.vessel)}: it failed ({record.failed})"
            since = record.failed_on or on
            yield Job(f"empty:{record.id}", on, what, advice, is_overdue=since < on)


def _open(state: State, tasks: tuple[Task, ...], ready: Mapping[str, Batch], on: date) -> Iterator[Job]:
    """Give the tasks that nobody has done, put off or struck out; what is so already is none."""
    used = [each for each in state.must()[1].vessels if each.phase != "empty"]
    begun = {f"fill:{each.batch}" for each in used} | {f"seal:{each.batch}" for each in used if each.phase != "filling"}
    for task in tasks:
        if task.id in begun:
            continue
        said = state.tasks.get(task.id)
        value = said.value if said else None
        act, until = getattr(value, "act", ""), getattr(value, "until", None)
        if said and _is_off(task, act, said.on):
            continue
        day = max(task.date, until) if act == "put-off" and until else task.date
        yield Job(task.id, day, task.what, task.because, is_overdue=_is_late(task, ready, on))


def _is_off(task: Task, act: str, said_on: date) -> bool:
    """Whether a task is off the list by what was said of it; one that comes again under its id is not off for ever."""
    if task.id.partition(":")[0] in AGAIN:
        until = said_on + timedelta(days=NEXT_D) if act == "not-needed" else said_on
        return act in ("done", "not-needed") and task.date <= until
    return act in ("done", "not-needed")


def _is_late(task: Task, ready: Mapping[str, Batch], on: date) -> bool:
    """Whether a batch has been ready for more than a week and still lies in its vessel."""
    batch = ready.get(task.subject)
    if not task.id.startswith("place:") or batch is None or batch.ready_high is None or task.date > on:
        return False
    return batch.ready_high + timedelta(days=NEXT_D) < on


def _stand(state: State, vessel: VesselState, ripe: str, on: date) -> Stand:
    site, _ = state.must()
    name, speech = site.name_of(vessel.vessel), Speech(site.keeper.units)
    if vessel.vessel in state.damaged and vessel.phase == "empty":
        return Stand(vessel.vessel, name, "damaged", "damaged, not used")
    if vessel.phase == "empty":
        return Stand(vessel.vessel, name, "empty", "empty")
    record = state.batch(vessel)
    held = speech.kg(vessel.mass_kg)
    if record.failed:
        return Stand(vessel.vessel, name, "failed", f"failed ({record.failed}), {held}")
    if vessel.phase == "filling":
        since = when(vessel.first_layer_on)
        return Stand(vessel.vessel, name, "filling", f"being filled since {since}: {held}")
    stood = days((on - vessel.sealed_on).days) if vessel.sealed_on else "some time"
    return Stand(vessel.vessel, name, vessel.phase, f"sealed for {stood}, {held}; {ripe}")


def _when(kept: KeptForecast | None, batch: Batch | None, on: date) -> str:
    """Say when a batch is due by its own forecast, where that holds, or else ready by the plan."""
    due = kept.due if kept and kept.is_current else Between()
    if due.middle is None:
        return _ready(batch, on)
    if due.middle <= on:
        return "due now, if it smells sour"
    if due.low is None or due.high is None or due.low == due.high:
        return f"due about {when(due.middle)}"
    return f"due about {when(due.middle)} ({when(due.low)} to {when(due.high)})"


def _ready(batch: Batch | None, on: date) -> str:
    if batch is None or batch.ready is None:
        return "not ready in the time that is looked ahead"
    if batch.ready <= on:
        return "ready, if it smells sour"
    if batch.ready_low is None or batch.ready_high is None or batch.ready_low == batch.ready_high:
        return f"ready about {when(batch.ready)}"
    return f"ready about {when(batch.ready)} ({when(batch.ready_low)} to {when(batch.ready_high)})"
