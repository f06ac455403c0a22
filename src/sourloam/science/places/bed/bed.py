"""A bed as the keeper describes it."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final

from sourloam.base.days import Span
from sourloam.base.fields import Key, Table
from sourloam.base.kinds import Choice, Day, Flag, Ident, Spans, Text, amount
from sourloam.science.places.offer import PlaceState, Receipt

TEXTURES: Final = ("sand", "sandy-loam", "loam", "clay", "peat")
WAYS: Final = ("whole", "strips")


@dataclass(frozen=True)
class Planting:
    """A crop that is sown or planted in a bed."""

    crop: Annotated[str, Key("crop", Text(60), "What is sown or planted.")]
    on: Annotated[date, Key("on", Day(), "The day on which it goes in.")]
    until: Annotated[
        date | None,
        Key(
            "until",
            Day(),
            "The day on which the bed is cleared of it.",
            default=None,
            assume="When it is cleared is not said; three months after planting are reckoned with.",
        ),
    ] = None


@dataclass(frozen=True)
class Bed:
    """A bed into which batches are dug."""

    id: Annotated[str, Key("id", Ident(), "A short name that never changes.")]
    area_m2: Annotated[
        float,
        amount(
            "area",
            "0.1 m2",
            "10000 m2",
            help="Length times width.",
            why="smaller is a pot, larger a field, where other rules apply.",
        ),
    ]
    name: Annotated[str, Key("name", Text(80), "What you call it.", default="")] = ""
    texture: Annotated[
        str, Key("texture", Choice(TEXTURES), "What its soil is.", default="loam", assume="Its soil is loam.")
    ] = "loam"
    food: Annotated[
        bool,
        Key(
            "food",
            Flag(),
            "Whether food grows there; a failed batch may only go where none does.",
            default=True,
            assume="Food grows there.",
        ),
    ] = True
    dug: Annotated[
        str,
        Key(
            "dug",
            Choice(WAYS),
            'Whether all of it rests after each batch ("whole"), or only the strip that was dug ("strips").',
            default="whole",
            assume="All of it rests after each batch.",
        ),
    ] = "whole"
    nitrogen_given_g_per_m2: Annotated[
        float,
        amount(
            "nitrogen_given",
            "0 g/m2",
            "60 g/m2",
            help="Nitrogen in manure or compost that it got in the year before the plan begins.",
            default="0 g/m2",
            why="no bed is given that much in a year.",
            assume="It got no manure or compost in the year before.",
        ),
    ] = 0.0
    closed: Annotated[
        tuple[Span, ...], Key("closed", Spans(), "Times in which nothing is dug in here.", default=[])
    ] = ()
    plantings: Annotated[tuple[Planting, ...], Table("planting", Planting, "What is sown or planted here.")] = ()

    def at_start(self, on: date) -> PlaceState:
        """Return its state on the first day.

        What it got before is booked on that day, since nobody knows when in the
        year that was: so it counts for too long rather than for too short a time.
        """
        if not self.nitrogen_given_g_per_m2:
            return PlaceState(self.id)
        before = Receipt(on, "", 0.0, 0.0, self.nitrogen_given_g_per_m2 * self.area_m2, usable_on=on)
        return PlaceState(self.id, (before,))
