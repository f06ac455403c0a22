"""`science.chem.elements` by its own law: the parts of a formula make up the whole."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.science.chem.elements import ATOMIC_MASS_G_PER_MOL, mass_share, molar_mass_g_per_mol

ELEMENTS = st.dictionaries(st.sampled_from(sorted(ATOMIC_MASS_G_PER_MOL)), st.integers(1, 60), min_size=1)


@given(ELEMENTS)
def test_the_shares_of_all_elements_make_up_the_whole(counts):
    formula = "".join(f"{symbol}{count}" for symbol, count in counts.items())
    assert sum(mass_share(symbol, formula) for symbol in counts) == pytest.approx(1.0)


@given(ELEMENTS, st.integers(2, 9))
def test_a_formula_written_several_times_over_has_the_same_shares(counts, times):
    once = "".join(f"{symbol}{count}" for symbol, count in counts.items())
    several = "".join(f"{symbol}{count * times}" for symbol, count in counts.items())
    assert molar_mass_g_per_mol(several) == pytest.approx(times * molar_mass_g_per_mol(once))
    for symbol in counts:
        assert mass_share(symbol, several) == pytest.approx(mass_share(symbol, once))


def test_an_element_that_is_not_in_the_formula_has_no_share():
    assert mass_share("N", "C6H12O6") == 0.0


@pytest.mark.parametrize("formula", ["", "c6", "C6 H12", "Ca(OH)2", "6C"])
def test_what_is_no_formula_is_refused(formula):
    with pytest.raises(ValueError, match="is not a formula such as C6H12O6"):
        molar_mass_g_per_mol(formula)


def test_an_element_without_a_mass_is_named():
    with pytest.raises(ValueError, match='"Xe2" holds Xe, whose atomic mass is not listed'):
        molar_mass_g_per_mol("Xe2")
