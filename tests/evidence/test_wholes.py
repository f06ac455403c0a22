"""What is counted whole: each word leads to a material, and weighs more than what is cut off it."""

import pytest

from sourloam.evidence.materials import load_materials
from sourloam.evidence.wholes import load_wholes
from sourloam.science.materials.composition import Group

MATERIALS, WHOLES = load_materials(), load_wholes()
OF_ITSELF = {whole.name: whole for whole in WHOLES.values()}


@pytest.mark.parametrize("name", OF_ITSELF)
def test_a_whole_is_no_lighter_than_the_piece_that_is_thrown_away(name):
    whole = OF_ITSELF[name]
    piece = MATERIALS[whole.material].piece_kg
    assert whole.whole_kg > (piece or 0.0)


def test_a_word_of_the_table_still_means_the_same_material():
    for word, whole in WHOLES.items():
        if word in {words for each in MATERIALS for words in (each.name, *each.synonyms)}:
            assert MATERIALS.find(word).id == whole.material, word


def test_the_material_keeps_all_but_its_name_and_its_piece():
    leaf, head = MATERIALS["cabbage-leaves"], WHOLES["cabbage"].of(MATERIALS["cabbage-leaves"])
    assert (head.composition, head.ph, head.flora) == (leaf.composition, leaf.ph, leaf.flora)
    assert head.grounds[Group.PIECE].provenance.source == "usda_sr28"
