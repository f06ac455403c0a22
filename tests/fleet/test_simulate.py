"""`fleet.simulate`: a life of vessels keeps its mass, its order and its bounds, day by day."""

from collections import Counter
from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.errors import BalanceError
from sourloam.fleet.life import DayLine, check_balance
from sourloam.fleet.simulate import Diary, live_a_day, room_l, simulate
from sourloam.science.ferment.ferment import ferment
from sourloam.science.ferment.outcome import Filling
from tests.fleet.worlds import DAILY, MONDAY, PLAIN, lived, opened, rotation, scraps, steady, taker, vessels, world_of
from tests.science.ferment.fillings import BRAN, FERMENT, exactly
from tests.science.vessel.amounts import VESSEL

WET = PLAIN._replace(softness=1.2, bran_holds_kg_per_kg=0.0)
FILL_D = st.floats(1.0, 30.0)
COUNT = st.integers(1, 6)
NUMBERS = st.builds(
    PLAIN._replace,
    settles_frac=st.floats(0.0, 0.4),
    settling_d=st.floats(1.0, 10.0),
    softness=st.floats(0.0, 1.7),
    draining_d=st.floats(1.0, 12.0),
    dry_loss_frac=st.floats(0.0, 0.1),
    density_times=st.floats(0.7, 1.4),
)
HABITS = st.builds(
    DAILY._replace,
    loads_every_d=st.integers(1, 7),
    holding_l=st.floats(0.0, 30.0),
    least_d=st.sampled_from([0.0, 14.0]),
    work_days=st.sampled_from([("sat",), ("wed", "sat"), DAILY.work_days]),
)


def by_day(world, days):
    """Give the situation at the end of each day."""
    situation, diary = opened(world), Diary()
    for index in range(days):
        situation = live_a_day(situation, index, world, diary)
        yield situation
        situation = situation._replace(on=situation.on + timedelta(days=1))


@settings(max_examples=40)
@given(COUNT, FILL_D, NUMBERS, HABITS, st.floats(-5.0, 40.0))
def test_no_kilogram_is_lost_or_made(count, fill_d, numbers, habits, temperature_c):
    # `simulate` itself refuses a day that does not balance; here the whole run is added up once more.
    life = rotation(count, fill_d, numbers=numbers, habits=habits, temperature_c=temperature_c)
    gone = sum(day.turned_away_kg + day.drawn_kg + day.gas_kg + day.placed_kg for day in life.days)
    came = sum(day.scraps_kg + day.bran_kg for day in life.days)
    assert came == pytest.approx(gone + life.days[-1].held_kg)
    assert gone >= 0.0


def test_a_day_that_leaks_is_refused_with_its_terms():
    leaking = [DayLine(MONDAY, scraps_kg=2.0, bran_kg=0.04, held_kg=2.0)]
    with pytest.raises(BalanceError, match=r"the mass of 2027-03-01 does not balance, \+0\.04 kg are left over:"):
        check_balance(leaking, 0.0)


def test_a_day_that_makes_mass_is_refused():
    with pytest.raises(BalanceError, match=r"does not balance, -1 kg are left over:"):
        check_balance([DayLine(MONDAY, held_kg=6.0)], 5.0)


@settings(max_examples=40)
@given(COUNT, FILL_D, NUMBERS, HABITS, st.floats(2.0, 30.0))
def test_one_more_vessel_never_adds_stalled_days(count, fill_d, numbers, habits, temperature_c):
    # A steady stream and a free outlet: with gluts, absences or work days, another vessel moves the day on which each
    # one is full, and a vessel that happens to be ready on the eve of a glut may then be one that is not.
    free = habits._replace(work_days=DAILY.work_days)
    keys = {"numbers": numbers, "habits": free, "temperature_c": temperature_c}
    assert rotation(count + 1, fill_d, **keys).stalled_days <= rotation(count, fill_d, **keys).stalled_days


@settings(max_examples=40)
@given(COUNT, FILL_D, NUMBERS, HABITS, st.floats(2.0, 30.0), st.floats(0.0, 15.0))
def test_in_a_warmer_place_below_30_degrees_no_batch_begins_later(count, fill_d, numbers, habits, cold_c, more):
    # A steady stream and a free outlet, for the reason given above. Stalled days of a span that cuts a batch short
    # depend on where it is cut; the begin of each batch does not.
    free = habits._replace(work_days=DAILY.work_days)
    cold, warm = (
        [
            each.first_layer_on
            for each in rotation(count, fill_d, numbers=numbers, habits=free, temperature_c=at).batches
        ]
        for at in (cold_c, min(cold_c + more, 30.0))
    )
    assert len(warm) >= len(cold)
    assert all(early <= late for early, late in zip(warm, cold, strict=False))


@settings(max_examples=40)
@given(COUNT, FILL_D, NUMBERS, HABITS)
def test_no_vessel_is_overfull_and_only_one_is_open(count, fill_d, numbers, habits):
    world = world_of(vessels(count), steady(fill_d, 120, 18.0), numbers=numbers, habits=habits)
    for situation in by_day(world, 120):
        assert sum(each.phase == "filling" for each in situation.vessels) <= 1
        for state in situation.vessels:
            assert room_l(state, world) <= world.vessels[state.vessel].usable_l * (1 + 1e-9)


@settings(max_examples=40)
@given(COUNT, FILL_D, HABITS)
def test_no_more_waits_than_caddy_and_cold_hold(count, fill_d, habits):
    world = world_of(vessels(count), steady(fill_d, 120, 18.0), habits=habits)
    for situation in by_day(world, 120):
        assert situation.waiting.loose_l <= habits.holding_l + 1e-5


@settings(max_examples=40)
@given(FILL_D, st.integers(1, 7))
def test_scraps_wait_no_longer_than_from_one_loading_to_the_next(fill_d, every):
    habits = DAILY._replace(loads_every_d=every, holding_l=1000.0)
    world = world_of(vessels(30), steady(fill_d, 120, 18.0), habits=habits)
    a_day_kg = world.arrivals[0].scraps_kg
    for situation in by_day(world, 120):
        assert situation.waiting.scraps_kg <= (every - 1) * a_day_kg + 1e-6


def test_a_full_caddy_is_no_stall_while_nothing_comes():
    # The caddy filled up on the days of the stall; in the absence that follows nothing more is turned away.
    coming, away = steady(1.5, 10, 18.0), (scraps(0.0),) * 30
    for holding_l in (part / 37.0 for part in range(1, 40)):  # where a rounding would leave a drop over
        life = lived(world_of(vessels(1), coming + away, habits=DAILY._replace(holding_l=holding_l), temperature_c=1.0))
        assert life.days[9].is_stalled
        assert not any(day.is_stalled for day in life.days[10:])


def test_a_batch_is_named_by_its_vessel_and_by_how_often_that_was_filled():
    life = rotation(3, 7.0)
    fillings = Counter(each.vessel for each in life.batches)
    wanted = {f"{vessel}/{number}" for vessel, count in fillings.items() for number in range(1, count + 1)}
    assert {each.id for each in life.batches} == wanted
    assert len(life.batches) == len(wanted)


@pytest.mark.parametrize(("least_d", "temperature_c"), [(0.0, 20.0), (14.0, 30.0), (28.0, 20.0)])
def test_a_vessel_is_emptied_when_it_is_ready_and_not_before_the_keeper_would(least_d, temperature_c):
    life = rotation(6, 7.0, habits=DAILY._replace(least_d=least_d), temperature_c=temperature_c)
    ready_d = 14.0 if temperature_c == 20.0 else 9.0
    done = [each for each in life.batches if each.is_placed]
    assert done
    assert {(each.placed_on - each.sealed_on).days for each in done} == {max(least_d, ready_d)}


def test_nothing_sours_in_the_frost_and_all_is_turned_away_in_the_end():
    life = rotation(2, 7.0, temperature_c=-3.0)
    assert not any(each.ready_on for each in life.batches)
    assert life.days[-1].is_stalled
    assert [binding for _, _, binding in life.stalls()] == ["vessels"]


def test_a_stall_for_want_of_a_place_says_so():
    life = rotation(2, 7.0, places=(taker("crowd", "neighbour", litres_l=0.5, days=("mon",)),))
    assert life.stalls()[-1][2] == "places"
    assert any("0.5 L at each visit" in each.waits_for or "next taken on" in each.waits_for for each in life.batches)


def test_days_of_stall_less_than_a_week_apart_are_one_stall():
    # One vessel is away for 14 days and then takes scraps again while it fills: 6 days, or 7.
    near, far = rotation(1, 6.0, days=100), rotation(1, 7.0, days=100)
    assert len(near.stalls()) == 1
    assert len(far.stalls()) == 5
    assert sum((last - first).days + 1 for first, last, _ in far.stalls()) == far.stalled_days


def test_animal_matter_gets_twice_the_bran():
    plants, meat = (lived(world_of(vessels(1), (scraps(1.0, animal=share),))).days[0].bran_kg for share in (0.0, 1.0))
    assert (plants, meat) == pytest.approx((0.02, 0.04))


@settings(max_examples=40)
@given(st.floats(6.0, 20.0), st.floats(0.10, 0.20))
def test_liquid_is_drawn_off_every_two_to_seven_days_while_it_comes(fill_d, dry):
    # Common practice, no source: every 2 to 7 days.
    a_day = scraps(18.0 * 0.6 / fill_d, dry=dry)
    life = lived(world_of(vessels(4), (a_day,) * 90, numbers=WET))
    days = {}
    for draw in life.draw_offs:
        days.setdefault(draw.batch, []).append(draw.on)
    waits = [(later - earlier).days for each in days.values() for earlier, later in pairwise(each)]
    assert waits
    assert min(waits) >= 2
    assert max(waits) <= 7


@settings(max_examples=40)
@given(st.floats(3.0, 20.0), st.floats(0.10, 0.25), NUMBERS)
def test_the_liquid_never_stands_much_above_the_grid(fill_d, dry, numbers):
    # It is looked at once a day, so it may pass the mark of 0.8 of the space by what comes in a day.
    world = world_of(vessels(4), (scraps(18.0 * 0.6 / fill_d, dry=dry),) * 90, numbers=numbers)
    for situation in by_day(world, 90):
        for state in situation.vessels:
            space_l = world.vessels[state.vessel].below_grid_l
            assert state.below_grid_l <= max(0.8 * space_l, 0.05)


def test_a_vessel_without_a_drain_keeps_its_liquid_until_it_is_emptied():
    life = lived(world_of(vessels(3, has_drain=False), steady(8.0, 60, 18.0), numbers=WET))
    assert life.draw_offs == ()
    placed = next(each for each in life.batches if each.is_placed)
    gas_kg = WET.dry_loss_frac * placed.contents.dry_kg
    assert sum(each.mass_kg for each in placed.placings) == pytest.approx(placed.contents.mass_kg - gas_kg)


@settings(max_examples=20)
@given(st.floats(4.0, 30.0), st.floats(10.0, 16.0))
def test_the_ensemble_without_its_spread_is_ready_on_the_day_of_the_rotation(temperature_c, ready_at_20c_d):
    cardinal = {name: getattr(PLAIN, name) for name in ("least_c", "best_c", "most_c")}
    parameters = exactly(FERMENT, ready_at_20c_d=ready_at_20c_d, **cardinal)
    numbers = PLAIN._replace(ready_at_20c_d=ready_at_20c_d)
    life = rotation(2, 7.0, days=400, numbers=numbers, temperature_c=temperature_c)
    batch = life.batches[0]
    filling = Filling(batch.id, batch.first_layer_on, batch.sealed_on, batch.contents)
    end = ferment(filling, (temperature_c,) * 400, BRAN, parameters, vessel=VESSEL)
    assert abs((end.ready_on(0.5) - batch.ready_on).days) <= 1


def test_a_life_goes_on_where_another_one_stopped():
    world = world_of(vessels(3), steady(6.0, 120, 18.0), numbers=WET)
    half = simulate(opened(world), 60, world)
    paces = {name: each[60:] for name, each in world.paces.items()}
    later = replace(world, first=half.end.on, arrivals=world.arrivals[60:], paces=paces)
    assert simulate(half.end, 60, later).end == lived(world).end
