"""Sources, crops, cautions and rules: every row has its source, and names are unambiguous."""

import re

import pytest

from sourloam.base.errors import NotFound, UnknownSource
from sourloam.base.source import Basis
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.crops import crop_lookup, load_crops
from sourloam.evidence.lookup import Lookup
from sourloam.evidence.rules import load_jurisdictions
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of
from sourloam.science.batch.cautions import Caution
from tests.published import Published
from tests.science.materials.loads import material

SOURCES = load_sources()
LB_KG, SQ_FT_M2, ACRE_M2 = 0.45359237, 0.09290304, 4046.8564224  # exact by definition
RATES = [
    Published("umd_vegetables", "3 lb N per 1000 sq ft, g/m2", given=(3.0, 1000.0 * SQ_FT_M2), want="14.6"),
    Published("umd_vegetables", "2 lb N per 1000 sq ft, g/m2", given=(2.0, 1000.0 * SQ_FT_M2), want="9.8"),
    Published("csu_garden", "0.2 lb N per 100 sq ft, g/m2", given=(0.2, 100.0 * SQ_FT_M2), want="9.8"),
]
CROPS = {RATES[0]: "tomato", RATES[1]: "mixed-vegetables", RATES[2]: "mixed-vegetables"}


def test_every_source_has_its_text_and_basis():
    assert all(source.key == key and source.text for key, source in SOURCES.items())


def test_an_unknown_key_is_refused_with_the_place_that_asked():
    with pytest.raises(
        UnknownSource, match=r'^materials.csv: potato-peel: "nobody1900" is not in sources.toml'
    ) as caught:
        known("nobody1900", "materials.csv: potato-peel", SOURCES)
    assert caught.value.key == "nobody1900"


def test_a_value_read_through_another_work_says_through_which():
    assert SOURCES["nraes54"].through


@pytest.mark.parametrize("case", RATES, ids=str)
def test_a_rate_in_pounds_is_the_one_of_the_table(case):
    pounds, area = case.given
    rate = pounds * LB_KG * 1000.0 / area
    assert rate == pytest.approx(float(case.want), abs=case.tolerance)
    assert load_crops()[CROPS[case]].nitrogen_g_per_m2 == pytest.approx(rate, abs=case.tolerance)


@pytest.mark.parametrize("crop", tuple(load_crops().values()), ids=lambda crop: crop.id)
def test_a_crop_has_its_interval_and_sources(crop):
    assert crop.nitrogen_low_g_per_m2 <= crop.nitrogen_g_per_m2 <= crop.nitrogen_high_g_per_m2
    assert crop.source in SOURCES
    assert crop.place
    assert (crop.salt_threshold_ds_per_m is None) == (not crop.salt_source) == (crop.salt_basis is None)


def test_a_crop_that_was_not_read_has_the_wider_interval():
    def width(crop):
        return (crop.nitrogen_high_g_per_m2 - crop.nitrogen_low_g_per_m2) / max(crop.nitrogen_g_per_m2, 1.0)

    assert all(width(crop) >= 0.5 for crop in load_crops().values() if crop.basis is not Basis.READ)


def test_there_are_crops_enough_for_a_garden():
    assert len(load_crops()) >= 45


def test_a_crop_is_found_by_any_of_its_names():
    assert crop_lookup().find("Zucchini").id == "courgette"


def test_a_crop_that_is_not_known_is_refused_with_near_ones():
    with pytest.raises(NotFound, match=r'"potatos" is not a known crop. Did you mean potato'):
        crop_lookup().find("potatos")


def test_two_things_of_one_name_are_refused():
    with pytest.raises(ValueError, match='two materials answer to "potato-peel"'):
        Lookup("material", (material("potato-peel"), material("potato-peel", loose=0.2)))


@pytest.mark.parametrize("caution", load_cautions(), ids=lambda caution: caution.id)
def test_a_caution_is_one_plain_sentence_with_its_source(caution):
    assert caution.source in SOURCES
    assert re.fullmatch(r"[A-Z][^.!?]*\.", re.sub(r"\b\d+\.\d+", "", caution.text))
    assert not caution.authority or re.fullmatch(r"(Ask|See) [^.!?]*\.", caution.authority)
    assert not re.search(r"\b(is|are) safe\b|please|recommend|!", caution.text)


def test_cautions_have_ids_of_their_own():
    ids = [each.id for each in load_cautions()]
    assert len(set(ids)) == len(ids)


def test_what_is_law_somewhere_names_whom_to_ask():
    for each in load_cautions():
        if {"farmed-animals", "hens", "business", "other-premises"} & set(each.when):
            assert each.authority.startswith("Ask "), each.id


def test_a_caution_for_no_situation_of_a_site_is_refused():
    with pytest.raises(ValueError, match='caution "x": moonshine is no situation of a site'):
        Caution("x", ("moonshine",), "Mind it.", "", "judgement", "", Basis.JUDGEMENT)


@pytest.mark.parametrize("row", rows_of("sanitation_rules"), ids=lambda row: row["rule_id"])
def test_a_sanitation_rule_has_its_source(row):
    assert row["source"] in SOURCES
    assert Basis(row["basis"])


def test_every_place_whose_rules_are_known_is_named_and_any_other_may_be():
    codes = load_jurisdictions()
    assert {"UK", "EU", "US", "DE", "CA"} < set(codes)
    assert codes[-1] == "OTHER"
    assert len(set(codes)) == len(codes)
