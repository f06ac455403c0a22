"""`layer.acidity` against published buffers and the ideal balance, and by its own charge."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sourloam.science.chem.charge import Protolytes, ph_of
from sourloam.science.ferment.layer.acidity import TEN, ln_protons, open_charge
from tests.published import PEARSE_ACETATE, Published
from tests.science.ferment.layers import (
    NO_STATE,
    PLACES,
    STATES,
    WATER,
    held_back,
    in_salt,
    lacking_proton,
    ph_at_rest,
    standing,
)

# As tabled by Pearse (1980), read on a secondary page: ml of 0.1 N acid and of 0.1 N salt in 200.
ACETATE = [
    Published(
        "pearse1980",
        f"acetate buffer with activities, {acid} ml acid and {salt} ml salt",
        given=(acid, salt),
        want=want,
        within=0.06,
        why="the table gives one decimal, half a unit of it, and a hundredth for the equation of activities",
    )
    for acid, salt, want in PEARSE_ACETATE
]
# As printed on a mirror of an encyclopedia's page on this buffer: ml of 0.2 M Na2HPO4, to 20 with 0.1 M citric acid.
MCILVAINE = [
    Published(
        "mcilvaine1921",
        f"citrate and phosphate buffer, {ml} ml of phosphate in 20",
        given=(ml,),
        want=want,
        within=within,
        why="sodium pairs with citrate and phosphate, and the salt is near or beyond where the equation ends",
    )
    for ml, want, within in (
        (4.11, "3.0", 0.10),
        (5.70, "3.4", 0.10),
        (7.10, "3.8", 0.10),
        (7.71, "4.0", 0.10),
        (8.28, "4.2", 0.10),
        (9.35, "4.6", 0.20),
        (10.30, "5.0", 0.20),
        (12.09, "5.8", 0.21),  # tables differ by 0.012 in the second exponent of phosphate, which bears it all here
        (14.55, "6.6", 0.20),
        (16.47, "7.0", 0.20),
    )
]
LIMITS = [
    Published(
        "thylin1995",
        f"undissociated lactic acid of {1000 * total:g} mmol/L at pH {ph}",
        given=(total, ph),
        want=want,
    )
    for total, ph, want in ((0.150, 4.6, "8.9"), (1.510, 6.25, "2.1"))
]
MOL = st.floats(0.0, 0.4)


def strength(state, place):
    """Return half of the sum of concentrations by squares of charges, at the pH at which it rests."""
    protons = 10.0 ** -ph_at_rest(state, place)
    shift = 10.0 ** lacking_proton(place)

    def squares(total, exponents):
        shares, terms = 1.0, [1.0]
        for step, exponent in enumerate(exponents):
            shares *= 10.0**-exponent * shift ** (2 * step + 1) / protons
            terms.append(shares)
        return total * sum(step * step * each for step, each in enumerate(terms)) / sum(terms)

    anions = squares(place.citric_mol, (3.13, 4.76, 6.40)) + squares(place.phosphate_mol, (2.16, 7.21))
    anions += squares(state.acetic_mol, (4.756,)) + squares(state.lactic_mol, (3.86,))
    return 0.5 * (abs(state.strong_eq) + anions + protons)


def with_activities(state, place):
    """Return the place in the salt that its own ions make."""
    for _ in range(40):
        place = in_salt(place, strength(state, place))
    return place


@pytest.mark.parametrize("case", ACETATE, ids=str)
def test_published_acetate_buffers_are_met(case):
    acid, salt = case.given
    state = NO_STATE._replace(acetic_mol=0.1 * (acid + salt) / 200.0, strong_eq=0.1 * salt / 200.0)
    assert ph_at_rest(state, with_activities(state, WATER)) == pytest.approx(float(case.want), abs=case.tolerance)


@pytest.mark.parametrize("case", MCILVAINE, ids=str)
def test_published_buffers_of_citric_acid_and_phosphate_are_met(case):
    (ml,) = case.given
    phosphate = 0.2 * ml / 20.0
    state = NO_STATE._replace(strong_eq=2.0 * phosphate)
    place = WATER._replace(phosphate_mol=phosphate, citric_mol=0.1 * (20.0 - ml) / 20.0)
    assert ph_at_rest(state, with_activities(state, place)) == pytest.approx(float(case.want), abs=case.tolerance)


@pytest.mark.parametrize("case", LIMITS, ids=str)
def test_the_published_undissociated_acid_follows_by_the_exponent_of_its_authors(case):
    total, ph = case.given
    assert 1000.0 * held_back(total, ph, 3.40) == pytest.approx(float(case.want), abs=case.tolerance)


@pytest.mark.parametrize(("name", "exponent"), [("lactic", 3.86), ("acetic", 4.756)])
def test_a_tenth_molar_acid_alone_has_the_ph_of_its_quadratic(name, exponent):
    held, constant = 0.1, 10.0**-exponent
    protons = (-constant + math.sqrt(constant**2 + 4.0 * constant * held)) / 2.0
    state = NO_STATE._replace(**{f"{name}_mol": held})
    assert ph_at_rest(state, WATER) == pytest.approx(-math.log10(protons), abs=1e-6)


def test_pure_water_is_neutral():
    assert ph_at_rest(NO_STATE, WATER, near=3.0) == pytest.approx(7.0, abs=1e-6)


@given(STATES, PLACES, st.floats(1.0, 13.0))
def test_no_charge_is_left_open_wherever_it_was_looked_for_first(state, place, near):
    at = ln_protons(state, place, -TEN * near)
    assume(-12.9 * TEN < at < -1.1 * TEN)
    assert abs(open_charge(math.exp(at), state, place)[0]) < 1e-9


@pytest.mark.parametrize("near", [1.0, 13.0, -5.0, 40.0])
@given(STATES, PLACES, st.floats(2.0, 9.0))
def test_a_search_that_begins_on_or_beyond_an_end_of_its_bracket_finds_the_ph(near, state, place, ph):
    state = standing(state, place, ph)
    assert ph_at_rest(state, place, near) == pytest.approx(ph, abs=1e-5)


@given(PLACES, STATES, st.sampled_from([1.0, 13.0]))
def test_a_search_that_begins_at_the_answer_stays_even_on_the_ends_of_its_bracket(place, state, ph):
    state = standing(state, place, ph)
    assert ph_at_rest(state, place, ph) == pytest.approx(ph, abs=1e-4)


@given(STATES, PLACES, st.sampled_from(["lactic_mol", "acetic_mol", "butyric_mol"]), st.floats(1e-4, 0.3))
def test_more_acid_never_raises_the_ph(state, place, acid, more):
    soured = state._replace(**{acid: getattr(state, acid) + more})
    assert ph_at_rest(soured, place) <= ph_at_rest(state, place) + 1e-7


@given(STATES, PLACES, st.floats(1e-4, 0.3))
def test_more_ammonia_never_lowers_the_ph(state, place, more):
    rotten = state._replace(ammonium_mol=state.ammonium_mol + more)
    assert ph_at_rest(rotten, place) >= ph_at_rest(state, place) - 1e-7


@given(STATES, PLACES, st.floats(1.5, 12.5))
def test_the_slope_of_the_open_charge_is_its_own_derivative(state, place, ph):
    at, step = -TEN * ph, 1e-5
    up, down = (open_charge(math.exp(at + each), state, place)[0] for each in (step, -step))
    _, slope = open_charge(math.exp(at), state, place)
    assert slope > 0.0
    assert (up - down) / (2.0 * step) == pytest.approx(slope, rel=1e-5, abs=1e-9)


@given(MOL, MOL, MOL, MOL, st.floats(0.005, 0.4), st.floats(0.0, 0.5), st.floats(0.2, 2.0))
def test_without_salt_the_ph_is_that_of_the_mix(lactic, acetic, malic, citric, tissue, strong, water):
    parts = Protolytes(tissue, {"lactic": lactic, "acetic": acetic, "malic": malic, "citric": citric})
    want = ph_of(parts, strong, water)
    assume(1.1 < want < 12.9)
    state = NO_STATE._replace(lactic_mol=lactic, acetic_mol=acetic, strong_eq=strong)
    place = WATER._replace(water=water, tissue_eq=tissue, malic_mol=malic, citric_mol=citric)
    assert ph_at_rest(state, place) == pytest.approx(want, abs=1e-5)


@given(STATES, PLACES, st.floats(0.1, 10.0))
def test_the_ph_does_not_depend_on_how_much_there_is(state, place, times):
    more = state._replace(
        **{
            name: times * getattr(state, name)
            for name in ("lactic_mol", "acetic_mol", "butyric_mol", "ammonium_mol", "co2_mol", "strong_eq")
        }
    )
    larger = place._replace(
        **{
            name: times * getattr(place, name)
            for name in ("water", "tissue_eq", "malic_mol", "citric_mol", "phosphate_mol")
        }
    )
    assert ph_at_rest(more, larger) == pytest.approx(ph_at_rest(state, place), abs=1e-5)


def test_salt_makes_acids_stronger_up_to_where_the_equation_ends():
    shifts = np.array([lacking_proton(in_salt(WATER, each)) for each in np.linspace(0.0, 0.3, 31)])
    assert shifts[0] == 0.0
    assert np.all(np.diff(shifts) > 0.0)
    assert in_salt(WATER, 2.0) == in_salt(WATER, 0.5)
