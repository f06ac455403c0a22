"""What a material is made of, per kilogram as thrown in."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from sourloam.base.checks import within
from sourloam.base.errors import BalanceError
from sourloam.base.ranges import Range
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.science.materials.elements import carbon_frac, carbon_to_nitrogen

SHARE: Final = Range(0.0, 1.0)
ACIDS: Final = ("citric", "malic", "lactic", "acetic")
CONSTITUENTS: Final = ("water", "protein", "fat", "sugars", "starch", "fibre", "lignin", *ACIDS, "ash")
MINERALS: Final = ("sodium", "potassium", "chlorine", "phosphorus", "calcium", "magnesium")
CLOSES_WITHIN: Final = 1e-6
LIQUID: Final = "liquid"
ANIMAL_FRAC: Final = MappingProxyType(
    {"dish": 0.12, "liquid": 0.12, "bone": 0.3, "mineral": 0.05}  # of what holds some; all of other kinds [-] judgement
)


class Rule(StrEnum):
    """Whether a material goes in."""

    YES = "yes"
    PREPARE = "prepare"
    A_LITTLE = "a-little"
    NO = "no"


class Method(StrEnum):
    """How a group of values was obtained."""

    MEASURED = "measured"  # of this very material
    RELATIVE = "relative"  # another part, or another food, stands for it
    RULE = "rule"  # from its class, from a handbook's nitrogen and moisture, from a law, or from a mixture


class Group(StrEnum):
    """Values of a material that share their ground."""

    WATER = "water"
    PROXIMATE = "proximate"  # protein, fat, ash
    CARBOHYDRATE = "carbohydrate"  # sugars, starch, fibre, lignin
    MINERAL = "mineral"
    ACID = "acid"  # start pH and the organic acids
    BUFFERING = "buffering"
    ALKALI = "alkali"  # of shells, lime and ash
    PACKING = "packing"  # densities, water held under pressure, size of a piece
    PIECE = "piece"  # mass of one
    FLORA = "flora"  # what lives on it

    @property
    def words(self) -> str:
        """Return what a reader would call it."""
        return _GROUP_WORDS[self]


_GROUP_WORDS: Final = MappingProxyType(
    {
        Group.WATER: "water",
        Group.PROXIMATE: "protein, fat, ash",
        Group.CARBOHYDRATE: "sugars, starch, fibre",
        Group.MINERAL: "salts and minerals",
        Group.ACID: "start pH and acids",
        Group.BUFFERING: "buffering",
        Group.ALKALI: "lime",
        Group.PACKING: "density and pressing",
        Group.PIECE: "mass of a piece",
        Group.FLORA: "what lives on it",
    }
)


class Persists(StrEnum):
    """How long a material stays to be seen after it was dug in."""

    WEEKS = "weeks"
    MONTHS = "months"
    A_SEASON = "a season"
    YEARS = "years"
    FOR_GOOD = "for good"


@dataclass(frozen=True)
class Composition:
    """Shares of the mass as thrown in; water, ash and all between make up the whole.

    Raises
    ------
    OutOfRange
        If a share is outside 0 to 1.
    BalanceError
        If the constituents do not add up to one.
    """

    water_wb_frac: float
    protein_wb_frac: float
    fat_wb_frac: float
    sugars_wb_frac: float
    starch_wb_frac: float
    fibre_wb_frac: float
    lignin_wb_frac: float
    citric_wb_frac: float
    malic_wb_frac: float
    lactic_wb_frac: float
    acetic_wb_frac: float
    ash_wb_frac: float
    nitrogen_wb_frac: float  # held in the protein, which has its own factor in each food
    sodium_wb_frac: float
    potassium_wb_frac: float
    chlorine_wb_frac: float
    phosphorus_wb_frac: float
    calcium_wb_frac: float
    magnesium_wb_frac: float

    def __post_init__(self) -> None:
        if not all(0.0 <= getattr(self, each.name) <= 1.0 for each in fields(self)):  # the full check is slower
            for each in fields(self):
                within(getattr(self, each.name), SHARE, name=each.name, why="it is a share of the mass.")
        if abs(sum(self.constituents().values()) - 1.0) > CLOSES_WITHIN:
            terms = (*self.constituents().items(), ("the whole", -1.0))
            raise BalanceError("a composition", terms, "kg/kg")

    def constituents(self) -> dict[str, float]:
        """Return the shares that make up the whole, by name."""
        return {name: getattr(self, f"{name}_wb_frac") for name in CONSTITUENTS}

    def organic(self) -> dict[str, float]:
        """Return the shares that burn, by name."""
        return {name: share for name, share in self.constituents().items() if name not in {"water", "ash"}}

    @property
    def dry_wb_frac(self) -> float:
        """Return the dry matter."""
        return 1.0 - self.water_wb_frac

    @property
    def carbon_wb_frac(self) -> float:
        """Return the carbon that something can feed on, from the constituents."""
        return float(carbon_frac(**self.organic()))

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
    """Where a group of values is from."""

    source: str  # key in the list of sources
    place: str
    basis: Basis


@dataclass(frozen=True)
class Ground:
    """What a group of values of one material rests on."""

    provenance: Provenance
    method: Method
    spread_frac: float  # half of the 90 % interval, against the value


@dataclass(frozen=True)
class Alkali:
    """Lime and the like: acid that it takes up in the end, and the share of that in a fortnight."""

    eq_per_kg: float
    reacts_frac: Spread


@dataclass(frozen=True)
class Flora:
    """What lives on a material when it is thrown in, as powers of ten in a gram."""

    lactic_log10: float
    enteric_log10: float
    yeast_log10: float
    spore_log10: float  # of clostridia


@dataclass(frozen=True)
class Material:
    """A kind of scrap, carrier or amendment, with its composition."""

    id: str
    name: str
    synonyms: tuple[str, ...]
    kind: str  # what people call the group
    family: str  # the class whose values stand in where nothing better is known
    animal: bool  # holds meat, fish, egg or dairy
    rule: Rule
    reason: str
    preparation: str
    at_most_frac: float  # of what goes in, by mass; 1 where there is no limit
    is_barred_by_strict: bool  # by the stricter of published lists
    persists: Persists
    composition: Composition
    water_low_wb_frac: float  # 90 % interval
    water_high_wb_frac: float
    ph: Spread
    buffering_meq_per_kg_dry: float | None  # titrated between pH 4 and 6; None where a law must do
    alkali: Alkali | None
    loose_kg_per_l: float  # as it lies in a caddy
    pressed_kg_per_l: float  # as it is pressed by hand into a vessel
    held_kg_per_kg_dry: float  # water that stays in it under the weight of a vessel
    piece_mm: float
    piece_kg: float | None
    flora: Flora
    grounds: Mapping[Group, Ground]
    note: str = ""  # how the composition was made

    @property
    def animal_frac(self) -> float:
        """Return how much of it is meat, fish, egg or dairy, which rots."""
        return ANIMAL_FRAC.get(self.kind, 1.0) if self.animal else 0.0

    @property
    def is_liquid(self) -> bool:
        """Whether it pours."""
        return self.kind == LIQUID

    def __hash__(self) -> int:
        return hash(self.id)

    def __str__(self) -> str:
        return self.name
