"""The figures that only living the year can give: stalls, and how many vessels leave none.

Each member lives its own year on its own draw of what moves a rotation most;
everything else stays at its median.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache, partial
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derived, law
from sourloam.base.numbers import FloatArray
from sourloam.fleet.cures import MOST_MORE, fewest_from, with_vessels
from sourloam.fleet.life import Life
from sourloam.fleet.setting import STRONGEST, numbers_of, set_up, uncertain
from sourloam.fleet.simulate import simulate
from sourloam.plan.question import Question
from sourloam.site.site import Site

LIVES: Final = 200  # lived years that are kept: more than one plan lives
RUNS: Final = 9  # a lived year costs some milliseconds, and a plan may take two seconds in all
MODEL: Final = "the year lived day by day (fleet/simulate.py)"


Lived = Callable[..., Life]


def living(question: Question, **changed: float) -> Callable[[Site], Life]:
    """Return a function that lives the year of a site, at the medians but for what is `changed`."""
    values = {name: figure.value for name, figure in uncertain(question.knowledge).items()}
    numbers = numbers_of({**values, **changed})

    def live(site: Site) -> Life:
        situation, world = set_up(site, question.year, numbers, situation=question.situation)
        return simulate(situation, question.days, world)

    return live


def simulated(question: Question) -> dict[str, Figure]:
    """Return the simulated figures by name."""
    inputs = {name: figure for name, figure in uncertain(question.knowledge).items() if name in STRONGEST}
    owned = len(question.site.vessels)

    @lru_cache(maxsize=LIVES)  # all figures are read off the same lived years; it ends with this call
    def lived(vessels: int, *member: float) -> Life:
        live = living(question, **dict(zip(STRONGEST, member, strict=True)))
        return live(with_vessels(question.site, vessels))

    laws = (
        ("vessels_needed", "vessels that leave no stalled day", _needed(lived, owned)),
        ("stall_days_per_year", "days in the year on which scraps have nowhere to go", _stalled(lived, owned)),
        ("turned_away_kg_per_year", "scraps in the year that have nowhere to go", _turned_away(lived, owned)),
    )
    return {name: derived(name, function, inputs, words=words, runs=RUNS) for name, words, function in laws}


def _members(drawn: Mapping[str, ArrayLike]) -> Iterator[tuple[float, ...]]:
    """Give the members of the strongest inputs one by one, in their order."""
    return zip(*(np.atleast_1d(np.asarray(drawn[name], dtype=float)).tolist() for name in STRONGEST), strict=True)


def _stalled(lived: Lived, owned: int) -> Callable[..., FloatArray]:
    @law("stalled days, counted in a year that is lived day by day", unit="d", model=MODEL)
    def stalled_days(**drawn: ArrayLike) -> FloatArray:
        return np.array([lived(owned, *each).stalled_days for each in _members(drawn)], dtype=float)

    return stalled_days


def _turned_away(lived: Lived, owned: int) -> Callable[..., FloatArray]:
    @law("scraps turned away, summed over a year that is lived day by day", unit="kg", model=MODEL)
    def turned_away_kg(**drawn: ArrayLike) -> FloatArray:
        return np.array([lived(owned, *each).turned_away_kg for each in _members(drawn)], dtype=float)

    return turned_away_kg


def _needed(lived: Lived, owned: int) -> Callable[..., FloatArray]:
    @law("the fewest vessels whose year has no stalled day", unit="{vessel}", model=MODEL)
    def fewest(**drawn: ArrayLike) -> FloatArray:
        found: list[float] = []
        for each in _members(drawn):
            number = fewest_from(_near(found, owned), partial(_is_enough, lived, each), most=owned + MOST_MORE)
            found.append(np.nan if number is None else float(number))
        return np.array(found)

    return fewest


def _near(found: list[float], owned: int) -> int:
    """Return the number from which to look: the last answer, or the most where there was none."""
    if not found:
        return owned
    return int(found[-1]) if np.isfinite(found[-1]) else owned + MOST_MORE


def _is_enough(lived: Lived, member: tuple[float, ...], vessels: int) -> bool:
    return lived(vessels, *member).stalled_days == 0
