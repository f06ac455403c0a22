"""Where a value is from, and how it was got."""

from dataclasses import dataclass
from enum import StrEnum


class Basis(StrEnum):
    """How a value came to be here; the weaker the basis, the wider its interval."""

    READ = "READ"  # somebody read it in the source
    DERIVED = "DERIVED"  # worked out from values that were read
    PRACTICE = "PRACTICE"  # common practice, no source
    JUDGEMENT = "JUDGEMENT"  # reasoned, no source
    MEMORY = "MEMORY"  # recalled, not looked up

    @property
    def words(self) -> str:
        """Return the basis as a reader would say it."""
        match self:
            case Basis.READ:
                return "read"
            case Basis.DERIVED:
                return "worked out from what was read"
            case Basis.PRACTICE:
                return "common practice, no source"
            case Basis.JUDGEMENT:
                return "judgement, no source"
            case Basis.MEMORY:
                return "recalled, not looked up"


@dataclass(frozen=True)
class Source:
    """A work that values rest on."""

    key: str
    text: str
    basis: Basis
    through: str = ""  # the work through which it was read, if it was not read itself
