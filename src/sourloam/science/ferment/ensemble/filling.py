"""What is laid into a vessel: layers of portions, with bran, on their days, and how the vessel is kept."""

from dataclasses import dataclass
from typing import Literal

from sourloam.base.numbers import FloatArray
from sourloam.base.spread import Spread
from sourloam.science.load.assess import Portion

OnTop = Literal["nothing", "film", "plate", "weight"]


@dataclass(frozen=True)
class Measured:
    """What is known by measurement; it goes before what the materials say. Shares are of what was not added."""

    dry_frac: Spread | None = None  # of the fresh mass
    protein_dry_frac: Spread | None = None
    sugar_dry_frac: Spread | None = None
    start_ph: Spread | None = None
    lactic_log10: Spread | None = None  # of all lactic bacteria, in a gram, at the start


@dataclass(frozen=True)
class Layer:
    """One layer: what was thrown in at once."""

    portions: tuple[Portion, ...]
    added: tuple[Portion, ...] = ()  # salt, sugar, water, a dry stuff
    bran: Portion | None = None  # inoculated
    laid_d: float = 0.0  # after the first layer
    bran_log10: Spread | None = None  # its live count in a gram; as usual where nothing is known
    culture_log10: Spread | None = None  # live culture added in another way, in a gram of the layer
    piece_mm: float | None = None  # where it was cut finer than its materials usually are
    is_cooked: bool | None = None  # where that is not as its materials say
    caddy_h: float = 0.0  # it lay in a caddy
    caddy_c: float = 20.0
    measured: Measured = Measured()

    @property
    def all_of_it(self) -> tuple[Portion, ...]:
        """Return what was thrown in, what was added to it, and its bran."""
        return (*self.portions, *self.added, *((self.bran,) if self.bran else ()))


@dataclass(frozen=True)
class Kept:
    """A vessel and what happens around it, day by day from the first layer."""

    volume_l: float
    floor_m2: float
    sump_l: float
    room_c: FloatArray  # one for each day
    opened_on: tuple[int, ...] = ()  # days on which the lid is lifted, beside those of a layer
    draws_every_d: int = 3  # liquid is drawn off; 0: never
    is_sealed: bool = True
    leak_l_per_d: float | None = None  # of air, where it is known
    wraps: float = 1.0  # times that the wall holds heat better than a bare one
    on_top: OnTop = "nothing"  # of what lies in it


@dataclass(frozen=True)
class Filling:
    """Layers in the order of their days, and the vessel that they lie in."""

    layers: tuple[Layer, ...]
    kept: Kept
