"""`science.places.ground.acidity`: the first shift of pH, against the definition of a soil's buffer."""

import re
from pathlib import Path

import phreeqc
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.places.ground.acidity import CARBONATE_G_PER_MOL, acid_shift_ph, soil_buffer_mol_per_m2

LIME = st.floats(50.0, 20_000.0)


@given(lime_mg=LIME, shift=st.floats(0.01, 3.0))
def test_the_lime_that_a_soil_needs_takes_back_what_the_acid_did(lime_mg, shift):
    # uga_c874: the buffer of a soil is the lime that raises one kilogram of it by one pH. One kilogram on one square
    # metre: 1 kg/m3 to a depth of 1 m.
    acid_mol = 2.0 * lime_mg / 1000.0 / CARBONATE_G_PER_MOL * shift
    assert acid_shift_ph(acid_mol, 1.0, soil_buffer_mol_per_m2(lime_mg, 1.0, 1.0)) == pytest.approx(shift)


def test_carbonate_weighs_what_a_general_library_of_waters_says():
    # the atomic masses of phreeqc.dat, a general code for the chemistry of waters: Ca + C + 3 O, two moles of acid each
    table = (Path(phreeqc.__file__).parent / "databases" / "phreeqc.dat").read_text("latin-1")
    row = r"^{}[ \t]+\S+[ \t]+\S+[ \t]+\S+[ \t]+([\d.]+)"
    grams = {name: float(re.findall(row.format(name), table, re.MULTILINE)[0]) for name in ("Ca", "C", "O")}
    assert pytest.approx(grams["Ca"] + grams["C"] + 3.0 * grams["O"], abs=0.01) == CARBONATE_G_PER_MOL
    lime_mg = 1000.0 * CARBONATE_G_PER_MOL  # a mole for each kilogram takes up two moles of acid
    assert soil_buffer_mol_per_m2(lime_mg / 10.0, 1.0, 1.0) == pytest.approx(0.2)


@given(lime_mg=LIME, acid_mol=st.floats(0.0, 100.0), area_m2=st.floats(0.5, 100.0))
def test_twice_the_area_halves_the_shift(lime_mg, acid_mol, area_m2):
    buffer = soil_buffer_mol_per_m2(lime_mg, 1300.0, 0.2)
    assert 2.0 * acid_shift_ph(acid_mol, 2.0 * area_m2, buffer) == pytest.approx(
        acid_shift_ph(acid_mol, area_m2, buffer)
    )


def test_arrays_go_through():
    assert soil_buffer_mol_per_m2([300.0, 600.0, 1000.0], 1300.0, 0.2).shape == (3,)


@pytest.mark.parametrize("lime_mg", [0.0, 49.0, 20_001.0, float("nan")])
def test_a_soil_that_nobody_has_seen_is_refused(lime_mg):
    with pytest.raises(OutOfRange, match=r"^lime_mg_per_kg = .* is outside 50 to 20000 mg/kg: no soil is known"):
        soil_buffer_mol_per_m2(lime_mg, 1300.0, 0.2)


def test_acid_on_no_area_is_refused():
    with pytest.raises(OutOfRange, match=r"^area_m2 = 0 m2 is outside .*: acid must go somewhere\.$"):
        acid_shift_ph(1.0, 0.0, 5.0)
