"""The response of the model of a vessel, as it is shipped, and the rule that the plan takes from it."""

from itertools import pairwise

import pytest

from tests.science.ferment.fillings import FERMENT
from tools.response import MIXES, TEMPERATURES_C, USUAL_G_PER_KG, row, rule, shipped, times

ROWS = shipped()


def number(found, column):
    return float(found[column])


def at(mix, dose, temperature_c):
    return next(
        r
        for r in ROWS
        if (r["mix"], number(r, "dose_g_per_kg"), number(r, "temperature_c")) == (mix, dose, temperature_c)
    )


@pytest.mark.parametrize(("mix", "dose", "temperature_c"), [("plant", 10, 20), ("animal", 20, 30)])
def test_it_is_what_the_model_gives(mix, dose, temperature_c):
    again, kept = row(mix, dose, temperature_c), at(mix, dose, temperature_c)
    for column in kept.keys() - {"mix"}:
        assert number(again, column) == pytest.approx(number(kept, column), abs=0.05 if "frac" in column else 0.3)


@pytest.mark.parametrize("mix", MIXES)
def test_more_bran_sours_no_later_where_it_is_warm(mix):
    for temperature_c in (15, 20, 25, 30):
        days = [number(at(mix, dose, temperature_c), "soured_50") for dose in (0, 5, 10, 20, 30)]
        assert all(later <= sooner + 0.1 for sooner, later in pairwise(days))


@pytest.mark.parametrize("mix", MIXES)
def test_at_10_degrees_it_takes_twice_to_eight_times_as_long_as_at_20(mix):
    # A published summary of vegetable ferments, through the dossier of this project: 2 to 8 times.
    assert 2.0 <= number(at(mix, 10, 10), "soured_50") / number(at(mix, 10, 20), "soured_50") <= 8.0


def test_the_plan_goes_by_the_pace_of_souring_of_the_model():
    found = rule(times(ROWS, "soured_50", dose=USUAL_G_PER_KG))
    assert FERMENT.least_c.value == pytest.approx(found.least_c, abs=0.1)
    assert FERMENT.best_c.value == pytest.approx(found.best_c, abs=0.1)
    assert FERMENT.most_c.value == found.most_c


def test_the_pace_lies_within_a_fifth_of_the_model_in_the_middle_of_its_range():
    days = times(ROWS, "soured_50", dose=USUAL_G_PER_KG)
    found = rule(days)
    by_rule = found.days(TEMPERATURES_C)
    for temperature_c, model, ruled in zip(TEMPERATURES_C, days, by_rule, strict=True):
        if temperature_c >= 4:
            assert ruled == pytest.approx(model, rel=0.2)
