"""A published number, and how close to it a result must come."""

from dataclasses import dataclass
from typing import Final

# pearse1980, acetate buffers, read on a secondary page: ml of 0.1 N acid and of 0.1 N salt in 200, and their pH.
PEARSE_ACETATE: Final = (
    (185, 15, "3.6"),
    (164, 36, "4.0"),
    (126, 74, "4.4"),
    (102, 98, "4.6"),
    (59, 141, "5.0"),
    (19, 181, "5.6"),
)


@dataclass(frozen=True)
class Published:
    """One printed result that a test holds the code to.

    Make it from a source that the code was not made from, and never from memory.
    """

    source: str  # key in evidence/data/sources.toml
    where: str  # page, table, equation, or what it is about
    given: tuple[float, ...]
    want: str  # as printed, so that its precision is known
    why: str = "half a unit in the last printed place"
    within: float | None = None  # only for an independent measurement; then say why
    title: str = ""  # what is checked, for the table of outside checks; `where` if empty

    def __post_init__(self) -> None:
        """Refuse a tolerance of one's own without a reason."""
        if self.within is not None and self.why == Published.why:
            raise ValueError(f"{self}: `within` is given, so `why` must say what scatter the source itself states.")

    @property
    def tolerance(self) -> float:
        """How far a result may lie from `want`."""
        if self.within is not None:
            return self.within
        digits, _, power = self.want.lower().partition("e")
        return float(0.5 * 10.0 ** (int(power or 0) - len(digits.partition(".")[2])))

    @property
    def label(self) -> str:
        """The line of this check in the table of outside checks."""
        return self.title or self.where

    def __str__(self) -> str:
        """Name the check as pytest shows it."""
        return f"{self.source}[{self.where}]"
