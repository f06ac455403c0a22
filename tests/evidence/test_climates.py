"""`evidence.climates`: months with a source, for north and south, against measured years."""

import csv
from pathlib import Path
from statistics import fmean

import pytest

from sourloam.base.errors import NotFound
from sourloam.base.source import Basis
from sourloam.evidence.climates import load_climates, typical_climate
from sourloam.evidence.parameters import load_parameters
from sourloam.science.climate.climate import Climate
from sourloam.science.climate.parameters import ClimateParameters

CLIMATES = load_climates()
MEASURED = Path(__file__).parents[1] / "exchange" / "data"


def _measured_months_c(name):
    with (MEASURED / f"{name}.csv").open(encoding="utf-8") as file:
        days = [
            (row["date"][5:7], (float(row["temp_min"]) + float(row["temp_max"])) / 2) for row in csv.DictReader(file)
        ]
    return [fmean(mean for month, mean in days if month == f"{each:02}") for each in range(1, 13)]


def test_months_of_new_york_agree_with_those_measured_there():
    """noaa_daily: other years and another method than the table; nine months in ten may differ by `give_k`."""
    typical = typical_climate("continental-warm")
    assert typical.like == "New York City"
    misses = [abs(a - b) for a, b in zip(typical.monthly_mean_c, _measured_months_c("new_york"), strict=True)]
    assert sum(miss <= typical.give_k for miss in misses) >= 11
    assert fmean(misses) < 1.0


@pytest.mark.parametrize("name", CLIMATES)
def test_every_climate_makes_a_year(name):
    typical = CLIMATES[name]
    p = load_parameters(ClimateParameters, "climate")
    climate = Climate.from_monthly(
        typical.monthly_mean_c, indoors_c=20, latitude_deg=typical.latitude_deg, parameters=p
    )
    assert fmean(climate.year.ordinary_c) == pytest.approx(fmean(typical.monthly_mean_c), abs=0.2)
    assert typical.basis is Basis.READ
    assert typical.give_k >= 3.0  # one place stands for many
    assert typical.words[0].islower()


@pytest.mark.parametrize("name", CLIMATES)
def test_the_south_has_its_summer_when_the_north_has_its_winter(name):
    typical = CLIMATES[name]
    south = typical.months_at(-38.0)
    assert south[6:] + south[:6] == typical.months_at(50.0) == typical.monthly_mean_c
    assert south[0] == typical.monthly_mean_c[6]


def test_climates_differ_in_what_their_words_say():
    coldest = {name: min(each.monthly_mean_c) for name, each in CLIMATES.items()}
    warmest = {name: max(each.monthly_mean_c) for name, each in CLIMATES.items()}
    assert coldest["continental-cold"] < coldest["continental"] < coldest["mild-maritime"] < coldest["mediterranean"]
    assert warmest["boreal"] < warmest["continental-warm"] < warmest["subtropical"]
    assert warmest["tropical"] - coldest["tropical"] < 5


def test_an_unknown_climate_is_refused_with_near_ones():
    with pytest.raises(NotFound, match=r'^"boreall" is not a known climate\. Did you mean boreal\?$'):
        typical_climate("boreall")


def test_a_climate_like_none_is_refused_with_all_of_them():
    with pytest.raises(NotFound) as caught:
        typical_climate("xyz")
    assert caught.value.near == tuple(CLIMATES)
