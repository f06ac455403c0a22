"""`science.places.pile`: room, browns and sourness, against published recipes and by their own laws."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.base.fields import Reading, read_record
from sourloam.science.places.pile.blend import browns_kg
from sourloam.science.places.pile.pile import Pile
from sourloam.science.places.pile.recipe import second_for_carbon_kg, second_for_moisture_kg
from tests.published import Published
from tests.science.places.setting import EMPTY, MILD, PILE, PRODUCTS, RUNS, SPRING, START, bucket, fed, opened, pile

MOISTURE = [
    Published("cornell_moisture", "leaves for 10 kg of grass, goal 60 %", given=(10.0, 0.77, 0.35, 0.60), want="6.8"),
]
CARBON = [  # lb of carbon and nitrogen; the second is urea with 46 % of nitrogen and its carbon left out
    Published("extension_351921", "urea for 400 lb of sawdust", given=(240.0, 0.6, 0.0, 0.46, 30.0), want="16"),
]
MASS = st.floats(0.1, 100.0)


@pytest.mark.parametrize("case", MOISTURE, ids=str)
def test_a_second_material_brings_the_published_mix_to_its_moisture(case):
    assert second_for_moisture_kg(*case.given) == pytest.approx(float(case.want), abs=case.tolerance)


@pytest.mark.parametrize("case", CARBON, ids=str)
def test_a_second_material_brings_the_published_mix_to_its_ratio(case):
    *given_, goal = case.given
    assert second_for_carbon_kg(*given_, goal=goal) == pytest.approx(float(case.want), abs=case.tolerance)


@given(mass_kg=MASS, wet=st.floats(0.61, 0.95), dry=st.floats(0.05, 0.59))
def test_the_mix_has_the_moisture_that_was_wanted(mass_kg, wet, dry):
    second = second_for_moisture_kg(mass_kg, wet, dry, 0.60)
    assert (mass_kg * wet + second * dry) / (mass_kg + second) == pytest.approx(0.60)


@given(nitrogen_g=st.floats(1.0, 500.0), low=st.floats(5.0, 24.0), high=st.floats(26.0, 600.0))
def test_the_mix_has_the_ratio_that_was_wanted(nitrogen_g, low, high):
    second = second_for_carbon_kg(low * nitrogen_g, nitrogen_g, high * 5.0, 5.0, goal=25.0)
    assert (low * nitrogen_g + second * high * 5.0) / (nitrogen_g + second * 5.0) == pytest.approx(25.0)


@pytest.mark.parametrize("dry", [0.60, 0.65, float("nan")])
def test_a_second_material_that_is_too_wet_itself_is_refused(dry):
    with pytest.raises(OutOfRange, match=r"^second_kg = .* the goal must lie between the two materials\.$"):
        second_for_moisture_kg(10.0, 0.77, dry, 0.60)


def test_a_second_material_that_is_as_rich_is_refused():
    with pytest.raises(OutOfRange, match=r"^second_kg = .* the goal must lie between the two materials\.$"):
        second_for_carbon_kg(1500.0, 100.0, 60.0, 3.0, goal=25.0)


def test_the_goals_are_within_the_ranges_that_handbooks_prefer():
    # nraes54_targets: preferred C:N 25 to 30, moisture 50 to 60 %; cooperband2002: 475 to 712 kg/m3 acceptable.
    assert 25.0 <= PILE.carbon_to_nitrogen.value <= 30.0
    assert 0.50 <= PILE.moisture_least_frac.value < PILE.moisture_most_frac.value <= 0.60
    assert 0.475 <= PILE.pile_kg_per_l.value <= 0.712


@given(product=PRODUCTS)
def test_with_its_browns_a_product_is_neither_too_wet_nor_short_of_carbon(product):
    browns = browns_kg(product, PILE)
    dry = 1.0 - PILE.browns_moisture_wb_frac.value
    water = product.mass_kg * product.moisture_wb_frac + browns * PILE.browns_moisture_wb_frac.value
    nitrogen = 1000.0 * browns * dry * PILE.browns_nitrogen_db_frac.value
    carbon = product.carbon_g + nitrogen * PILE.browns_carbon_to_nitrogen.value
    assert water / (product.mass_kg + browns) <= PILE.moisture_most_frac.value + 1e-9
    assert carbon >= (product.nitrogen_g + nitrogen) * PILE.carbon_to_nitrogen.value * (1.0 - 1e-9)


@given(run=RUNS, volume_l=st.floats(50.0, 3000.0), filled_l=st.floats(0.0, 3000.0))
def test_a_pile_never_overflows_and_never_uses_browns_that_are_not_there(run, volume_l, filled_l):
    place = pile(volume_l, filled_l=filled_l, browns_l=300.0, browns_l_per_d=2.0)
    state, placed = fed(place, run)
    for day, *_ in placed:
        assert place.holds_l(state, day) <= volume_l * (1.0 + 1e-9)
    used = sum(each.added_l for each in state.receipts)
    assert used <= 300.0 + 2.0 * (state.receipts[-1].on - START).days + 1e-6


@given(run=RUNS)
def test_no_more_of_a_pile_is_fresh_and_sour_than_its_share(run):
    place = pile(3000.0, browns_l=2000.0)
    state, placed = fed(place, run)
    for day, *_ in placed:
        sour = sum(
            each.mass_kg for each in state.receipts if each.on <= day and (day - each.on).days < PILE.sour_d.value
        )
        upto = type(state)(state.place, tuple(each for each in state.receipts if each.on <= day))
        assert sour <= PILE.sour_share_frac.value * place.holds_kg(upto, day) * (1.0 + 1e-6)


def test_the_limit_that_binds_is_named():
    def limit(place):
        return place.can_take(opened(place), bucket(), START, climate=MILD).limit

    assert limit(pile(filled_l=400.0)) == "all of it"
    assert limit(pile(filled_l=400.0, browns_l=10.0)) == "browns to mix in"
    assert limit(pile(filled_l=0.0, browns_l=30.0)) == "browns, since at most a third of a pile may be sour"
    assert limit(pile(420.0, filled_l=400.0)) == "room in the pile"
    assert limit(pile(400.0, filled_l=400.0)) == "room in the pile"


def test_without_browns_nothing_goes_in():
    place = pile(browns_l=0.0, filled_l=500.0)
    assert place.can_take(opened(place), bucket(), START, climate=MILD).takes_kg == 0.0


def test_browns_that_come_in_are_counted_from_the_first_day():
    place = pile(browns_l=0.0, browns_l_per_d=5.0)
    assert place.browns_left_l(opened(place), START + timedelta(days=10)) == 50.0


@given(later=st.integers(0, 170), days=st.integers(0, 100))
def test_a_pile_only_shrinks(later, days):
    place = pile(filled_l=800.0)
    state = opened(place)
    on = START + timedelta(days=later)
    assert place.holds_l(state, on + timedelta(days=days)) <= place.holds_l(state, on) <= 800.0


def test_a_pile_is_free_when_as_much_as_it_got_last_goes_in_again():
    place = pile(260.0, filled_l=230.0, browns_l=1000.0)
    state, _ = place.after(opened(place), bucket(), 15.0, START, climate=MILD)
    took = state.receipts[-1].volume_l
    free = place.free_on(state, climate=MILD)
    assert free > START
    assert place.holds_l(state, free) <= 260.0 - took < place.holds_l(state, free - timedelta(days=1))


def test_a_failed_batch_goes_only_into_a_pile_that_heats():
    failed = bucket(state="failed")
    small, large = pile(filled_l=300.0), pile(filled_l=900.0)
    refused = small.can_take(opened(small), failed, START, climate=MILD)
    assert refused.takes_kg == 0.0
    assert refused.limit == "it failed, and a pile of 300 L does not heat"
    assert large.can_take(opened(large), failed, START, climate=MILD).takes_kg == 15.0


def test_the_effect_says_what_to_mix_in():
    place = pile(filled_l=500.0)
    offer = place.can_take(opened(place), bucket(), START, climate=MILD)
    litres = browns_kg(bucket(), PILE) / PILE.browns_kg_per_l.value
    assert offer.effect == f"rots with {litres:.0f} L of browns; mature after about 6 months"
    dry = place.can_take(EMPTY, bucket(moisture_wb_frac=0.5, nitrogen_g=500.0), SPRING, climate=MILD)
    assert "of browns and water" in dry.effect


def test_a_pile_that_got_nothing_has_always_been_free():
    assert pile().free_on(EMPTY, climate=MILD) == date.min


def test_more_in_a_pile_than_it_holds_is_read_as_full():
    assert opened(pile(500.0, filled_l=900.0)).receipts[0].volume_l == 500.0


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("volume", "10 L", "is outside 50 L to 20000 L: smaller ones never rot through"),
        ("volume", "1 kg", "is a mass"),
        ("filled", "-5 L", "is outside 0 L to 20000 L"),
        ("browns_coming", "30 L", "is a volume"),
    ],
)
def test_a_pile_that_cannot_be_is_refused(key, value, says):
    reading = Reading()
    assert (
        read_record(Pile, {"id": "heap", "volume": "1 m3", key: value}, where="pile", path=(), reading=reading) is None
    )
    assert says in str(reading.problems[0])


def test_a_pile_is_read_with_its_assumptions():
    reading = Reading()
    read = read_record(
        Pile, {"id": "heap", "volume": "1 m3", "browns_coming": "35 L/week"}, where="pile", path=(), reading=reading
    )
    assert (read.volume_l, read.browns_l, read.browns_l_per_d) == (1000.0, 200.0, 5.0)
    assert [each.says for each in reading.assumptions] == [
        "It is empty on the first day.",
        "200 L of dry leaves lie ready for it.",
    ]
