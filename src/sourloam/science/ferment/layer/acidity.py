"""The pH of a layer, from a balance of charges, found from where it was last.

The same balance as `chem.charge` holds, written for floats. In salt water the
acids let go of their protons more easily, which `Place.salt_times` holds.
"""

import math

from sourloam.science.chem.acids import ACIDS
from sourloam.science.chem.charge import WIDE
from sourloam.science.ferment.layer.state import Place, State

TEN: float = math.log(10.0)
LACTIC_PKA: float = ACIDS["lactic"].pkas[0]
ACETIC_PKA: float = ACIDS["acetic"].pkas[0]
BUTYRIC_PKA: float = 4.83  # [-] acid_table
LACTIC_K: float = 10.0**-LACTIC_PKA
ACETIC_K: float = 10.0**-ACETIC_PKA
BUTYRIC_K: float = 10.0**-BUTYRIC_PKA
MALIC_1, MALIC_2 = (10.0**-pka for pka in ACIDS["malic"].pkas)
CITRIC_1, CITRIC_2, CITRIC_3 = (10.0**-pka for pka in ACIDS["citric"].pkas)
PHOSPHATE_1, PHOSPHATE_2 = 10.0**-2.16, 10.0**-7.21  # [-] martell_smith1976
AMMONIUM_PKA: float = 9.244  # at 25 °C [-] martell_smith1976
AMMONIUM_PER_K: float = 0.0305  # by which that is lower for a degree more: 52 kJ/mol; goldberg2002
CARBONIC_K: float = 10.0**-6.35  # [-] martell_smith1976
WATER_K: float = 1e-14
TISSUE_GIVEN: float = sum(  # charge of the five groups between pH 4 and 6
    weight / (1.0 + 10.0 ** (pka - 6.0)) - weight / (1.0 + 10.0 ** (pka - 4.0)) for pka, weight in WIDE.items()
)
CO2_SATURATED_MOL: float = 0.033  # dissolved under its own pressure at 25 °C; recalled
CO2_HALF_MOL: float = 0.02  # made, at which half of that is dissolved; judgement
DAVIES_A: float = 0.507  # at 20 °C [-] davies1962
MOST_STRENGTH: float = 0.5  # mol/kg, where that equation ends
LOWEST, HIGHEST = -13.0 * TEN, -1.0 * TEN  # of the logarithm of protons: pH 13 and 1
NEAR_ENOUGH: float = 1e-5  # of that logarithm: the step after it is its square
MOST_STEPS: int = 80


def held_once(total: float, constant: float, protons: float) -> tuple[float, float]:
    """Return the charge of an acid of one step, and how fast it falls with the logarithm of protons."""
    share = constant / (constant + protons)
    return total * share, total * share * (1.0 - share)


def open_charge(protons: float, state: State, place: Place) -> tuple[float, float]:
    """Return the charge that is left open, eq to a kg of first water, and its slope by the logarithm of protons."""
    shift = place.salt_times
    held, slope = held_once(state.lactic_mol, LACTIC_K * shift, protons)
    more, steep = held_once(state.acetic_mol, ACETIC_K * shift, protons)
    held, slope = held + more, slope + steep
    more, steep = held_once(state.butyric_mol, BUTYRIC_K * shift, protons)
    held, slope = held + more, slope + steep
    one, two, three = shift / protons, shift**3 / protons, shift**5 / protons  # by the square of the charge
    more, steep = held_twice(place.malic_mol, MALIC_1 * one, MALIC_2 * two)
    held, slope = held + more, slope + steep
    more, steep = held_thrice(place.citric_mol, CITRIC_1 * one, CITRIC_2 * two, CITRIC_3 * three)
    held, slope = held + more, slope + steep
    more, steep = held_twice(place.phosphate_mol, PHOSPHATE_1 * one, PHOSPHATE_2 * two)
    held, slope = held + more, slope + steep
    more, steep = held_once(dissolved_co2_mol(state.co2_mol, place.water), CARBONIC_K * shift, protons)
    held, slope = held + more, slope + steep
    more, steep = held_by_tissue(place.tissue_eq, protons)
    held, slope = held + more, slope + steep
    base, steep = held_once(state.ammonium_mol, place.ammonium_k / shift, protons)  # `base` has lost its charge
    free, hydroxide = place.water * protons, place.water * WATER_K / protons
    open_eq = state.strong_eq + state.ammonium_mol - base + free - hydroxide - held
    return open_eq, slope + steep + free + hydroxide


def ammonium_k(temperature_c: float) -> float:
    """Return the dissociation of ammonium at a temperature; that of acids moves by under 0.03 from 5 to 45 °C."""
    return math.exp(TEN * (AMMONIUM_PER_K * (temperature_c - 25.0) - AMMONIUM_PKA))


def held_twice(total: float, first: float, second: float) -> tuple[float, float]:
    """Return charge and slope of an acid of two steps; the steps as constant over protons."""
    one, two = first, first * second
    whole = 1.0 + one + two
    mean, square = (one + 2.0 * two) / whole, (one + 4.0 * two) / whole
    return total * mean, total * (square - mean * mean)


def held_thrice(total: float, first: float, second: float, third: float) -> tuple[float, float]:
    """Return charge and slope of an acid of three steps; the steps as constant over protons."""
    one, two, three = first, first * second, first * second * third
    whole = 1.0 + one + two + three
    mean, square = (one + 2.0 * two + 3.0 * three) / whole, (one + 4.0 * two + 9.0 * three) / whole
    return total * mean, total * (square - mean * mean)


def held_by_tissue(tissue_eq: float, protons: float) -> tuple[float, float]:
    """Return charge and slope of the tissue: groups at 4, 5 and 6, and half ones at 3 and 7."""
    held, slope = held_once(0.5, 1e-3, protons)
    more, steep = held_once(1.0, 1e-4, protons)
    held, slope = held + more, slope + steep
    more, steep = held_once(1.0, 1e-5, protons)
    held, slope = held + more, slope + steep
    more, steep = held_once(1.0, 1e-6, protons)
    held, slope = held + more, slope + steep
    more, steep = held_once(0.5, 1e-7, protons)
    size = tissue_eq / TISSUE_GIVEN
    return size * (held + more), size * (slope + steep)


def dissolved_co2_mol(co2_mol: float, water: float) -> float:
    """Return the carbon dioxide in the water, which fills up as it is made."""
    made = max(co2_mol, 0.0)
    return CO2_SATURATED_MOL * water * made / (CO2_HALF_MOL * water + made)


def ln_protons(state: State, place: Place, near: float) -> float:
    """Return the logarithm of the protons at which no charge is left open; `near` is where to look first."""
    low, high = LOWEST, HIGHEST
    at = min(max(near, low), high)
    for _ in range(MOST_STEPS):
        open_eq, slope = open_charge(math.exp(at), state, place)
        if open_eq > 0.0:
            high = at
        else:
            low = at
        step = -open_eq / slope
        if abs(step) < NEAR_ENOUGH:  # before the bracket: a start on its end may be right
            return at + step
        moved = at + step
        at = moved if low < moved < high else 0.5 * (low + high)
    return at


def ph_of(ln_h: float) -> float:
    """Return the pH of a logarithm of protons."""
    return -ln_h / TEN


def undissociated(total_mol: float, protons: float, constant: float) -> float:
    """Return the part of a one-step acid that keeps its proton."""
    return total_mol * protons / (constant + protons)


def salt_times(ionic_strength: float) -> float:
    """Return how much more easily acids let go of a proton in salt water at 20 °C (davies1962), the first one.

    The strength is held at 0.5 mol/kg, where the equation ends.
    """
    strength = min(max(ionic_strength, 0.0), MOST_STRENGTH)
    root = math.sqrt(strength)
    return math.exp(TEN * DAVIES_A * (root / (1.0 + root) - 0.3 * strength))
