"""The bag of bran through a lived year: it is drawn on, and another lot is begun while there is enough for its time."""

from collections.abc import Sequence
from typing import NamedTuple


class BagRule(NamedTuple):
    """How bran is kept coming."""

    on_hand_kg: float
    begins_at_kg: float  # another lot is begun when the bag holds no more than that
    lot_kg: float
    first_lead_d: int  # days from the beginning of a lot until it can be used; the first may begin with serum at hand
    lead_d: int


def empty_days(used_kg: Sequence[float], rule: BagRule) -> tuple[int, ...]:
    """Return the days, counted from the first, on which the bag does not hold what is loaded.

    What is missing on such a day is bought or left out, and is not owed to the next lot. One lot is under way at most.
    """
    held, comes_on, lots = rule.on_hand_kg, -1, 0
    empty = []
    for day, used in enumerate(used_kg):
        if comes_on == day:
            held += rule.lot_kg
            comes_on = -1
        if comes_on < 0 and held <= rule.begins_at_kg:
            comes_on = day + max(1, rule.lead_d if lots else rule.first_lead_d)
            lots += 1
        if used > held:
            empty.append(day)
        held = max(0.0, held - used)
    return tuple(empty)
