"""What a drawing of a bed through the season shows."""

from dataclasses import dataclass
from datetime import date

from sourloam.base.numbers import FloatArray


@dataclass(frozen=True)
class BedSeason:
    """A bed day by day from digging in; each course is low, middle and high: (3, days + 1)."""

    first: date
    soil_c: FloatArray
    sourer_ph: FloatArray


@dataclass(frozen=True)
class RestMark:
    """From when something may come, in days after digging in."""

    words: str
    low_d: float
    middle_d: float
    high_d: float
