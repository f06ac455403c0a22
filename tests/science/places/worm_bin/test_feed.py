"""`science.places.worm_bin`: what a fed corner bears, against published limits and stoichiometry, and by its laws."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.figure import written
from sourloam.evidence.parameters import load_parameters
from sourloam.science.batch.content import ContentParameters, content_of
from sourloam.science.chem.elements import molar_mass_g_per_mol
from sourloam.science.places.worm_bin import limits
from sourloam.science.places.worm_bin.feed import Bin, binding, feed_figures, population
from sourloam.science.places.worm_bin.feed_parameters import WormFeedParameters
from sourloam.science.places.worm_bin.parameters import WormBinParameters

MEMBERS = 200
P = load_parameters(WormBinParameters, "worm_bin", members=MEMBERS)
F = load_parameters(WormFeedParameters, "worm_feed", members=MEMBERS)
HELD = load_parameters(ContentParameters, "product", members=MEMBERS)


def batch(kg=10.0):
    return content_of(written("mass_kg", kg, "kg", members=MEMBERS), HELD, batch="the batch")


def bin_(*, worms_kg=0.5, area_m2=0.25, warm_c=20.0, aired_d=4.0, accustomed=True, shell="ground", ph=None):
    def fig(name, value, unit):
        return written(name, value, unit, members=MEMBERS)

    return Bin(
        fig("w", worms_kg, "kg"), fig("a", area_m2, "m2"), fig("t", warm_c, "Cel"), aired_d, accustomed, shell, ph
    )


def fed(**given_):
    return feed_figures(batch(), bin_(**given_), P, F)


def test_shell_is_by_stoichiometry_with_the_masses_of_iupac():
    """1 kg of ferment with 1 % of lactic acid is 0.11 mol, 5.6 g of carbonate: half a mole to one of acid."""
    carbonate = 40.078 + 12.011 + 3 * 15.999  # iupac_masses
    acid_mol = 10.0 / (3 * 12.011 + 6 * 1.008 + 3 * 15.999)
    got = limits.eggshell_g(1000.0, acid_mol_per_kg=acid_mol, share_frac=1.0, carbonate_frac=1.0, acts_frac=1.0)
    assert got == pytest.approx(acid_mol * carbonate / 2.0, rel=1e-4)
    assert got == pytest.approx(5.56, abs=0.01)


def test_coarse_shell_counts_nothing():
    assert not np.isfinite(fed(shell="coarse")["eggshell_g"].members).any()
    assert fed(shell="coarse")["acid_left_mol_per_kg"].value > fed(shell="ground")["acid_left_mol_per_kg"].value


def test_half_to_seventy_percent_of_the_acid_is_neutralised():
    assert 0.5 <= P.lime_share_frac.low <= P.lime_share_frac.high <= 0.7


@pytest.mark.parametrize(("warm_c", "eats"), [(38.0, 0.0), (35.0, 0.0), (3.0, 0.0), (24.0, 1.0)])
def test_appetite_ends_where_it_is_published_to(warm_c, eats):
    """kaplan1980: alive from 0 to 35 °C, best between 20 and 29 °C."""
    assert fed(warm_c=warm_c)["appetite"].value == pytest.approx(eats, abs=0.06)


def test_a_square_metre_at_the_published_stocking_eats_within_the_published_range():
    """ndegwa2000: 1.60 kg/m2 at best; acid feed is planned at 0.1 to 0.25 of 0.75 to 1.25 kg/kg/d, so never above."""
    figures = fed(worms_kg=0.8, area_m2=0.5, warm_c=24.0)
    a_day = figures["by_appetite"].value / P.feed_every_d.value
    assert a_day <= 0.60  # kg, for 0.8 kg of worms at 0.75 kg/kg/d


def test_the_fed_corner_keeps_every_limit():
    figures = fed()
    assert np.quantile(figures["corner_salt_g_per_kg"].members, 0.95) < 5.0  # lethal, kaplan1980
    assert np.quantile(figures["corner_ammonia_mg_per_g"].members, 0.95) < 1.0  # at most, edwards1988
    assert np.quantile(figures["corner_ph"].members, 0.05) >= 5.0


def test_a_first_feed_is_a_tenth_and_lies_on_a_tenth():
    new, used = fed(accustomed=False), fed()
    assert new["by_first"].value == pytest.approx(0.1 * new["by_appetite"].value)
    assert binding(new) == "first"
    assert new["ration_g"].value < used["ration_g"].value
    assert F.corner_frac.value == 0.1


@settings(max_examples=20, deadline=None)
@given(warm_c=st.floats(5.0, 24.0), colder=st.floats(0.5, 10.0))
def test_in_the_cold_they_never_get_more(warm_c, colder):
    assert fed(warm_c=warm_c - colder)["by_appetite"].value <= fed(warm_c=warm_c)["by_appetite"].value + 1e-12


@given(ration=st.floats(1.0, 5000.0), salts=st.floats(1.0, 30.0))
def test_twice_the_dose_never_less_salt(ration, salts):
    def corner(ration_g):
        return limits.mixed_g_per_kg(1.0, bed_g_per_kg=0.8, ration_g=ration_g, feed_g_per_kg=salts)

    assert corner(2.0 * ration) >= corner(ration) - 1e-12


@given(ration=st.floats(0.0, 5000.0), corner=st.floats(0.1, 50.0), bed=st.floats(0.0, 5.0), feed=st.floats(0.0, 30.0))
def test_what_corner_and_feed_hold_is_what_their_mix_holds(ration, corner, bed, feed):
    mixed = limits.mixed_g_per_kg(corner, bed_g_per_kg=bed, ration_g=ration, feed_g_per_kg=feed)
    assert mixed * (corner + ration / 1000.0) == pytest.approx(
        corner * bed + ration / 1000.0 * feed, rel=1e-9, abs=1e-9
    )


@given(days=st.floats(0.0, 10.0), more=st.floats(0.1, 10.0), warm_c=st.floats(1.0, 30.0))
def test_airing_takes_acid_away(days, more, warm_c):
    assert limits.aired_frac(0.25, days + more, warm_c) < limits.aired_frac(0.25, days, warm_c) <= 1.0


def test_a_sour_bed_bears_less():
    assert fed(ph=6.0)["by_acid"].value < fed(ph=7.0)["by_acid"].value


def test_population_is_a_word():
    assert population(fed(warm_c=22.0, worms_kg=0.2, area_m2=1.0)) == "grow"
    assert population(fed(warm_c=36.0)) == "shrink"


def test_a_batch_is_far_more_than_a_bin_takes_at_once():
    """Common practice, no source: a bucket of 19 L is far too much for a home bin at once."""
    assert fed()["ration_g"].high < 5000.0


def test_molar_masses_are_there():
    assert molar_mass_g_per_mol("CaCO3") == pytest.approx(100.087, rel=1e-4)
