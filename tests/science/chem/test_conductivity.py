"""`chem.conductivity`: measured solutions, and what must hold whatever is in them."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.chem.conductivity import AT_25C, conductivity_ds_per_m
from sourloam.science.chem.elements import molar_mass_g_per_mol
from tests.published import Published

PER_K = 0.02  # by which it rises with warmth, the 2 to 3 % of the head of crc_ions
MEASURED = [
    Published(
        "crc_conductivity",
        f"ammonium chloride, {pct} % by mass, 20 °C",
        given=(pct,),
        want=want,
        within=within,
        why="its warmth is brought from 25 to 20 °C by 2 % to a kelvin, which may be 3, and density is taken as 1",
    )
    for pct, want, within in ((0.5, "10.5", 0.6), (1.0, "20.4", 1.2), (2.0, "40.3", 2.8))
]
AMOUNT = st.floats(0.0, 0.3)


@pytest.mark.parametrize("case", MEASURED, ids=str)
def test_published_solutions_of_ammonium_chloride_are_met(case):
    molar = 10.0 * case.given[0] / molar_mass_g_per_mol("NH4Cl")
    at_25 = conductivity_ds_per_m({"ammonium": molar, "chloride": molar})
    assert at_25 * (1.0 - 5.0 * PER_K) == pytest.approx(float(case.want), abs=case.tolerance)


@given(amounts=st.fixed_dictionaries(dict.fromkeys(AT_25C, AMOUNT)))
def test_more_of_all_conducts_more_but_less_than_in_proportion(amounts):
    once, twice = (conductivity_ds_per_m({n: k * a for n, a in amounts.items()}) for k in (1.0, 2.0))
    assert once <= twice <= 2.0 * once + 1e-12


def test_pure_water_conducts_nothing_here():
    assert conductivity_ds_per_m({"potassium": 0.0}) == 0.0


def test_members_keep_their_shape():
    assert np.shape(conductivity_ds_per_m({"potassium": np.full(5, 0.1), "chloride": np.full(5, 0.1)})) == (5,)


@pytest.mark.parametrize("amount", [-0.1, 4.0, np.nan])
def test_an_impossible_amount_is_refused(amount):
    with pytest.raises(OutOfRange, match=r"^potassium = .* is outside 0 to 3 mol/L"):
        conductivity_ds_per_m({"potassium": amount})
