"""The drawing of a bed: one file with two compositions, and in it what the answer says."""

from datetime import date
from xml.etree.ElementTree import fromstring

import pytest

from sourloam.draw.bed_plot import bed_sheet
from sourloam.service.bed import AskedBed, bed_marks, judge_bed, season_of
from sourloam.service.product import AskedProduct

APRIL = date(2027, 4, 15)


def drawn(units=None, on=APRIL, **asked):
    given = AskedProduct(on, on, product="10 kg", units=units, animal=True, members=100)
    found = judge_bed(AskedBed(given, area="9 m2", **asked))
    return found, bed_sheet(found.view, season_of(found), bed_marks(found))


@pytest.mark.parametrize("on", [APRIL, date(2027, 1, 10), date(2027, 10, 20)])
def test_the_sheet_is_sound_and_says_from_when_plants_and_seed_may_come(on):
    _, svg = drawn(on=on)
    words = " ".join(each.text or "" for each in fromstring(svg).iter())
    assert all(
        each in words for each in ("plants from", "seed from", "root crops", "harvest from", "Nitrogen for plants")
    )
    assert "nan" not in svg.lower().replace("finance", "")
    assert svg.count("1st two months") == 2  # for a table, and for a phone


def test_a_keeper_who_thinks_in_fahrenheit_reads_fahrenheit():
    assert "°F" in drawn("us")[1]
    assert "°F" not in drawn()[1]


def test_a_reading_moves_the_soil_at_first_and_fades():
    (cold, _), (warm, _) = drawn(), drawn(soil_temp="18 C")
    apart = season_of(warm).soil_c[1] - season_of(cold).soil_c[1]
    assert apart[0] > 5.0
    assert abs(apart[-1]) < 1.0
