"""A bed as a place: how much of a batch is dug in on a day, and when it may be planted."""

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final

from sourloam.base.days import YEAR_D, Span, after, daily
from sourloam.science.batch.product import Product
from sourloam.science.climate.climate import Climate
from sourloam.science.places.bed.bed import Bed
from sourloam.science.places.bed.calendar import closed_until, crop_standing, planted_within
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.ground.acidity import acid_shift_ph, soil_buffer_mol_per_m2
from sourloam.science.places.ground.nitrogen import given_in_a_year_g, next_room_on, room_for_nitrogen_g
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
    rough,
    spoken,
    tightest,
)

NOT_SANITISED: Final = "fermented-scraps-are-not-sanitised"
NEAR_ROOTS: Final = "plants-of-concern"
LIKE_MANURE: Final = "raw-manure-on-food-crops"
DUG_UP: Final = "rodents-foxes-flies"
TOO_MUCH: Final = "over-application-of-nitrogen"
A_GRAM: Final = 1.0  # g; less room for nitrogen than that counts as none


@dataclass(frozen=True)
class BedPlace:
    """A bed with the numbers that it goes by."""

    bed: Bed
    p: BedParameters
    closed: tuple[Span, ...] = ()  # when no ground of the site can be dug, beside the bed's own times

    @property
    def id(self) -> str:
        """Return the id of the bed."""
        return self.bed.id

    def can_take(self, state: PlaceState, product: Product, on: date, *, climate: Climate) -> Offer:
        """Say how much is dug in on that day; nothing where a crop would come before the rest is over."""
        refusal = self._refusal(state, product, on, climate)
        if refusal:
            return nothing(self.id, refusal)
        free = self._rested_on(on, climate)
        crop = planted_within(self.bed.plantings, on, free)
        if crop:
            return nothing(self.id, f"{crop.crop} goes in on {spoken(crop.on, on)}, before the rest is over")
        limit = self._limit(state, product, on)
        part = product.part(limit.kg)
        return Offer(
            self.id,
            limit.kg,
            limit.words,
            self._effect(part, on, free),
            (free - on).days,
            self._cautions(state, part, on),
        )

    def after(
        self, state: PlaceState, product: Product, mass_kg: float, on: date, *, climate: Climate
    ) -> tuple[PlaceState, Effect]:
        """Return the bed after `mass_kg` was dug in; what was done is booked, whether it was offered or not.

        Raises
        ------
        OutOfRange
            If that is nothing, or more than there is.
        """
        part = part_given(product, mass_kg)
        free = self._rested_on(on, climate)
        receipt = Receipt(on, part.batch, part.mass_kg, part.volume_l, part.nitrogen_g, free)
        return state.given(receipt), Effect(part.mass_kg, part.nitrogen_g, free, self._cautions(state, part, on))

    def free_on(self, state: PlaceState, *, climate: Climate) -> date:
        """Return the first open day on which neither rest nor nitrogen stands in the way.

        A bed that got nothing has always been free: the earliest date there is.
        """
        if not state.receipts:
            return date.min
        day = max(each.on for each in state.receipts)
        if not self._has_room(state, day):
            day = self._room_again_on(state, day)
        day = next_room_on(state, day, self.bed.area_m2, self.p.nitrogen_cap_g_per_m2.value)
        return next((each for each in daily(day, YEAR_D) if not self._shut(each, climate)), day)

    def _refusal(self, state: PlaceState, product: Product, on: date, climate: Climate) -> str:
        """Return why nothing is dug in, or an empty text."""
        if self.bed.food and product.state != "ready":
            return f"{UNSOUND[product.state]}, and food grows here"
        shut = self._shut(on, climate)
        if shut:
            return shut
        standing = crop_standing(self.bed.plantings, on, self.p.crop_stands_d.value)
        if standing:
            return f"{standing[0].crop} stands here until {spoken(standing[1], on)}"
        if not self._has_room(state, on):
            return f"resting until {spoken(self._room_again_on(state, on), on)}"
        if room_for_nitrogen_g(state, on, self.bed.area_m2, self.p.nitrogen_cap_g_per_m2.value) < A_GRAM:
            return f"full for this year: {self.p.nitrogen_cap_g_per_m2.value:g} g of nitrogen on each square metre"
        return ""

    def _shut(self, on: date, climate: Climate) -> str:
        """Return why the ground cannot be dug on a day, or an empty text."""
        last = closed_until((*self.closed, *self.bed.closed), on)
        if last:
            return f"closed until {spoken(last, on)}"
        return "the ground is frozen" if climate.is_frozen(on) else ""

    def _has_room(self, state: PlaceState, on: date) -> bool:
        return self._free_kg(state, on) > 0.0

    def _room_again_on(self, state: PlaceState, on: date) -> date:
        """Return the first day after `on` on which some of the ground is rested."""
        ends = sorted(each.usable_on for each in state.receipts if each.usable_on > on)
        return next((each for each in ends if self._has_room(state, each)), on)

    def _free_kg(self, state: PlaceState, on: date) -> float:
        """Return what the ground that does not rest on a day can hold."""
        resting = sum(each.mass_kg for each in state.receipts if each.on <= on < each.usable_on)
        if self.bed.dug == "whole":
            return 0.0 if resting > 0.0 else self.bed.area_m2 * self.p.fits_kg_per_m2.value
        return max(self.bed.area_m2 * self.p.fits_kg_per_m2.value - resting, 0.0)

    def _limit(self, state: PlaceState, product: Product, on: date) -> Limit:
        room_g = room_for_nitrogen_g(state, on, self.bed.area_m2, self.p.nitrogen_cap_g_per_m2.value)
        by_nitrogen = product.mass_kg * room_g / product.nitrogen_g if product.nitrogen_g > 0.0 else product.mass_kg
        return tightest(
            product,
            Limit(by_nitrogen, "nitrogen of the year"),
            Limit(self._free_kg(state, on), "room in the ground that does not rest"),
        )

    def _rested_on(self, on: date, climate: Climate) -> date:
        by_warmth = _rested_on(on, climate, self.p.rest_depth_m.value, self.p.rest)
        return max(by_warmth, after(on, self.p.rest_least_d.value))

    def _effect(self, part: Product, on: date, free: date) -> str:
        """Say what it does to the soil."""
        buffer = soil_buffer_mol_per_m2(
            self.p.lime_mg_per_kg(self.bed.texture).value, self.p.soil_kg_per_m3.value, self.p.mixed_m.value
        )
        shift = float(acid_shift_ph(part.acid_mol, self.bed.area_m2, buffer))
        sour = f"; turns the soil sourer by {shift:.1f} pH at first" if shift >= 0.05 else ""
        nitrogen = part.nitrogen_g / self.bed.area_m2
        return f"{rough(nitrogen)} g of nitrogen on each square metre{sour}; may be planted from {spoken(free, on)}"

    def _cautions(self, state: PlaceState, part: Product, on: date) -> tuple[str, ...]:
        """Return the cautions that arise where a part is dug in."""
        given = (given_in_a_year_g(state, on) + part.nitrogen_g) / self.bed.area_m2
        arise = {
            NOT_SANITISED: self.bed.food,
            NEAR_ROOTS: True,
            LIKE_MANURE: self.bed.food and part.animal_matter,
            DUG_UP: part.animal_matter,
            TOO_MUCH: given > self.p.nitrogen_most_g_per_m2.value,
        }
        return tuple(key for key, does in arise.items() if does)


@lru_cache(maxsize=2048)  # a plan lives its year some thirty times, and asks for the same days in each
def _rested_on(on: date, climate: Climate, depth_m: float, rest: Rest) -> date:
    return rested_on(on, lambda day: climate.soil_c(day, depth_m), rest)
