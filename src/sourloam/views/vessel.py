"""What a page shows of the last forecast of the batch in a vessel: dates, course, risks, what to do, how old it is."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from sourloam.plan.words import days, when
from sourloam.views.forecast import Between, KeptForecast, aged

Course = tuple[float | None, ...]


@dataclass(frozen=True)
class Fan:
    """The pH of the least sour layer over the days, as it was kept, with what was read."""

    first: date
    median: Course
    low: Course
    high: Course
    read: tuple[tuple[float, float], ...]  # day and pH of each strip
    ready: Between
    today_d: int


@dataclass(frozen=True)
class ForecastView:
    """A kept forecast of one batch."""

    says: str
    dates: tuple[tuple[str, str, str], ...]  # words, the day, its interval
    age: str  # empty where it is from today
    is_current: bool
    changed: str
    wrong: tuple[tuple[str, str, str], ...]  # how, how often, why
    do: tuple[str, ...]
    look_next: str
    worry_if: tuple[str, ...]
    cautions: tuple[str, ...]
    assumptions: tuple[str, ...]
    fan: Fan


def forecast_view(kept: KeptForecast, first: date, on: date, now: datetime) -> ForecastView:
    """Return what is shown of a kept forecast on a day."""
    whole = kept.whole
    dates = (("Sour", kept.soured), ("Ready", kept.ready), ("Due", kept.due))
    return ForecastView(
        kept.says.split(f"{kept.batch}, ", 1)[-1],  # the page names the vessel already
        tuple(_dated(words, each) for words, each in dates),
        aged(kept.made, now) if now - kept.made > timedelta(hours=1) else "",
        kept.is_current,
        _changed(kept),
        tuple((each["kind"], each["often"], each["because"]) for each in whole["failing"]),
        tuple(f"{each['do']}, {each['because']}" if each["because"] else each["do"] for each in whole["do"]),
        whole["look_next"],
        tuple(whole["worry_if"]),
        tuple(whole["cautions"]),
        tuple(whole["assumptions"]),
        _fan(whole, kept.ready, first, on),
    )


def _dated(words: str, each: Between) -> tuple[str, str, str]:
    if each.middle is None:
        return words, "not in the days that were followed", ""
    between = f"{when(each.low)} to {when(each.high)}" if each.low and each.high and each.low != each.high else ""
    return words, when(each.middle), between


def _changed(kept: KeptForecast) -> str:
    """Say how the forecast moved since the one before, and nothing where it did not."""
    now, before = kept.ready.middle, kept.before.middle if kept.before else None
    if now is None or before is None or now == before:
        return ""
    moved = abs((now - before).days)
    return f"{'Later' if now > before else 'Sooner'} by {days(moved)} than it was said before: {when(before)}."


def _fan(whole: Mapping[str, Any], ready: Between, first: date, on: date) -> Fan:
    course: Mapping[str, Sequence[float | None]] = whole["course"]["ph"]
    read = tuple((float(each["day"]), float(each["ph"])) for each in whole["readings"] if each["ph"] is not None)
    return Fan(
        first, tuple(course["median"]), tuple(course["low"]), tuple(course["high"]), read, ready, (on - first).days
    )
