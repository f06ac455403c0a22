"""The logbook and today as plain objects for JSON."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any, Final

from sourloam.views.forecast import KeptForecast, forecast_object
from sourloam.views.logbook import LineView, RecordView
from sourloam.views.today import Job, TodayView

ENTRY: Final = "sourloam.entry/1"
HISTORY: Final = "sourloam.history/1"
TODAY: Final = "sourloam.today/1"
FORECASTS: Final = "sourloam.forecasts/1"
VERIFY: Final = "sourloam.verify/1"


def record_object(view: RecordView) -> dict[str, Any]:
    """Return an entry that was written, and what follows from it."""
    return {
        "schema": ENTRY,
        "new": view.is_new,
        "kept": view.is_kept,
        "now": view.now,
        "clashes": list(view.clashes),
        "entry": _line(view.line),
    }


def history_object(lines: Iterable[LineView]) -> dict[str, Any]:
    """Return lines of the logbook."""
    return {"schema": HISTORY, "entries": [_line(each) for each in lines]}


def verify_object(lines: int, faults: Iterable[str]) -> dict[str, Any]:
    """Return what a check of the chain found."""
    return {"schema": VERIFY, "lines": lines, "faults": list(faults)}


def today_object(view: TodayView) -> dict[str, Any]:
    """Return today."""
    return {
        "schema": TODAY,
        "site": view.site_id,
        "on": view.on.isoformat(),
        "last_on": view.last_on.isoformat() if view.last_on else None,
        "now": [_job(each) for each in view.now],
        "next": [_job(each) for each in view.next],
        "vessels": [{"id": each.vessel, "phase": each.phase, "says": each.says} for each in view.vessels],
        "forecasts": [
            {"batch": each.batch, "says": each.says, "age": each.age, "current": each.is_current}
            for each in view.forecasts
        ],
        "stocks": dict(view.stocks),
        "clashes": list(view.clashes),
    }


def _job(job: Job) -> dict[str, Any]:
    return {
        "id": job.id,
        "date": job.on.isoformat(),
        "what": job.what,
        "because": job.because,
        "overdue": job.is_overdue,
    }


def _line(line: LineView) -> dict[str, Any]:
    return {**line.plain, "says": line.says, "withdrawn": line.is_gone, "clash": line.clash}


def forecasts_object(
    kept: Iterable[KeptForecast], new: tuple[str, ...], failed: tuple[tuple[str, str], ...], now: datetime
) -> dict[str, Any]:
    """Return the kept forecasts."""
    return {
        "schema": FORECASTS,
        "forecasts": [forecast_object(each, now) for each in kept],
        "new": list(new),
        "failed": [{"batch": batch, "why": why} for batch, why in failed],
    }
