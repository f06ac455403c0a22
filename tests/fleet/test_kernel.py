"""`fleet.kernel`: the compiled life is the readable one, bit for bit, whatever the situation and the chance."""

from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from multiprocessing import get_context
from statistics import mean, stdev
from types import SimpleNamespace

from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.fleet.chance import stream_of
from sourloam.fleet.fast import day_lines, live_fast, outcome_of_rows
from sourloam.fleet.kernel import run
from sourloam.fleet.outcome import outcome_of
from sourloam.fleet.replicate import Chances
from sourloam.fleet.simulate import simulate
from sourloam.fleet.world import Luck
from tests.fleet.sites import HEAD, question
from tests.fleet.test_simulate import HABITS, NUMBERS
from tests.fleet.worlds import opened, scraps, taker, vessels, world_of

DAYS = 150
TAKERS = st.lists(
    st.tuples(
        st.sampled_from(("neighbour", "shared-garden", "collection", "waste-bin")),
        st.sampled_from(((), ("sat",), ("mon", "thu"))),
        st.integers(1, 3),
        st.sampled_from((None, 6.0, 30.0)),
        st.booleans(),
    ),
    max_size=3,
)


def places_of(drawn):
    return tuple(
        taker(f"taker-{index}", kind, days=days, every_weeks=every, litres_l=litres, takes_meat=meat)
        for index, (kind, days, every, litres, meat) in enumerate(drawn)
    )


def uneven_world(seed, count, *, numbers, habits, takers, meat, failing, temperature_c):
    """Return a world with uneven days, batches that differ and fail, and takers with terms."""
    random = stream_of(seed, 0, "a test")
    came = [scraps(each, animal=meat) for each in random.gamma(1.5, 1.0, DAYS).tolist()]
    luck = Luck(tuple(random.standard_normal(99).tolist()), tuple((random.random(99) < failing).tolist()))
    owned = vessels(count, has_drain=bool(seed % 2))
    world = world_of(
        owned, came, places=places_of(takers), numbers=numbers, habits=habits, temperature_c=temperature_c, luck=luck
    )
    scatter = dict.fromkeys((each.id for each in owned), (0.2,) * DAYS)
    return replace(world, scatter=scatter)


@settings(max_examples=60, deadline=None)
@given(
    st.integers(0, 10_000),
    st.integers(1, 6),
    NUMBERS,
    HABITS,
    TAKERS,
    st.sampled_from((0.0, 0.2)),
    st.sampled_from((0.0, 0.3)),
    st.floats(2.0, 40.0),
)
def test_each_day_of_a_random_situation_is_the_same_bit_for_bit(
    seed, count, numbers, habits, takers, meat, failing, temperature_c
):
    world = uneven_world(
        seed,
        count,
        numbers=numbers,
        habits=habits,
        takers=takers,
        meat=meat,
        failing=failing,
        temperature_c=temperature_c,
    )
    situation = opened(world)
    life, fast = simulate(situation, DAYS, world), live_fast(run, situation, world)
    assert day_lines(fast) == life.days
    site = SimpleNamespace(vessels=tuple(world.vessels.values()))
    assert repr(outcome_of_rows(fast)) == repr(outcome_of(life, site))  # words, since a mean of nothing is no number


GROUND = """
[[bed]]
id = "bed"
area = "3 m2"
[[pile]]
id = "heap"
volume = "300 L"
browns = "100 L"
[[worm_bin]]
id = "worms"
area = "0.3 m2"
worms = "0.4 kg"
"""


def test_a_site_with_ground_piles_and_worms_lives_the_same_years():
    asked = question(rest=GROUND, taker="", stream='[[stream]]\nid = "kitchen"\namount = "9 kg/week"\n')
    plain = Chances(asked.site, asked.year, asked.situation, 1, 0.1)
    fast = replace(plain, run=run)
    for number in range(3):
        assert repr(fast.outcome(asked.site, number)) == repr(plain.outcome(asked.site, number))


STARTED = """
[[vessel]]
id = "one"
volume = "20 L"
state = "ready"
[[vessel]]
id = "other"
volume = "16 L"
state = "filling"
filled = "50 %"
[[vessel]]
id = "also"
volume = "16 L"
state = "ready"
[[taker]]
id = "meadow"
kind = "shared-garden"
days = ["sun"]
every_weeks = 2
"""


def test_vessels_that_are_in_use_on_the_first_day_go_on_alike():
    asked = question(rest=STARTED)
    plain = Chances(asked.site, asked.year, asked.situation, 3, 0.2)
    fast = replace(plain, run=run)
    for number in range(5):
        assert repr(fast.outcome(asked.site, number)) == repr(plain.outcome(asked.site, number))


def _stalled(number):
    asked = question(vessel='[[vessel]]\nid = "pail"\ncount = 2\nvolume = "20 L"\n')
    return Chances(asked.site, asked.year, asked.situation, 5, 0.1, run).outcome(asked.site, number)


def test_years_are_the_same_in_one_process_and_in_two():
    numbers = range(4)
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        shared = list(pool.map(_stalled, numbers))
    assert repr(shared) == repr([_stalled(each) for each in numbers])
    assert len({each.stalled_days for each in shared}) > 1


def _mean_and_error(kg_per_week, lives=500, indoors="20 C"):
    asked = question(
        site=HEAD.replace("20 C", indoors),
        stream=f'[[stream]]\nid = "kitchen"\namount = "{kg_per_week} kg/week"\n',
        vessel='[[vessel]]\nid = "pail"\ncount = 2\nvolume = "20 L"\n',
    )
    held = Chances(asked.site, asked.year, asked.situation, 2, 0.05, run)
    days = [held.outcome(asked.site, each).stalled_days for each in range(lives)]
    return mean(days), stdev(days) / lives**0.5


def test_fewer_scraps_and_a_warmer_room_add_no_stalled_day_in_the_mean_of_500_lives():
    usual, error = _mean_and_error(5.5)
    assert usual > 10.0 * error
    assert _mean_and_error(5.0)[0] <= usual + 3.0 * error
    assert _mean_and_error(5.5, indoors="23 C")[0] <= usual + 3.0 * error
