"""Rules of time and temperature, held by the letter to what was read off a thermometer.

A rule is met by readings alone, taken in every zone that it asks for. A forecast
can only say how likely that is.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Final

ZONES: Final = ("core", "edge", "base")  # a rule for a pile means all of it
LEAST_HELD_H: Final = 1.0 / 3.0  # 20 minutes, of the rule by formula; cfr503_32
RATIO: Final = (25.0, 40.0)  # C:N at the start of a pile, 7 CFR 205.203(c)(2)(i); usnop_205_203
YES_FRAC, NO_FRAC = 0.8, 0.2  # of the cases that were tried; judgement
SLACK_H: Final = 1e-6


@dataclass(frozen=True)
class Rule:
    """One rule; hours and °C."""

    id: str
    jurisdiction: str
    instrument: str
    system: str
    least_c: float
    hours: float  # 0 where a formula gives them
    most_c: float | None = None
    within_c: float | None = None  # above this ...
    within_hours: float = 0.0  # ... for so long, in the same run
    turnings: int = 0
    turning_interval_d: float = 0.0
    coefficient_d: float | None = None  # days = coefficient / 10^(exponent × T)
    exponent_per_c: float = 0.0
    asks_ratio: bool = False  # C:N within RATIO
    besides: str = ""  # what no thermometer shows

    @property
    def is_for_piles(self) -> bool:
        """Whether it is written for a pile that is turned, or for anything that heats."""
        return "windrow" in self.system or "any" in self.system

    def hours_at(self, temperature_c: float) -> float:
        """Return for how long that temperature has to last."""
        if self.coefficient_d is None:
            return self.hours
        return float(max(24.0 * self.coefficient_d / 10.0 ** (self.exponent_per_c * temperature_c), LEAST_HELD_H))


@dataclass(frozen=True)
class Logged:
    """One reading of a thermometer, so many hours after the pile was built."""

    hour: float
    zone: str
    temperature_c: float


@dataclass(frozen=True)
class Verdict:
    """Whether readings meet a rule, and what is wanting."""

    rule: Rule
    is_met: bool
    lacks: str
    held_hours: float = 0.0
    too_hot: bool = False


Span = tuple[float, float]


def judged(
    rule: Rule,
    readings: Sequence[Logged],
    turned_h: Sequence[float] = (),
    *,
    every_h: float = 24.0,
    ratio: float | None = None,
    is_continuous: bool = True,
    is_confirmed: bool = False,
) -> Verdict:
    """Return whether a rule is met.

    Readings further apart than `every_h` break a run. A reading above the most
    that a rule allows is no pass. `is_continuous` is off for who reads a rule as
    counting its days one by one. What no thermometer shows has to be confirmed.
    """
    hot = rule.most_c is not None and any(each.temperature_c > rule.most_c for each in readings)
    missing = [zone for zone in ZONES if not any(each.zone == zone for each in readings)]
    if missing:
        return Verdict(rule, False, f"no reading of the {' or the '.join(missing)}", too_hot=hot)
    best = 0.0
    for least in _levels(rule, readings):
        spans = _shared_spans(rule, readings, least, every_h)
        groups = [[each] for each in spans] if is_continuous else [spans]
        for group in groups:
            held = sum(end - start for start, end in group)
            best = max(best, held)
            lacks = _wanting(rule, group, held, least, readings=readings, turned_h=turned_h, every_h=every_h)
            if not lacks:
                return _besides(rule, held, ratio=ratio, hot=hot, is_confirmed=is_confirmed)
    return Verdict(rule, False, _short(rule, best, turned_h), best, hot)


def _besides(rule: Rule, held: float, *, ratio: float | None, hot: bool, is_confirmed: bool) -> Verdict:
    """Return the verdict once time and temperature are kept."""
    if rule.asks_ratio and (ratio is None or not RATIO[0] <= ratio <= RATIO[1]):
        told = "is not known" if ratio is None else f"was {ratio:.0f}"
        return Verdict(rule, False, f"C:N at the start {told}; {RATIO[0]:.0f} to {RATIO[1]:.0f} is asked", held, hot)
    if rule.besides and not is_confirmed:
        return Verdict(rule, False, f"time and warmth are kept; besides: {rule.besides}", held, hot)
    return Verdict(rule, True, "", held, hot)


def _levels(rule: Rule, readings: Sequence[Logged]) -> list[float]:
    """Return the temperatures that might be held: that of the rule; by a formula each that was read."""
    if rule.coefficient_d is None:
        return [rule.least_c]
    return sorted({each.temperature_c for each in readings if each.temperature_c >= rule.least_c})


def _spans(readings: Sequence[Logged], zone: str, low: float, *, high: float | None, every_h: float) -> list[Span]:
    """Return the runs of readings of a zone that lie within two temperatures, by their first and last hour."""
    mine = sorted((each for each in readings if each.zone == zone), key=lambda each: each.hour)
    spans: list[Span] = []
    before: float | None = None
    for each in mine:
        if each.temperature_c < low or (high is not None and each.temperature_c > high):
            before = None
            continue
        if before is not None and each.hour - before <= every_h + SLACK_H:
            spans[-1] = (spans[-1][0], each.hour)
        else:
            spans.append((each.hour, each.hour))
        before = each.hour
    return spans


def _shared_spans(rule: Rule, readings: Sequence[Logged], least: float, every_h: float) -> list[Span]:
    """Return when all zones held a temperature at once."""
    shared: list[Span] | None = None
    for zone in ZONES:
        mine = _spans(readings, zone, least, high=rule.most_c, every_h=every_h)
        shared = mine if shared is None else _overlaps(shared, mine)
    return shared or []


def _overlaps(one: Sequence[Span], other: Sequence[Span]) -> list[Span]:
    pairs = ((max(a, c), min(b, d)) for a, b in one for c, d in other)
    return [(start, end) for start, end in pairs if start <= end]


def _wanting(
    rule: Rule,
    group: Sequence[Span],
    held: float,
    least: float,
    *,
    readings: Sequence[Logged],
    turned_h: Sequence[float],
    every_h: float,
) -> str:
    """Return what a run lacks; nothing where it keeps the rule."""
    if not group or held < rule.hours_at(least) - SLACK_H:
        return "too short"
    if rule.within_c is not None:
        hotter = [_spans(readings, zone, rule.within_c, high=None, every_h=every_h) for zone in ZONES]
        both = reduce(_overlaps, hotter, list(group))
        if sum(end - start for start, end in both) < rule.within_hours - SLACK_H:
            return "not hot enough within it"
    return "" if _turnings(rule, group, turned_h) >= rule.turnings else "too few turnings"


def _turnings(rule: Rule, group: Sequence[Span], turned_h: Sequence[float]) -> int:
    """Return the turnings that count: within the run, and as far apart as the rule asks."""
    inside = sorted(each for each in turned_h if any(start <= each <= end for start, end in group))
    counted: list[float] = []
    for each in inside:
        if not counted or each - counted[-1] >= 24.0 * rule.turning_interval_d - SLACK_H:
            counted.append(each)
    return len(counted)


def _short(rule: Rule, held: float, turned_h: Sequence[float]) -> str:
    """Say what is wanting of a rule that was not kept."""
    wanted = rule.hours_at(rule.least_c)
    if held >= wanted - SLACK_H and rule.turnings:
        return f"{len(turned_h)} turnings in all, and {rule.turnings} are asked within the run"
    if held >= wanted - SLACK_H:
        return f"{rule.within_hours:.0f} h above {rule.within_c:.0f} °C within it" if rule.within_c else "not at once"
    return f"{_time(held)} of {_time(wanted)} at {rule.least_c:.0f} °C in every zone"


def _time(hours: float) -> str:
    return f"{hours / 24.0:.1f} days".replace(".0 days", " days") if hours >= 48.0 else f"{hours:.0f} h"


def likely(share: float) -> str:
    """Return in a word how likely a rule is kept, from the share of cases in which the forecast keeps it."""
    return "yes" if share >= YES_FRAC else "no" if share <= NO_FRAC else "unsure"
