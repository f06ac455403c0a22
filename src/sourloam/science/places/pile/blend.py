"""The browns that a batch needs in a pile: for moisture, for carbon, and so that not too much of the pile is sour."""

from typing import NamedTuple

from sourloam.science.batch.product import Product
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.recipe import second_for_carbon_kg, second_for_moisture_kg


class Blend(NamedTuple):
    """What goes in beside a kilogram of product; the greater of the two needs holds.

    Of the whole pile at most a share may be fresh and sour. With `sour` there
    already, a pile of mass `P` and `x` more of product that asks for browns of at
    least (sour + x) / share - P - x: so much for each kilogram, and so much
    whatever goes in.
    """

    per_kg: float  # for moisture and carbon
    thinning_per_kg: float
    thinning_kg: float  # below 0 where the pile itself thins what goes in
    browns_kg_per_l: float

    def browns_l(self, mass_kg: float) -> float:
        """Return the browns that go in with so much product."""
        thinning = self.thinning_per_kg * mass_kg + self.thinning_kg
        return max(self.per_kg * mass_kg, thinning, 0.0) / self.browns_kg_per_l

    def most_kg(self, litres: float, own_l_per_kg: float, *, is_thinning: bool) -> float:
        """Return the most product whose browns, and its own volume, go into so many litres, by one of the needs."""
        per_kg, fixed = (self.thinning_per_kg, self.thinning_kg) if is_thinning else (self.per_kg, 0.0)
        litres_per_kg = own_l_per_kg + per_kg / self.browns_kg_per_l
        if litres_per_kg <= 0.0:
            return float("inf")
        return max(litres - fixed / self.browns_kg_per_l, 0.0) / litres_per_kg


def browns_kg(product: Product, p: PileParameters) -> float:
    """Return the browns that a product needs, so that the blend is neither too wet nor short of carbon."""
    nitrogen = 1000.0 * (1.0 - p.browns_moisture_wb_frac.value) * p.browns_nitrogen_db_frac.value
    carbon = nitrogen * p.browns_carbon_to_nitrogen.value
    goal = p.carbon_to_nitrogen.value
    for_carbon, for_moisture = 0.0, 0.0
    if product.carbon_g < goal * product.nitrogen_g:
        for_carbon = float(second_for_carbon_kg(product.carbon_g, product.nitrogen_g, carbon, nitrogen, goal=goal))
    if product.moisture_wb_frac > p.moisture_most_frac.value:
        wet = (product.mass_kg, product.moisture_wb_frac)
        for_moisture = float(second_for_moisture_kg(*wet, p.browns_moisture_wb_frac.value, p.moisture_most_frac.value))
    return max(for_carbon, for_moisture)
