"""The plan page: one file that needs nothing else, readable without scripts, by keyboard and aloud."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from sourloam.paper.plan_page import plan_page
from tests.paper.pages import Page, paged, viewed
from tests.plan.plans import DEMO, FILES


@pytest.mark.parametrize("name", FILES)
def test_it_is_whole_html_without_a_script(name):
    page = Page(paged(name))
    assert not page.open
    assert page.names["script"] == 0
    assert page.names["h1"] == page.names["main"] == 1


@pytest.mark.parametrize("name", FILES)
def test_it_loads_nothing_from_elsewhere(name):
    text = paged(name)
    assert not Page(text).outside
    assert not re.search(r"url\((?!data:|#)", text)
    assert "@import" not in text


@pytest.mark.parametrize("name", FILES)
def test_no_id_stands_twice_and_every_link_within_leads_somewhere(name):
    page = Page(paged(name))
    assert not [each for each, count in page.ids.items() if count > 1]
    assert not set(page.targets) - set(page.ids)


@pytest.mark.parametrize("name", FILES)
def test_every_drawing_says_what_it_shows(name):
    text = paged(name)
    for held in Page(text).drawings:
        assert held.get("role") == "img" or held.get("aria-hidden") == "true"
    for drawn in re.findall(r"<svg[^>]*role=.img.*?</svg>", text, re.DOTALL):
        assert re.search(r"<title[^>]*>[^<]+</title>", drawn)


def test_headings_go_down_by_one_at_a_time():
    levels = Page(paged(DEMO)).headings
    assert levels[0] == 1
    assert all(next_one - one <= 1 for one, next_one in pairwise(levels))


def test_the_heading_is_the_first_sentence_of_the_answer():
    heading = re.search(r"<h1>(.*?)</h1>", paged(DEMO))[1]
    assert re.sub(r"<[^>]+>", "", heading) == viewed(DEMO).summary[0][:-1]


def test_the_numbers_of_the_heading_open_their_reason():
    text = paged(DEMO)
    assert '<a class="opens" href="#why-stall_days_per_year">' in re.search(r"<h1>(.*?)</h1>", text)[1]
    assert '<a class="opens" href="#why-turned_away_kg_per_year">' in text


@pytest.mark.parametrize("name", FILES)
def test_every_figure_opens_its_reason_once(name):
    text = paged(name)
    for number in viewed(name).numbers:
        assert text.count(f'id="why-{number.name}"') == 1


def test_every_job_of_the_year_stands_there():
    text = paged(DEMO)
    for task in viewed(DEMO).tasks:
        if not task.id.startswith("draw:"):
            slug = task.id.replace(":", "-").replace("/", "-")
            assert f'id="job-{slug}"' in text
    assert text.count("Draw off: ") == len(
        {(each.date.year, each.date.month) for each in viewed(DEMO).tasks if each.id.startswith("draw:")}
    )


def test_what_a_keeper_wrote_cannot_become_markup():
    view = viewed(DEMO)
    hostile = '<script>alert("x")</script>'
    text = plan_page(replace(view, site=hostile, names=dict.fromkeys(view.names, hostile)))
    assert "<script>" not in text
    assert not Page(text).open


def test_a_year_without_jobs_is_still_a_page():
    text = plan_page(replace(viewed(DEMO), tasks=(), bran=(), cures=(), cautions=(), hints=(), asks=()))
    assert not Page(text).open


def test_the_same_plan_gives_the_same_page():
    assert plan_page(viewed(DEMO)) == paged(DEMO)


def test_one_job_is_not_called_jobs():
    tasks = [each for each in viewed(DEMO).tasks if not each.id.startswith("draw:")]
    assert "</b>, 1 job</summary>" in plan_page(replace(viewed(DEMO), tasks=(tasks[0],)))
    assert "</b>, 2 jobs</summary>" in plan_page(replace(viewed(DEMO), tasks=tuple(tasks[:2])))
