"""`draw.bench_chain` and `draw.counts`: the chain to one scale, its words apart, its dates under it."""

from datetime import date
from functools import lru_cache

import pytest

from sourloam.draw.bench_chain import TALL_PX, WIDE_PX, chain, chain_table, thing_of
from sourloam.draw.counts import counts
from sourloam.plan.words import Speech
from sourloam.service.culture import work_culture
from sourloam.service.culture_reading import AskedCulture
from tests.draw.geometry import drawings, outside, overlaps, size_of, words_of

LEAST_PX = 13.0
TODAY = date(2026, 12, 1)
ASKED = {
    "eight": AskedCulture(bran="8 kg", by=date(2027, 3, 1), at="17 C", members=200),
    "little": AskedCulture(bran="0.5 kg", members=200),
    "much": AskedCulture(bran="120 kg", members=200),
    "milk": AskedCulture(milk="2 L UHT milk", members=200),
    "heel": AskedCulture(bran="4 kg", start="heel", members=200),
    "us": AskedCulture(bran="20 lb", units="us", members=200),
}


@lru_cache(maxsize=8)
def view(name):
    return work_culture(ASKED[name], today=TODAY)


def drawn(name, width_px):
    seen = view(name)
    svg = chain(seen.chain, seen.speech, width_px=width_px, layer_m=seen.layer_m, key="key", title=seen.says)
    (one,) = drawings(svg)
    return one


@pytest.mark.parametrize("width_px", [TALL_PX, WIDE_PX], ids=["phone", "table"])
@pytest.mark.parametrize("name", ASKED)
def test_nothing_lies_outside_and_no_words_lie_on_each_other(name, width_px):
    svg = drawn(name, width_px)
    assert size_of(svg)[0] == width_px
    assert not outside(svg)
    assert not overlaps(svg)
    assert all(float(each.get("font-size")) >= LEAST_PX for each in svg.iter() if each.get("font-size"))


@pytest.mark.parametrize("name", ASKED)
def test_each_link_stands_there_with_its_day(name):
    words = " ".join(each.words for each in words_of(drawn(name, WIDE_PX))).replace("\u00a0", " ")
    for link in view(name).chain:
        assert link.name.split()[0].rstrip(",").casefold() in words.casefold()
        assert f"{link.on.day} {link.on:%b}" in words


@pytest.mark.parametrize("name", ASKED)
def test_things_hold_what_is_in_them(name):
    for link in view(name).chain:
        thing = thing_of(link, view(name).layer_m)
        if link.id == "tray":
            litres = 1000.0 * thing.count * 0.6 * 0.4 * view(name).layer_m
        else:
            litres = 1000.0 * 3.14159 / 4.0 * thing.width_m**2 * thing.level_m
        assert litres >= 0.99 * link.litres


def test_the_table_says_the_same():
    rows = chain_table(view("eight").chain, Speech())
    assert [each[0] for each in rows] == ["rice water", "milk", "serum", "wetted, shut", "drying", "dry bran"]
    first = view("eight").steps[0].start
    assert rows[0][2].replace("\u00a0", " ") == f"{first.day} {first:%b}"


@pytest.mark.parametrize("width_px", [TALL_PX, 620.0], ids=["phone", "table"])
def test_the_bars_of_life_stand_within_their_scale(width_px):
    seen = view("eight")
    (svg,) = drawings(counts(seen.chain, works=seen.works_log10, width_px=width_px, key="key"))
    assert not outside(svg)
    assert not overlaps(svg)
    assert "bran works from here" in " ".join(each.words for each in words_of(svg))
