"""The validation in numbers: how much was covered, how well, and against what."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

import numpy as np

from validation.contrasts import difference, is_right
from validation.points import Point
from validation.predict import Predicted
from validation.score import binomial, mean_by_study, miss, resampled, score_of
from validation.studies import Contrast, Study

NEAR_PH: Final = 0.3
HALF_OF_ALL: Final = "alfalfa_sucrose"  # holds half of the points that are held out


def contrast_rows(pairs: Sequence[Contrast], predicted: Mapping[str, Predicted]) -> list[dict[str, Any]]:
    """Return each pair with what the model says."""
    found = [(each, difference(each, predicted)) for each in pairs]
    return [
        {
            **{name: getattr(each, name) for name in ("id", "study", "run_a", "run_b", "quantity", "day", "a_is")},
            "difference": apart,
            "right": is_right(each, apart),
        }
        for each, apart in found
    ]


def numbers(points: Sequence[Point]) -> dict[str, Any]:
    """Return what is said of a set of points."""
    studies = [each.study for each in points]
    covers = np.array([each.covered for each in points])
    share = float(covers.mean()) if points else np.nan
    low, high = resampled(covers, studies)
    by_chance = binomial(share, len(points))
    ph = [each for each in points if each.by_rule is not None]
    exact = [each for each in points if not each.seen.bound]
    return {
        "points": len(points),
        "ph_points": len(ph),
        "within_0_3_ph_share": _near(ph, by_rule=False),
        "within_0_3_ph_share_baseline": _near(ph, by_rule=True),
        "coverage_90": share,
        "coverage_low": low,
        "coverage_high": high,
        "coverage_binomial_low": by_chance[0],
        "coverage_binomial_high": by_chance[1],
        "coverage_by_study": mean_by_study(covers, studies),
        "coverage_two_sided": _mean([each.covered for each in exact]),
        "score": _by_study(ph, [each.score for each in ph]),
        "score_baseline": _by_study(ph, [score_of(each.by_rule, each.seen) for each in ph if each.by_rule]),
        "score_all": _by_study(points, [each.score for each in points]),
    }


def _near(ph: Sequence[Point], *, by_rule: bool) -> float:
    said = [each.by_rule if by_rule else each.said for each in ph]
    return _mean([abs(miss(mine, each.seen)) <= NEAR_PH for mine, each in zip(said, ph, strict=True) if mine])


def _mean(values: Sequence[float]) -> float:
    return float(np.mean(values)) if values else np.nan


def _by_study(points: Sequence[Point], values: Sequence[float]) -> float:
    return mean_by_study(np.array(values), [each.study for each in points])


def study_rows(studies: Sequence[Study], points: Sequence[Point]) -> list[dict[str, Any]]:
    """Return a line for each study that has points, the worst scored first."""
    rows = []
    for study in studies:
        own = [each for each in points if each.study == study.id]
        if own:
            told = numbers(own)
            chosen = {name: told[name] for name in ("points", "coverage_90", "score", "score_baseline", "score_all")}
            rows.append({"study": study.id, "kind": study.kind, "seen": study.is_seen} | chosen)
    return sorted(rows, key=lambda row: -row["score_all"])


def without(points: Sequence[Point], study: str) -> list[Point]:
    """Return the points of all other studies."""
    return [each for each in points if each.study != study]
