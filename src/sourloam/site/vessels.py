"""The vessels that are owned, where they stand, and how they are at the start."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final

from sourloam.base.fields import Key
from sourloam.base.kinds import Choice, Day, Flag, Ident, Text, amount
from sourloam.science.vessel.geometry import below_grid_l

ROOMS: Final = ("kitchen", "indoors", "cellar", "shed", "outdoors")
STATES: Final = ("empty", "filling", "fermenting", "ready")

DRAIN: Final = Key(
    "drain",
    Flag(),
    "Whether liquid can run off below: a tap or a nested bucket.",
    default=True,
    assume="It has a tap or a nested bucket for the liquid.",
)


@dataclass(frozen=True)
class Vessel:
    """A bucket, drum or tub; with or without a drain."""

    id: Annotated[
        str, Key("id", Ident(), "A short name that never changes; with count = 4 it becomes blue-1 to blue-4.")
    ]
    volume_l: Annotated[
        float,
        amount(
            "volume",
            "1 L",
            "250 L",
            help="What it holds to the brim.",
            why="smaller ones dry out, larger ones are another trade.",
        ),
    ]
    name: Annotated[str, Key("name", Text(80), "What you call it.", default="")] = ""
    has_drain: Annotated[bool, DRAIN] = True
    drain_space_l: Annotated[
        float | None,
        amount(
            "drain_space",
            "0 L",
            "50 L",
            help="Room for liquid below the grid; a twelfth of the volume if left out.",
            default=None,
        ),
    ] = None
    stands: Annotated[
        str,
        Key(
            "stands",
            Choice(ROOMS),
            "Where it stands while it ferments.",
            default="kitchen",
            assume="It stands in the kitchen.",
        ),
    ] = "kitchen"
    temperature_c: Annotated[
        float | None,
        amount(
            "temperature",
            "-10 C",
            "45 C",
            help="Its own temperature all year, if you know it better.",
            default=None,
            why="nothing ferments there.",
        ),
    ] = None
    fill_limit_frac: Annotated[
        float,
        amount(
            "fill_limit",
            "10 %",
            "95 %",
            help="How far it is filled.",
            default="90 %",
            why="some room must stay free for gas.",
        ),
    ] = 0.9
    state: Annotated[
        str,
        Key(
            "state",
            Choice(STATES),
            "How it is on the first day.",
            default="empty",
            assume="It is empty on the first day.",
        ),
    ] = "empty"
    filled_frac: Annotated[
        float,
        amount("filled", "0 %", "100 %", help="How full it is on the first day, of what it may hold.", default="100 %"),
    ] = 1.0
    since: Annotated[
        date | None,
        Key("since", Day(), "Since when it is so: first layer if filling, sealed if fermenting.", default=None),
    ] = None

    @property
    def below_grid_l(self) -> float:
        """Return the room for liquid under the grid."""
        return below_grid_l(self.volume_l, self.drain_space_l, has_drain=self.has_drain)

    @property
    def usable_l(self) -> float:
        """Return the room for scraps."""
        return max(self.volume_l * self.fill_limit_frac - self.below_grid_l, 0.0)
