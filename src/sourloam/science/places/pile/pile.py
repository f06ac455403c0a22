"""A pile as the keeper describes it."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from sourloam.base.fields import Key
from sourloam.base.kinds import Ident, Text, amount
from sourloam.science.places.offer import PlaceState, Receipt


@dataclass(frozen=True)
class Pile:
    """A heap or bin in which batches rot with air, together with browns."""

    id: Annotated[str, Key("id", Ident(), "A short name that never changes.")]
    volume_l: Annotated[
        float,
        amount(
            "volume",
            "50 L",
            "20000 L",
            help="What it holds when it is full.",
            why="smaller ones never rot through, larger ones are another trade.",
        ),
    ]
    name: Annotated[str, Key("name", Text(80), "What you call it.", default="")] = ""
    filled_l: Annotated[
        float,
        amount(
            "filled",
            "0 L",
            "20000 L",
            help="What is in it on the first day.",
            default="0 L",
            assume="It is empty on the first day.",
        ),
    ] = 0.0
    browns_l: Annotated[
        float,
        amount(
            "browns",
            "0 L",
            "50000 L",
            help="Dry leaves, straw or torn cardboard that lie ready for it on the first day, loose.",
            default="200 L",
            assume="200 L of dry leaves lie ready for it.",
        ),
    ] = 200.0
    browns_l_per_d: Annotated[
        float,
        amount(
            "browns_coming",
            "0 L/day",
            "2000 L/day",
            help="How much of them comes in, such as 30 L/week.",
            default="0 L/day",
        ),
    ] = 0.0

    def at_start(self, on: date) -> PlaceState:
        """Return its state on the first day, from which its browns are counted too."""
        return PlaceState(self.id, (Receipt(on, "", 0.0, min(self.filled_l, self.volume_l), 0.0, usable_on=on),))
