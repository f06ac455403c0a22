"""A plan speaks the units of its keeper wherever a person reads; JSON stays metric."""

import re
from dataclasses import replace
from datetime import UTC, datetime
from html import unescape

import pytest

from sourloam.cli.show import plan_text, reason_text
from sourloam.exchange.calendar import plan_calendar
from sourloam.paper.plan_page import plan_page
from sourloam.service.plan import plan_site
from sourloam.views.as_json import plan_object, reason_object
from tests.architecture.tree import ROOT

FILES = ("tests/sites/two_vessels.toml", "examples/quillet_yard.toml", "tests/sites/flat.toml")
# Densities, doses and what is on a square metre stay metric, in every plan.
METRIC = re.compile(r"\d[\s\xa0](?:kg|g|L|ml|°C|cm)(?![\w/]| of nitrogen| nitrogen)")
STAMP = datetime(2027, 3, 1, tzinfo=UTC)


def in_us_units(name):
    text = (ROOT / name).read_text("utf-8")
    table = '[keeper]\nunits = "us"\n'
    return text.replace("[keeper]\n", table, 1) if "[keeper]\n" in text else f"{text}\n{table}"


@pytest.fixture(scope="module", params=FILES)
def pair(request, tmp_path_factory):
    """Return the plan of a site, and that of the same site with a keeper who speaks US units."""
    path = tmp_path_factory.mktemp("us") / "site.toml"
    path.write_text(in_us_units(request.param), "utf-8")
    return plan_site(ROOT / request.param), plan_site(path)


def without_sources(reason):
    """Return a reason without what was typed and what its sources say, which stay in their own units."""
    return replace(reason, origin="", inputs=tuple(without_sources(each) for each in reason.inputs))


def page_words(view):
    page = re.sub(r"<style>.*?</style>", "", plan_page(view), flags=re.DOTALL)
    page = re.sub(r'<span class="source">.*?</span>', "", page, flags=re.DOTALL)
    return unescape(re.sub(r"<[^>]+>", "\n", page))


def metric_in(text):
    return [text[max(each.start() - 40, 0) : each.end() + 10] for each in METRIC.finditer(text)]


def test_the_terminal_speaks_them(pair):
    metric, us = pair
    assert metric_in(plan_text(metric))
    assert not metric_in(plan_text(us))
    assert " lb" in plan_text(us)


def test_the_page_and_its_drawings_speak_them(pair):
    metric, us = pair
    assert metric_in(page_words(metric))
    assert not metric_in(page_words(us))
    assert "\nin\n" in page_words(us)  # the rule beside the shelf


def test_every_reason_speaks_them(pair):
    for reason in pair[1].reasons.values():
        assert not metric_in(reason_text(without_sources(reason), pair[1].speech))


def test_tasks_and_calendar_speak_them_under_the_same_ids(pair):
    metric, us = pair
    assert [(each.id, each.date) for each in us.tasks] == [(each.id, each.date) for each in metric.tasks]
    assert not metric_in("\n".join(f"{each.what} {each.because}" for each in us.tasks))
    unfolded = plan_calendar(us, stamp=STAMP).decode().replace("\r\n ", "")
    assert not metric_in(unfolded)


def bare(held):
    """Return an object without its sentences: only what is counted, dated or named."""
    if isinstance(held, dict):
        said = {"summary", "what", "because", "waits_for", "cautions", "assumptions", "hints", "asks"}
        return {key: bare(each) for key, each in held.items() if key not in said}
    return [bare(each) for each in held] if isinstance(held, list) else held


def test_json_stays_metric(pair):
    metric, us = (plan_object(each) for each in pair)
    assert us["figures"] == metric["figures"]
    assert bare({**us, "site": ""}) == bare({**metric, "site": ""})
    one, two = ({key: reason_object(each) for key, each in view.reasons.items()} for view in pair)
    assert one == two


def test_what_a_person_typed_stays_as_typed(pair):
    metric, us = (set(re.findall(r'[Yy]ou wrote "[^"]+"', unescape(plan_page(view)))) for view in pair)
    assert metric
    assert us == metric
