"""The one interface of all places: what each can take on a date, what that does, when it is free."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType
from typing import Final, Protocol

from sourloam.base.checks import within
from sourloam.base.days import MONTHS
from sourloam.base.ranges import Range
from sourloam.science.batch.product import Product, Soundness
from sourloam.science.climate.climate import Climate

TEN_MONTHS_D: Final = 304  # d; from that far off a day is said with its year
UNSOUND: Final[Mapping[Soundness, str]] = MappingProxyType(
    {"failed": "it failed", "unfinished": "it is not ready yet", "unknown": "nobody knows whether it is sound"}
)
CRUMB_KG: Final = 1e-6  # a milligram: less than that is nothing; a limit of the arithmetic, not of nature


@dataclass(frozen=True)
class Receipt:
    """Something that a place was given."""

    on: date
    batch: str
    mass_kg: float
    volume_l: float  # room that it took up there, with what was mixed in
    nitrogen_g: float
    usable_on: date  # planted, turned, harvested or handed on from then
    added_l: float = 0.0  # browns that were mixed in


@dataclass(frozen=True)
class PlaceState:
    """What a place has been given so far, oldest first; everything else about it follows from that."""

    place: str
    receipts: tuple[Receipt, ...] = ()

    def given(self, receipt: Receipt) -> "PlaceState":
        """Return the state with one receipt more."""
        return replace(self, receipts=(*self.receipts, receipt))

    def since(self, first: date) -> tuple[Receipt, ...]:
        """Return the receipts from `first` on."""
        return tuple(each for each in self.receipts if each.on >= first)


@dataclass(frozen=True)
class Offer:
    """What a place takes of a product on a date, and which limit set that."""

    place: str
    takes_kg: float
    limit: str  # the limit that binds, in words: "nitrogen of the year", "closed until 15 Mar"
    effect: str  # what the product does there, in words
    wait_d: float = 0.0  # days from then until the place may be used again
    cautions: tuple[str, ...] = ()  # keys of cautions that arise here


@dataclass(frozen=True)
class Effect:
    """What placing a product did."""

    mass_kg: float
    nitrogen_g: float
    usable_on: date
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Limit:
    """The most that one rule lets a place take, and the rule in words."""

    kg: float
    words: str


def nothing(place: str, why: str) -> Offer:
    """Return the offer of a place that takes nothing."""
    return Offer(place, 0.0, why, "")


def tightest(product: Product, *limits: Limit) -> Limit:
    """Return the limit that binds; without one, all of the product goes."""
    least = min(limits, key=lambda each: each.kg)
    return least if least.kg < product.mass_kg else Limit(product.mass_kg, "all of it")


def part_given(product: Product, mass_kg: float) -> Product:
    """Return the part of a product that a place was given.

    Raises
    ------
    OutOfRange
        If it is nothing, or more than there is.
    """
    most = Range(CRUMB_KG, max(product.mass_kg, CRUMB_KG), "kg")
    rounded = min(mass_kg, product.mass_kg) if mass_kg <= product.mass_kg * (1.0 + 1e-9) else mass_kg
    within(rounded, most, name="mass_kg", why=f"that is what there is of {product.batch}.")
    return product.part(rounded)


def spoken(day: date, on: date) -> str:
    """Return a day as it is said on another: 15 Mar; with its year where that lies more than ten months off."""
    year = f" {day.year}" if abs((day - on).days) > TEN_MONTHS_D else ""
    return f"{day.day} {MONTHS[day.month - 1]}{year}"


def rough(value: float) -> str:
    """Return a number as it is said where two digits do: 170, 39, 4.7."""
    return f"{float(f'{value:.2g}'):g}"


class Place(Protocol):
    """A bed, pile, worm bin, soil tub or taker, with the numbers that it goes by."""

    @property
    def id(self) -> str:
        """Return the id that the site file gave it."""

    def can_take(self, state: PlaceState, product: Product, on: date, *, climate: Climate) -> Offer:
        """Say how much of `product` it takes on that day."""

    def after(
        self, state: PlaceState, product: Product, mass_kg: float, on: date, *, climate: Climate
    ) -> tuple[PlaceState, Effect]:
        """Return the state after `mass_kg` of `product` went in, and what that did."""

    def free_on(self, state: PlaceState, *, climate: Climate) -> date:
        """Return the first day on which nothing that it was given stands in the way."""
