"""`science.load.verdict` and `advice`: what keepers know of loads, and advice that works when it is followed."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.figure import written
from sourloam.science.load.advice import Do, advise
from sourloam.science.load.assess import Portion, assess
from sourloam.science.load.judge import judge
from sourloam.science.load.verdict import Verdict, limits
from tests.science.load.kitchen import MEMBERS, known, load, means, portions, setting

# Common practice, no source: what people who do this for years say of such loads.
SOUND = [
    {"vegetable-scraps": 3.0},
    {"vegetable-scraps": 2.0, "fruit-scraps": 1.0, "bread": 0.2, "coffee-grounds": 0.2},
    {"potato-peel": 1.0, "carrot-peel": 0.5, "apple-cores": 0.5},
    {"vegetable-scraps": 3.0, "cooked-chicken": 0.3, "cooked-rice": 0.3},
    {"orange-peel": 1.0, "vegetable-scraps": 1.0},
]
NOT_SOUND = [
    ({"raw-meat": 2.0}, "sugar"),
    ({"eggshell": 1.0, "lettuce-leaves": 1.0}, "sugar"),
    ({"toast": 1.0}, "dry"),
    ({"cheese": 1.0}, "animal"),
    ({"broth": 1.0, "potato-peel": 1.0}, "pours"),
    ({"apple-cores": 5.0}, "alcohol"),
]


def kept_by(amounts, **where):
    return limits(load(amounts, **where), known())


@pytest.mark.parametrize("amounts", SOUND, ids=str)
def test_ordinary_loads_are_sound(amounts):
    kept = kept_by(amounts)
    assert kept[0].verdict is Verdict.SOUND, kept[0]


@pytest.mark.parametrize(("amounts", "why"), NOT_SOUND, ids=str)
def test_loads_that_go_wrong_are_not_and_say_why(amounts, why):
    broken = {each.id for each in kept_by(amounts) if each.verdict is not Verdict.SOUND}
    assert why in broken


def test_wet_scraps_are_unsound_only_where_nothing_drains():
    assert kept_by({"watermelon-rind": 3.0})[0].verdict is Verdict.SOUND
    assert kept_by({"watermelon-rind": 3.0}, drain=False)[0].id == "liquid"


def test_brine_stops_it():
    assert "salt" in {
        each.id for each in kept_by({"olives": 1.0, "smoked-fish": 1.0, "salt": 0.1}) if each.holds_frac < 0.8
    }


@pytest.mark.parametrize("amounts", [each for each, _ in NOT_SOUND], ids=str)
def test_what_is_advised_makes_it_sound_when_it_is_done(amounts):
    before = load(amounts)
    kept = limits(before, known())
    advice = advise(before, kept, known(), means())
    assert advice is not None
    assert advice.after[0].verdict is Verdict.SOUND
    held = {each.material: each for each in portions(amounts)}
    for step in advice.steps:
        mass = step.amount_kg
        if step.do is Do.PRESS:
            continue
        if step.do is Do.HOLD_BACK:
            left = held[step.material].mass.value - mass
            held[step.material] = Portion(step.material, written("left", max(left, 0.0), "kg", members=MEMBERS))
        else:
            there = held[step.material].mass.value if step.material in held else 0.0
            held[step.material] = Portion(step.material, written("more", there + mass, "kg", members=MEMBERS))
    done = [each for each in held.values() if each.mass.value > 0.0]
    after = limits(assess(done, setting(), known(), members=MEMBERS), known())
    assert all(each.verdict is Verdict.SOUND for each in after if each.id != "air"), after[0]


@settings(max_examples=15)
@given(st.floats(0.3, 3.0))
def test_advice_grows_with_the_load(times):
    def sugar(amounts):
        before = load(amounts)
        advice = advise(before, limits(before, known()), known(), means())
        return sum(each.amount_kg for each in advice.steps)

    assert sugar({"cheese": times}) == pytest.approx(times * sugar({"cheese": 1.0}), rel=0.05)


def test_a_sound_load_needs_no_advice():
    sound = load(SOUND[0])
    assert advise(sound, limits(sound, known()), known(), means()) is None


def test_a_drainless_vessel_is_cured_with_what_soaks():
    wet = load({"watermelon-rind": 3.0}, drain=False)
    advice = advise(wet, limits(wet, known()), known(), means("sawdust"))
    assert {each.do for each in advice.steps} == {Do.SOAK}
    assert {each.material.id for each in advice.steps} == {"sawdust"}


def test_the_strict_lists_leave_more_out():
    brought = portions({"vegetable-scraps": 2.0, "raw-chicken": 0.2})
    usual, strict = (
        judge(brought, setting(), known(), means(), members=MEMBERS, is_strict=each) for each in (False, True)
    )
    assert usual.sorted.left_out_frac == 0.0
    assert strict.sorted.left_out_frac == pytest.approx(0.2 / 2.2)
    assert "stricter lists" in strict.sorted.notes[0].words


def test_where_nothing_goes_in_the_rule_binds():
    refused = judge(portions({"fruit-stickers": 0.1}), setting(), known(), means(), members=MEMBERS)
    assert (refused.verdict, refused.limiting, refused.load) == (Verdict.UNSOUND, "rule", None)
    assert refused.sorted.refusal


def test_pet_waste_and_seeding_weeds_stay_out_with_a_reason():
    for name in ("dog-faeces", "seeding-weeds"):
        refused = judge(portions({name: 1.0, "potato-peel": 1.0}), setting(), known(), means(), members=MEMBERS)
        assert refused.sorted.left_out_frac == pytest.approx(0.5)
        assert [each.words for each in refused.sorted.notes]
