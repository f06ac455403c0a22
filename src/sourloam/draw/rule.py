"""The rule at the left of a board: a tick for each unit where there is room, numbers for each long one."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from sourloam.draw.canvas import LEAST_PX, Point, moves, path, text
from sourloam.draw.palette import EDGE, INK_2
from sourloam.plan.shelf import OnShelf
from sourloam.plan.words import Speech, converted

EDGE_PX: Final = 3.0  # of its right edge from what stands beside it
ROOM_PX: Final = 5.0  # a unit that is smaller gets no tick of its own


@dataclass(frozen=True)
class Marks:
    """How a rule is divided: its unit, and which of its ticks are longer."""

    name: str
    unit_px: float
    middle: int
    long: int

    def tallest(self, vessels: Iterable[OnShelf]) -> int:
        """Return in whole units how high the rule must be for the tallest of some vessels."""
        return round(converted(max(each.height_m for each in vessels), "m", self.name))


def marks_of(speech: Speech, px_per_m: float) -> Marks:
    """Return how a rule is divided: ten centimetres by fives, half a foot by threes."""
    name, middle, long = ("in", 3, 6) if speech.is_us else ("cm", 5, 10)
    return Marks(name, px_per_m * converted(1.0, name, "m"), middle, long)


def upright(marks: Marks, tallest: int, foot: Point) -> str:
    """Return a rule of so many units, whose foot is the lower right of its room."""
    x = foot[0] - EDGE_PX
    step = 1 if marks.unit_px >= ROOM_PX else marks.middle
    top = foot[1] - tallest * marks.unit_px
    strokes: list[tuple[Point, Point]] = [((x, foot[1]), (x, top))]
    words = []
    for at in range(0, tallest + 1, step):
        y = foot[1] - at * marks.unit_px
        long = 4.0 if at % marks.long == 0 else 3.0 if at % marks.middle == 0 else 2.0
        strokes.append(((x, y), (x - long, y)))
        if at % marks.long == 0 and at > 0:
            words.append(text((x - 6.0, y + 4.6), str(at), size=LEAST_PX, anchor="end", fill=INK_2))
    raised = 6.0 if tallest % marks.long * marks.unit_px >= 4.0 else 10.0  # clear of a number at the very end
    unit = text((foot[0] - 26.0, top - raised), marks.name, size=LEAST_PX, fill=INK_2)
    return path(moves(strokes), stroke=EDGE) + "".join(words) + unit
