"""`sitefile.batch`: a batch file is read, and all of its faults are named at once, each with its line and a remedy."""

import tomllib
from dataclasses import MISSING, fields
from datetime import date

import pytest

from sourloam.base.errors import BadInput, NotFound
from sourloam.base.fields import Asking, Key, declared
from sourloam.base.quantity import BadQuantity
from sourloam.site.batch import BatchFacts, BatchLayer, BatchMeasured, BatchVessel
from sourloam.sitefile.batch import parse_batch, read_batch
from tests.architecture.tree import ROOT

LEAST = """format = 1
temperature = "16 C"
[vessel]
volume = "20 L"
[[layer]]
amounts = ["2 kg peel"]
"""
KINDS = (BatchFacts, BatchVessel, BatchLayer, BatchMeasured)
KEYS = [(kind, name, mark) for kind in KINDS for name, mark in declared(kind) if isinstance(mark, Key)]

each_key = pytest.mark.parametrize(
    ("kind", "attribute", "key"), KEYS, ids=[f"{kind.__name__}-{key.name}" for kind, _, key in KEYS]
)


def meant(text):
    """Return an amount as it stands; "stone" is unknown, and "much" is no amount."""
    if "stone" in text:
        raise NotFound("material", "stone", ("stoned fruit",))
    if "much" in text:
        raise BadQuantity(f'"{text}" does not begin with an amount;', "write one.")
    return text


def parsed(text):
    return parse_batch(text, "batch.toml", meant)


def refusal(text):
    with pytest.raises(BadInput) as caught:
        parsed(text)
    return str(caught.value)


def test_the_least_file_is_read_and_says_what_it_took_as_given():
    read = parsed(LEAST)
    assert (read.vessel.volume_l, read.warmth, read.first) == (20.0, ((0, 16.0),), None)
    assert [(each.on_d, each.amounts) for each in read.layers] == [(0, ("2 kg peel",))]
    assert "It has a tap or a nested bucket for the liquid." in read.assumptions
    assert "No bran was strewn on any layer (bran)." in read.assumptions


def test_the_example_is_read():
    read = read_batch(ROOT / "examples" / "batch.toml", meant)
    assert read.first == date(2027, 3, 1)
    assert [each.on_d for each in read.layers] == [0, 2, 4, 6, 7, 8, 9, 10, 11, 12]
    assert read.warmth == ((0, 17.0), (14, 7.0), (21, 17.0))


@pytest.mark.parametrize(
    ("written", "warmth"),
    [
        ('temperature = "61 F"', ((0, pytest.approx(16.11, abs=0.01)),)),
        ('temperature = ["18 C", "9 C"]', ((0, 18.0), (1, 9.0))),
        ('temperature = [{ day = 0, is = "18 C" }, { day = 5, is = "7 C" }]', ((0, 18.0), (5, 7.0))),
    ],
)
def test_warmth_is_one_or_by_the_day_or_in_steps(written, warmth):
    assert parsed(LEAST.replace('temperature = "16 C"', written)).warmth == warmth


def test_a_layer_without_a_day_lies_a_day_later():
    read = parsed(LEAST + '[[layer]]\namounts = ["1 kg peel"]\nday = 4\n[[layer]]\namounts = ["1 kg peel"]\n')
    assert [each.on_d for each in read.layers] == [0, 4, 5]
    assert "A layer without a day was laid a day after the one before." in read.assumptions


def test_what_was_measured_is_one_value_or_a_range():
    measured = parsed(LEAST + '[measured]\nph = [5.5, 6]\ndry = "20 %"\nlactic_live = ["1e5", "1e6"]\n').measured
    assert (measured.start_ph.low, measured.start_ph.median, measured.start_ph.high) == (5.5, 5.75, 6.0)
    assert (measured.dry_frac.shape, measured.dry_frac.median) == ("fixed", 0.2)
    assert measured.protein_dry_frac is None


FAULTS = [
    ("", "batch.toml: 4 faults to mend first"),
    (LEAST.replace("format = 1", "format = 2"), "line 1: format = 2 cannot be read; write format = 1"),
    (LEAST.replace('"20 L"', "20"), "line 4: vessel: volume = 20 has no unit; write it in quotes with its unit"),
    (LEAST.replace("volume", "volumes"), "line 4: vessel: volumes is not a key. Did you mean volume?"),
    (LEAST.replace("2 kg peel", "2 kg stone"), 'line 6: layer 1: "2 kg stone": "stone" is not a known material.'),
    (LEAST.replace("2 kg peel", "much"), 'line 6: layer 1: "much" does not begin with an amount; write one.'),
    (LEAST.replace('["2 kg peel"]', "[]"), "line 6: layer 1: amounts is empty;"),
    (LEAST.replace('["2 kg peel"]', '"2 kg peel"'), 'layer 1: amounts = "2 kg peel" is not a list of texts;'),
    (LEAST + "day = 3\n", "line 7: layer 1: the first layer lies on day 3; days are counted from it: write day = 0."),
    (LEAST + "day = 401\n", "day = 401 is outside 0 to 400; count the days from the first layer"),
    (LEAST + 'day = 2\n[[layer]]\namounts = ["1 kg peel"]\nday = 1\n', "it lies on a day before that of layer 1;"),
    (
        LEAST + 'day = 2027-03-01\n[[layer]]\namounts = ["1 kg peel"]\nday = 1\n',
        "layer 2: its day is counted, and others have dates; write a date on every layer, or none.",
    ),
    (LEAST.replace('"16 C"', '"160 C"'), 'temperature = "160 C" is outside -30 C to 60 C'),
    (LEAST.replace('"16 C"', '[{ day = 3, is = "9 C" }]'), "it is not said how warm it is before day 3;"),
    (LEAST.replace('"16 C"', '[{ day = 0, is = "9 C" }, { day = 0, is = "8 C" }]'), "do not follow each other;"),
    (LEAST.replace('"16 C"', '[{ days = 0, is = "9 C" }]'), "is no step; write day = 3 and is"),
    (LEAST.replace('"16 C"', "[]"), "it holds 0 temperatures;"),
    (LEAST.replace('"20 L"', '"20 L"\ndrain_space = "30 L"'), "vessel: drain_space leaves no room;"),
    (LEAST.replace('"20 L"', '"20 L"\nopened = [2027-03-02]'), "2027-03-02 is a date, and no layer has one;"),
    (LEAST + "[measured]\nph = 15\n", "measured: ph = 15 is outside 2.5 to 9.5;"),
    (LEAST + "[measured]\nph = [5, 6, 7]\n", "measured: ph = a list of 3 is no range; write its two ends."),
    (LEAST + 'bran_live = "many"\n', 'layer 1: bran_live = "many" is not a number;'),
    (LEAST.replace('"20 L"', '"20 L"\nlid = "tight"\nleak = "2 L/day"'), "line 6: vessel: its lid is tight and leaks;"),
    (LEAST + "[lid]\n", "lid is not a key of a batch."),
    (LEAST.replace("[vessel]", "[[vessel]]"), "vessel is not one table; write [vessel], once."),
    (LEAST.replace("[[layer]]", "[layer]"), "layer is not a repeated table; write [[layer]]."),
    (LEAST.replace('temperature = "16 C"\n', "").replace('"20 L"', '"20 L"\ntemperature = "16 C"'), "1 fault to mend"),
]


@pytest.mark.parametrize(("text", "says"), FAULTS, ids=[says for _, says in FAULTS])
def test_a_fault_is_named_with_what_would_do(text, says):
    assert says in refusal(text)


def test_all_faults_are_named_at_once_in_the_order_of_their_lines():
    text = LEAST.replace('"20 L"', "20").replace("2 kg peel", "much").replace('"16 C"', '"hot"')
    lines = refusal(text).splitlines()
    assert lines[0] == "batch.toml: 3 faults to mend first"
    assert [each.split(":")[0].strip() for each in lines[1:]] == ["line 2", "line 4", "line 6"]


def test_a_file_that_is_not_there_is_refused_with_the_example(tmp_path):
    with pytest.raises(BadInput) as caught:
        read_batch(tmp_path / "blue.toml", meant)
    want = "blue.toml: there is no such file. Check the name, or write one: see examples/batch.toml."
    assert str(caught.value) == want


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_every_field_is_declared_and_no_key_twice(kind):
    marks = declared(kind)
    assert [name for name, _ in marks] == [each.name for each in fields(kind)]
    assert len({mark.name for _, mark in marks}) == len(marks)


@each_key
def test_a_key_is_explained_and_its_default_is_the_same_in_file_and_code(kind, attribute, key):
    assert key.help[0].isupper()
    assert key.help.endswith(".")
    default = next(each.default for each in fields(kind) if each.name == attribute)
    if key.is_required:
        assert default is MISSING
    elif key.default is None:
        assert default is None
    else:
        assert key.kind.read(key.default, Asking()) == default


@pytest.mark.parametrize(
    ("kind", "attribute", "key"), KEYS, ids=[f"{kind.__name__}-{key.name}" for kind, _, key in KEYS]
)
def test_what_is_read_can_be_written_and_read_again(kind, attribute, key):
    default = next(each.default for each in fields(kind) if each.name == attribute)
    if default in (MISSING, None):
        return
    written = parse_value(key.kind.write(default))
    assert key.kind.read(written, Asking()) == default


def parse_value(text):
    """Return a value as it stands in a file."""
    return tomllib.loads(f"key = {text}")["key"]
