"""Fits at most three values of the model to what is not held out; prints what to put into vessel_model.toml.

Each is searched for its middle, and for how many times wider or narrower its
spread is than as it stands; the score is that of all points, the mean within a
study and then over studies. What is held out is never read here.
"""

import argparse
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.optimize import minimize  # type: ignore[import-untyped]

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.living import Living
from sourloam.service.assemble import living_of
from validation.points import interval_of
from validation.predict import predict
from validation.run import open_studies
from validation.score import mean_by_study, score_of
from validation.studies import Study, last_day, load_studies

FITTED: Final = ("lactic_rate_times", "buffer_times", "ceiling_times")
MEMBERS: Final = 100
ROUNDS: Final = 40
NEAR: Final = (0.8, 1.25)  # times the best, where the score is shown
FARTHEST: Final = np.log(1.5)  # that a middle may be moved, either way: beyond lies what no broth has shown


@dataclass(frozen=True)
class Change:
    """How a value differs from the table: its middle and its width, as logarithms of factors."""

    middle: float = 0.0
    width: float = 0.0


def changed(figure: Figure, change: Change) -> Figure:
    """Return a lognormal value with its middle moved and its spread widened."""
    middle = np.median(figure.members)
    spread = (figure.members / middle) ** np.exp(change.width)
    return replace(figure, members=middle * np.exp(change.middle) * spread, at_medians=None)


def living_with(living: Living, changes: Mapping[str, Change]) -> Living:
    """Return what is known, with some values changed."""
    model = replace(living.model, **{name: changed(getattr(living.model, name), c) for name, c in changes.items()})
    return Living(model, living.organisms)


def mean_score(studies: Sequence[Study], living: Living) -> float:
    """Return the mean interval score over studies."""
    scores, names = [], []
    for study in studies:
        for run in (each for each in study.runs if each.observed):
            predicted = predict(f"{study.id}/{run.id}", run, last_day(study, run, ()), living)
            scores += [score_of(interval_of(predicted.read(each)), each) for each in run.observed]
            names += [study.id] * len(run.observed)
    return mean_by_study(np.array(scores), names)


def changes_of(vector: FloatArray) -> dict[str, Change]:
    """Return the changes that a point of the search stands for: all middles, then one width for all."""
    return {name: Change(float(middle), float(vector[-1])) for name, middle in zip(FITTED, vector[:-1], strict=True)}


def fit(studies: Sequence[Study], living: Living, *, rounds: int = ROUNDS) -> dict[str, Change]:
    """Return the changes with the least score that a short search from the table finds."""

    def cost(vector: FloatArray) -> float:
        score = mean_score(studies, living_with(living, changes_of(vector)))
        sys.stderr.write(f"\rscore {score:.3f}   ")
        return score + 10.0 * float(np.maximum(np.abs(vector) - FARTHEST, 0.0).sum())

    size = len(FITTED) + 1
    corners = np.vstack([np.zeros(size), 0.3 * np.eye(size)])
    options = {"maxfev": rounds, "initial_simplex": corners, "xatol": 0.05, "fatol": 0.01}
    found = minimize(cost, np.zeros(size), method="Nelder-Mead", options=options)
    return changes_of(found.x)


def main(arguments: Sequence[str] | None = None) -> int:
    """Fit, and print the values, what the score is with and without them, and how flat it is about the best."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--rounds", type=int, default=ROUNDS)
    asked = parser.parse_args(arguments)
    studies, living = open_studies(load_studies()), living_of(MEMBERS)
    best = fit(studies, living, rounds=asked.rounds)
    fitted = living_with(living, best)
    lines = [f"score without the fit {mean_score(studies, living):.3f}, with it {mean_score(studies, fitted):.3f}"]
    for name, change in best.items():
        figure = getattr(fitted.model, name)
        lines.append(f"{name}: value {np.median(figure.members):.2f}, low {figure.low:.2f}, high {figure.high:.2f}")
        for times in NEAR:
            beside = best | {name: replace(change, middle=change.middle + float(np.log(times)))}
            score = mean_score(studies, living_with(living, beside))
            lines.append(f"    {times:g} times that: score {score:.3f}")
    sys.stdout.write("\n".join(lines) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
