"""A pile as a place: what room, browns and sourness let it take, and when it is mature."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from sourloam.base.days import after
from sourloam.science.batch.product import Product
from sourloam.science.climate.climate import Climate
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
    tightest,
)
from sourloam.science.places.pile.blend import Blend, browns_kg
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.pile import Pile

SPORES: Final = "aspergillus-and-other-mould-spores"
DUG_UP: Final = "rodents-foxes-flies"
ANIMALS: Final = "animals-sharing-a-home-composting-site"
MONTH_D: Final = 365.25 / 12.0  # d; a twelfth of a year of the calendar
LEAST_KG: Final = 0.05  # kg; for less room than a spoonful nobody opens a pile


@dataclass(frozen=True)
class PilePlace:
    """A pile with the numbers that it goes by."""

    pile: Pile
    p: PileParameters

    @property
    def id(self) -> str:
        """Return the id of the pile."""
        return self.pile.id

    def can_take(self, state: PlaceState, product: Product, on: date, *, climate: Climate) -> Offer:
        """Say how much it takes: within its room, its browns, and the part of it that may be sour."""
        holds_l = self.holds_l(state, on)
        if product.state != "ready" and holds_l < self.p.heats_l.value:
            return nothing(self.id, f"{UNSOUND[product.state]}, and a pile of {holds_l:.0f} L does not heat")
        limit = tightest(product, *self._limits(state, product, on))
        if limit.kg < min(LEAST_KG, product.mass_kg):
            return nothing(self.id, limit.words)
        part = product.part(limit.kg)
        cautions = self._cautions(part)
        return Offer(self.id, limit.kg, limit.words, self._effect(state, part, on), 0.0, cautions)

    def after(
        self,
        state: PlaceState,
        product: Product,
        mass_kg: float,
        on: date,
        *,
        climate: Climate,
    ) -> tuple[PlaceState, Effect]:
        """Return the pile after `mass_kg` went in, with browns as far as there are any.

        Raises
        ------
        OutOfRange
            If that is nothing, or more than there is.
        """
        part = part_given(product, mass_kg)
        browns = min(self._blend(state, product, on).browns_l(part.mass_kg), self.browns_left_l(state, on))
        takes_up = self.p.blend_frac.value * (part.volume_l + browns)
        mature = after(on, self.p.mature_d.value)
        receipt = Receipt(on, part.batch, part.mass_kg, takes_up, part.nitrogen_g, mature, added_l=browns)
        return state.given(receipt), Effect(part.mass_kg, part.nitrogen_g, mature, self._cautions(part))

    def free_on(self, state: PlaceState, *, climate: Climate) -> date:
        """Return the first day on which as much as it got last would go in again.

        One that got nothing has always been free: the earliest date there is.
        """
        if not state.receipts:
            return date.min
        last = max(reversed(state.receipts), key=lambda each: each.on)
        wanted = min(last.volume_l, self.pile.volume_l / 2.0) if last.mass_kg else 0.0
        day = last.on
        while self.holds_l(state, day) > self.pile.volume_l - wanted:
            day += timedelta(days=1)
        return day

    def holds_l(self, state: PlaceState, on: date) -> float:
        """Return what lies in it on a day: everything shrinks, and what is mature is taken out."""
        return sum(each.volume_l * self._left_frac(each, on) for each in state.receipts)

    def holds_kg(self, state: PlaceState, on: date) -> float:
        """Return what that weighs; what was in it before the plan is weighed by its volume."""
        return sum(self._weighed_kg(each) * self._left_frac(each, on) for each in state.receipts)

    def browns_left_l(self, state: PlaceState, on: date) -> float:
        """Return the browns that lie ready on a day."""
        since = state.receipts[0].on if state.receipts else on
        came = self.pile.browns_l + self.pile.browns_l_per_d * max((on - since).days, 0)
        return max(came - sum(each.added_l for each in state.receipts), 0.0)

    def _left_frac(self, receipt: Receipt, on: date) -> float:
        age_d = (on - receipt.on).days
        if not 0 <= age_d < self.p.mature_d.value:
            return 0.0
        return float(0.5 ** (age_d / self.p.half_volume_d.value))

    def _weighed_kg(self, receipt: Receipt) -> float:
        if not receipt.batch:
            return receipt.volume_l * self.p.pile_kg_per_l.value
        return receipt.mass_kg + receipt.added_l * self.p.browns_kg_per_l.value

    def _blend(self, state: PlaceState, product: Product, on: date) -> Blend:
        """Return what a product needs beside it on a day."""
        sour = sum(each.mass_kg for each in state.receipts if 0 <= (on - each.on).days < self.p.sour_d.value)
        times = 1.0 / self.p.sour_share_frac.value
        return Blend(
            per_kg=browns_kg(product, self.p) / product.mass_kg,
            thinning_per_kg=times - 1.0,
            thinning_kg=times * sour - self.holds_kg(state, on),
            browns_kg_per_l=self.p.browns_kg_per_l.value,
        )

    def _limits(self, state: PlaceState, product: Product, on: date) -> tuple[Limit, ...]:
        """Return the limits of room, browns and sourness, each in kilograms of product."""
        blend = self._blend(state, product, on)
        left_l = self.browns_left_l(state, on)
        free_l = max(self.pile.volume_l - self.holds_l(state, on), 0.0) / self.p.blend_frac.value
        own_l = product.volume_l / product.mass_kg
        return (
            Limit(blend.most_kg(left_l, 0.0, is_thinning=False), "browns to mix in"),
            Limit(blend.most_kg(left_l, 0.0, is_thinning=True), "browns, since at most a third of a pile may be sour"),
            Limit(blend.most_kg(free_l, own_l, is_thinning=False), "room in the pile"),
            Limit(blend.most_kg(free_l, own_l, is_thinning=True), "room in the pile"),
        )

    def _effect(self, state: PlaceState, part: Product, on: date) -> str:
        """Say what is mixed in, and when it is mature."""
        litres = self._blend(state, part, on).browns_l(part.mass_kg)
        browns = litres * self.p.browns_kg_per_l.value
        water = part.mass_kg * part.moisture_wb_frac + browns * self.p.browns_moisture_wb_frac.value
        wetted = " and water" if water < self.p.moisture_least_frac.value * (part.mass_kg + browns) else ""
        beside = f"{rough(litres)} L of browns{wetted}" if browns > 0.0 else "nothing else"
        return f"rots with {beside}; mature after about {self.p.mature_d.value / MONTH_D:.0f} months"

    def _cautions(self, part: Product) -> tuple[str, ...]:
        """Return the cautions that arise where a part goes into a pile."""
        return (SPORES, DUG_UP, ANIMALS) if part.animal_matter else (SPORES,)
