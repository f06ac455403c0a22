"""What can be observed of a vessel: each kind of reading as a value, with the day, what was typed, and a mark."""

from dataclasses import dataclass
from enum import StrEnum


class Where(StrEnum):
    """What a strip or a thermometer touched."""

    LEACHATE = "leachate"
    TOP = "top"
    CORE = "core"
    ROOM = "room"


@dataclass(frozen=True, kw_only=True)
class Reading:
    """Something observed on a day after the first layer."""

    day: float
    typed: str = ""
    mark: str = ""  # why it is unlikely, where it is; it is kept as written

    @property
    def topic(self) -> str:
        """Return what it is a reading of, in one word."""
        return type(self).__name__.lower()


@dataclass(frozen=True, kw_only=True)
class Strip(Reading):
    """A pH as a strip or a meter shows it; all strips of a box are off by the same."""

    ph: float
    where: Where = Where.LEACHATE
    box: str = ""
    is_meter: bool = False


@dataclass(frozen=True, kw_only=True)
class Fizz(Reading):
    """Whether baking soda fizzes on it: it does so under a pH of about 5."""

    fizzes: bool
    where: Where = Where.CORE


@dataclass(frozen=True, kw_only=True)
class Thermometer(Reading):
    """How warm it is, in the core or beside the vessel."""

    celsius: float
    where: Where = Where.CORE


@dataclass(frozen=True, kw_only=True)
class Seen(Reading):
    """A sign of the table of signs: a smell, a growth, the look of lid, liquid or scraps, larvae."""

    sign: str
    kind: str
    where: Where | None = None  # of a smell: in the liquid, at the top, in the core; where somebody looked

    @property
    def topic(self) -> str:
        """Return what it is a sign of."""
        return self.kind


@dataclass(frozen=True, kw_only=True)
class Liquid(Reading):
    """Liquid that was drawn off since the last such reading, or since the first layer."""

    litres: float

    @property
    def topic(self) -> str:
        """Return what it is a reading of."""
        return "liquid"


@dataclass(frozen=True, kw_only=True)
class Weight(Reading):
    """What the scraps in the vessel weigh, without it."""

    mass_kg: float


@dataclass(frozen=True, kw_only=True)
class Caddy(Reading):
    """For how long scraps lay in a caddy before they went in."""

    caddy_d: float


@dataclass(frozen=True, kw_only=True)
class Bran(Reading):
    """That no bran went in, or that it was old: a fact, not an observation."""

    was_none: bool
