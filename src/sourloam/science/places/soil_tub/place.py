"""A soil tub as a place: one part of product to some parts of soil, then a rest, then it is free again."""

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final

from sourloam.base.figure import law
from sourloam.science.batch.product import Product
from sourloam.science.climate.climate import Climate
from sourloam.science.climate.rooms import room_c
from sourloam.science.places.ground.rest import Rest, rested_on
from sourloam.science.places.offer import (
    UNSOUND,
    Effect,
    Limit,
    Offer,
    PlaceState,
    Receipt,
    nothing,
    part_given,
    spoken,
    tightest,
)
from sourloam.science.places.soil_tub.parameters import SoilTubParameters
from sourloam.science.places.soil_tub.soil_tub import SoilTub

NOT_SANITISED: Final = "fermented-scraps-are-not-sanitised"
BREATHED_IN: Final = "legionella-longbeachae-in-composts-and-potting-mixes"
FREEZES_C: Final = 0.0  # °C; where water freezes, by which the scale is made


@law(
    "volume of the tub ÷ (1 + soil to one part of product)",
    unit="L",
    source="practice",
    place="one part to two or three of soil",
)
def tub_room_l(volume_l: float, soil_per_product: float) -> float:
    """Return the product that goes into a tub at once, the rest of it being soil."""
    return volume_l / (1.0 + soil_per_product)


@dataclass(frozen=True)
class SoilTubPlace:
    """A soil tub with the numbers that it goes by."""

    soil_tub: SoilTub
    p: SoilTubParameters

    @property
    def id(self) -> str:
        """Return the id of the soil tub."""
        return self.soil_tub.id

    def can_take(self, state: PlaceState, product: Product, on: date, *, climate: Climate) -> Offer:
        """Say how much goes in: a tub is filled once, and then rests before it is emptied and free again."""
        if product.state != "ready":
            return nothing(self.id, f"{UNSOUND[product.state]}, and a tub gives soil for food")
        free = self.free_on(state, climate=climate)
        if on < free:
            return nothing(self.id, f"resting until {spoken(free, on)}")
        if room_c(self.soil_tub.stands, on, climate) < FREEZES_C:
            return nothing(self.id, "its soil is frozen")
        limit = tightest(product, Limit(self._room_kg(product), "room in the tub"))
        usable = self._rested_on(on, climate)
        effect = f"becomes soil for a bed or pots by {spoken(usable, on)}"
        return Offer(self.id, limit.kg, limit.words, effect, (usable - on).days, self._cautions())

    def after(
        self, state: PlaceState, product: Product, mass_kg: float, on: date, *, climate: Climate
    ) -> tuple[PlaceState, Effect]:
        """Return the tub after `mass_kg` was mixed in.

        Raises
        ------
        OutOfRange
            If that is nothing, or more than there is.
        """
        part = part_given(product, mass_kg)
        usable = self._rested_on(on, climate)
        receipt = Receipt(on, part.batch, part.mass_kg, part.volume_l, part.nitrogen_g, usable)
        return state.given(receipt), Effect(part.mass_kg, part.nitrogen_g, usable, self._cautions())

    def free_on(self, state: PlaceState, *, climate: Climate) -> date:
        """Return the first day after its rest, on which it is emptied.

        One that got nothing has always been free: the earliest date there is.
        """
        return max((each.usable_on for each in state.receipts), default=date.min)

    def _room_kg(self, product: Product) -> float:
        if product.volume_l <= 0.0:
            return product.mass_kg
        return product.mass_kg * tub_room_l(self.soil_tub.volume_l, self.p.soil_per_product.value) / product.volume_l

    def _rested_on(self, on: date, climate: Climate) -> date:
        return _rested_on(on, climate, self.soil_tub.stands, self.p.rest)

    def _cautions(self) -> tuple[str, ...]:
        """Return the cautions that arise where a batch becomes soil."""
        return (NOT_SANITISED, BREATHED_IN)


@lru_cache(maxsize=2048)  # a plan lives its year some thirty times, and asks for the same days in each
def _rested_on(on: date, climate: Climate, room: str, rest: Rest) -> date:
    return rested_on(on, lambda day: room_c(room, day, climate), rest)
