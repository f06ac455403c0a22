"""`base.errors`: every error says what was given, what is wanted and what to do, and survives a process pool."""

import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base import errors, quantity  # noqa: F401 - an error of another module of the base counts too
from sourloam.base.errors import (
    BadInput,
    BalanceError,
    NotFound,
    OutOfRange,
    Problem,
    SourloamError,
    Surroundings,
    UnknownSource,
    offer,
    printable,
)
from sourloam.base.fields import Fault
from sourloam.base.quantity import BadQuantity
from sourloam.base.ranges import Range

FAULTY = Problem('vessel "blue"', 'volume = "18 kg" is a mass;', "a volume is wanted.", 5, "vessel.0.volume")
FAULTY_SAYS = 'line 5: vessel "blue": volume = "18 kg" is a mass; a volume is wanted.'
NO_VESSEL = Problem("", "there is no vessel;", "write [[vessel]].")
NO_VESSEL_SAYS = "there is no vessel; write [[vessel]]."
EXAMPLES = [
    (SourloamError("something"), "something"),
    (
        OutOfRange("ph", 15.0, Range(0.0, 14.0), "a reading there is a fault of the meter."),
        "ph = 15 is outside 0 to 14: a reading there is a fault of the meter.",
    ),
    (
        OutOfRange("moisture", 1.2, Range(0.0, 1.0, "kg/kg"), "there is not more water than mass."),
        "moisture = 1.2 kg/kg is outside 0 to 1 kg/kg: there is not more water than mass.",
    ),
    (
        UnknownSource("nobody1900", "bed.toml: rest_at_20c_d"),
        'bed.toml: rest_at_20c_d: "nobody1900" is not in sources.toml. Add it there, with the text of the source.',
    ),
    (
        NotFound("material", "cofee", ("coffee-grounds",)),
        '"cofee" is not a known material. Did you mean coffee-grounds?',
    ),
    (NotFound("room", "attic"), '"attic" is not a known room.'),
    (
        BalanceError("water", (("in", 3.0), ("out", -2.5)), "kg"),
        "water does not balance, +0.5 kg are left over:\n  in: +3 kg\n  out: -2.5 kg",
    ),
    (
        BadInput("yard.toml", (FAULTY,)),
        f"yard.toml: 1 fault to mend first\n  {FAULTY_SAYS}",
    ),
    (
        BadInput("yard.toml", (FAULTY, NO_VESSEL)),
        f"yard.toml: 2 faults to mend first\n  {FAULTY_SAYS}\n  {NO_VESSEL_SAYS}",
    ),
    (BadInput("yard.toml", (Problem("", "it is empty;", "write one."),)), "yard.toml: it is empty; write one."),
    (Surroundings("The disk is full.", "Free some room."), "The disk is full. Free some room."),
    (BadQuantity('"18" has no unit;', "write a volume."), '"18" has no unit; write a volume.'),
]


def kinds(root):
    return {root}.union(*(kinds(each) for each in root.__subclasses__()))


def test_every_kind_of_error_of_the_base_has_an_example_here():
    ours = {each for each in kinds(SourloamError) if each.__module__.startswith("sourloam.base.")}
    assert ours == {type(error) for error, _ in EXAMPLES}


@pytest.mark.parametrize(("error", "sentence"), EXAMPLES, ids=lambda each: type(each).__name__)
def test_an_error_makes_its_sentence_from_its_fields(error, sentence):
    assert str(error) == sentence


@pytest.mark.parametrize("error", [error for error, _ in EXAMPLES], ids=lambda each: type(each).__name__)
def test_an_error_comes_out_of_a_process_as_it_went_in(error):
    again = pickle.loads(pickle.dumps(error))
    assert type(again) is type(error)
    assert (str(again), vars(again)) == (str(error), vars(error))


def test_a_fault_of_one_value_comes_out_of_a_process_as_it_went_in():
    again = pickle.loads(pickle.dumps(Fault("5 is not text;", "write it in quotes.")))
    assert (again.found, again.remedy) == ("5 is not text;", "write it in quotes.")


@pytest.mark.parametrize(
    ("near", "sentence"),
    [((), ""), (("bran",), " Did you mean bran?"), (("a", "b", "c"), " Did you mean a, b or c?")],
)
def test_near_names_are_offered(near, sentence):
    assert offer(near) == sentence


@given(text=st.text())
def test_a_fault_stands_on_one_line_and_rings_no_bell(text):
    assert str(Problem(text, text, text)).isprintable()


def test_what_can_be_shown_is_shown_as_it_is():
    assert printable("½ cup of löss") == "½ cup of löss"
