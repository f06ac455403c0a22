"""Every run of every study becomes a filling by the rules of admission.md."""

import numpy as np
import pytest

from sourloam.service.assemble import living_of
from validation.inputs import MATERIAL, PIECE_MM, fillings_of, starts_of, warmer_c
from validation.studies import Observed, Run, ends, last_day, load_contrasts, load_studies

STUDIES = load_studies()
RUNS = [pytest.param(run, id=f"{study.id}/{run.id}") for study in STUDIES for run in study.runs]
MEMBERS = 20
PLAIN = Run("plain", 20.0, {"cabbage-leaves": 1.0}, "chopped", "raw")


@pytest.mark.parametrize("run", RUNS)
def test_a_run_is_a_kilogram_and_what_is_added(run):
    most = 1.0 + sum(ends(each)[1] for each in run.added.values()) / 100.0
    least = 1.0 + sum(ends(each)[0] for each in run.added.values()) / 100.0
    for filling in fillings_of(run, 3, members=MEMBERS):
        (layer,) = filling.layers
        mass = sum(each.mass.members for each in (*layer.portions, *layer.added))
        assert np.all(mass >= least - 1e-9)
        assert np.all(mass <= most + 1e-9)
        assert {each.material.id for each in layer.added} == {MATERIAL[name] for name in run.added}
        assert layer.piece_mm == PIECE_MM[run.preparation]
        assert filling.kept.is_sealed is run.is_sealed
        assert filling.kept.volume_l > sum(each.mass.value for each in (*layer.portions, *layer.added))


def test_a_range_of_temperature_is_met_by_the_members_and_goes_before_the_usual_room():
    usual = np.linspace(-1.2, 1.2, MEMBERS)
    drawn = warmer_c(Run("r", [18, 25], {}, "chopped", "raw"), usual, 1)
    assert np.all(np.abs(drawn) <= 3.5)
    assert drawn.max() - drawn.min() > 6.0
    assert warmer_c(PLAIN, usual, 1) is usual


def test_of_what_may_have_been_raw_or_cooked_half_the_members_are_either():
    living = living_of(MEMBERS)
    raw, cooked, either = (
        starts_of(Run("r", 20.0, {"cabbage-leaves": 1.0}, "chopped", flora), 2, living).y
        for flora in ("raw", "cooked", "unknown")
    )
    assert np.array_equal(either[0::2], raw[0::2])
    assert np.array_equal(either[1::2], cooked[1::2])
    assert not np.allclose(raw, cooked)


def test_a_run_is_followed_to_its_last_observation():
    pairs = load_contrasts()
    for study in STUDIES:
        for run in study.runs:
            assert last_day(study, run, pairs) >= max([1.0, *(each.day for each in run.observed)])


def test_a_day_that_is_no_whole_one_is_followed_to_its_end():
    run = Run("r", 20.0, {}, "chopped", "raw", observed=(Observed(2.5, "ph", 4.0, 4.0),))
    assert last_day(STUDIES[0], run, ()) == 3
