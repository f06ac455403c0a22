"""`paper.culture_page`: a bench sheet is one whole page, with every step, amount and sign, and nothing from "
"elsewhere."""

from datetime import date
from functools import lru_cache

import pytest

from sourloam.paper.culture_page import culture_page
from sourloam.service.culture import work_culture
from sourloam.service.culture_reading import AskedCulture
from tests.paper.pages import Page

TODAY = date(2026, 12, 1)
ASKED = {
    "making": AskedCulture(bran="8 kg", by=date(2027, 3, 1), at="17 C", members=200),
    "no bran": AskedCulture(has_bran=False, scraps="6 kg/week", members=200),
    "alive": AskedCulture(alive="bran", age="4 months", kept="shed", members=200),
    "dripping": AskedCulture(squeeze="drips", members=200),
    "uses": AskedCulture(uses="bran", members=200),
    "waking": AskedCulture(ph=("6: 3.9",), members=200),
}


@lru_cache(maxsize=8)
def viewed(name):
    return work_culture(ASKED[name], today=TODAY)


@lru_cache(maxsize=8)
def paged(name):
    return culture_page(viewed(name))


@pytest.mark.parametrize("name", ASKED)
def test_it_is_whole_html_that_asks_nothing_of_the_network(name):
    page = Page(paged(name))
    assert not page.open
    assert page.names["script"] == 0
    assert not page.outside
    assert max(page.ids.values(), default=1) == 1
    assert all(each in page.ids for each in page.targets)


@pytest.mark.parametrize("name", ASKED)
def test_headings_go_down_by_one_at_a_time(name):
    headings = Page(paged(name)).headings
    assert headings[0] == 1
    assert headings.count(1) == 1
    assert set(headings) <= {1, 2}


def test_every_step_has_its_box_its_day_and_its_signs():
    page, view = paged("making"), viewed("making")
    assert page.count('class="box"') == len(view.steps)
    for step in view.steps:
        assert f"{step.start:%A} {step.start.day} {step.start:%B}" in page
        assert step.what.split(",")[0] in page
    for each in view.amounts:
        assert f'<td class="much">{each.said}</td>' in page


def test_every_figure_opens_its_reason_once():
    page = Page(paged("making"))
    for each in viewed("making").numbers:
        assert page.ids[f"why-{each.name}"] == 1


def test_both_compositions_of_the_chain_are_there():
    assert {"chain-wide", "chain-tall"} <= {
        each["aria-labelledby"].removesuffix("-title") for each in Page(paged("making")).drawings
    }
