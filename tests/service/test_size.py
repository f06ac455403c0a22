"""`service.size`: what costs nothing when no vessel is open, and what is left of work that was stopped."""

import pytest

from sourloam.service.size import AskedSize, size_site

FLAT = """
format = 1
[site]
id = "flat"
start = 2027-03-01
[[stream]]
id = "us"
amount = "4 kg/week"
[[vessel]]
id = "one"
volume = "19 L"
state = "fermenting"
since = 2027-02-20
[[vessel]]
id = "two"
volume = "19 L"
state = "fermenting"
since = 2027-02-27
[[taker]]
id = "garden"
kind = "neighbour"
litres = "100 L"
"""


def stopping_after(years):
    def tell(done, whole):
        if done >= years:
            raise KeyboardInterrupt

    return tell


@pytest.fixture
def flat(tmp_path):
    path = tmp_path / "site.toml"
    path.write_text(FLAT, encoding="utf-8")
    return path


def test_both_are_full_today_has_an_answer_that_costs_nothing(flat):
    view = size_site(AskedSize(flat, replications=5, is_bare=True))
    assert view.today[0].startswith("All vessels are full or closed today. One is free in ")
    assert any("costs nothing" in each for each in view.today)


def test_one_that_is_open_needs_no_such_answer(flat):
    flat.write_text(FLAT.replace('state = "fermenting"\nsince = 2027-02-27\n', ""), encoding="utf-8")
    assert size_site(AskedSize(flat, replications=2, is_bare=True)).today == ()


def test_what_is_done_before_it_is_stopped_comes_back_and_says_so(flat):
    view = size_site(AskedSize(flat, replications=50), tells=stopping_after(4))
    assert view.replications == 4
    assert view.stopped.startswith("Stopped early: 4 of 50 years")


def test_stopped_before_two_years_it_says_nothing(flat):
    with pytest.raises(KeyboardInterrupt):
        size_site(AskedSize(flat, replications=50), tells=stopping_after(1))
