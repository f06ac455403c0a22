"""`science.materials.rules`: nothing is lost in sorting, and each thing is said with its reason."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.materials.composition import Rule
from sourloam.science.materials.rules import sort_out
from tests.science.materials.loads import material

PEEL = material("potato-peel")
LEAVES = material("cabbage-leaves", rule=Rule.PREPARE)
SHELL = material("eggshell", rule=Rule.A_LITTLE, at_most=0.02)
BONES = material("large-bones", rule=Rule.NO)
MILK, SOUP = (material(name, kind="liquid", rule=Rule.NO) for name in ("milk", "soup"))
ALL = [PEEL, LEAVES, SHELL, BONES, MILK, SOUP]
SHARES = st.just(0.0) | st.floats(1e-6, 10.0)  # less than a milligram in a kilogram is nothing
LOADS = st.dictionaries(st.sampled_from(ALL), SHARES, min_size=1)


@given(LOADS)
def test_what_is_taken_and_what_is_left_out_make_up_the_load(shares):
    said, whole = sort_out(shares), sum(shares.values())
    refused = sum(share for each, share in shares.items() if each.rule is Rule.NO)
    assert said.left_out_frac * whole == pytest.approx(refused, abs=1e-9)
    assert sum(said.taken.values()) == pytest.approx(1.0 if whole > refused else 0.0)
    assert all(each.rule is not Rule.NO for each in said.taken)


@given(LOADS)
def test_every_material_that_is_refused_is_named_with_its_reason(shares):
    refused = {each.id for each, share in shares.items() if share > 0 and each.rule is Rule.NO}
    said = sort_out(shares).notes
    assert refused == {note.material for note in said if note.rule is Rule.NO}
    assert all("A reason." in note.words for note in said)


def test_liquids_only_are_refused():
    said = sort_out({MILK: 1.0, SOUP: 2.0})
    assert said.is_liquid_only
    assert said.refusal == "It is liquid only, and liquid drowns a vessel. Name the solids that come with it."


def test_a_load_of_which_nothing_goes_in_says_why():
    assert sort_out({BONES: 1.0}).refusal == "Nothing of it goes into a vessel: Large bones stays out. A reason."


def test_a_load_of_which_something_goes_in_is_not_refused():
    assert not sort_out({PEEL: 1.0, MILK: 9.0}).refusal


def test_too_much_of_what_goes_in_a_little_is_said():
    (note,) = sort_out({PEEL: 0.9, SHELL: 0.1}).notes
    assert note.words == "10% of it is eggshell; up to 2% goes well. A reason."


def test_what_is_fine_is_not_talked_of():
    assert not sort_out({PEEL: 1.0}).notes


def test_what_is_refused_comes_first():
    rules = [note.rule for note in sort_out({LEAVES: 5.0, SHELL: 0.01, BONES: 0.1}).notes]
    assert rules == [Rule.NO, Rule.A_LITTLE, Rule.PREPARE]


def test_a_share_below_nothing_is_refused():
    with pytest.raises(OutOfRange, match=r"^share of potato peel = -1 kg is outside"):
        sort_out({PEEL: -1.0})
