"""`layer.acidity` against a general solver of equilibria with constants and activities of its own."""

import phreeqc
import pytest

from tests.science.ferment.layers import NO_STATE, WATER, in_salt, ph_at_rest

# Its table has no lactic acid: the exponent given here is the packaged one, so that only the balance is checked. The
# cation is one that pairs with nothing: sodium would with citrate and phosphate, by up to 0.12 pH, which is left out.
LACTIC = """
SOLUTION_MASTER_SPECIES
    Cation Cation+ 0.0 Cation 23.0
    Lactate Lactate- 0.0 Lactate 89.07
SOLUTION_SPECIES
    Cation+ = Cation+
        log_k 0.0
    Lactate- = Lactate-
        log_k 0.0
    Lactate- + H+ = H(Lactate)
        log_k 3.86
"""
# mol to a kg of water, and the sodium that the acids face; salts up to 0.2 mol/kg.
MIXES = [
    {"Acetate": 0.1},
    {"Lactate": 0.1},
    {"Citrate": 0.1},
    {"Acetate": 0.1, "Na": 0.05},
    {"Lactate": 0.1, "Na": 0.05},
    {"Butyrate": 0.05, "Na": 0.03},
    {"Phosphate": 0.05, "Na": 0.06},
    {"Lactate": 0.1, "Acetate": 0.05, "Na": 0.06},
    {"Lactate": 0.15, "Acetate": 0.02, "Citrate": 0.02, "Phosphate": 0.01, "Na": 0.1},
    {"Lactate": 0.03, "Butyrate": 0.02, "Citrate": 0.01, "Phosphate": 0.02, "Na": 0.08},
    {"Acetate": 0.02, "Lactate": 0.02, "Na": 0.03, "Ammonium": 0.05, "Chloride": 0.05},
]
NAMES = {"Na": "Cation", "Phosphate": "P", "Ammonium": "N(-3)", "Chloride": "Cl"}
SCATTER = 0.03  # between tables of exponents, 0.01 to 0.02, and the salt at another temperature


def solved(mix):
    """Return the pH and the ionic strength of a mix by the solver."""
    solver = phreeqc.Phreeqc()
    assert solver.LoadBuiltInDatabase("minteq.v4.dat") == 0, solver.GetErrorString()
    lines = "\n".join(f"    {NAMES.get(name, name)} {amount}" for name, amount in mix.items())
    text = f"{LACTIC}\nSOLUTION 1\n    units mol/kgw\n    temp 25\n    pH 4 charge\n{lines}\n"
    text += "SELECTED_OUTPUT\n    -reset false\n    -pH true\n    -ionic_strength true\nEND\n"
    assert solver.RunString(text) == 0, solver.GetErrorString()
    found = solver.GetSelectedOutput()
    return found["pH"][-1], found["mu"][-1]


@pytest.mark.parametrize("mix", MIXES, ids=lambda mix: " ".join(f"{name} {mix[name]:g}" for name in mix))
def test_a_general_solver_finds_the_same_ph(mix):
    want, ions = solved(mix)
    state = NO_STATE._replace(
        lactic_mol=mix.get("Lactate", 0.0),
        acetic_mol=mix.get("Acetate", 0.0),
        butyric_mol=mix.get("Butyrate", 0.0),
        ammonium_mol=mix.get("Ammonium", 0.0),
        strong_eq=mix.get("Na", 0.0) - mix.get("Chloride", 0.0),
    )
    place = WATER._replace(citric_mol=mix.get("Citrate", 0.0), phosphate_mol=mix.get("Phosphate", 0.0))
    assert ph_at_rest(state, in_salt(place, ions)) == pytest.approx(want, abs=SCATTER)
