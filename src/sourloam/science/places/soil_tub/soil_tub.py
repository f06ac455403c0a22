"""A soil tub as the keeper describes it."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from sourloam.base.fields import Key
from sourloam.base.kinds import Choice, Ident, Text, amount
from sourloam.science.climate.rooms import ROOMS
from sourloam.science.places.offer import PlaceState


@dataclass(frozen=True)
class SoilTub:
    """A tub of soil that finishes a batch where there is no garden."""

    id: Annotated[
        str, Key("id", Ident(), "A short name that never changes; with count = 2 it becomes tub-1 and tub-2.")
    ]
    volume_l: Annotated[
        float,
        amount(
            "volume",
            "5 L",
            "2000 L",
            help="What it holds, soil and batch together.",
            why="smaller ones dry out, larger ones are a bed.",
        ),
    ]
    name: Annotated[str, Key("name", Text(80), "What you call it.", default="")] = ""
    stands: Annotated[
        str, Key("stands", Choice(tuple(ROOMS)), "Where it stands.", default="outdoors", assume="It stands outdoors.")
    ] = "outdoors"

    def at_start(self, on: date) -> PlaceState:
        """Return its state on the first day: full of soil and free."""
        return PlaceState(self.id)
