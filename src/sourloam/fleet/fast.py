"""The compiled life of vessels as the rest of the fleet calls it, and what is kept of it."""

import math
from datetime import timedelta
from typing import Final, NamedTuple

import numpy as np

from sourloam.base.errors import BalanceError
from sourloam.fleet import rows
from sourloam.fleet.life import Binding, DayLine
from sourloam.fleet.outcome import WEEK_D, Outcome
from sourloam.fleet.rows import Held, Run, Still, held_of, read_vessel, still_of, write_vessel
from sourloam.fleet.simulate import Diary, held_kg, held_l, place_ready
from sourloam.fleet.world import World
from sourloam.site.situation import Situation

BINDINGS: Final[tuple[Binding, ...]] = ("", "vessels", "places")
OF_DAY: Final = (
    ("scraps_kg", rows.D_SCRAPS_KG),
    ("scraps_l", rows.D_SCRAPS_L),
    ("bran_kg", rows.D_BRAN),
    ("turned_away_kg", rows.D_AWAY_KG),
    ("turned_away_l", rows.D_AWAY_L),
    ("drawn_kg", rows.D_DRAWN),
    ("gas_kg", rows.D_GAS),
    ("placed_kg", rows.D_PLACED_KG),
    ("placed_l", rows.D_PLACED_L),
    ("failed_kg", rows.D_FAILED_KG),
    ("failed_l", rows.D_FAILED_L),
    ("held_kg", rows.D_HELD_KG),
    ("held_l", rows.D_HELD_L),
    ("waiting_l", rows.D_WAITING_L),
)
LEDGER: Final = ("placed_kg", "placed_l", "failed_kg", "failed_l")
COLUMNS_OF_LEDGER: Final = tuple(dict(OF_DAY)[name] for name in LEDGER)
WENT_KG: Final = (rows.D_AWAY_KG, rows.D_DRAWN, rows.D_GAS, rows.D_PLACED_KG, rows.D_FAILED_KG)
WENT_L: Final = (rows.D_AWAY_L, rows.D_PLACED_L, rows.D_FAILED_L)
TOLERANCE: Final = 1e-6  # of what is held: more than that is a loss and no rounding


class FastLife(NamedTuple):
    """A run of days, as rows."""

    situation: Situation  # from which it was lived
    still: Still
    held: Held


def live_fast(run: Run, situation: Situation, world: World) -> FastLife:
    """Let all days of a world pass from `situation`, compiled; the same days as `simulate` gives.

    Raises
    ------
    BalanceError
        If a kilogram or a litre is lost on the way.
    """
    first, still, held = (
        situation,
        still_of(situation, world),
        held_of(situation, len(world.arrivals), world.habits.least_d),
    )
    day = run(still, held, 0, -1)
    while day >= 0:
        situation = _placed(situation, held, day, world)
        day = run(still, held, day, day)
    lived = FastLife(first, still, held)
    _check(lived, held_kg(first), held_l(first))
    return lived


def _placed(situation: Situation, held: Held, day: int, world: World) -> Situation:
    """Place what is due on a day by the rules of the places, and write back what is left in the vessels."""
    names = [each.vessel for each in situation.vessels]
    states = tuple(read_vessel(held, row, name, world.first) for row, name in enumerate(names))
    diary = Diary()
    for state in states:
        if state.phase == "ready":
            diary.batch(state)
    before = situation._replace(on=world.first + timedelta(days=day), vessels=states)
    after = place_ready(before, world, diary)
    held.days[day, list(COLUMNS_OF_LEDGER)] += [diary.today.get(name, 0.0) for name in LEDGER]
    for row, (old, new) in enumerate(zip(states, after.vessels, strict=True)):
        if new is not old:
            batch = held.marks[row, rows.WAS_BATCH]
            write_vessel(held, row, new, world.first)
            if new.phase == "empty":
                held.batches[batch, rows.B_GONE] = day
                held.batches[batch, rows.B_FAILED] = diary.batches[old.batch].failed_on is not None
    held.counts[rows.EMPTY_FROM] = 0
    return after


def day_lines(lived: FastLife) -> tuple[DayLine, ...]:
    """Return the ledger of each day, as `simulate` writes it."""
    first = lived.situation.on
    return tuple(
        DayLine(
            first + timedelta(days=day),
            queue=int(line[rows.D_QUEUE]),
            is_stalled=line[rows.D_BINDS] > 0,
            binding=BINDINGS[int(line[rows.D_BINDS])],
            **{name: line[column] for name, column in OF_DAY},
        )
        for day, line in enumerate(lived.held.days.tolist())
    )


def outcome_of_rows(lived: FastLife) -> Outcome:
    """Return what is kept of a life."""
    first, days = lived.situation.on, lived.held.days
    binds = days[:, rows.D_BINDS]
    count = len(days)
    weeks = np.zeros(max(1, count // WEEK_D), dtype=bool)
    stalled = np.nonzero(binds)[0]
    weeks[np.minimum(stalled // WEEK_D, len(weeks) - 1)] = True
    sums = {name: sum(days[:, column].tolist()) for name, column in OF_DAY if name.endswith("_l")}
    batches = lived.held.batches[: lived.held.counts[rows.BEGUN]]
    gone = batches[:, rows.B_GONE]
    free = int(gone[gone != rows.NEVER].min()) if (gone != rows.NEVER).any() else count
    scraps_l = sums["scraps_l"]
    return Outcome(
        weeks=tuple(weeks.tolist()),
        stalls=tuple(((first + timedelta(days=day)).month, BINDINGS[int(binds[day])]) for day in stalled.tolist()),
        scraps_l=scraps_l,
        turned_away_l=sums["turned_away_l"],
        placed_l=sums["placed_l"],
        failed_l=sums["failed_l"],
        age_d=sums["waiting_l"] / scraps_l if scraps_l else 0.0,
        heaviest_kg=float(lived.held.heaviest[0]),
        fill_d=tuple(_fill_d(batches[batches[:, rows.B_VESSEL] == row]) for row in range(len(lived.held.marks))),
        idle_frac=tuple(
            _idle_frac(batches[batches[:, rows.B_VESSEL] == row], count) for row in range(len(lived.held.marks))
        ),
        queue_d=int((days[:, rows.D_QUEUE] > 0).sum()),
        free_in_d=free,
        until_free_l=sum(days[:free, rows.D_SCRAPS_L].tolist()),
    )


def _fill_d(batches: rows.IntArray) -> float:
    sealed = batches[batches[:, rows.B_SEALED] != rows.NEVER]
    if not len(sealed):
        return math.nan
    return int((sealed[:, rows.B_SEALED] - sealed[:, rows.B_FIRST]).sum()) / len(sealed)


def _idle_frac(batches: rows.IntArray, days: int) -> float:
    gone = np.where(batches[:, rows.B_GONE] == rows.NEVER, days - 1, batches[:, rows.B_GONE])
    held_d = int((gone - np.maximum(batches[:, rows.B_FIRST], 0)).sum())
    return max(0.0, 1.0 - held_d / days)


def _check(lived: FastLife, at_start_kg: float, at_start_l: float) -> None:
    """Refuse a life in which a day leaves something over."""
    days = lived.held.days
    for unit, at_start, held, came, went in (
        ("kg", at_start_kg, rows.D_HELD_KG, (rows.D_SCRAPS_KG, rows.D_BRAN), WENT_KG),
        ("L", at_start_l, rows.D_HELD_L, (rows.D_SCRAPS_L,), WENT_L),
    ):
        before = np.concatenate(([at_start], days[:-1, held]))
        left = before + days[:, list(came)].sum(axis=1) - days[:, list(went)].sum(axis=1) - days[:, held]
        worst = int(np.argmax(np.abs(left) / np.maximum(1.0, before)))
        if abs(left[worst]) > TOLERANCE * max(1.0, float(before[worst])):
            on = lived.situation.on + timedelta(days=worst)
            raise BalanceError(f"what went in and out on {on}", (("left over", float(left[worst])),), unit)
