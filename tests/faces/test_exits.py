"""Every way in which a command ends: its code, its sentence, and what a script gets."""

import json

import pytest

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.cli.exits import Exit, guarded


def raising(error):
    def run():
        raise error

    return run


ENDS = [
    (BadInput("yard.toml", (Problem("site", "id is missing;", "write one."),)), 2, "yard.toml: site: id is missing;"),
    (Surroundings("The disk is full.", "Make room."), 4, "The disk is full. Make room."),
    (KeyboardInterrupt(), 130, "Stopped."),
    (ZeroDivisionError("division by zero"), 3, "This is our fault, not yours."),
]


@pytest.mark.parametrize(("error", "code", "sentence"), ENDS, ids=lambda each: type(each).__name__)
def test_an_error_has_its_code_and_its_sentence(error, code, sentence, capsys):
    assert guarded(raising(error), as_json=False) == code
    said = capsys.readouterr()
    assert said.out == ""
    assert sentence in said.err


@pytest.mark.parametrize(
    ("error", "schema"),
    [(ENDS[0][0], "sourloam.problems/1"), (ENDS[1][0], "sourloam.error/1"), (ENDS[3][0], "sourloam.error/1")],
    ids=["input", "surroundings", "ours"],
)
def test_a_script_gets_the_error_as_one_object(error, schema, capsys):
    guarded(raising(error), as_json=True)
    assert json.loads(capsys.readouterr().out)["schema"] == schema


def test_the_trace_of_our_fault_is_kept_for_the_note(capsys):
    guarded(raising(ZeroDivisionError("division by zero")), as_json=False)
    assert "ZeroDivisionError: division by zero" in capsys.readouterr().err


@pytest.mark.parametrize("end", Exit)
def test_what_a_command_returns_is_its_code(end):
    assert guarded(lambda: end, as_json=False) == end
