"""`science.places.hens` against worked amounts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.evidence.parameters import load_parameters
from sourloam.science.places.hens import HenParameters, flock_kg_per_d, left_kg_per_d, room_kg_per_d

P = load_parameters(HenParameters, "hens")


def test_seventeen_hens_at_a_third_of_a_pound_have_room_for_a_pound_and_a_tenth():
    """Worked by hand from a keeper's numbers: 17 x 0.333 lb = 5.7 lb, a fifth of it 1.1 lb."""
    pound = 0.45359237  # exact by definition: NIST Handbook 44, appendix C
    flock = flock_kg_per_d(17.0, pound / 3.0)
    assert flock == pytest.approx(5.67 * pound, rel=1e-3)
    assert room_kg_per_d(flock, 0.2) == pytest.approx(1.13 * pound, rel=5e-3)


def test_a_hen_eats_about_a_quarter_to_a_third_of_a_pound():
    """A quarter of a pound by envirolit_hens, 150 g by breeder_hens: both within the interval."""
    pound, page_kg = 0.45359237, 0.150
    assert P.ration_kg.low < pound / 4.0 < page_kg < P.ration_kg.high


@given(scraps=st.floats(0.0, 50.0), room=st.floats(0.0, 50.0))
def test_what_hens_have_room_for_and_what_is_left_never_exceed_what_comes(scraps, room):
    left = left_kg_per_d(scraps, room)
    assert 0.0 <= left <= scraps
    assert left + min(scraps, room) == pytest.approx(scraps, rel=1e-9, abs=1e-9)
