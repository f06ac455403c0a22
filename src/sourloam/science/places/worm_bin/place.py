"""A worm bin as a place: a ration each week, smaller at first, none in the cold or the heat."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from sourloam.base import days
from sourloam.science.batch.product import Product
from sourloam.science.climate.climate import Climate
from sourloam.science.climate.rooms import room_c
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
from sourloam.science.places.worm_bin.lime import shell_g
from sourloam.science.places.worm_bin.parameters import WormBinParameters
from sourloam.science.places.worm_bin.ration import appetite_frac, ration_kg_per_d, stepped_up_frac
from sourloam.science.places.worm_bin.worm_bin import WormBin

HEAT: Final = "worm-heat-and-ammonia"
DUG_UP: Final = "rodents-foxes-flies"
A_SPOONFUL_KG: Final = 0.005  # kg; a smaller rest of a ration is not worth opening the bin


@dataclass(frozen=True)
class WormBinPlace:
    """A worm bin with the numbers that it goes by."""

    worm_bin: WormBin
    p: WormBinParameters

    @property
    def id(self) -> str:
        """Return the id of the worm bin."""
        return self.worm_bin.id

    def can_take(self, state: PlaceState, product: Product, on: date, *, climate: Climate) -> Offer:
        """Say how much the worms get on that day: what is left of the ration of the week, in a thin layer."""
        if product.state != "ready":
            return nothing(self.id, f"{UNSOUND[product.state]}, and worms get only what is sound")
        warm_c = room_c(self.worm_bin.stands, on, climate)
        if not self.p.least_c.value <= warm_c <= self.p.most_c.value:
            return nothing(
                self.id, f"too {'cold' if warm_c < self.p.least_c.value else 'hot'} for the worms: {warm_c:.0f} °C"
            )
        limit = tightest(product, *self._limits(state, product, on, warm_c))
        if limit.kg < min(A_SPOONFUL_KG, product.mass_kg):
            return nothing(self.id, f"fed until {spoken(self.free_on(state, climate=climate), on)}")
        part = product.part(limit.kg)
        return Offer(
            self.id, limit.kg, limit.words, self._effect(part), self.p.feed_every_d.value, self._cautions(part)
        )

    def after(
        self,
        state: PlaceState,
        product: Product,
        mass_kg: float,
        on: date,
        *,
        climate: Climate,
    ) -> tuple[PlaceState, Effect]:
        """Return the bin after the worms got `mass_kg`.

        Raises
        ------
        OutOfRange
            If that is nothing, or more than there is.
        """
        part = part_given(product, mass_kg)
        eaten = days.after(on, self.p.feed_every_d.value)
        receipt = Receipt(on, part.batch, part.mass_kg, part.volume_l, part.nitrogen_g, eaten)
        return state.given(receipt), Effect(part.mass_kg, part.nitrogen_g, eaten, self._cautions(part))

    def free_on(self, state: PlaceState, *, climate: Climate) -> date:
        """Return the first day on which all that the worms got counts as eaten.

        One that got nothing has always been free: the earliest date there is.
        """
        return max((each.usable_on for each in state.receipts), default=date.min)

    def _limits(self, state: PlaceState, product: Product, on: date, warm_c: float) -> tuple[Limit, ...]:
        """Return the limits of the ration and of the layer, less what was given within the week."""
        p = self.p
        recent = state.since(on - timedelta(days=round(p.feed_every_d.value) - 1))
        stepped = self._stepped_up_frac(state, on)
        daily = float(
            ration_kg_per_d(self.worm_bin.worms_kg, p.eats_kg_per_kg_d.value, appetite_frac(warm_c, p.warmth))
        )
        ration = daily * p.feed_every_d.value * stepped - sum(each.mass_kg for each in recent)
        words = "ration of the week" if stepped >= 1.0 else f"stepping up: {100.0 * stepped:.0f} % of the ration"
        layer_l = 1000.0 * p.layer_m.value * self.worm_bin.area_m2 - sum(each.volume_l for each in recent)
        by_layer = product.mass_kg * layer_l / product.volume_l if product.volume_l > 0.0 else product.mass_kg
        return Limit(max(ration, 0.0), words), Limit(max(by_layer, 0.0), "a layer thin enough not to heat")

    def _stepped_up_frac(self, state: PlaceState, on: date) -> float:
        if self.worm_bin.is_accustomed:
            return 1.0
        first = min((each.on for each in state.receipts), default=on)
        return stepped_up_frac(max((on - first).days, 0), self.p.first_share_frac.value, self.p.step_d.value)

    def _effect(self, part: Product) -> str:
        """Say what goes with it."""
        p = self.p
        shell = shell_g(part.acid_mol, p.lime_share_frac.value, p.shell_carbonate_frac.value, p.shell_acts_frac.value)
        return f"eaten within a week, with about {rough(shell)} g of powdered eggshell against the acid"

    def _cautions(self, part: Product) -> tuple[str, ...]:
        """Return the cautions that arise where worms get a part."""
        return (HEAT, DUG_UP) if part.animal_matter else (HEAT,)
