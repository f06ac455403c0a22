"""What can be done from a day on, and what would have helped from the start: each tried on members that fit.

A remedy is followed on the same members with and without it, so that its
effect is not lost in their spread.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.changes import WARM_C, AtHand, Change, sealed, with_bran, with_material
from sourloam.science.ferment.ensemble.dates import dates_of
from sourloam.science.ferment.ensemble.failing import failing_of, goes_wrong
from sourloam.science.ferment.ensemble.filling import Filling
from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.stack.life import Days, Run, Starts
from sourloam.science.watch.corrected import living_at, starts_at
from sourloam.science.watch.filter import Weighed, resampled

TRIED_ON: Final = 60  # members: enough to tell which act helps
DRAWN_EVERY_D: Final = 2
BRAN_G_PER_KG: Final = 20.0
ABSORBENT_G_PER_KG: Final = 80.0


@dataclass(frozen=True)
class Acts:
    """What was tried, with what it gives; what changes nothing is kept too, since that is worth knowing."""

    now: tuple[Change, ...]
    next_time: tuple[Change, ...]


@dataclass(frozen=True)
class _Outcome:
    failing_frac: float
    ready_d: float


def acts(
    weighed: Weighed,
    day: int,
    scatter: FloatArray,
    at_hand: AtHand,
    *,
    compiler: Callable[[], Run] | None = None,
    seed: int,
) -> Acts:
    """Return what can be done now, and what would have helped from the start, each with its effect."""
    ensemble = weighed.ensemble
    index = resampled(weighed.weights, min(TRIED_ON, ensemble.members), seed=seed)
    living = living_at(ensemble.living, index)

    def tried(
        filling: Filling,
        *,
        days: Callable[[Days], Days] = lambda days: days,
        turned: Callable[[Starts], Starts] = lambda starts: starts,
    ) -> _Outcome:
        starts = turned(starts_at(ensemble.starts_of(filling), index))
        followed = follow(starts, days(days_of(filling)), compiler=compiler)
        diffusion = living.model.acid_m2_per_d.members
        dates = dates_of(followed, filling, scatter=scatter[index], acid_m2_per_d=diffusion)
        kinds = failing_of(followed, living, filling.kept.floor_m2)
        there = dates.ready_d[np.isfinite(dates.ready_d)]
        middle = float(np.median(there)) if 2 * there.size >= dates.ready_d.size else float("inf")
        return _Outcome(float(goes_wrong(dates.ready_d, kinds).mean()), middle)

    as_it_is = tried(ensemble.filling)
    now = tuple(_now(ensemble.filling, day, tried, as_it_is))
    filling = ensemble.filling
    starts = (
        ("dry stuff", ABSORBENT_G_PER_KG, tried(with_material(filling, at_hand.absorbent, ABSORBENT_G_PER_KG))),
        ("more bran", BRAN_G_PER_KG, tried(with_bran(filling, at_hand.bran, BRAN_G_PER_KG))),
        ("tamp and seal", 1.0, tried(filling, turned=sealed)),
    )
    later = (
        _change(name, amount, "1" if amount == 1.0 else "g/kg", before=as_it_is, after=out)
        for name, amount, out in starts
    )
    return Acts(now, tuple(sorted(later, key=lambda each: each.failing_frac)))


def _now(filling: Filling, day: int, tried: Callable[..., _Outcome], as_it_is: _Outcome) -> Iterator[Change]:
    """Give what can be done from a day on."""
    kept = filling.kept
    room = np.asarray(kept.room_c, dtype=float)
    if float(room[min(day, room.size - 1) :].mean()) < WARM_C - 1.0:
        warm = np.where(np.arange(room.size) >= day, np.maximum(room, WARM_C), room)
        yield _change(
            "warmer", WARM_C, "Cel", before=as_it_is, after=tried(replace(filling, kept=replace(kept, room_c=warm)))
        )
    if kept.sump_l > 0.0:
        drained = tried(filling, days=lambda days: _drawn_from(days, day))
        yield _change("draw", float(DRAWN_EVERY_D), "d", before=as_it_is, after=drained)
    opened = tried(filling, days=lambda days: _opened_from(days, day))
    yield _change("keep shut", 1.0, "1", before=opened, after=as_it_is)


def _change(do: str, amount: float, unit: str, *, before: _Outcome, after: _Outcome) -> Change:
    return Change(do, amount, unit, after.failing_frac, after.ready_d, before.failing_frac, before.ready_d)


def _drawn_from(days: Days, day: int) -> Days:
    a_day = round(24.0 / days.step_h)
    drawn = days.drawn.copy()
    drawn[day * a_day :: DRAWN_EVERY_D * a_day] = 1.0
    return days._replace(drawn=drawn)


def _opened_from(days: Days, day: int) -> Days:
    a_day = round(24.0 / days.step_h)
    opened = days.opened.copy()
    opened[day * a_day :: a_day] += 1.0
    return days._replace(opened=opened)
