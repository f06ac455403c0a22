"""`science.chem.acids` against published limits, and by its own law."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.chem.acids import ACIDS, charge_per_mol, undissociated_mol_per_m3
from tests.published import Published

OUTSIDE = [
    Published(
        "presser1998",
        "Escherichia coli, lactic acid that stops it at pH 4.2",
        given=(36.0, 4.2, 3.86),
        want="11",
        within=1.0,
        why="the limit is printed as 11 mmol/L, its growth boundary as sharp to a unit",
    ),
    Published("thylin1995", "Clostridium tyrobutyricum, pH 4.6", given=(150.0, 4.6, 3.40), want="8.9"),
    Published("thylin1995", "Clostridium tyrobutyricum, pH 6.25", given=(1510.0, 6.25, 3.40), want="2.1"),
]
PH = st.floats(0.0, 14.0)


@pytest.mark.parametrize("case", OUTSIDE, ids=str)
def test_published_limits_of_undissociated_acid_are_met(case):
    assert undissociated_mol_per_m3(*case.given) == pytest.approx(float(case.want), abs=case.tolerance)


@given(ph=PH, pka=PH)
def test_the_two_forms_make_up_the_whole(ph, pka):
    held = undissociated_mol_per_m3(1.0, ph, pka)
    given_up = undissociated_mol_per_m3(1.0, pka, ph)  # the same law seen from the other side
    assert held + given_up == pytest.approx(1.0)


@pytest.mark.parametrize("name", ACIDS)
@given(ph=st.floats(0.0, 13.5))
def test_an_acid_gives_up_more_charge_as_ph_rises_and_never_more_than_its_steps(name, ph):
    acid = ACIDS[name]
    assert 0.0 <= charge_per_mol(acid, ph) <= charge_per_mol(acid, ph + 0.5) <= len(acid.pkas)


@given(ph=PH)
def test_a_one_step_acid_carries_what_is_dissociated(ph):
    held = undissociated_mol_per_m3(1.0, ph, ACIDS["lactic"].pkas[0])
    assert charge_per_mol(ACIDS["lactic"], ph) == pytest.approx(1.0 - held)


def test_members_and_times_broadcast():
    total = np.full((200, 1), 80.0)  # members
    ph = np.linspace(6.5, 3.9, 15)  # times
    assert np.shape(undissociated_mol_per_m3(total, ph, 3.86)) == (200, 15)


@pytest.mark.parametrize("ph", [-0.1, 15.0, np.nan])
def test_an_impossible_acidity_is_refused(ph):
    with pytest.raises(OutOfRange, match=r"^ph = .* is outside 0 to 14: a reading there") as caught:
        undissociated_mol_per_m3(80.0, [4.0, ph], 3.86)
    assert caught.value.name == "ph"


def test_a_negative_amount_of_acid_is_refused():
    with pytest.raises(OutOfRange, match="total_mol_per_m3"):
        undissociated_mol_per_m3(-1.0, 4.0, 3.86)
