"""What the watch says of how sure it is, against truths that it was not told: drawn from what it knows, from another
structure, and with faults.
"""

import numpy as np
import pytest
from scipy.stats import kstest

from sourloam.base.spread import NINETY
from sourloam.science.ferment.ensemble.dates import dates_of
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.kernel import live_all
from sourloam.science.ferment.layer.state import State
from sourloam.science.ferment.stack.given import Laid
from sourloam.science.watch.conditions import courses_of
from sourloam.science.watch.corrected import living_at
from sourloam.science.watch.diagnosis import chance_amiss
from sourloam.science.watch.faults import Faults
from sourloam.science.watch.filter import Ensemble, normed, weigh
from tests.science.ferment.layers import living
from tests.science.watch.vessels import (
    GROWTHS,
    KNOWN,
    MEMBERS,
    SCATTER,
    SIGNS,
    SMELLS,
    drawn,
    ensemble,
    filling,
    ready_d,
    sign,
    strips,
)

TRUTHS = 200
READ_ON = (3.0, 6.0, 10.0)
READ_OVER = 3  # times: in one reading of each, chance alone moves the shares by several in a hundred


def without(weighed, member):
    """Return the weights of all members but the truth, as it would be one of itself."""
    weights = weighed.weights.copy()
    weights[member] = 0.0
    return weights / weights.sum()


def rank(values, weights, truth, chance):
    """Return where a truth lies among weighted members; of equal ones it takes any place."""
    equal = np.isclose(values, truth) | (np.isinf(values) & np.isinf(truth))
    return float(weights[(values < truth) & ~equal].sum() + chance.random() * weights[equal].sum())


@pytest.mark.parametrize("what", ["days to ready", "pH in the end"])
def test_truths_drawn_from_what_is_known_have_uniform_ranks(what):
    """Simulation-based calibration (talts2018): 200 truths, each read by strips and a nose."""
    of, chance = ensemble(), np.random.default_rng(11)
    values = ready_d(of) if what == "days to ready" else of.courses.core_ph[:, -1]
    ranks = []
    for member in drawn(of, TRUTHS, chance):
        read = [*strips(of, member, READ_ON, chance)]
        weighed = weigh(of, read, SIGNS)
        ranks.append(rank(values, without(weighed, member), values[member], chance))
    assert kstest(ranks, "uniform").pvalue > 0.01


def test_strips_narrow_as_much_as_is_expected_of_them():
    """Three strips of one box, against the width that the box leaves: the shared error is not averaged away."""
    of, chance = ensemble(), np.random.default_rng(12)
    ph, prior = of.courses.core_ph[:, 6], normed(of.log_prior)
    spread = np.sqrt(prior @ (ph - prior @ ph) ** 2)
    seen = KNOWN.box_ph.value**2 + KNOWN.model_ph.value**2 + KNOWN.strip_ph.value**2 / len(READ_ON)
    normal = 2.0 * NINETY / np.sqrt(1.0 / spread**2 + 1.0 / seen)  # three strips on one pH, and a normal spread
    widths = []
    for member in drawn(of, 40, chance):
        weighed = weigh(of, strips(of, member, READ_ON, chance), SIGNS)
        order = np.argsort(of.courses.core_ph[:, 6])
        along = np.cumsum(weighed.weights[order])
        ends = of.courses.core_ph[order[np.searchsorted(along, (0.05, 0.95))], 6]
        widths.append(ends[1] - ends[0])
    print(f"width of pH on day 6 after three strips: {np.mean(widths):.2f}, by normal spreads: {normal:.2f}")
    assert np.mean(widths) == pytest.approx(normal, rel=0.35)


def altered():
    """Return truths of another structure: a long lag, a buffer of another shape, layers that are unlike each other."""
    count = MEMBERS
    chance = np.random.default_rng(13)
    starts = draw(filling(), living(count))
    y, laid = starts.y.copy(), starts.laid.copy()
    for name in ("warm_ready", "cold_ready", "enteric_ready"):
        y[..., State._fields.index(name)] *= np.exp(-1.0)  # a lag of one e-fold more
    y[..., State._fields.index("ammonium_mol")] += chance.uniform(0.0, 0.02, (count, 1))  # takes up acid from the start
    uneven = np.exp(chance.normal(0.0, 0.25, (count, 2)))
    laid[..., Laid._fields.index("tissue_eq")] *= uneven
    y[..., State._fields.index("sugar_g")] *= np.exp(chance.normal(0.0, 0.25, (count, 2)))
    return starts._replace(y=y, laid=laid)


def test_truths_of_another_structure_lie_in_the_interval_often_enough():
    """100 truths: the 90 % interval of the days to ready holds at least 75 % of them."""
    of, chance = ensemble(), np.random.default_rng(14)
    starts = altered()
    chosen = chance.choice(MEMBERS, 100, replace=False)
    followed = follow(type(starts)(*(each[chosen] for each in starts)), days_of(filling()), compiler=live_all)
    life = living(MEMBERS)
    truth = Ensemble(
        of.filling,
        of.before,
        life,
        Faults(np.zeros(100, dtype=int), np.zeros(100)),
        np.zeros(100),
        followed,
        courses_of(followed, living_at(life, chosen), floor_m2=0.055, room_c=np.full(28, 18.0)),
        of.known,
    )
    true_d = dates_at(followed, chosen)
    values, held = ready_d(of), []
    order = np.argsort(values)
    for member in range(100):
        weighed = weigh(of, strips(truth, member, READ_ON, chance), SIGNS)
        along = np.cumsum(weighed.weights[order])
        low, high = values[order[np.searchsorted(along, (0.05, 0.95)).clip(0, MEMBERS - 1)]]
        held.append(low <= true_d[member] <= high)
    print(f"truths of another structure in the interval: {np.mean(held):.0%}")
    assert np.mean(held) >= 0.75


def dates_at(followed, chosen):
    acid = living(MEMBERS).model.acid_m2_per_d.members[chosen]
    return dates_of(followed, filling(), scatter=SCATTER[chosen], acid_m2_per_d=acid).ready_d


def read_thrice(of, member, chance):
    """Return three readings as somebody makes them who finds something odd: a look, a smell, a strip."""
    return [
        sign(of, member, 10.0, "growth", GROWTHS, chance),
        sign(of, member, 10.0, "smell", SMELLS, chance),
        *strips(of, member, (10.0,), chance),
    ]


def flagged(of, member, chance):
    weighed = weigh(of, read_thrice(of, member, chance), SIGNS)
    weights = without(weighed, member)
    return chance_amiss(type(weighed)(of, SIGNS, weighed.heard, weights, 0.0), 10) > 0.5


def test_faulty_vessels_are_flagged_by_the_third_reading_and_sound_ones_seldom():
    """50 vessels whose fault has shown by the tenth day, and 100 that are sound, each read three times over."""
    of, chance = ensemble(), np.random.default_rng(15)
    is_off = of.courses.condition[:, 10] > 0
    faulty = np.nonzero((of.faults.of > 0) & is_off)[0]
    sound = np.nonzero((of.faults.of == 0) & ~is_off & (of.courses.condition[:, -1] == 0))[0]
    assert faulty.size >= 50
    found = [flagged(of, each, chance) for each in [*chance.choice(faulty, 50, replace=False)] * READ_OVER]
    false = [flagged(of, each, chance) for each in [*chance.choice(sound, 100, replace=False)] * READ_OVER]
    print(f"faulty vessels flagged: {np.mean(found):.0%}; false alarms: {np.mean(false):.0%}")
    assert np.mean(found) >= 0.70
    assert np.mean(false) <= 0.10
