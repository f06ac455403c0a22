"""`plan.culture`: bran is begun in time, the bag is never empty, and what is in the cold is used."""

from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.days import weekday
from sourloam.plan.culture import bran_lots, bran_on_hand
from sourloam.plan.year import plan_year
from sourloam.site.stocks import Stock
from tests.fleet.sites import HEAD, lived, question

ORDER = ("buy", "rice", "milk", "strain", "mix", "dry", "bag")


@lru_cache(maxsize=8)
def year(indoors):
    """Return the question of the usual site and its life, in a kitchen of that temperature."""
    asked = question(site=HEAD.replace("20 C", indoors))
    return asked, lived(asked)


def cultures(indoors="20 C", **stock):
    """Return the question with that in the cupboard, its life and its lots of bran."""
    asked, life = year(indoors)
    asked = replace(asked, site=replace(asked.site, stock=Stock(**stock)))
    return asked, life, bran_lots(asked, life)


def used_kg(life):
    used = {}
    for load in life.loads:
        used[load.on] = used.get(load.on, 0.0) + load.contents.bran_kg
    return used


def step(lot, wanted):
    return next((on for kind, on, _ in lot.steps if kind == wanted), None)


def bag_kg(asked, life, lots):
    """Give the bran in the bag day by day, summed without a floor: it falls below nothing where bran is missing."""
    held, used = asked.site.stock.bran_kg, used_kg(life)
    for day in life.days:
        for lot in lots:
            held += lot.bought_kg if day.on == (step(lot, "buy") or lot.usable_on) else 0.0
            held += lot.bran_kg if day.on == lot.usable_on and step(lot, "bag") else 0.0
        held -= used.get(day.on, 0.0)
        yield held


FRESH = date(2027, 2, 25)
STOCKS = st.fixed_dictionaries(
    {
        "bran_kg": st.floats(0.0, 4.0),
        "bran_made_on": st.dates(date(2026, 9, 1), date(2027, 3, 1)),
        "serum_l": st.floats(0.0, 0.4),
        "bran_from": st.sampled_from(["made", "bought"]),
    }
)
INDOORS = st.sampled_from(["16 C", "18 C", "20 C", "23 C"])


@settings(max_examples=40)
@given(STOCKS, INDOORS)
def test_the_bag_is_never_empty(stock, indoors):
    asked, life, lots = cultures(indoors, **stock)
    assert min(bag_kg(asked, life, lots)) >= -1e-6
    assert all(held >= 0.0 for _, held in bran_on_hand(asked, life, lots))


@settings(max_examples=40)
@given(STOCKS, INDOORS)
def test_bran_is_dry_before_it_is_needed_or_the_rest_is_bought(stock, indoors):
    asked, life, lots = cultures(indoors, **stock)
    used = used_kg(life)
    for lot in lots:
        assert asked.first <= min((on for _, on, _ in lot.steps), default=asked.first)
        kinds = [kind for kind, _, _ in lot.steps]
        days = [on for _, on, _ in lot.steps]
        assert kinds == [each for each in ORDER if each in kinds]
        assert days == sorted(days)
        if step(lot, "bag"):
            assert step(lot, "bag") == lot.usable_on <= lot.lasts_until
        assert lot.bought_kg <= sum(used.values()) + 1e-9


@pytest.mark.parametrize("indoors", ["17 C", "18 C", "19 C"])
def test_bran_is_begun_about_five_weeks_ahead(indoors):
    # Common practice, no source: about five weeks; "about" is taken as a week either way.
    asked, _, lots = cultures(indoors, bran_kg=1.2, bran_made_on=FRESH)
    first = lots[0]
    assert first.bought_kg == 0.0
    assert (first.usable_on - step(first, "rice")).days == pytest.approx(35, abs=7)
    assert step(first, "rice") > asked.first


def test_serum_in_the_cold_saves_rice_and_milk():
    with_serum = cultures(bran_kg=0.5, bran_made_on=FRESH, serum_l=0.2)[2][0]
    without = cultures(bran_kg=0.5, bran_made_on=FRESH)[2][0]
    assert step(with_serum, "rice") is None
    assert step(with_serum, "milk") is None
    assert step(without, "milk") is not None
    assert with_serum.bought_kg <= without.bought_kg
    assert "milk" not in {thing for thing, _, _ in with_serum.shopping}


def test_serum_left_over_from_one_batch_starts_the_next():
    lots = cultures()[2]
    soured = [step(lot, "milk") is not None for lot in lots]
    assert soured[0]
    assert False in soured
    # A jar that was opened for one batch serves others, but never one that was begun before it was strained.
    for number, lot in enumerate(lots):
        if not soured[number] and step(lot, "mix"):
            jars = [step(each, "strain") for each in lots[:number] if step(each, "strain")]
            assert jars[-1] <= step(lot, "mix")


def test_too_little_serum_is_no_start():
    assert step(cultures(bran_kg=0.5, bran_made_on=FRESH, serum_l=0.005)[2][0], "milk") is not None


def test_a_keeper_who_buys_bran_is_told_to_buy_and_nothing_else():
    lots = cultures(bran_from="bought")[2]
    assert lots
    for lot in lots:
        assert [kind for kind, _, _ in lot.steps] == ["buy"]
        assert lot.bought_kg == lot.bran_kg


def test_enough_bran_on_hand_that_keeps_needs_no_other():
    # Cold keeps it alive: in a kitchen of 2 °C bran lasts as long as there is a vessel to fill.
    assert cultures("2 C", bran_kg=40.0, bran_made_on=FRESH)[2] == ()


def test_old_bran_is_not_counted_on():
    old = cultures(bran_kg=40.0, bran_made_on=date(2026, 3, 5))[2]
    fresh = cultures(bran_kg=40.0, bran_made_on=FRESH)[2]
    assert old[0].usable_on < fresh[0].usable_on


def test_bran_is_mixed_on_a_day_with_time():
    asked, _, lots = cultures(bran_kg=1.5, bran_made_on=FRESH)
    mixed = [step(lot, "mix") for lot in lots if step(lot, "mix") and step(lot, "mix") != step(lot, "strain")]
    assert mixed
    assert {weekday(each) for each in mixed} <= set(asked.site.keeper.days)


def test_each_lot_covers_the_days_up_to_the_next():
    _, life, lots = cultures()
    assert all(one.lasts_until < other.lasts_until for one, other in pairwise(lots))
    assert lots[-1].lasts_until == life.days[-1].on
    in_all = sum(lot.bran_kg + (lot.bought_kg if step(lot, "bag") else 0.0) for lot in lots)
    assert in_all >= sum(used_kg(life).values()) - 1e-9
    assert all(lot.lasts_until - lot.usable_on <= timedelta(days=120) for lot in lots)


def test_a_lot_costs_what_its_things_cost_as_far_as_prices_are_known():
    stock = '[stock]\ncurrency = "EUR"\ncarrier_price = "1.20 /kg"\nsugar_price = "2 /kg"\n'
    plan = plan_year(question(rest=stock))
    assert plan.currency == "EUR"
    for lot in plan.bran:
        amounts = {thing: amount for thing, amount, _ in lot.shopping}
        if "wheat bran" in amounts:
            assert lot.cost == pytest.approx(1.20 * amounts["wheat bran"] + 2.0 * amounts["sugar"])
    assert all(lot.cost is None for lot in plan_year(question()).bran)
