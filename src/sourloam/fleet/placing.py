"""Which place a batch goes to: the stated rule of the plan, until an optimisation decides.

The worm bins get their ration first, since they eat little and often. What is
left goes whole to the first place in the keeper's order that takes it whole;
failing that it is shared out in that order. A place of last resort, such as the
waste bin, is asked only when no vessel is left to fill.
"""

from collections.abc import Iterator

from sourloam.base.days import weekday
from sourloam.fleet.life import Placing
from sourloam.fleet.world import Numbers, World
from sourloam.science.batch.product import Product
from sourloam.science.places.offer import Offer
from sourloam.site.situation import Situation, VesselState

LEAST_PART = 0.2  # of a batch: for less than that nobody digs, except to feed worms
CRUMBS_KG = 0.05


def place_batch(situation: Situation, state: VesselState, world: World) -> tuple[Situation, tuple[Placing, ...], str]:
    """Place as much of a ready batch as is taken; return also the limit that kept the rest, if any.

    On a day without time to dig the places are not asked, so such a day names no limit.
    """
    placings: list[Placing] = []
    limit = ""
    for place, takes_kg in _shares(situation, product_of(state, world), world):
        situation, placing = _give(situation, state, place, takes_kg, world=world)
        placings.append(placing)
        state = next(each for each in situation.vessels if each.vessel == state.vessel)
    if state.phase == "ready" and weekday(situation.on) in world.habits.work_days:
        limit = _binding_limit(situation, product_of(state, world), world)
    return situation, tuple(placings), limit


def product_of(state: VesselState, world: World) -> Product:
    """Return the solid that a vessel would give now."""
    return product_by(state, world.numbers)


def product_by(state: VesselState, numbers: Numbers) -> Product:
    """Return the solid that a vessel would give, by one member of all that is uncertain."""
    held = state.contents
    mass = state.mass_kg
    dry = held.dry_kg * (1.0 - numbers.dry_loss_frac)
    pressed = held.pressed_l / numbers.density_times
    return Product(
        batch=state.batch,
        mass_kg=mass,
        volume_l=pressed * (1.0 - numbers.settles_frac) + state.excess_l,
        moisture_wb_frac=min(max(1.0 - dry / mass, 0.0), 1.0),
        carbon_g=held.carbon_g * (1.0 - numbers.dry_loss_frac),
        nitrogen_g=held.nitrogen_g * numbers.nitrogen_kept_frac,
        sodium_g=held.sodium_g,
        acid_mol=numbers.acid_mol_per_kg * mass,
        animal_matter=held.animal_kg > 0.0,
    )


def offers(situation: Situation, product: Product, world: World) -> dict[str, Offer]:
    """Ask every place, in the keeper's order.

    The last resorts are asked only when no vessel is left, and on a day without
    time to dig only those who come for it themselves.
    """
    states = {each.place: each for each in situation.places}
    is_pressed = not any(each.phase in ("empty", "filling") for each in situation.vessels)
    has_time = weekday(situation.on) in world.habits.work_days
    asked = (
        each
        for each in world.order
        if (is_pressed or each not in world.last_resorts) and (has_time or each in world.takers)
    )
    return {
        each: world.places[each].can_take(states[each], product, situation.on, climate=world.climate) for each in asked
    }


def _shares(situation: Situation, product: Product, world: World) -> Iterator[tuple[str, float]]:
    """Give the places and what each gets."""
    left = product.mass_kg
    asked = offers(situation, product, world)
    for place in [each for each in asked if each in world.eaters]:
        ration = min(asked.pop(place).takes_kg, left)
        left -= ration
        if ration > 0.0:
            yield place, ration
    whole = next((each for each, offer in asked.items() if offer.takes_kg >= left - CRUMBS_KG), None)
    if whole is not None and left > 0.0:
        yield whole, left
        return
    for place, offer in asked.items():
        if offer.takes_kg >= LEAST_PART * product.mass_kg and left > 0.0:
            part = min(offer.takes_kg, left)
            left -= part
            yield place, part


def _give(
    situation: Situation, state: VesselState, place: str, mass_kg: float, *, world: World
) -> tuple[Situation, Placing]:
    """Move a part of what is in a vessel to a place."""
    before = next(each for each in situation.places if each.place == place)
    whole = product_of(state, world)
    after, effect = world.places[place].after(before, whole, mass_kg, situation.on, climate=world.climate)
    share = mass_kg / whole.mass_kg
    left = state.emptied() if share > 1.0 - 1e-9 else _scaled(state, 1.0 - share)
    placing = Placing(place, situation.on, mass_kg, effect.nitrogen_g, effect.usable_on, effect.cautions)
    return situation.with_vessel(left).with_place(after), placing


def _scaled(state: VesselState, share: float) -> VesselState:
    return state._replace(
        contents=state.contents.times(share),
        excess_l=state.excess_l * share,
        liquid_to_come_l=state.liquid_to_come_l * share,
        below_grid_l=state.below_grid_l * share,
        lost_kg=state.lost_kg * share,
    )


def _binding_limit(situation: Situation, product: Product, world: World) -> str:
    """Name the limit of the place that would take the most; of equals, the first asked."""
    asked = offers(situation, product, world)
    if not asked:
        return "no place but the last resort"
    best = max(asked.values(), key=lambda each: each.takes_kg)
    return f"{best.place}: {best.limit}"
