"""The table of signs by itself: the worked chances, what updates it, and the published key of senses."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.evidence.signs import load_severity, load_signs
from sourloam.science.readings.signs import PRIORS, Column, Outcome, by_table, seen_times

SIGNS = load_signs()
# Worked by hand: 0.75 × 0.35 × 0.80 × 0.85 over the sum of the same product for all six, and so on.
BY_HAND = [
    (("white", "low", "pickle"), Column.SOUND, 0.943),
    (("rancid", "high"), Column.ROTTEN, 0.774),
]
# DLG-Information 1/2004, key of senses for grass silage: points taken off, as printed.
PRINTED = {
    "butyric": (0, 2, 3, 5, 7),
    "acetic": (0, 1, 2, 4),
    "yeast": (0, 1, 2, 4),
    "mould": (0, 3, 5, 7),
    "structure": (0, 1, 2, 4),
}


@pytest.mark.parametrize(("seen", "column", "chance"), BY_HAND)
def test_chances_worked_by_hand_are_met(seen, column, chance):
    assert by_table(SIGNS, seen)[column] == pytest.approx(chance, abs=0.002)


def test_nothing_seen_leaves_the_priors():
    assert by_table(SIGNS, ()) == pytest.approx(PRIORS)


def test_every_chance_is_one_and_every_name_is_of_one_sign_of_its_kind():
    for sign in SIGNS.by_id.values():
        assert all(0.0 < each < 1.0 for each in sign.chances)
        assert sign.told > 0.0
    for kind in {each.kind for each in SIGNS.by_id.values()}:
        names = [name for each in SIGNS.of(kind) for name in set(each.names)]
        assert len(names) == len(set(names)), kind


def test_a_white_film_alone_never_means_failed():
    after = by_table(SIGNS, ("white",))
    assert after[Column.SOUND] + after[Column.SHARP] > 0.8


def test_smell_outranks_growth():
    rotten = by_table(SIGNS, ("putrid", "white"))
    assert rotten[Column.ROTTEN] > rotten[Column.SOUND]
    sour = by_table(SIGNS, ("pickle", "white"))
    assert sour[Column.SOUND] > 0.8


def test_only_ammonia_rot_and_black_or_red_fur_are_red_flags():
    assert {each.id for each in SIGNS.by_id.values() if each.is_red} == {"ammonia", "putrid", "black", "red"}


def test_a_sign_seen_twice_says_less_the_second_time():
    sign = SIGNS.by_id["putrid"]
    once, twice = (seen_times(sign, np.full((1, 6), float(times)))[0] for times in (1, 2))
    ratio_once = once[Column.ROTTEN] / once[Column.SOUND]
    ratio_second = (twice / once)[Column.ROTTEN] / (twice / once)[Column.SOUND]
    assert ratio_once > 3.0 * ratio_second > 3.0


def test_outcomes_of_a_site_count_as_vessels_beside_those_of_the_table():
    moved = SIGNS.updated([Outcome("pickle", Column.DROWNED, 4, 5)]).by_id["pickle"]
    sign = SIGNS.by_id["pickle"]
    before = sign.chances[Column.DROWNED]
    assert moved.chances[Column.DROWNED] == pytest.approx((sign.told * before + 4.0) / (sign.told + 5.0))
    assert moved.chances[Column.SOUND] == sign.chances[Column.SOUND]
    assert moved.weighs[Column.DROWNED] == sign.told + 5.0


@given(st.permutations([(1, 1), (0, 1), (2, 3), (0, 4)]))
def test_the_order_of_outcomes_is_of_no_account(counts):
    moved = SIGNS.updated([Outcome("white", Column.ROTTEN, seen, of) for seen, of in counts]).by_id["white"]
    told, before = SIGNS.by_id["white"].told, SIGNS.by_id["white"].chances[Column.ROTTEN]
    assert moved.chances[Column.ROTTEN] == pytest.approx((told * before + 3.0) / (told + 9.0))


def test_what_was_often_seen_at_a_site_is_surer_than_the_table():
    many = SIGNS.updated([Outcome("white", Column.SOUND, 350, 1000)])
    spread = [np.std([table.drawn(seed).by_id["white"].chances[Column.SOUND] for seed in range(40)])
              for table in (SIGNS, many)]  # fmt: skip
    assert spread[1] < 0.3 * spread[0]


@pytest.mark.parametrize("attribute", PRINTED)
def test_the_published_key_orders_how_grave_a_sign_is(attribute):
    points = [points for (name, _), points in load_severity().items() if name == attribute]
    assert tuple(points) == PRINTED[attribute]
    assert points == sorted(points)


def test_points_of_the_published_key_add_up():
    key = load_severity()  # butyric from a metre, acetic clear, slimy
    assert key["butyric", "from a metre"] + key["acetic", "clear"] + key["structure", "slimy"] == 9


def test_what_the_key_takes_most_off_for_speaks_most_against_a_sound_vessel():
    """Worst of each attribute in the key, beside how much rarer the sign is in a sound vessel than in a failed one."""
    key = load_severity()
    worst = {name: max(points for (each, _), points in key.items() if each == name) for name, _ in key}
    signs = {"butyric": "rancid", "mould": "musty", "acetic": "vinegar", "yeast": "yeast"}
    failed = np.array(PRIORS) * [0, 0, 1, 1, 1, 1]

    def against(sign):
        chances = np.array(SIGNS.by_id[sign].chances)
        return (failed @ chances) / failed.sum() / chances[Column.SOUND]

    assert min(against(signs[each]) for each in signs if worst[each] == 7) > max(
        against(signs[each]) for each in signs if worst[each] == 4
    )
