"""`evidence.culture`: the tables of the bench load whole, and nothing in them lacks its source."""

from dataclasses import fields

import pytest

from sourloam.base.errors import NotFound, UnknownSource
from sourloam.evidence import culture
from sourloam.evidence.culture import load_bench, load_carriers
from sourloam.evidence.sources import load_sources
from sourloam.science.inoculum.bench import Bench
from sourloam.science.inoculum.calendar import NEEDED, ORDER


def test_every_table_has_its_rows_and_no_two_the_same_id():
    for each in fields(Bench):
        ids = [row.id for row in getattr(load_bench(), each.name)]
        assert ids
        assert len(ids) == len(set(ids))


@pytest.mark.parametrize("words", ["wheat bran", "brewers grain", "silver skin", "newsprint", "used coffee grounds"])
def test_a_carrier_answers_to_what_people_call_it(words):
    assert load_carriers().find(words).name


def test_an_unknown_carrier_is_refused():
    with pytest.raises(NotFound, match='"gravel" is not a known carrier'):
        load_carriers().find("gravel")


def test_each_start_goes_on_from_a_link_that_is_known():
    assert {each.from_link for each in load_bench().starts} <= set(NEEDED)
    assert {*ORDER, "mix", "bag"} == {each.id for each in load_bench().steps}


def test_a_trial_is_one_that_was_read():
    for use in load_bench().uses:
        assert use.evidence in ("trial", "habit", "none found")
        assert (use.evidence == "trial") == bool(use.trial)
        if use.trial:
            assert load_sources()[use.trial].basis == "READ"
            assert use.trial_says


def test_custom_has_two_ends():
    for store in load_bench().stores:
        assert 0.0 < store.custom_low_d < store.custom_high_d
        assert store.low_c <= store.known_c <= store.high_c


def test_a_row_without_a_listed_source_is_refused(monkeypatch):
    row = {"id": "white", "source": "nobody1900"}
    monkeypatch.setattr(culture, "rows_of", lambda _: [row])
    with pytest.raises(UnknownSource, match=r'^sugars.csv: white: "nobody1900" is not in sources.toml'):
        culture._sourced("sugars")
