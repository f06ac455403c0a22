"""What the tests of the model of a vessel share: its packaged values, states, places and fillings."""

import math
from functools import lru_cache

import numpy as np
from hypothesis import strategies as st

from sourloam.base.figure import written
from sourloam.evidence.materials import load_materials
from sourloam.evidence.organisms import load_organisms
from sourloam.evidence.parameters import load_parameters
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer
from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.ensemble.parameters import ModelParameters
from sourloam.science.ferment.layer.acidity import TEN, ln_protons, open_charge, salt_times, undissociated
from sourloam.science.ferment.layer.species import CARBON, G_PER_MOL, NITROGEN
from sourloam.science.ferment.layer.state import GROUPS, Flora, Group, Place, State
from sourloam.science.ferment.stack.given import Vessel
from sourloam.science.ferment.stack.life import Starts
from sourloam.science.load.assess import Portion

ORGANISMS = load_organisms()
ENDS = {
    name: np.array([[values[each].low, values[each].high] for each in Group._fields])
    for name, values in ((name, ORGANISMS[name]) for name in GROUPS)
}
MOLES = ("lactic", "acetic", "butyric", "ethanol", "co2")
NO_STATE = State(*[0.0] * len(State._fields))


@lru_cache(maxsize=4)
def living(members):
    return Living(load_parameters(ModelParameters, "vessel_model", members=members), load_organisms(members=members))


def flora_within_ranges(seed):
    """Return groups whose every value lies anywhere between the ends of its interval in the packaged table."""
    chance = np.random.default_rng(seed)

    def group(name):
        return Group(*(float(each) for each in chance.uniform(ENDS[name][:, 0], ENDS[name][:, 1])))

    return Flora(*(group(name) for name in GROUPS), chance.uniform(0.3, 0.6))


def standing(state, place, ph):
    """Return the state with the strong ions that make it stand at a pH."""
    open_eq, _ = open_charge(math.exp(-TEN * ph), state, place)
    return state._replace(strong_eq=state.strong_eq - open_eq)


def ph_at_rest(state, place, near=7.0):
    return -ln_protons(state, place, -TEN * near) / TEN


def in_salt(place, strength):
    """Return the place in water of an ionic strength."""
    return place._replace(salt_times=salt_times(strength))


def lacking_proton(place):
    """Return how much lower the exponent of an acid of one step is in the salt of a place."""
    return math.log10(place.salt_times)


def held_back(total_mol, ph, pka):
    """Return the undissociated part of an acid."""
    return undissociated(total_mol, 10.0**-ph, 10.0**-pka)


WATER = in_salt(Place(20.0, 1.0, *[0.0] * (len(Place._fields) - 2)), 0.0)
MOL = st.floats(0.0, 0.4)
GRAM = st.floats(0.0, 80.0)
CELLS = st.floats(-20.0, 0.7)
READY = st.floats(0.0, 1.0)
STATES = st.builds(
    State,
    **dict.fromkeys(("sugar_g", "cell_sugar_g", "starch_g", "protein_g"), GRAM),
    **dict.fromkeys(("lactic_mol", "acetic_mol", "butyric_mol", "ethanol_mol", "ammonium_mol"), MOL),
    co2_mol=st.floats(0.0, 1.0),
    alkali_eq=st.floats(0.0, 0.3),
    strong_eq=st.floats(-0.3, 0.6),
    cells_g=st.floats(0.0, 1.0),
    oxygen_mol=st.floats(0.0, 0.05),
    **{f"{name}_ln_g": CELLS for name in GROUPS},
    **dict.fromkeys(("warm_ready", "cold_ready", "enteric_ready"), READY),
)
PLACES = st.builds(
    lambda strength, **values: in_salt(WATER._replace(**values), strength),
    strength=st.floats(0.0, 0.5),
    temperature_c=st.floats(-1.0, 45.0),
    water=st.floats(0.2, 2.0),
    tissue_eq=st.floats(0.005, 0.4),
    malic_mol=st.floats(0.0, 0.1),
    citric_mol=st.floats(0.0, 0.2),
    phosphate_mol=st.floats(0.0, 0.05),
    salt_osmol=st.floats(0.0, 1.0),
    release_per_d=st.floats(0.0, 5.0),
    starch_per_d=st.floats(0.0, 0.3),
    proteolysis_per_d=st.floats(0.0, 0.01),
    alkali_per_d=st.floats(0.0, 0.2),
    respiration_g_per_h=st.floats(0.0, 0.3),
    breath_per_h=st.floats(0.001, 1.0),
    aired=st.floats(0.0, 1.0),
    oxygen_mol=st.floats(0.001, 0.05),
)
FLORAS = st.integers(0, 40).map(lru_cache(flora_within_ranges))


def cells_g(state):
    return sum(math.exp(getattr(state, f"{name}_ln_g")) for name in GROUPS)


def atoms(element, of, state):
    """Return the grams of an element in foods, products and cells; `of` is its share by substance."""
    total = of["cells"] * state.cells_g + of["protein"] * state.protein_g
    total += of["glucose"] * (state.sugar_g + state.cell_sugar_g) + of["starch"] * state.starch_g
    total += sum(of[name] * G_PER_MOL[name] * getattr(state, f"{name}_mol") for name in MOLES)
    return total + of["ammonia"] * G_PER_MOL["ammonia"] * state.ammonium_mol


def carbon_g(state):
    return atoms("C", CARBON, state)


def nitrogen_g(state):
    return atoms("N", NITROGEN, state)


@lru_cache(maxsize=1)
def materials():
    return load_materials()


def portion(name, kg, members):
    return Portion(materials()[name], written(name, kg, "kg", members=members))


def laid(recipe, members, *, bran_kg=0.05, added=(), **keys):
    """Return a layer of materials by their kilostate."""
    return Layer(
        tuple(portion(name, kg, members) for name, kg in recipe.items()),
        added=tuple(portion(name, kg, members) for name, kg in added),
        bran=portion("wheat-bran", bran_kg, members) if bran_kg else None,
        **keys,
    )


def bucket(layers, room_c=20.0, days=28, **keys):
    """Return a filling of a 20-litre bucket with a drain."""
    room = np.full(days, room_c) if np.isscalar(room_c) else np.asarray(room_c, dtype=float)
    return Filling(tuple(layers), Kept(20.0, 0.06, keys.pop("sump_l", 1.7), room, **keys))


def drawn(filling, members):
    return draw(filling, living(members))


def some(starts, count):
    return Starts(*(each[:count] for each in starts))


def with_vessel(starts, **values):
    """Return the same members in a vessel of which some values are given."""
    vessel = starts.vessel.copy()
    for name, value in values.items():
        vessel[:, Vessel._fields.index(name)] = value
    return starts._replace(vessel=vessel)


def followed(filling, members, *, compiler=None, step_h=6.0, **vessel):
    starts = with_vessel(drawn(filling, members), **vessel)
    return follow(starts, days_of(filling, step_h=step_h), compiler=compiler)


def first_day(ph, limit=4.5):
    """Return the first day on which each member is at or under a pH; endless where it never is."""
    below = ph <= limit
    return np.where(below.any(axis=1), below.argmax(axis=1), np.inf)
