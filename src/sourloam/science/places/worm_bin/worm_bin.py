"""A worm bin as the keeper describes it."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from sourloam.base.fields import Key
from sourloam.base.kinds import Choice, Flag, Ident, Text, amount
from sourloam.science.climate.rooms import ROOMS
from sourloam.science.places.offer import PlaceState


@dataclass(frozen=True)
class WormBin:
    """A bin of compost worms."""

    id: Annotated[str, Key("id", Ident(), "A short name that never changes.")]
    area_m2: Annotated[
        float,
        amount(
            "area",
            "0.02 m2",
            "50 m2",
            help="Length times width of the bed of worms.",
            why="worms are not kept on that.",
        ),
    ]
    worms_kg: Annotated[
        float,
        amount(
            "worms",
            "0.02 kg",
            "200 kg",
            help="How much the worms weigh; a kilogram is some 2000 of them.",
            default="0.5 kg",
            why="that is too few to feed, or a worm farm.",
            assume="It holds half a kilogram of worms.",
        ),
    ] = 0.5
    name: Annotated[str, Key("name", Text(80), "What you call it.", default="")] = ""
    stands: Annotated[
        str, Key("stands", Choice(tuple(ROOMS)), "Where it stands.", default="shed", assume="It stands in the shed.")
    ] = "shed"
    is_accustomed: Annotated[
        bool,
        Key(
            "accustomed",
            Flag(),
            "Whether the worms already live on fermented scraps.",
            default=False,
            assume="The worms have never had fermented scraps; they begin with a tenth of their ration.",
        ),
    ] = False

    def at_start(self, on: date) -> PlaceState:
        """Return its state on the first day."""
        return PlaceState(self.id)
