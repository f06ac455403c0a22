"""What a material is made of, per kilogram as thrown in."""

from dataclasses import dataclass, fields
from enum import StrEnum
from typing import Final

from sourloam.base.checks import within
from sourloam.base.errors import BalanceError
from sourloam.base.ranges import Range
from sourloam.base.source import Basis
from sourloam.science.materials.elements import carbon_frac, carbon_to_nitrogen

SHARE: Final = Range(0.0, 1.0)
CONSTITUENTS: Final = ("water", "protein", "fat", "sugars", "starch", "fibre", "lignin", "acids", "ash")
CLOSES_WITHIN: Final = 1e-6


class Rule(StrEnum):
    """Whether a material goes in."""

    YES = "yes"
    PREPARE = "prepare"
    A_LITTLE = "a-little"
    NO = "no"


class Method(StrEnum):
    """How a composition was obtained."""

    MEASURED = "measured"  # the table holds this very material
    RELATIVE = "relative"  # another part, or another food, stands for it
    RULE = "rule"  # from a rule: nitrogen, C:N and moisture of a handbook, or a mixture of materials


@dataclass(frozen=True)
class Composition:
    """Shares of the mass as thrown in; the first nine make up the whole.

    Raises
    ------
    OutOfRange
        If a share is outside 0 to 1.
    BalanceError
        If the nine constituents do not add up to one.
    """

    water_wb_frac: float
    protein_wb_frac: float
    fat_wb_frac: float
    sugars_wb_frac: float
    starch_wb_frac: float
    fibre_wb_frac: float
    lignin_wb_frac: float
    acids_wb_frac: float
    ash_wb_frac: float
    nitrogen_wb_frac: float  # held in the protein, which has its own factor in each food
    sodium_wb_frac: float
    potassium_wb_frac: float
    phosphorus_wb_frac: float
    calcium_wb_frac: float

    def __post_init__(self) -> None:
        for each in fields(self):
            within(getattr(self, each.name), SHARE, name=each.name, why="it is a share of the mass.")
        if abs(sum(self.constituents().values()) - 1.0) > CLOSES_WITHIN:
            terms = (*self.constituents().items(), ("the whole", -1.0))
            raise BalanceError("a composition", terms, "kg/kg")

    def constituents(self) -> dict[str, float]:
        """Return the nine shares that make up the whole, by name."""
        return {name: getattr(self, f"{name}_wb_frac") for name in CONSTITUENTS}

    @property
    def dry_wb_frac(self) -> float:
        """Return the dry matter."""
        return 1.0 - self.water_wb_frac

    @property
    def carbon_wb_frac(self) -> float:
        """Return the carbon that something can feed on, from the constituents."""
        bound = {name: share for name, share in self.constituents().items() if name not in {"water", "ash"}}
        return float(carbon_frac(**bound))

    @property
    def carbon_db_frac(self) -> float:
        """Return the carbon of the dry matter."""
        return self.carbon_wb_frac / self.dry_wb_frac

    @property
    def nitrogen_db_frac(self) -> float:
        """Return the nitrogen of the dry matter."""
        return self.nitrogen_wb_frac / self.dry_wb_frac

    @property
    def carbon_to_nitrogen(self) -> float:
        """Return C:N by mass; infinite where there is no nitrogen."""
        return float(carbon_to_nitrogen(self.carbon_wb_frac, self.nitrogen_wb_frac))


@dataclass(frozen=True)
class Provenance:
    """Where one value of a material is from."""

    source: str  # key in the list of sources
    place: str
    basis: Basis


@dataclass(frozen=True)
class Material:
    """A kind of scrap, carrier or amendment, with its composition."""

    id: str
    name: str
    synonyms: tuple[str, ...]
    kind: str
    animal: bool  # holds meat, fish, egg or dairy
    rule: Rule
    reason: str
    preparation: str
    at_most_frac: float  # of what goes in, by mass; 1 where there is no limit
    composition: Composition
    water_low_wb_frac: float  # 90 % interval
    water_high_wb_frac: float
    spread_frac: float  # half of the 90 % interval of each dry constituent, against its value
    loose_kg_per_l: float  # as it lies in a caddy
    pressed_kg_per_l: float  # as it is pressed by hand into a vessel
    provenance: Provenance
    density_provenance: Provenance
    method: Method
    note: str = ""  # how the composition was made

    def __hash__(self) -> int:
        return hash(self.id)

    def __str__(self) -> str:
        return self.name
