"""The bag of bran: begun in time it is never empty; begun late it is empty for as long as a lot takes."""

from hypothesis import given
from hypothesis import strategies as st

from sourloam.fleet.bran_bag import BagRule, empty_days
from sourloam.plan.bag import bag_rule
from tests.fleet.sites import question

EVEN = [0.03] * 365


def rule(**changed):
    return BagRule(on_hand_kg=3.0, begins_at_kg=0.03 * 45, lot_kg=3.0, first_lead_d=38, lead_d=38)._replace(**changed)


def test_a_bag_that_is_begun_in_time_is_never_empty():
    assert empty_days(EVEN, rule()) == ()


def test_an_empty_bag_stays_so_until_the_first_lot_is_dry():
    assert empty_days(EVEN, rule(on_hand_kg=0.0)) == tuple(range(38))
    assert empty_days(EVEN, rule(on_hand_kg=0.0, first_lead_d=18)) == tuple(range(18))


def test_a_lot_that_is_begun_when_the_bag_is_empty_leaves_its_lead_time_bare():
    late = empty_days(EVEN, rule(begins_at_kg=0.0))
    assert late[0] == 100  # 3 kg at 30 g a day
    assert len(late) >= 37


@given(st.lists(st.floats(0.0, 0.5), min_size=1, max_size=200), st.floats(0.0, 5.0), st.integers(1, 60))
def test_more_in_the_bag_on_the_first_day_never_leaves_it_empty_sooner(used, on_hand, lead):
    asked = rule(on_hand_kg=on_hand, lead_d=lead, first_lead_d=lead)
    before = empty_days(used, asked)
    after = empty_days(used, asked._replace(on_hand_kg=on_hand + sum(used) + 1.0))
    assert after == ()
    assert all(0 <= day < len(used) for day in before)


def test_bran_that_is_made_is_begun_five_weeks_ahead_and_bought_bran_a_week():
    made, bought = (
        bag_rule(question(rest=f'[stock]\nbran = "1 kg"\nbran_from = "{how}"\n')) for how in ("made", "bought")
    )
    assert 28 <= made.lead_d <= 45  # rice wash, milk, straining, bran and drying: about five weeks, common practice
    assert bought.lead_d == 7
    assert made.begins_at_kg > bought.begins_at_kg


def test_serum_at_hand_shortens_the_first_lot():
    plain, ahead = (bag_rule(question(rest=f'[stock]\nserum = "{serum}"\n')) for serum in ("0 L", "2 L"))
    assert ahead.first_lead_d < plain.first_lead_d
    assert ahead.lead_d == plain.lead_d
