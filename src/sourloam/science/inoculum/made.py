"""One making as it was asked for: its recipe, its figures, its dates, what is on hand and what of it binds."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

from sourloam.base.figure import Figure
from sourloam.science.inoculum.bench import Bench, Milk, Start, Sugar
from sourloam.science.inoculum.calendar import Calendar
from sourloam.science.inoculum.carrier import Carrier
from sourloam.science.inoculum.chain import Recipe
from sourloam.science.inoculum.making import Kitchen, Known

MUCH_KG: Final = 25.0  # bran that no household uses in a year; judgement
EXAMPLE_KG: Final = 5.0
ON_HAND: Final = ("carrier_kg", "sugar_kg", "serum_l", "milk_l", "rice_wash_l")
NOTHING_BUT: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {  # amounts that a start has no use for
        "rice_wash": (),
        "rice_only": ("milk_l", "curd_kg"),
        "milk": ("rice_water_l", "rice_kg"),
        "serum": ("milk_l", "rice_water_l", "rice_kg", "curd_kg"),
        "heel": ("serum_l", "milk_l", "rice_water_l", "rice_kg", "curd_kg"),
    }
)


@dataclass(frozen=True)
class Part:
    """One carrier of a blend: its share of the mass, and how much of it is on hand."""

    carrier: Carrier
    share: float
    held_kg: float


@dataclass(frozen=True)
class Made:
    """All that is known of a making."""

    known: Known
    bench: Bench
    carrier: Carrier
    parts: tuple[Part, ...]
    blended_by: Figure | None  # the share of dry carrier that had to be blended in
    sugar: Sugar
    milk: Milk
    start: Start
    recipe: Recipe
    kitchen: Kitchen
    figures: Mapping[str, Figure]
    days: Mapping[str, Figure]
    calendar: Calendar
    is_late: bool  # begun today it is not dry in time
    held: Mapping[str, float]
    reaches: Mapping[str, float]  # bran that each thing on hand would do for
    binds: str
    is_forward: bool  # from what is on hand, and not to what is wanted
    ways: Mapping[str, Figure]  # days from each other start
    prices: Mapping[str, float]
    has_bran: bool  # in the bag today
    by: date | None
    today: date

    @property
    def batch_frac(self) -> float:
        """Return the part of the bran that is made at first, where what is on hand would do for far too much."""
        bran = self.figures["bran_kg"].value
        is_much = self.is_forward and bran > MUCH_KG and "carrier_kg" not in self.reaches
        return EXAMPLE_KG / bran if is_much else 1.0
