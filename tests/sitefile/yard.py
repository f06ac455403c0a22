"""A small yard that can be planned, and what is said of it when a line of it is wrong."""

import pytest

from sourloam.base.errors import BadInput
from sourloam.sitefile.read import parse_site
from tests.sitefile.known import KNOWN

YARD = """\
format = 1

[site]
id = "yard"
start = 2027-03-01

[[stream]]
id = "house"
amount = "4 kg/week"
materials = { vegetable-scraps = "60 %", bread = "40 %" }

[[vessel]]
id = "blue"
volume = "18 L"

[[bed]]
id = "plot"
area = "6 m2"
closed = ["2027-12-18 to 2028-01-09"]

[[bed.planting]]
crop = "lettuce"
on = 2027-04-20

[stock]
bran = "2 kg"

[keeper]
days = ["sat"]
"""


def changed(old, new):
    """Return the yard with one piece of it changed."""
    assert YARD.count(old) == 1
    return YARD.replace(old, new)


def told(text):
    """Return all that is said of a faulty file; it must be refused."""
    with pytest.raises(BadInput) as caught:
        parse_site(text, "yard.toml", KNOWN)
    return str(caught.value)


def faults(*lines):
    """Return the sentence for these faults."""
    if len(lines) == 1 and not lines[0].startswith("line "):
        return f"yard.toml: {lines[0]}"
    count = f"{len(lines)} {'fault' if len(lines) == 1 else 'faults'}"
    return "\n  ".join((f"yard.toml: {count} to mend first", *lines))
