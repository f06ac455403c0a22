"""The particle filter: what must hold whatever was read."""

import numpy as np
import pytest

from sourloam.science.ferment.ensemble.forecast import Limits
from sourloam.science.readings.kinds import Caddy, Fizz, Liquid, Seen, Strip, Thermometer, Weight, Where
from sourloam.science.watch.conditions import CONDITIONS, Condition
from sourloam.science.watch.conflict import conflicts
from sourloam.science.watch.corrected import corrected
from sourloam.science.watch.diagnosis import diagnosis
from sourloam.science.watch.faults import FAULTY_FRAC, Fault, faults_of, prior_of
from sourloam.science.watch.filter import normed, resampled, watch, weigh
from sourloam.science.watch.levers import LEVERS, scores_of
from sourloam.science.watch.next_look import looks
from tests.science.ferment.layers import living
from tests.science.watch.vessels import KNOWN, MEANS, MEMBERS, SCATTER, SIGNS, ensemble, filling, ready_d

ROT = Seen(day=10.0, sign="putrid", kind="smell", typed="rot")
SOUR = Seen(day=10.0, sign="pickle", kind="smell", typed="sour")
LOW = Strip(day=10.0, ph=3.8, where=Where.CORE, typed="3.8")
MANY = (
    SOUR,
    LOW,
    Strip(day=4.0, ph=4.6, where=Where.TOP, typed="4.6"),
    Fizz(day=9.0, fizzes=True),
    Thermometer(day=9.0, celsius=18.5),
    Liquid(day=6.0, litres=0.2),
    Liquid(day=9.0, litres=0.1),
    Weight(day=9.0, mass_kg=7.8),
    Caddy(day=0.0, caddy_d=1.0),
    Seen(day=10.0, sign="white", kind="growth"),
)


def chances(weighed, day=10):
    return {each.condition: each.chance.value for each in diagnosis(weighed, day)}


def test_the_order_of_readings_does_not_matter():
    of = ensemble()
    forth, back = weigh(of, MANY, SIGNS), weigh(of, MANY[::-1], SIGNS)
    assert np.allclose(forth.weights, back.weights)


def test_nothing_read_leaves_every_member_as_it_counted():
    of = ensemble()
    assert np.allclose(weigh(of, (), SIGNS).weights, normed(of.log_prior))


def test_a_reading_that_says_nothing_changes_nothing():
    of, flat = ensemble(), SIGNS.by_id["ash"]
    dull = type(SIGNS)({**SIGNS.by_id, "ash": type(flat)(**{**vars(flat), "chances": (0.1,) * 6})})
    before, after = weigh(of, (), dull), weigh(of, (Seen(day=9.0, sign="ash", kind="smell"),), dull)
    assert np.allclose(before.weights, after.weights)


def test_the_same_seed_gives_the_same_answer():
    one, two = (watch(filling(), living(MEMBERS), (ROT,), SIGNS, means=MEANS) for _ in range(2))
    assert np.array_equal(one.weights, two.weights)
    assert chances(one) == chances(two)


def test_a_strip_read_twice_says_less_than_two_of_two_boxes():
    of = ensemble()
    again = Strip(day=10.0, ph=3.8, where=Where.CORE, typed="again")
    other = Strip(day=10.0, ph=3.8, where=Where.CORE, typed="other", box="b")
    same, apart = (weigh(of, (LOW, each), SIGNS) for each in (again, other))
    assert same.effective > apart.effective


def test_faults_are_a_fifth_of_the_members_and_count_as_often_as_they_come():
    faults = faults_of(MEMBERS, KNOWN)
    assert np.mean(faults.of > 0) == pytest.approx(FAULTY_FRAC, abs=0.01)
    weights = normed(faults.log_prior)
    shares = np.bincount(faults.of, weights=weights, minlength=len(Fault))
    assert shares == pytest.approx(prior_of(KNOWN), abs=1e-9)


def test_a_smell_of_rot_is_mostly_not_sound_and_a_sour_one_is():
    of = ensemble()
    assert chances(weigh(of, (ROT,), SIGNS))[Condition.SOUND] < 0.5
    assert chances(weigh(of, (SOUR, LOW), SIGNS))[Condition.SOUND] > 0.8


def test_a_white_film_alone_never_means_failed():
    of = ensemble()
    white = weigh(of, (Seen(day=10.0, sign="white", kind="growth"),), SIGNS)
    assert max(chances(white), key=chances(white).get) is Condition.SOUND


def test_rot_at_a_low_ph_is_reported_as_a_contradiction():
    (found,) = conflicts((ROT, LOW), SIGNS)
    assert {found.one, found.other} == {ROT, LOW}
    assert not conflicts((SOUR, LOW), SIGNS)
    assert not conflicts((Seen(day=10.0, sign="white", kind="growth"), ROT), SIGNS)


def test_readings_that_no_member_gives_are_known_to_fit_nothing():
    of = ensemble()
    odd = (
        Strip(day=2.0, ph=3.3, where=Where.CORE, is_meter=True, typed="a"),
        Strip(day=12.0, ph=7.9, where=Where.CORE, is_meter=True, typed="b"),
        SOUR,
    )
    assert not weigh(of, odd, SIGNS).is_known


def test_the_chances_add_up_and_have_intervals():
    told = diagnosis(weigh(ensemble(), (ROT,), SIGNS), 10)
    assert {each.condition for each in told} == set(CONDITIONS)
    assert sum(each.chance.value for each in told) == pytest.approx(1.0)
    assert all(0.0 <= each.chance.low <= each.chance.value <= each.chance.high <= 1.0 for each in told)


def test_moved_members_stand_for_the_same_prior():
    """Weights of the moved members, without what was read, give back the spreads that were known before."""
    moved = watch(filling(), living(MEMBERS), (ROT, LOW, Fizz(day=9.0, fizzes=True)), SIGNS, means=MEANS).ensemble
    scores = scores_of(moved.living, moved.before)
    weights = normed(moved.log_move)
    assert np.abs(weights @ scores).max() < 0.25
    assert np.sqrt(weights @ scores**2) == pytest.approx(np.ones(len(LEVERS)), abs=0.3)


def test_a_strip_moves_what_is_corrected_towards_it():
    of, limits = ensemble(), Limits(14.0, SCATTER, has_animal=False)
    sour, fresh = (
        corrected(weigh(of, (Strip(day=5.0, ph=ph, where=Where.CORE),), SIGNS), limits).forecast for ph in (3.7, 5.2)
    )
    assert sour.course["ph"].median[5] < fresh.course["ph"].median[5]
    assert sour.figures["ready_day"].value <= fresh.figures["ready_day"].value


def test_members_are_drawn_again_as_often_as_they_count():
    weights = normed(np.log(np.arange(1.0, 101.0)))
    counts = np.bincount(resampled(weights, 10_000, seed=3), minlength=100)
    assert np.abs(counts - 10_000 * weights).max() <= 1.0


def test_what_to_look_at_next_is_not_what_was_just_read():
    of = ensemble()
    told = looks(weigh(of, (ROT,), SIGNS), 10, ready_d(of))
    assert told
    assert all(each.topic != "smell" for each in told)
    assert told[0].gain_bits >= 0.75 * max(each.gain_bits for each in told)
