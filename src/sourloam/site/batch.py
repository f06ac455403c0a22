"""One batch as its keeper writes it down: the vessel, what was laid into it, how warm it stood."""

from dataclasses import dataclass
from typing import Annotated, Final

from sourloam.base.fields import Key
from sourloam.base.kinds import Amount, Choice, Flag, Text, Whole, amount
from sourloam.base.spread import Spread
from sourloam.base.units import Dimension
from sourloam.science.ferment.ensemble.filling import OnTop
from sourloam.science.vessel.geometry import below_grid_l
from sourloam.site.batch_kinds import Between, Lines, Number, OnDay, Steps, Warmth, When, Whens
from sourloam.site.vessels import DRAIN

LIDS: Final = ("breathes", "tight")
ON_TOP: Final = ("nothing", "film", "plate", "weight")
MOST_DAYS: Final = 200
DRAWN: Final = "Its liquid is drawn off every 3 days (draws)."
_SHARE: Final = Between(Amount(Dimension.SHARE, "0 %", "100 %", "it is a part of the whole."))
_LIVE: Final = Number(1.0, 1e13, '"1e8"')


@dataclass(frozen=True)
class BatchFacts:
    """What stands above the tables."""

    temperature: Annotated[
        Steps, Key("temperature", Warmth(), "How warm it is where the vessel stands: one, a list by day, or steps.")
    ]
    name: Annotated[str, Key("name", Text(80), "What you call it.", default="")] = ""
    least_d: Annotated[
        float,
        amount(
            "least_time",
            "0 days",
            "180 days",
            help="The shortest time that you leave a sealed vessel.",
            default="14 days",
            assume="It stays sealed for 14 days at least (least_time).",
        ),
    ] = 14.0
    units: Annotated[
        str, Key("units", Choice(("metric", "us")), "In which units the answer speaks.", default="metric")
    ] = "metric"
    days: Annotated[
        int | None,
        Key("days", Whole(1, MOST_DAYS), "How many days it is followed after its last layer.", default=None),
    ] = None


@dataclass(frozen=True)
class BatchVessel:
    """The vessel."""

    volume_l: Annotated[
        float,
        amount("volume", "50 ml", "1000 L", help="What it holds to the brim.", why="none here is so small or large."),
    ]
    width_m: Annotated[
        float | None,
        amount("width", "2 cm", "2 m", help="Its inner width half way up; as of a pail if left out.", default=None),
    ] = None
    has_drain: Annotated[bool, DRAIN] = True
    drain_space_l: Annotated[
        float | None,
        amount(
            "drain_space",
            "0 L",
            "200 L",
            help="Room for liquid below the grid; a twelfth of the volume if left out.",
            default=None,
        ),
    ] = None
    draws_d: Annotated[
        float,
        amount(
            "draws",
            "0 days",
            "60 days",
            help="How often the liquid is drawn off; 0 days if never.",
            default="3 days",
            assume=DRAWN,
        ),
    ] = 3.0
    lid: Annotated[
        str,
        Key(
            "lid",
            Choice(LIDS),
            "Whether gas can lift the lid, or cannot get out.",
            default="breathes",
            assume="Gas can lift its lid (lid).",
        ),
    ] = "breathes"
    on_top: Annotated[
        OnTop,
        Key(
            "on_top",
            Choice(ON_TOP),
            "What lies on the scraps under the lid: film pressed on, a plate, or a plate with a weight.",
            default="nothing",
        ),
    ] = "nothing"
    leak_l_per_d: Annotated[
        float | None,
        amount("leak", "0 L/day", "200 L/day", help="Air that gets in while it is shut, if you know it.", default=None),
    ] = None
    wraps: Annotated[
        float,
        Key("wrap", Number(1.0, 50.0, "3"), "How many times slower it cools than with a bare wall.", default=1.0),
    ] = 1.0
    opened: Annotated[
        tuple[OnDay, ...],
        Key("opened", Whens(), "Days on which the lid is lifted beside those of layers.", default=[]),
    ] = ()

    @property
    def below_grid_l(self) -> float:
        """Return the room for liquid under the grid."""
        return below_grid_l(self.volume_l, self.drain_space_l, has_drain=self.has_drain)


@dataclass(frozen=True)
class BatchLayer:
    """What was laid in at once."""

    amounts: Annotated[
        tuple[str, ...], Key("amounts", Lines("1.2 kg vegetable peelings"), "What it is, as a kitchen measures it.")
    ]
    day: Annotated[
        OnDay | None, Key("day", When(), "Its day, or its date; a day after the one before if left out.", default=None)
    ] = None
    added: Annotated[
        tuple[str, ...],
        Key("added", Lines("20 g sugar"), "Salt, sugar, water or something dry that was mixed in.", default=[]),
    ] = ()
    bran_kg: Annotated[
        float, amount("bran", "0 g", "50 kg", help="Live bran on it; none if left out.", default="0 g")
    ] = 0.0
    bran_live: Annotated[
        float | None, Key("bran_live", _LIVE, "Live cells in a gram of the bran, if counted.", default=None)
    ] = None
    culture_live: Annotated[
        float | None,
        Key("culture_live", _LIVE, "Live cells added in another way, to a gram of the layer.", default=None),
    ] = None
    piece_m: Annotated[
        float | None,
        amount("pieces", "0.1 mm", "30 cm", help="How large the pieces are; as thrown out if left out.", default=None),
    ] = None
    is_cooked: Annotated[
        bool | None, Key("cooked", Flag(), "Whether it was cooked, where its materials do not say.", default=None)
    ] = None
    caddy_d: Annotated[
        float, amount("caddy", "0 hours", "30 days", help="How long it lay in a caddy.", default="0 hours")
    ] = 0.0
    caddy_c: Annotated[
        float, amount("caddy_temperature", "-30 C", "50 C", help="How warm the caddy stood.", default="20 C")
    ] = 20.0


@dataclass(frozen=True)
class BatchMeasured:
    """What was measured of the scraps of every layer; it goes before what their materials say."""

    dry_frac: Annotated[Spread | None, Key("dry", _SHARE, "Dry matter, of the fresh mass.", default=None)] = None
    protein_dry_frac: Annotated[Spread | None, Key("protein", _SHARE, "Protein, of the dry matter.", default=None)] = (
        None
    )
    sugar_dry_frac: Annotated[Spread | None, Key("sugar", _SHARE, "Sugar, of the dry matter.", default=None)] = None
    start_ph: Annotated[
        Spread | None, Key("ph", Between(Number(2.5, 9.5, "5.9")), "The pH as it was mixed.", default=None)
    ] = None
    lactic_live: Annotated[
        Spread | None, Key("lactic_live", Between(_LIVE), "Live lactic bacteria in a gram at the start.", default=None)
    ] = None
