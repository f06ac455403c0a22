"""`exchange.amounts`: what a person writes of a load, and what is refused."""

import pytest

from sourloam.base.errors import BadInput, NotFound
from sourloam.evidence.materials import load_materials
from sourloam.exchange.amounts import By, find_any, read_amount, read_amounts, read_amounts_file
from sourloam.science.load.members import members_of
from sourloam.views.handling import torn

FIND = load_materials().find
WRITTEN = [
    ("2 kg vegetable peelings", 2.0, By.MASS, "vegetable-scraps"),
    ("1 cup cooked rice", 0.2365882365, By.VOLUME, "cooked-rice"),
    ("3 eggshells", 3.0, By.PIECE, "eggshell"),
    ("half a cup of coffee grounds", 0.11829411825, By.VOLUME, "coffee-grounds"),
    ("two handfuls of spinach", 2.0, By.HANDFUL, "spinach"),
    ("1 1/2 lb bread", 0.680388555, By.MASS, "bread"),
    ("a banana peel", 1.0, By.PIECE, "banana-peel"),
    ("500 ml soup", 0.5, By.VOLUME, "soup"),
    ("2 slices of white bread", 2.0, By.PIECE, "white-bread"),
    ("1,5 kg potato peel", 1.5, By.MASS, "potato-peel"),
    ("4 tea bags", 4.0, By.PIECE, "tea-bags"),
    ("200 g zucchini", 0.2, By.MASS, "courgette-ends"),
    ("650 g torn cardboard", 0.65, By.MASS, "cardboard"),
    ("1 kg dry sawdust", 1.0, By.MASS, "sawdust"),
    ("2 chopped carrots", 2.0, By.PIECE, "carrot-peel"),
    ("1 kg of grated peeled carrots", 1.0, By.MASS, "carrot-peel"),
    ("0.5 L of tomatoes", 0.5, By.VOLUME, "tomato-trimmings"),
]
REFUSED = [
    ("potato peel", '"potato peel" does not begin with an amount;'),
    ("3 kg", '"3 kg" does not begin with an amount;'),
    ("2 kg frobnitz", '"frobnitz" is not a known material'),
    ("2 stone bread", '"stone" is no unit that is known'),
    ("2 bushels of apples", '"bushels" is no unit that is known'),
    ("1 kg dried carrots", '"dried carrots" is not a known material'),
    ("1 kg torn frobs", '"torn frobs" is not a known material'),
    ("3 soups", "what one soup weighs is not known"),
    ("-1 kg bread", "is no amount that can be soured"),
    ("0 kg bread", "is no amount that can be soured"),
    ("900 kg bread", "is no amount that can be soured"),
    ("1,500 g bread", "can be read in two ways"),
]


@pytest.mark.parametrize(("typed", "value", "by", "material"), WRITTEN, ids=[each[0] for each in WRITTEN])
def test_an_amount_is_read_as_a_person_writes_it(typed, value, by, material):
    read = read_amount(typed, FIND)
    assert (read.by, read.material.id, read.typed) == (by, material, typed)
    assert read.value == pytest.approx(value)


@pytest.mark.parametrize(("typed", "says"), REFUSED, ids=[each[0] for each in REFUSED])
def test_what_is_no_amount_of_a_material_is_refused_with_what_would_do(typed, says):
    with pytest.raises(BadInput) as caught:
        read_amounts([typed], FIND)
    (problem,) = caught.value.problems
    assert says in problem.found
    assert problem.remedy


def test_dry_stuff_is_not_read_as_what_it_is_when_it_is_cooked():
    """Cooked, it holds three times its weight in water; wet vegetables stay what they are."""
    with pytest.raises(NotFound):
        find_any("boiled bran", FIND)
    assert find_any("boiled radishes", FIND) is find_any("radishes", FIND)


def test_what_the_tool_calls_what_soaks_up_liquid_can_be_typed_back():
    dry = [each for each in load_materials() if members_of(each, 1)["soaks"].any()]
    assert len(dry) > 10
    assert [each for each in dry if find_any(torn(each), FIND) is not each] == []


def test_all_faults_are_named_at_once():
    with pytest.raises(BadInput) as caught:
        read_amounts(["2 kg bread", "3 frobs", "bread"], FIND)
    assert len(caught.value.problems) == 2


def test_nothing_at_all_is_refused():
    with pytest.raises(BadInput, match="there is nothing to mix"):
        read_amounts([], FIND)


def test_a_table_of_amounts_is_read(tmp_path):
    table = tmp_path / "week.csv"
    table.write_text("Amount,Material\n2 kg,potato peel\n3,eggshells\n,\n", encoding="utf-8")
    assert [each.material.id for each in read_amounts_file(table, FIND)] == ["potato-peel", "eggshell"]


def test_a_fault_in_a_table_is_named_with_its_line(tmp_path):
    table = tmp_path / "week.csv"
    table.write_text("amount,material\n2 kg,potato peel\n3 kg,frobs\n", encoding="utf-8")
    with pytest.raises(BadInput) as caught:
        read_amounts_file(table, FIND)
    assert [each.line for each in caught.value.problems] == [3]


@pytest.mark.parametrize("text", ["", "what,how much\n1,2\n"], ids=["empty", "other columns"])
def test_a_table_without_its_columns_is_refused(tmp_path, text):
    table = tmp_path / "week.csv"
    table.write_text(text, encoding="utf-8")
    with pytest.raises(BadInput, match="there is no column amount"):
        read_amounts_file(table, FIND)


def test_a_table_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(BadInput, match="it cannot be read"):
        read_amounts_file(tmp_path / "none.csv", FIND)
