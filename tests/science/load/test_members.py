"""`science.load.members`: drawn within the spread, whole in every member, and the same for the same seed."""

import numpy as np
import pytest

from sourloam.science.load.members import DRY, members_of, value_figure
from sourloam.science.materials.composition import Group
from tests.science.load.kitchen import MATERIALS

GOES_IN = tuple(each for each in MATERIALS if each.kind != "reject")


@pytest.mark.parametrize("material", GOES_IN, ids=str)
def test_every_member_of_a_material_adds_up_to_one(material):
    drawn = members_of(material, 200)
    whole = drawn["water"] + sum(drawn[name] for name in DRY)
    assert np.allclose(whole, 1.0) or material.composition.dry_wb_frac == 0.0
    assert all(np.all(drawn[name] >= 0.0) for name in ("water", *DRY, "nitrogen", "sodium", "soaks", "wet"))


def test_the_same_seed_gives_the_same_members_and_another_seed_others():
    peel = MATERIALS["potato-peel"]
    once, again, other = members_of(peel, 100), members_of(peel, 100), members_of(peel, 100, seed=7)
    assert np.array_equal(once["starch"], again["starch"])
    assert not np.array_equal(once["starch"], other["starch"])


def test_what_is_drawn_lies_about_what_the_table_says():
    peel = MATERIALS["potato-peel"]
    drawn = members_of(peel, 1001)
    assert np.median(drawn["water"]) == pytest.approx(peel.composition.water_wb_frac, abs=1e-3)
    assert np.median(drawn["protein"]) == pytest.approx(peel.composition.protein_wb_frac, rel=0.05)
    assert np.quantile(drawn["water"], 0.05) == pytest.approx(peel.water_low_wb_frac, abs=1e-3)
    assert np.quantile(drawn["water"], 0.95) == pytest.approx(peel.water_high_wb_frac, abs=1e-3)


def test_a_stand_in_is_drawn_more_widely_than_what_was_measured():
    spread = {
        name: np.std(np.log(members_of(MATERIALS[name], 500)["protein"])) for name in ("potato-peel", "carrot-peel")
    }
    assert spread["carrot-peel"] > spread["potato-peel"]


def test_a_liquid_pours_and_dry_bread_soaks():
    assert members_of(MATERIALS["broth"], 50)["pours"].min() > 0.8
    assert members_of(MATERIALS["toast"], 50)["soaks"].min() > 0.0
    assert members_of(MATERIALS["lettuce-leaves"], 50)["soaks"].max() == 0.0


def test_titrated_buffering_holds_that_of_the_acids_and_counts_none_twice():
    beef = MATERIALS["raw-beef"]
    drawn = members_of(beef, 1)
    dry = 1.0 - drawn["water"][0]
    whole = beef.buffering_meq_per_kg_dry / 1000.0 * dry
    assert 0.0 < drawn["tissue"][0] < whole


def test_a_value_opens_to_its_source():
    peel = MATERIALS["potato-peel"]
    figure = value_figure(peel, "water", members_of(peel, 50))
    assert (figure.source, figure.place) == ("usda_sr28", "NDB 11362")
    assert figure.basis is peel.grounds[Group.WATER].provenance.basis
