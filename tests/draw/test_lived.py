"""The drawings of years that were lived by chance: what they say, and that their words lie inside and apart."""

from datetime import date, timedelta
from xml.etree.ElementTree import fromstring

import pytest

from sourloam.base.days import Span
from sourloam.draw.lived_rows import lived_rows, rows_table
from sourloam.draw.size_plot import size_sheet
from sourloam.draw.stall_cost import Offer, stall_cost
from sourloam.draw.stall_weeks import finding, stall_weeks, weeks_table
from sourloam.plan.lived import LivedYear, LivedYears, Stay, YearRow
from sourloam.service.size import AskedSize, size_site
from tests.architecture.tree import ROOT
from tests.draw.geometry import drawings, size_of, words_of

FIRST, LAST = date(2027, 3, 1), date(2028, 2, 28)
WIDTHS = (354.0, 1100.0)
STALL = Span(date(2027, 11, 2), date(2027, 11, 4))
OFFERS = (
    Offer("let every vessel ferment indoors", "nothing", 0.02, "2.0 %"),
    Offer("add one more vessel of 20 L", "thing", 0.0, "0.0 %", "12.00 GBP"),
    Offer(
        "find a second work day in the week, and keep to it in the months in which nobody likes to",
        "habit",
        0.1,
        "10 %",
    ),
)


def day(number):
    return FIRST + timedelta(days=number)


def year(stalls=((STALL, "vessels"),), vessels=3):
    stays = (
        Stay(day(0), day(12), day(27), day(33), is_failed=False),
        Stay(day(40), day(55), day(80), day(81), is_failed=True),
        Stay(day(350), None, None, None, is_failed=False),
    )
    rows = tuple(YearRow(f"pail-{each}", stays) for each in range(vessels))
    return LivedYear(3, sum(span.days for span, _ in stalls), rows, stalls)


def years(count=10, chances=None, vessels=3):
    found = [0.0] * 52
    for week, chance in (chances or {35: 0.3}).items():
        found[week] = chance
    return LivedYears(count, FIRST, LAST, 0.01, tuple(found), year((), vessels), year(vessels=vessels))


def all_drawings():
    names = {f"pail-{each}": f"the pail with the long name number {each}" for each in range(20)}
    for width in WIDTHS:
        yield stall_weeks(years(), width_px=width, key="weeks")
        yield stall_weeks(years(200, {3: 0.215, 51: 1.0}), width_px=width, key="weeks")
        yield stall_weeks(years(10, {0: 0.0}), width_px=width, key="weeks")
        yield lived_rows(years(vessels=20), names, width_px=width, key="lived")
        yield stall_cost((0.11, "11 % of the weeks"), OFFERS, width_px=width, key="cost")


@pytest.mark.parametrize("svg", tuple(all_drawings()))
def test_words_lie_inside_and_apart(svg):
    [drawn] = drawings(svg)
    width, height = size_of(drawn)
    words = words_of(drawn)
    assert all(each.left >= 0.0 and each.right <= width + 1.0 and each.bottom <= height for each in words)
    assert not [
        (one.words, other.words) for at, one in enumerate(words) for other in words[at + 1 :] if one.meets(other)
    ]


def test_the_finding_names_the_week_that_stalls_most_often():
    assert finding(years(10, {10: 0.1, 35: 0.3})) == (
        "Of 10 years that were lived by chance, 3 stall in the week from 1\u00a0Nov; no week stalls in more."
    )
    assert finding(years(10, {0: 0.0})).startswith("None of 10 years")


def test_the_tables_say_the_same_as_the_drawings():
    assert weeks_table(years(10, {35: 0.3}))[1:] == (("1\u00a0Nov", "3 of 10"),)
    assert rows_table(years())[1:] == (("bad", "2 to 4\u00a0Nov", "all vessels full"),)


def test_few_years_are_counted_and_many_told_in_hundredths():
    few = " ".join(each.words for each in words_of(fromstring(stall_weeks(years(10), width_px=354.0, key="k"))))
    many = " ".join(each.words for each in words_of(fromstring(stall_weeks(years(100), width_px=354.0, key="k"))))
    assert "Years of 10" in few
    assert "%" not in few
    assert "30 %" in many
    assert "that are allowed" in many


def test_a_bar_is_as_long_as_what_a_change_leaves():
    [drawn] = drawings(stall_cost((0.1, "10 %"), OFFERS[::2], width_px=1000.0, key="k"))
    widths = [float(each.get("width")) for each in drawn.iter("{http://www.w3.org/2000/svg}rect") if each.get("stroke")]
    assert widths[1] == pytest.approx(5.0 * widths[0])


def test_a_sizing_is_drawn_on_one_sheet_for_two_widths():
    view = size_site(AskedSize(ROOT / "tests" / "sites" / "flat.toml", replications=3))
    sheet = size_sheet(view)
    assert sheet.count("A usual year:") == 2
    assert "nan" not in sheet
