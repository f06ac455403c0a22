"""Every printed point beside what the model and the rule say of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.living import Living
from validation.baseline import ThermalRule, baseline_interval
from validation.predict import LEVEL, Predicted, predict
from validation.score import Interval, covered, miss, score_of
from validation.studies import Contrast, Observed, Run, Study, last_day

Told = Callable[[str], None]


@dataclass(frozen=True)
class Point:
    """One printed point, and what was said of it."""

    study: str
    run: str
    seen: Observed
    said: Interval
    by_rule: Interval | None = None  # of a pH

    @property
    def score(self) -> float:
        """Return the score of the model."""
        return score_of(self.said, self.seen)

    @property
    def covered(self) -> float:
        """Return whether the interval of the model holds it."""
        return covered(self.said, self.seen)

    @property
    def miss(self) -> float:
        """Return by how much the middle of the model is above it."""
        return miss(self.said, self.seen)


def predict_all(
    studies: tuple[Study, ...], contrasts: tuple[Contrast, ...], living: Living, *, told: Told = lambda _: None
) -> dict[str, Predicted]:
    """Return what the model says of every run, by `study/run`."""
    found = {}
    for study in studies:
        told(study.id)
        for run in study.runs:
            name = f"{study.id}/{run.id}"
            found[name] = predict(name, run, last_day(study, run, contrasts), living)
    return found


def points_of(
    studies: tuple[Study, ...], predicted: Mapping[str, Predicted], known: ThermalRule, *, spread: float
) -> list[Point]:
    """Return all points of some studies."""
    return [
        point_of(study, run, seen, predicted[f"{study.id}/{run.id}"], rule=(known, spread))
        for study in studies
        for run in study.runs
        for seen in run.observed
    ]


def point_of(study: Study, run: Run, seen: Observed, predicted: Predicted, *, rule: tuple[ThermalRule, float]) -> Point:
    """Return one point with its interval by the model and, of a pH, by the rule."""
    said = interval_of(predicted.read(seen))
    by_rule = baseline_interval(run, seen, *rule) if seen.quantity == "ph" else None
    return Point(study.id, run.id, seen, said, by_rule)


def interval_of(members: FloatArray) -> Interval:
    """Return the interval of 90 % of some members."""
    return Interval(*(float(each) for each in np.quantile(members, tuple(LEVEL.values()))))
