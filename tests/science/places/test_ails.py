"""`science.places.ails` and the table of causes: Bayes' rule, and that what is seen moves what is said."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.evidence.causes import load_causes
from sourloam.science.places.ails import Cause, chances, next_look
from sourloam.views.ails import QUESTIONS

CAUSES = load_causes()
GROUPS = sorted({(each.place, each.sign) for each in CAUSES})


def of(place, sign):
    return [each for each in CAUSES if (each.place, each.sign) == (place, sign)]


def two(prior, shows_a, shows_b):
    return [
        Cause("a", "pile", "cold", prior, "", "", "", {"wet": shows_a}),
        Cause("b", "pile", "cold", 1.0 - prior, "", "", "", {"wet": shows_b}),
    ]


def test_bayes_rule_is_that_of_a_worked_example():
    """1 in 100 have it, 8 in 10 of them show it and 9.6 in 100 of the others: 7.8 % (a usual textbook example)."""
    assert chances(two(0.01, 0.8, 0.096), ["wet"])[0] == pytest.approx(0.078, abs=5e-4)


@pytest.mark.parametrize("group", GROUPS, ids=str)
def test_the_chances_beforehand_add_up(group):
    assert sum(each.prior for each in of(*group)) == pytest.approx(1.0)
    assert chances(of(*group), ()) == pytest.approx([each.prior for each in of(*group)])


@pytest.mark.parametrize("cause", CAUSES, ids=lambda each: each.id)
def test_what_points_most_to_a_cause_makes_it_likelier(cause):
    group = of(cause.place, cause.sign)
    place = group.index(cause)
    others = [each for each in group if each is not cause]
    thing = max(cause.seen, key=lambda name: cause.shows(name) - max(each.shows(name) for each in others))
    if cause.shows(thing) > max(each.shows(thing) for each in others):
        assert chances(group, [thing])[place] > cause.prior


@given(prior=st.floats(0.01, 0.99), shows=st.lists(st.floats(0.0, 1.0), min_size=2, max_size=2))
def test_chances_are_shares_and_nothing_settles_it(prior, shows):
    held = chances(two(prior, *shows), ["wet"])
    assert held.sum() == pytest.approx(1.0)
    assert ((held > 0.0) & (held < 1.0)).all()


@pytest.mark.parametrize("group", GROUPS, ids=str)
def test_what_is_asked_next_was_not_asked_before_and_has_words(group):
    causes = of(*group)
    things = {thing for each in causes for thing in each.seen}
    first = next_look(causes, chances(causes, ()), ())
    assert first in things
    assert next_look(causes, chances(causes, [first]), [first]) != first
    assert things <= set(QUESTIONS)
    assert not next_look(causes, chances(causes, ()), sorted(things))


def test_the_issue_names_every_sign_that_is_known():
    assert set(GROUPS) == {
        *(("pile", each) for each in ("cold", "ammonia", "smell")),
        *(("worms", each) for each in ("sour", "leaving", "dying")),
        ("tub", "slow"),
        *(("plants", each) for each in ("yellow", "burnt")),
    }


def test_a_chance_of_nothing_is_refused():
    with pytest.raises(ValueError, match="is no chance"):
        two(0.0, 0.5, 0.5)


def test_absence_of_what_a_cause_shows_makes_it_rarer():
    causes = of("pile", "cold")
    dry = next(n for n, each in enumerate(causes) if each.id.endswith("dry"))
    assert chances(causes, (), ["dry"])[dry] < causes[dry].prior < chances(causes, ["dry"])[dry]
    assert np.isfinite(chances(causes, ["dry", "leaves", "small"], ["wet"])).all()
