"""`science.inoculum.count` and `.belief`: growth beside published sourings, decline beside published counts, the "
"jar."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.base.figure import recomputed
from sourloam.science.inoculum.belief import Lot, belief_figures, keeps_figure
from sourloam.science.inoculum.count import (
    aged_log10,
    dose_by_count_g_per_kg,
    dry_decline_log10_per_month,
    grown_log10,
    hours_to_log10,
    lost_frac,
    pace_at,
)
from sourloam.science.inoculum.count import (
    tested_log10 as after_a_jar,
)
from sourloam.views.culture_kept import differs
from tests.published import Published
from tests.science.inoculum.culture_known import KNOWN, MEMBERS, STORES, told

P, C = KNOWN.inoculum, KNOWN.culture
COUNT = st.floats(1.0, 9.0)
STARTER_LOG10 = 7.0  # 1 % of a culture of 10^9: buttermilk_outline

SOURED = [  # temperature; the middle of the hours that are printed, and half their span beside the usual one
    Published(
        "mcgee_table",
        "buttermilk, 22 °C, 14 to 16 h",
        given=(22.0,),
        want="15",
        within=6.0,
        why="the table gives spans of up to 6 h for one milk and one warmth",
        title="hours for milk to sour with a living culture, 22 °C",
    ),
    Published(
        "buttermilk_outline",
        "figure 17.3, 1 % starter, 22 °C",
        given=(22.0,),
        want="16",
        within=6.0,
        why="the table of mcgee_table gives spans of up to 6 h for one milk and one warmth",
        title="hours for milk to sour with 1 % of starter, 22 °C",
    ),
    Published(
        "mcgee_table",
        "crème fraîche, 20 °C, 15 to 20 h",
        given=(20.0,),
        want="17.5",
        within=6.0,
        why="the table gives spans of up to 6 h for one milk and one warmth",
        title="hours for cream to sour with a living culture, 20 °C",
    ),
    Published(
        "mcgee_table",
        "yoghurt, 30 °C, 6 to 12 h",
        given=(30.0,),
        want="9",
        within=6.0,
        why="the table gives spans of up to 6 h for one milk and one warmth",
        title="hours for milk to sour with a living culture, 30 °C",
    ),
]


def pace(temperature_c):
    return pace_at(temperature_c, P.least_c.value, P.best_c.value, P.most_c.value)


@pytest.mark.parametrize("case", SOURED, ids=str)
def test_milk_sours_as_fast_as_was_printed(case):
    hours = hours_to_log10(
        STARTER_LOG10,
        C.curd_log10_per_ml.value,
        pace=pace(*case.given),
        growth_per_h=C.growth_per_h.value,
        growth_lag_h=C.growth_lag_h.value,
    )
    assert hours == pytest.approx(float(case.want), abs=case.tolerance)


@pytest.mark.parametrize(
    ("activity", "least", "most"),
    [
        (0.25, 0.0, 0.08),  # casei_powder2017: no loss to be seen in 6 months at 25 °C, which is half a power of ten
        (0.20, 1.0, 2.0),  # pmc5620634: a rod on wheat bran, 20 °C and 20 % humidity, 1 to 2 in four weeks
        (0.43, 0.5, 20.0),  # vesterlund2012: lost rapidly; no number is printed
    ],
)
def test_dry_cells_die_within_what_was_published(activity, least, most):
    usual = P.bran_decline_at_20c_log10_per_month.members
    rate = dry_decline_log10_per_month(activity, C.dry_times.members, usual)
    low, high = np.quantile(rate, [0.05, 0.95])
    assert low <= most
    assert high >= least


def test_the_law_of_dry_cells_goes_through_the_points_that_it_was_made_from():
    # vesterlund2012: 0.29 and 2.4 powers of ten in 14 months.
    for activity, lost in ((0.11, 0.29), (0.22, 2.4)):
        assert dry_decline_log10_per_month(activity, 1.0, 99.0) * 14.0 == pytest.approx(lost, rel=0.02)


def test_a_fermented_bran_holds_as_much_as_was_published():
    # foods2021_rice_bran: 9.78 powers of ten after 48 h at 30 °C in a slurry, which packed bran does not pass.
    grown = grown_log10(
        6.4, 48.0, pace=pace(30.0), growth_per_h=0.9, growth_lag_h=3.0, most_log10=C.most_log10_per_g.members
    )
    assert np.quantile(grown, 0.95) <= 9.78
    assert np.median(grown) == pytest.approx(9.78, abs=1.0)


def lot(store, months, store_c, curd=None, activity=None):
    return Lot(STORES[store], told("store_c", store_c, "Cel"), told("months", months, "mo"), curd, activity)


def test_bran_that_nobody_tried_for_three_months_may_be_dead():
    believed = belief_figures(lot("dried-room", 3.0, 20.0), KNOWN)["log10_cfu_per_g"]
    assert believed.low == 0.0
    assert believed.high > 6.0


@given(st.floats(0.0, 24.0), st.floats(0.1, 12.0), st.floats(-10.0, 30.0))
def test_age_never_adds_life(months, more, store_c):
    young, old = (belief_figures(lot("dried-room", each, store_c), KNOWN) for each in (months, months + more))
    assert np.all(old["log10_cfu_per_g"].members <= young["log10_cfu_per_g"].members)
    assert old["works_pct"].value <= young["works_pct"].value


@given(st.floats(0.5, 12.0), st.floats(-10.0, 25.0), st.floats(1.0, 10.0))
def test_cold_keeps_longer(months, store_c, colder):
    warm, cold = (belief_figures(lot("dried-room", months, each), KNOWN) for each in (store_c, store_c - colder))
    assert cold["keeps_d"].value >= warm["keeps_d"].value


@pytest.mark.parametrize("months", [0.0, 1.0, 3.0, 6.0, 11.0])
def test_a_jar_that_curds_raises_the_belief_and_one_that_does_not_lowers_it(months):
    untried, curd, none = (belief_figures(lot("dried-room", months, 20.0, each), KNOWN) for each in (None, True, False))
    assert none["works_pct"].value <= untried["works_pct"].value <= curd["works_pct"].value
    assert none["works_pct"].value < curd["works_pct"].value


def test_a_jar_that_could_not_tell_changes_nothing():
    believed = np.linspace(0.0, 9.0, 100)
    same = {"curd_h": believed, "jar_h": 4.5, "saw_curd": 1.0}
    after = after_a_jar(believed, **same, false_curd_frac=0.5, missed_curd_frac=0.5)
    assert after == pytest.approx(believed)


@given(st.lists(COUNT, min_size=20, max_size=60), st.booleans())
def test_a_tried_belief_holds_nothing_that_was_not_believed(believed, saw):
    counts = np.array(believed)
    after = after_a_jar(
        counts, 100.0 - 10.0 * counts, 48.0, saw_curd=float(saw), false_curd_frac=0.05, missed_curd_frac=0.1
    )
    assert set(after) <= set(counts)
    assert np.all(np.diff(after) >= 0.0)


@given(COUNT, COUNT)
def test_hours_and_growth_agree(start, more):
    wanted = min(start + more, 10.0)
    same = {"pace": 0.5, "growth_per_h": 0.9, "growth_lag_h": 3.0}
    hours = hours_to_log10(start, wanted, **same)
    assert grown_log10(start, hours, **same, most_log10=12.0) == pytest.approx(wanted)


def test_the_dead_never_grow():
    assert hours_to_log10(0.0, 8.0, pace=1.0, growth_per_h=0.9, growth_lag_h=3.0) == np.inf
    assert hours_to_log10(5.0, 8.0, pace=0.0, growth_per_h=0.9, growth_lag_h=3.0) == np.inf


@given(st.floats(0.0, 9.0))
def test_no_dose_is_under_what_custom_gives(count):
    assert dose_by_count_g_per_kg(4.0, count, 20.0) >= 20.0


def test_a_tenth_of_the_life_wants_ten_times_the_bran():
    assert dose_by_count_g_per_kg(4.0, 5.0, 20.0) == pytest.approx(100.0)


@pytest.mark.parametrize("store", ["wet-sealed", "serum-sugared", "serum-cold", "dried-room"])
def test_custom_and_reckoning_disagree(store):
    # Common practice, no source: sealed bran keeps without limit, dry bran for years, sugared serum on the shelf, cold
    # serum 12 to 24 months.
    held = STORES[store]
    keeps = keeps_figure(held, told("store_c", held.known_c, "Cel"), KNOWN)
    assert differs(held, keeps)
    assert keeps.value < held.custom_low_d


def test_of_a_woken_culture_sources_differ_so_much_that_no_one_is_wrong():
    held = STORES["culture"]
    assert not differs(held, keeps_figure(held, told("store_c", 20.0, "Cel"), KNOWN))


@pytest.mark.parametrize("store", sorted(STORES))
def test_the_belief_recomputes_from_its_leaves(store):
    held = STORES[store]
    figures = belief_figures(lot(store, 2.0, held.known_c, curd=True), KNOWN)
    for each in ("log10_cfu_per_g", "keeps_d", "works_pct"):
        assert np.array_equal(recomputed(figures[each]), figures[each].members)
        assert figures[each].members.size == MEMBERS


def test_a_use_by_is_a_range():
    made = date(2026, 10, 1)
    keeps = keeps_figure(STORES["dried-room"], told("store_c", 20.0, "Cel"), KNOWN)
    first, last = (made + timedelta(days=each) for each in (keeps.low, keeps.high))
    assert first < made + timedelta(days=keeps.value) < last


@pytest.mark.parametrize("months", [-1.0, float("nan")])
def test_an_age_below_nothing_is_refused(months):
    with pytest.raises(OutOfRange, match=r"^months = .* is outside 0 to 1200: nothing was made later than today"):
        aged_log10(8.0, 1.0, months, lost_frac=0.0, luck=0.5)
    with pytest.raises(OutOfRange, match=r"^months = "):
        lost_frac(months, 0.02, 0.02)


def test_bran_in_an_oven_is_refused():
    with pytest.raises(OutOfRange, match=r"^store_c = 60 °C is outside -25 to 35 °C: how dried bran"):
        belief_figures(lot("dried-room", 1.0, 60.0), KNOWN)


def test_a_water_activity_in_per_cent_is_refused():
    with pytest.raises(OutOfRange, match=r"^water_activity = 55 is outside 0 to 1: it is a share"):
        dry_decline_log10_per_month(55.0, 1.0, 1.0)
