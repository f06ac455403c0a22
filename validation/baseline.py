"""The rule that the model must beat: pH falls in a straight line to 4.2 by thermal time, and stays there."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.science.ferment.clock import clock_rate
from validation.score import Interval, mean_by_study, score_of
from validation.studies import Observed, Run, Study, ends

START_PH: Final = 6.0  # where none is printed; judgement
SOURED_PH: Final = 4.2
SPREADS: Final = np.arange(0.05, 3.0, 0.01)


@dataclass(frozen=True)
class ThermalRule:
    """Filled from `parameters/thermal_rule.toml`: the time by custom, and its pace by temperature."""

    ready_at_20c_d: Figure
    least_c: Figure
    best_c: Figure
    most_c: Figure
    without_bran_times: Figure
    soured_share: Figure  # of the time to ready


def soured_day(run: Run, known: ThermalRule) -> float:
    """Return the day on which a run has soured by thermal time; endless where nothing happens."""
    limits = {"least_c": known.least_c.value, "best_c": known.best_c.value, "most_c": known.most_c.value}
    pace = float(np.asarray(clock_rate(0.5 * sum(ends(run.temperature_c)), **limits)))
    has_culture = run.culture_log10 is not None or "bran_pct" in run.added
    need = known.ready_at_20c_d.value * known.soured_share.value
    need *= 1.0 if has_culture else known.without_bran_times.value
    return need / pace if pace > 0.0 else np.inf


def baseline_ph(run: Run, day: float, known: ThermalRule) -> float:
    """Return the pH of a run on a day by the rule."""
    start = 0.5 * sum(ends(run.measured.get("start_ph", START_PH)))
    return float(start + (SOURED_PH - start) * min(day / soured_day(run, known), 1.0))


def baseline_interval(run: Run, seen: Observed, known: ThermalRule, spread: float) -> Interval:
    """Return the interval of a point of pH by the rule."""
    middle = baseline_ph(run, seen.day, known)
    return Interval(middle - spread, middle, middle + spread)


def best_spread(studies: tuple[Study, ...], known: ThermalRule) -> float:
    """Return the half width for which the rule scores best on some studies."""
    points = [(s.id, r, o) for s in studies for r in s.runs for o in r.observed if o.quantity == "ph"]
    names = [name for name, _, _ in points]
    scores = [
        mean_by_study(np.array([score_of(baseline_interval(r, o, known, w), o) for _, r, o in points]), names)
        for w in SPREADS
    ]
    return float(SPREADS[int(np.argmin(scores))])
