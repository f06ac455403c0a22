"""`science.places.worm_bin`: the ration of worms, against published feedings and by its own laws."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.base.fields import Reading, read_record
from sourloam.science.places.worm_bin.lime import carbonate_g, shell_g
from sourloam.science.places.worm_bin.ration import appetite_frac, ration_kg_per_d, stepped_up_frac
from sourloam.science.places.worm_bin.worm_bin import WormBin
from tests.published import Published
from tests.science.places.setting import (
    EMPTY,
    MILD,
    RUNS,
    SPRING,
    WINTER,
    WORM_BIN,
    bucket,
    climate,
    fed,
    flat,
    worm_bin,
)

STOCKED_KG_PER_M2 = 1.60  # ndegwa2000: the density of both
NDEGWA = [
    Published("ndegwa2000", "best castings", given=(0.75,), want="0.60"),
    Published("ndegwa2000", "highest growth", given=(1.25,), want="1.00"),
]
WARMTH = WORM_BIN.warmth
TEMPERATURES = st.floats(-20.0, 50.0)


def _offer(place, product=None, on=SPRING, weather=MILD, state=EMPTY):
    return place.can_take(state, product or bucket(), on, climate=weather)


@pytest.mark.parametrize("case", NDEGWA, ids=str)
def test_half_a_square_metre_of_worms_eats_what_the_trial_fed(case):
    assert ration_kg_per_d(0.5 * STOCKED_KG_PER_M2, case.given[0]) == pytest.approx(
        float(case.want), abs=case.tolerance
    )


@pytest.mark.parametrize("case", NDEGWA, ids=str)
def test_acid_scraps_are_fed_well_below_what_worms_were_fed_in_trials(case):
    assert WORM_BIN.eats_kg_per_kg_d.high < case.given[0]


def test_worms_eat_most_where_they_were_found_to_gain_most():
    # kaplan1980: greatest gain of weight from 20 to 29 °C, limits 0 and 35 °C.
    assert 20.0 <= WARMTH.best_c <= 29.0
    assert min(appetite_frac([20.0, 29.0], WARMTH)) > 0.75
    assert max(appetite_frac([0.0, 35.0], WARMTH)) == 0.0


def test_a_shell_holds_as_much_carbonate_by_its_calcium_as_by_its_weight():
    # eggshell: 5.5 g of shell holds 2.2 g of calcium, and about 95 % of it is carbonate; 40.078 g/mol is calcium's.
    by_calcium_g = 2.2 / 40.078 * carbonate_g(2.0)
    assert 5.5 * WORM_BIN.shell_carbonate_frac.value == pytest.approx(by_calcium_g, rel=0.06)


@given(temperature_c=TEMPERATURES)
def test_appetite_is_a_share_and_greatest_at_its_best(temperature_c):
    appetite = appetite_frac(temperature_c, WARMTH)
    assert 0.0 <= appetite <= 1.0 + 1e-12
    assert appetite_frac(WARMTH.best_c, WARMTH) == pytest.approx(1.0)
    if not WARMTH.stops_low_c < temperature_c < WARMTH.stops_high_c:
        assert appetite == 0.0


@given(acid_mol=st.floats(0.0, 1000.0), share=st.floats(0.1, 1.0))
def test_the_shell_holds_the_carbonate_that_the_acid_takes_up(acid_mol, share):
    shell = shell_g(acid_mol, share, 0.95, 0.5)
    assert shell * 0.95 * 0.5 == pytest.approx(share * carbonate_g(acid_mol))


@pytest.mark.parametrize("acid_mol", [-0.1, float("nan")])
def test_less_acid_than_none_is_refused(acid_mol):
    with pytest.raises(OutOfRange, match=r"^acid_mol = .* acid cannot be less than none\.$"):
        carbonate_g(acid_mol)


@pytest.mark.parametrize("temperature_c", [-61.0, 70.0, float("nan")])
def test_a_bin_that_cannot_be_so_cold_or_hot_is_refused(temperature_c):
    with pytest.raises(OutOfRange, match=r"^temperature_c = .* no bin is that cold or hot\.$"):
        appetite_frac(temperature_c, WARMTH)


@given(run=RUNS, accustomed=st.booleans())
def test_no_week_brings_more_than_its_ration(run, accustomed):
    place = worm_bin(is_accustomed=accustomed)
    state, _ = fed(place, run)
    most = ration_kg_per_d(0.8, WORM_BIN.eats_kg_per_kg_d.value) * 7.0
    for last in state.receipts:
        week = [each for each in state.receipts if 0 <= (last.on - each.on).days < 7]
        assert sum(each.mass_kg for each in week) <= most * (1.0 + 1e-9)


def test_the_first_weeks_step_up_from_a_tenth():
    assert [stepped_up_frac(day, 0.1, 7.0) for day in (0, 6, 7, 14, 21, 28, 3650)] == [
        0.1,
        0.1,
        0.2,
        0.4,
        0.8,
        1.0,
        1.0,
    ]
    place, used_to_it = worm_bin(), worm_bin(is_accustomed=True)
    first, full = _offer(place), _offer(used_to_it)
    assert first.takes_kg == pytest.approx(0.1 * full.takes_kg)
    assert (first.limit, full.limit) == ("stepping up: 10 % of the ration", "ration of the week")
    state, _ = place.after(EMPTY, bucket(), first.takes_kg, SPRING, climate=MILD)
    assert _offer(place, on=SPRING + timedelta(days=7), state=state).takes_kg == pytest.approx(0.2 * full.takes_kg)


def test_a_ration_given_is_a_ration_gone_until_the_week_is_over():
    place = worm_bin(is_accustomed=True)
    state, effect = place.after(EMPTY, bucket(), _offer(place).takes_kg, SPRING, climate=MILD)
    refused = _offer(place, on=SPRING + timedelta(days=6), state=state)
    assert (refused.takes_kg, refused.limit) == (0.0, "fed until 10 May")
    assert place.free_on(state, climate=MILD) == effect.usable_on == SPRING + timedelta(days=7)
    assert _offer(place, on=effect.usable_on, state=state).takes_kg > 0.0


def test_a_small_bin_of_many_worms_gets_no_layer_that_heats():
    offer = _offer(worm_bin(0.05, 10.0, is_accustomed=True))
    assert offer.limit == "a layer thin enough not to heat"
    assert offer.takes_kg == pytest.approx(1000.0 * WORM_BIN.layer_m.value * 0.05 * 0.8)


@pytest.mark.parametrize(("outdoors_c", "says"), [(2.0, "too cold for the worms: "), (33.0, "too hot for the worms: ")])
def test_in_the_cold_and_in_the_heat_worms_get_nothing(outdoors_c, says):
    offer = _offer(worm_bin(stands="outdoors"), weather=flat(outdoors_c))
    assert offer.takes_kg == 0.0
    assert offer.limit == f"{says}{outdoors_c:.0f} °C"


@given(colder_k=st.floats(0.0, 15.0))
def test_a_colder_kitchen_below_the_best_never_feeds_more(colder_k):
    place = worm_bin(is_accustomed=True)
    warm, cold = (_offer(place, weather=climate(indoors_c=each)).takes_kg for each in (23.0, 23.0 - colder_k))
    assert cold <= warm * (1.0 + 1e-9)


def test_a_shed_in_winter_feeds_less_than_in_summer():
    place = worm_bin(stands="shed", is_accustomed=True)
    assert _offer(place, on=WINTER).takes_kg < _offer(place, on=date(2027, 7, 20)).takes_kg


def test_a_bin_that_got_nothing_has_always_been_free():
    assert worm_bin().free_on(EMPTY, climate=MILD) == date.min


def test_worms_get_nothing_unsound_and_the_acid_is_answered_with_shell():
    assert _offer(worm_bin(), bucket(state="unknown")).limit == (
        "nobody knows whether it is sound, and worms get only what is sound"
    )
    assert "powdered eggshell against the acid" in _offer(worm_bin()).effect
    assert "worm-heat-and-ammonia" in _offer(worm_bin()).cautions


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("worms", "1 g", "is outside 0.02 kg to 200 kg: that is too few to feed, or a worm farm."),
        ("stands", "attic", "is not one of kitchen, indoors, cellar, shed, outdoors"),
        ("accustomed", "yes", "is neither yes nor no"),
    ],
)
def test_a_worm_bin_that_cannot_be_is_refused(key, value, says):
    reading = Reading()
    raw = {"id": "worms", "area": "0.5 m2", key: value}
    assert read_record(WormBin, raw, where="worm_bin", path=(), reading=reading) is None
    assert says in str(reading.problems[0])
