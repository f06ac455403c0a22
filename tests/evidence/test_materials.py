"""The packaged materials: true to the food table, whole in every member, each value with its ground, found by name."""

import csv
import re
from pathlib import Path

import numpy as np
import pytest

from sourloam.base.errors import NotFound
from sourloam.base.source import Basis
from sourloam.evidence.materials import load_materials
from sourloam.evidence.sources import load_sources
from sourloam.science.load.laws import SALT_PER_SODIUM
from sourloam.science.load.members import DRY, members_of
from sourloam.science.materials.composition import MINERALS, Group, Method, Rule
from tests.published import Published

HERE = Path(__file__).parent
FOODS = {
    row["ndb"]: row for row in csv.DictReader((HERE / "data" / "sr28_extract.csv").read_text("utf-8").splitlines())
}
MATERIALS = load_materials()
KINDS = {
    *("vegetable", "fruit", "starch", "dish", "meat", "fish", "bone", "egg", "dairy", "coffee-tea", "nut", "flower"),
    *("garden", "brown", "carrier", "sweetener", "mineral", "liquid", "soil", "manure", "pet", "reject"),
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
COMMONEST = (
    *("potato-peel", "carrot-peel", "onion-skins", "cabbage-leaves", "broccoli-stalks", "cauliflower-leaves"),
    *("lettuce-leaves", "salad-bag", "tomato-trimmings", "spoiled-tomatoes", "cucumber-peel", "pepper-cores"),
    *("courgette-ends", "celery-ends", "leek-tops", "garlic-skins", "mushroom-stems", "spring-onion-ends"),
    *("squash-rind", "bean-ends", "sweet-potato-peel", "herb-stems", "spinach", "cooked-vegetables"),
    *("apple-cores", "banana-peel", "overripe-banana", "orange-peel", "lemon-peel", "mandarin-peel", "pear-cores"),
    *("melon-rind", "grape-stalks", "strawberry-tops", "avocado-skin", "pineapple-skin", "mango-skin"),
    *("watermelon-rind", "windfall-apples", "bread", "white-bread", "cooked-rice", "cooked-pasta", "cooked-potato"),
    *("chips", "cooked-pulses", "pizza", "leftover-dishes", "raw-meat", "cooked-meat", "cooked-chicken"),
    *("small-bones", "cooked-fish", "egg", "eggshell", "cheese", "yoghurt", "coffee-grounds", "tea-leaves", "tea-bags"),
)
COMPOSED = (Group.WATER, Group.PROXIMATE, Group.CARBOHYDRATE, Group.MINERAL)
US_AND_UK = [
    *[("zucchini", "courgette"), ("eggplant", "aubergine"), ("cilantro", "coriander"), ("french fries", "chips")],
    *[("potato chips", "crisps"), ("rutabaga", "swede"), ("beet", "beetroot"), ("scallions", "spring onions")],
    *[("bok choy", "pak choi"), ("napa cabbage", "chinese leaves"), ("arugula", "rocket"), ("corn", "sweetcorn")],
    *[("fava bean pods", "broad bean pods"), ("green beans", "runner beans"), ("shrimp", "prawns")],
    *[("ground beef", "mince"), ("cookies", "biscuits"), ("yogurt", "yoghurt"), ("oatmeal", "porridge")],
    *[("celery root", "celeriac"), ("garbanzo beans", "chickpeas"), ("candy", "sweets"), ("diapers", "nappies")],
    *[("paper towels", "kitchen roll"), ("egg carton", "egg box"), ("fall leaves", "autumn leaves")],
    *[("lawn clippings", "grass cuttings"), ("heavy cream", "double cream"), ("plastic wrap", "cling film")],
]


def is_the_food_itself(material):
    """Whether its composition is one food of the table as it stands, and that food is the scrap."""
    ground = material.grounds[Group.PROXIMATE]
    is_read = ground.provenance.source == "usda_sr28" and ground.provenance.basis is Basis.READ
    return is_read and ground.method is Method.MEASURED


TRANSCRIBED = [each for each in MATERIALS if is_the_food_itself(each)]


def held(material):
    return MATERIALS[material].composition


def food_of(material):
    return FOODS[re.fullmatch(r"NDB (\d{5})", material.grounds[Group.PROXIMATE].provenance.place)[1]]


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


def test_many_scraps_are_a_food_of_the_table():
    assert len(TRANSCRIBED) >= 60


@pytest.mark.parametrize("material", TRANSCRIBED, ids=str)
def test_a_food_that_is_the_scrap_itself_stands_as_in_the_table(material):
    food = food_of(material)
    measured = {name: float(food[f"{name}_g"] or 0.0) for name in ("water", "protein", "fat", "ash")}
    whole = max(100.0, sum(measured.values()))  # what was measured apart may come to more than the whole
    for name, value in measured.items():
        assert getattr(material.composition, f"{name}_wb_frac") == pytest.approx(value / whole, abs=2e-5)
    mineral = material.grounds[Group.MINERAL]
    if mineral.method is Method.MEASURED and mineral.provenance.source == "usda_sr28":
        for name in ("sodium", "potassium", "phosphorus", "calcium", "magnesium"):
            assert getattr(material.composition, f"{name}_wb_frac") == pytest.approx(
                float(food[f"{name}_mg"] or 0.0) / 1e5, abs=1e-5
            )


@pytest.mark.parametrize("material", TRANSCRIBED, ids=str)
def test_carbohydrate_is_shared_out_and_not_made(material):
    food, parts = food_of(material), material.composition
    names = ("sugars", "starch", "fibre", "lignin", "citric", "malic", "lactic", "acetic")
    shared = sum(getattr(parts, f"{name}_wb_frac") for name in names)
    alcohol_and_rounding = 0.003
    assert shared == pytest.approx(float(food["carbohydrate_g"]) / 100.0, abs=alcohol_and_rounding)


def test_nitrogen_is_protein_by_the_factor_of_the_table():
    food = FOODS["20077"]
    want = float(food["protein_g"]) / float(food["nitrogen_factor"]) / 100.0
    assert held("wheat-bran").nitrogen_wb_frac == pytest.approx(want, rel=2e-3)


@pytest.mark.parametrize("case", AGREEMENT, ids=str)
def test_mixtures_agree_with_measurements_that_they_were_not_made_from(case):
    assert got(case) == pytest.approx(float(case.want), abs=case.tolerance)


def test_there_are_enough_for_real_kitchens():
    assert sum(each.kind != "reject" for each in MATERIALS) >= 220
    assert {each.kind for each in MATERIALS} == KINDS


@pytest.mark.parametrize("material", tuple(MATERIALS), ids=str)
def test_a_material_is_whole_in_every_member(material):
    assert sum(material.composition.constituents().values()) == pytest.approx(1.0)
    drawn = members_of(material)
    parts = np.array([drawn["water"], *(drawn[name] for name in DRY)])
    assert parts.sum(axis=0) == pytest.approx(1.0)
    assert np.all(parts >= 0.0)
    assert all(np.all((drawn[name] >= 0.0) & (drawn[name] < 1.0)) for name in (*MINERALS, "nitrogen", "carbon"))


@pytest.mark.parametrize("material", tuple(MATERIALS), ids=str)
def test_the_members_of_a_material_lie_about_its_values(material):
    drawn = members_of(material)
    assert np.median(drawn["water"]) == pytest.approx(material.composition.water_wb_frac, abs=0.005)
    low, high = np.quantile(drawn["water"], (0.05, 0.95))
    assert material.water_low_wb_frac - 0.01 <= low
    assert high <= material.water_high_wb_frac + 0.01


@pytest.mark.parametrize("material", tuple(MATERIALS), ids=str)
def test_each_group_of_values_has_its_source_place_basis_and_method(material):
    sources = load_sources()
    wanted = set(Group) - {Group.ALKALI, Group.PIECE}
    wanted |= {Group.ALKALI} if material.alkali else set()
    wanted |= {Group.PIECE} if material.piece_kg else set()
    assert set(material.grounds) == wanted
    for ground in material.grounds.values():
        assert ground.provenance.source in sources
        assert ground.provenance.place
        assert isinstance(ground.provenance.basis, Basis)
        assert isinstance(ground.method, Method)
        assert 0.0 <= ground.spread_frac <= 1.0


@pytest.mark.parametrize("material", tuple(MATERIALS), ids=str)
def test_the_bounds_of_a_material_hold_its_values(material):
    assert material.water_low_wb_frac <= material.composition.water_wb_frac <= material.water_high_wb_frac
    assert 0.0 < material.loose_kg_per_l <= material.pressed_kg_per_l
    assert 0.0 < material.at_most_frac <= 1.0
    assert (material.piece_mm > 0.0) is not material.is_liquid


@pytest.mark.parametrize("material", tuple(MATERIALS), ids=str)
def test_a_rule_other_than_yes_gives_its_reason(material):
    assert material.reason or material.rule is Rule.YES
    assert material.preparation or material.rule is not Rule.PREPARE


def test_an_edible_part_that_stands_for_a_peel_is_unsure_by_half_or_more():
    standing_in = [
        (each, ground)
        for each in MATERIALS
        if each.grounds[Group.PROXIMATE].provenance.source == "usda_sr28"
        for group in (Group.CARBOHYDRATE, Group.MINERAL)
        if (ground := each.grounds[group]).method is Method.RELATIVE
    ]
    assert len(standing_in) >= 100
    assert not [each.id for each, ground in standing_in if ground.spread_frac < 0.5]


def test_what_was_measured_is_surer_than_what_stands_in():
    proximate = [each.grounds[Group.PROXIMATE] for each in MATERIALS if each.kind != "reject"]
    measured = [each.spread_frac for each in proximate if each.method is Method.MEASURED]
    relative = [each.spread_frac for each in proximate if each.method is Method.RELATIVE]
    assert np.median(measured) < min(relative)
    assert min(relative) >= 0.5


def test_of_the_commonest_scraps_most_values_rest_on_more_than_a_rule():
    assert len(set(COMMONEST)) >= 60
    methods = [ground.method for each in COMMONEST for ground in MATERIALS[each].grounds.values()]
    composed = [MATERIALS[each].grounds[group].method for each in COMMONEST for group in COMPOSED]
    assert methods.count(Method.RULE) <= 0.4 * len(methods)
    assert composed.count(Method.RULE) <= 0.2 * len(composed)


def test_a_value_from_memory_is_less_sure_than_one_that_was_read():
    def spreads(basis):
        grounds = [each.grounds[Group.PROXIMATE] for each in MATERIALS]
        return [each.spread_frac for each in grounds if each.provenance.basis is basis]

    assert np.median(spreads(Basis.READ)) < np.median(spreads(Basis.MEMORY))


@pytest.mark.parametrize("kind", ["liquid", "reject", "pet", "manure"])
def test_liquids_and_rejects_stay_out(kind):
    assert {each.rule for each in MATERIALS if each.kind == kind} == {Rule.NO}


def test_salt_is_sodium_by_its_formula():
    assert pytest.approx(2.54, abs=0.005) == SALT_PER_SODIUM
    salt = held("salt")
    assert SALT_PER_SODIUM * salt.sodium_wb_frac == pytest.approx(salt.ash_wb_frac, rel=0.01)


def test_animal_matter_is_known_by_its_kind():
    assert all(each.animal for each in MATERIALS if each.kind in {"meat", "fish", "bone", "egg", "dairy"})
    assert not any(each.animal for each in MATERIALS if each.kind in {"vegetable", "fruit", "garden", "brown"})


def test_no_two_materials_answer_to_the_same_words():
    by_word = {}
    for each in MATERIALS:
        for word in (each.name, *each.synonyms):
            assert by_word.setdefault(word.casefold(), each.id) == each.id
    assert len(by_word) > 3 * len(MATERIALS)


@pytest.mark.parametrize(("american", "british"), US_AND_UK)
def test_a_material_is_found_in_us_and_uk_english(american, british):
    assert MATERIALS.find(american).id == MATERIALS.find(british).id


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
    with pytest.raises(NotFound, match=r'"tomatos" is not a known material. Did you mean tomato') as caught:
        MATERIALS.find("tomatos")
    assert "tomato-trimmings" in caught.value.near


def test_an_id_that_nothing_has_is_refused_with_near_ones():
    with pytest.raises(NotFound, match="Did you mean banana-peel"):
        _ = MATERIALS["banana-peels"]


def test_a_name_like_no_other_is_refused_without_guessing():
    with pytest.raises(NotFound, match=r'"qqqq" is not a known material.$'):
        MATERIALS.find("qqqq")
