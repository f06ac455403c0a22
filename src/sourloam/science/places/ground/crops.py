"""What a crop asks of the ground."""

from dataclasses import dataclass
from enum import StrEnum

from sourloam.base.source import Basis


class NeedKind(StrEnum):
    """What the published number counts."""

    RATE = "recommended rate"  # what advisers tell a grower to give
    UPTAKE = "uptake"  # what the whole crop takes up, per mass of yield, at the yield of the table
    REMOVAL = "removal"  # what leaves the ground with the harvest


class Start(StrEnum):
    """How a crop goes in."""

    SOWN = "sown"
    PLANTED = "planted"


class Edible(StrEnum):
    """Where the part that is eaten grows. Judgement: what may be splashed counts as touching the soil."""

    ROOT = "root"  # in the soil, and it forks in ground that was freshly fed
    LOW = "low"  # touches the soil, or is splashed
    HIGH = "high"
    NONE = "none"  # nothing of it is eaten

    @property
    def touches_soil(self) -> bool:
        """Whether rules for manure count it as touching the soil."""
        return self in (Edible.ROOT, Edible.LOW)


@dataclass(frozen=True)
class Crop:
    """A crop, its nitrogen, the salt that it bears, and how it goes in."""

    id: str
    name: str
    synonyms: tuple[str, ...]
    nitrogen_g_per_m2: float
    nitrogen_low_g_per_m2: float  # 90 % interval
    nitrogen_high_g_per_m2: float
    need_kind: NeedKind
    fixes_nitrogen: bool
    salt_threshold_ds_per_m: float | None  # of the saturation extract; none where nobody printed one
    salt_slope_frac_per_ds_per_m: float | None  # yield lost beyond it
    start: Start
    edible: Edible
    source: str
    place: str
    basis: Basis
    salt_source: str = ""
    salt_basis: Basis | None = None
    note: str = ""
