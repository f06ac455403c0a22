"""The packaged materials: true to the food table, near to the handbook, whole, and with their sources."""

import csv
import re
from pathlib import Path

import pytest

from sourloam.base.errors import NotFound
from sourloam.base.source import Basis
from sourloam.evidence.materials import load_materials
from sourloam.evidence.sources import load_sources
from sourloam.science.materials.composition import Method, Rule
from tests.published import Published

HERE = Path(__file__).parent
FOODS = {
    row["ndb"]: row for row in csv.DictReader((HERE / "data" / "sr28_extract.csv").read_text("utf-8").splitlines())
}
HANDBOOK = list(
    csv.DictReader(
        (HERE.parent / "science" / "materials" / "data" / "handbook_rows.csv").read_text("utf-8").splitlines()
    )
)
MATERIALS = load_materials()
TRANSCRIBED = [
    each for each in MATERIALS if each.provenance.source == "usda_sr28" and each.provenance.basis is Basis.READ
]
KINDS = {
    *("vegetable", "fruit", "starch", "dish", "meat", "fish", "bone", "egg", "dairy", "coffee-tea", "nut", "flower"),
    *("garden", "brown", "carrier", "sweetener", "mineral", "liquid", "soil"),
}
COLUMNS = ("water_g", "protein_g", "fat_g", "carbohydrate_g", "sugars_g", "fibre_g", "ash_g", "potassium_mg")
# Values of the food table as another reader of the same files printed them.
PRINTED = [
    ("20045", (68.44, 2.69, 0.28, 28.17, 0.05, 0.4, 0.41, 35.0)),
    ("01009", (37.02, 22.87, 33.31, 3.09, 0.48, 0.0, 3.71, 76.0)),
    ("11124", (88.29, 0.93, 0.24, 9.58, 4.74, 2.8, 0.97, 320.0)),
    ("20077", (9.89, 15.55, 4.25, 64.51, 0.41, 42.8, 5.79, 1182.0)),
]
AGREEMENT = [
    Published(
        "nraes54", "fruit wastes, C:N", given=(), want="40", within=9.0, why="printed range 20 to 49, its nearer end"
    ),
    Published(
        "nraes54",
        "fruit wastes, moisture %",
        given=(),
        want="80",
        within=8.0,
        why="printed range 62 to 88, its nearer end",
    ),
    Published("nraes54", "fish wastes, C:N", given=(), want="3.6", within=1.4, why="printed range 2.6 to 5.0"),
    Published("nraes54", "vegetable produce, C:N", given=(), want="19", within=7.0, why="its next row, wastes, has 12"),
    Published(
        "nraes54", "coffee grounds, C:N", given=(), want="20", within=4.0, why="half way to the other published one, 12"
    ),
    Published(
        "catering_abstract", "dishes, dry matter %", given=(), want="37", within=10.0, why="printed range 27 to 47"
    ),
    Published(
        "catering_abstract", "dishes, protein % dry", given=(), want="21", within=2.6, why="printed 18.3 to 23.5"
    ),
]


def held(material):
    return MATERIALS[material].composition


def got(case):
    dishes = held("leftover-dishes")
    return {
        "fruit wastes, C:N": held("fruit-scraps").carbon_to_nitrogen,
        "fruit wastes, moisture %": 100.0 * held("fruit-scraps").water_wb_frac,
        "fish wastes, C:N": held("fish-scraps").carbon_to_nitrogen,
        "vegetable produce, C:N": held("vegetable-scraps").carbon_to_nitrogen,
        "coffee grounds, C:N": held("coffee-grounds").carbon_to_nitrogen,
        "dishes, dry matter %": 100.0 * dishes.dry_wb_frac,
        "dishes, protein % dry": 100.0 * dishes.protein_wb_frac / dishes.dry_wb_frac,
    }[case.where]


@pytest.mark.parametrize(("ndb", "printed"), PRINTED, ids=[ndb for ndb, _ in PRINTED])
def test_the_food_table_was_read_as_another_reader_read_it(ndb, printed):
    assert tuple(float(FOODS[ndb][column] or 0.0) for column in COLUMNS) == printed


@pytest.mark.parametrize("material", TRANSCRIBED, ids=str)
def test_a_food_that_is_the_scrap_itself_stands_as_in_the_table(material):
    food = FOODS[re.fullmatch(r"NDB (\d{5})", material.provenance.place)[1]]
    dry = 1.0 - material.composition.water_wb_frac
    measured = {name: float(food[f"{name}_g"] or 0.0) for name in ("water", "protein", "fat", "ash")}
    whole = max(100.0, sum(measured.values()))  # what was measured apart may come to more than the whole
    for name, value in measured.items():
        assert getattr(material.composition, f"{name}_wb_frac") == pytest.approx(value / whole, abs=2e-5)
    for name in ("sodium", "potassium", "phosphorus", "calcium"):
        assert getattr(material.composition, f"{name}_wb_frac") == pytest.approx(
            float(food[f"{name}_mg"]) / 1e5, abs=1e-5
        )
    assert dry > 0.0


@pytest.mark.parametrize("material", TRANSCRIBED, ids=str)
def test_carbohydrate_is_shared_out_and_not_made(material):
    food, parts = FOODS[material.provenance.place[4:]], material.composition
    shared = (
        parts.sugars_wb_frac + parts.starch_wb_frac + parts.fibre_wb_frac + parts.lignin_wb_frac + parts.acids_wb_frac
    )
    alcohol_and_rounding = 0.003
    assert shared == pytest.approx(float(food["carbohydrate_g"]) / 100.0, abs=alcohol_and_rounding)


def test_nitrogen_is_protein_by_the_factor_of_the_table():
    food = FOODS["20077"]
    want = float(food["protein_g"]) / float(food["nitrogen_factor"]) / 100.0
    assert held("wheat-bran").nitrogen_wb_frac == pytest.approx(want, rel=2e-3)


@pytest.mark.parametrize("case", AGREEMENT, ids=str)
def test_mixtures_agree_with_measurements_that_they_were_not_made_from(case):
    assert got(case) == pytest.approx(float(case.want), abs=case.tolerance)


RECALLED = [row for row in HANDBOOK if row["basis"] == "MEMORY" and row["cn_low"]]


@pytest.mark.parametrize("row", RECALLED, ids=lambda row: row["material"])
def test_recalled_ranges_are_kept_regression(row):
    """The handbook rows were recalled: this shows that a row was carried over as recalled, and is no evidence."""
    assert float(row["cn_low"]) <= held(row["material"]).carbon_to_nitrogen <= float(row["cn_high"])


def test_there_are_enough_for_real_kitchens():
    assert len(MATERIALS) >= 60
    assert {each.kind for each in MATERIALS} == KINDS


@pytest.mark.parametrize("material", tuple(MATERIALS), ids=str)
def test_a_material_is_whole_and_has_its_sources(material):
    sources = load_sources()
    assert sum(material.composition.constituents().values()) == pytest.approx(1.0)
    assert material.provenance.source in sources
    assert material.provenance.place
    assert material.density_provenance.source in sources
    assert material.water_low_wb_frac <= material.composition.water_wb_frac <= material.water_high_wb_frac
    assert 0.0 < material.loose_kg_per_l <= material.pressed_kg_per_l


@pytest.mark.parametrize("material", tuple(MATERIALS), ids=str)
def test_a_rule_other_than_yes_gives_its_reason(material):
    assert material.reason or material.rule is Rule.YES
    assert material.preparation or material.rule is not Rule.PREPARE


def test_a_stand_in_is_less_sure_than_what_was_measured():
    measured = [each.spread_frac for each in MATERIALS if each.method is Method.MEASURED]
    relatives = [each.spread_frac for each in MATERIALS if each.method is Method.RELATIVE]
    assert max(measured) < min(relatives)
    assert min(relatives) >= 0.5


def test_liquids_stay_out():
    assert {each.rule for each in MATERIALS if each.kind == "liquid"} == {Rule.NO}


def test_animal_matter_is_known_by_its_kind():
    assert all(each.animal for each in MATERIALS if each.kind in {"meat", "fish", "bone", "egg", "dairy"})
    assert not any(each.animal for each in MATERIALS if each.kind in {"vegetable", "fruit", "garden", "brown"})


@pytest.mark.parametrize(
    ("words", "material"),
    [
        ("potato-peel", "potato-peel"),
        ("Potato Peelings", "potato-peel"),
        ("EGG SHELLS", "eggshell"),
        ("zucchini", "courgette-ends"),
    ],
)
def test_a_material_is_found_by_any_of_its_names(words, material):
    assert MATERIALS.find(words).id == material


def test_a_name_that_nothing_answers_to_is_refused_with_near_ones():
    with pytest.raises(NotFound, match=r'"tomatos" is not a known material. Did you mean tomato-trimmings\?') as caught:
        MATERIALS.find("tomatos")
    assert caught.value.near == ("tomato-trimmings",)


def test_an_id_that_nothing_has_is_refused_with_near_ones():
    with pytest.raises(NotFound, match="Did you mean banana-peel"):
        _ = MATERIALS["banana-peels"]


def test_a_name_like_no_other_is_refused_without_guessing():
    with pytest.raises(NotFound, match=r'"qqqq" is not a known material.$'):
        MATERIALS.find("qqqq")
