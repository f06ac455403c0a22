"""What is kept of the forecast of a batch, and how old that is."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Final

from sourloam.plan.words import days
from sourloam.views.watch import WatchView
from sourloam.views.watch_json import watch_object

KEPT: Final = "sourloam.forecast/1"
DATES: Final = ("soured", "ready", "due")
PARTS: Final = ("low", "middle", "high")
HOUR_S: Final = 3600


@dataclass(frozen=True)
class Between:
    """A date with its interval; nothing where it does not come in the days that are followed."""

    middle: date | None = None
    low: date | None = None
    high: date | None = None


@dataclass(frozen=True)
class KeptForecast:
    """The last forecast of a batch."""

    batch: str
    made: datetime  # UTC
    is_current: bool  # whether it was made from all that is written down now, by this release
    says: str
    is_sound: bool
    goes_wrong: str  # in how many cases: "3 of 20"
    soured: Between
    ready: Between
    due: Between
    whole: Mapping[str, Any]  # all of it, as `watch --json` gives it
    before: Between | None = None  # when the forecast before this one had it ready
    layers: tuple[tuple[float, float], ...] = ()  # day from the first layer, and how sour it is now, the oldest first


def kept_object(view: WatchView) -> dict[str, Any]:
    """Return what is kept of a forecast."""
    forecast = view.forecast
    return {
        "schema": KEPT,
        "says": view.says,
        "sound": view.is_sound,
        "goes_wrong": forecast.goes_wrong,
        "dates": {name: _between(view, f"{name}_day") for name in DATES},
        "layers": [{"day": each.day, "ph": each.ph} for each in forecast.vessels[-1].layers],
        "whole": watch_object(view),
    }


def kept_of(batch: str, made: datetime, held: Mapping[str, Any], *, is_current: bool) -> KeptForecast:
    """Return a forecast from what was kept of it."""
    soured, ready, due = (_between_of(held["dates"][name]) for name in DATES)
    return KeptForecast(
        batch, made, is_current, held["says"], held["sound"], held["goes_wrong"], soured, ready, due, held["whole"],
        _between_of(held["before"]["dates"]["ready"]) if "before" in held else None,
        tuple((each["day"], each["ph"]) for each in held["layers"]),
    )  # fmt: skip


def _between_of(held: Sequence[str | None]) -> Between:
    return Between(*(None if each is None else date.fromisoformat(each) for each in held))


def forecast_object(kept: KeptForecast, now: datetime) -> dict[str, Any]:
    """Return a kept forecast as a plain object."""
    dates = {name: getattr(kept, name) for name in DATES}
    return {
        "batch": kept.batch,
        "made": kept.made.isoformat(),
        "age_s": round((now - kept.made).total_seconds()),
        "current": kept.is_current,
        "says": kept.says,
        "sound": kept.is_sound,
        "goes_wrong": kept.goes_wrong,
        "dates": {name: {part: _iso(getattr(each, part)) for part in PARTS} for name, each in dates.items()},
    }


def aged(made: datetime, now: datetime) -> str:
    """Say how old something is."""
    past = max(now - made, timedelta())
    if past >= timedelta(days=1):
        return f"{days(past / timedelta(days=1))} old"
    hours = round(past.total_seconds() / HOUR_S)
    if hours:
        return f"{hours} hour{'' if hours == 1 else 's'} old"
    return "just made"


def _between(view: WatchView, name: str) -> list[str | None]:
    number = view.forecast.number(name)
    if number is None:
        return [None, None, None]
    return [_iso(_on(view, each)) for each in (number.value, number.low, number.high)]


def _on(view: WatchView, day: float | None) -> date | None:
    return None if day is None else view.batch.on(day)


def _iso(on: date | None) -> str | None:
    return on.isoformat() if on else None
