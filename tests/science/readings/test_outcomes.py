"""What a site has seen so far, as its keeper writes it."""

import pytest

from sourloam.base.fields import Asking, Fault
from sourloam.science.readings.outcomes import Tallies, Tally
from sourloam.science.readings.signs import Column

KIND = Tallies()


def test_a_line_is_read_and_written_back_as_it_stood():
    lines = ["smell rancid in 3 of 4 putrid", "growth white in 6 of 9 sound"]
    read = KIND.read(lines, Asking())
    assert read[0] == Tally("smell", "rancid", 3, 4, Column.ROTTEN, lines[0])
    assert KIND.write(read) == '["smell rancid in 3 of 4 putrid", "growth white in 6 of 9 sound"]'


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("it smelled rancid", "cannot be read"),
        ("smell rancid in 5 of 4 putrid", "5 of 4 cannot be"),
        ("smell rancid in 0 of 0 putrid", "0 of 0 cannot be"),
        ("smell rancid in 1 of 4 lovely", "nothing that a vessel turns out"),
    ],
)
def test_what_cannot_be_counted_is_refused_with_what_would_do(line, says):
    with pytest.raises(Fault) as caught:
        KIND.read([line], Asking())
    assert says in caught.value.found
    assert caught.value.remedy
