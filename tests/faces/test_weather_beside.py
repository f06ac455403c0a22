"""A climate file beside the site file: read, used, and none outside its folder."""

import json
import math
from datetime import date, timedelta

import pytest

from tests.architecture.tree import ROOT
from tests.faces.terminal import alone

FLAT = (ROOT / "tests" / "sites" / "flat.toml").read_text("utf-8").replace("\n[[vessel]]", "\n[[vessel]]\n@", 1)
EPW_HEAD = ("LOCATION,Nowhere,-,XXX,X,0,50.0,0.0,0.0,10.0", *(f"HEAD {line}" for line in range(7)))


def mean_c(on):
    """Return the mean of an invented day: 2 °C in January, 20 °C in July."""
    return 11.0 - 9.0 * math.cos(2.0 * math.pi * (on.timetuple().tm_yday - 15) / 365.0)


def days():
    return [date(2025, 1, 1) + timedelta(days=each) for each in range(365)]


def csv():
    rows = [f"{on},{mean_c(on) - 4.0:.1f},{mean_c(on) + 4.0:.1f}" for on in days()]
    return "\n".join(["date,min,max", *rows, ""])


def epw():
    hours = [
        f"{on.year},{on.month},{on.day},{hour},0,?,{mean_c(on) - 4.0 * math.cos(math.pi * (hour - 3) / 12.0):.1f},5,80"
        for on in days()
        for hour in range(1, 25)
    ]
    return "\n".join([*EPW_HEAD, *hours, ""])


def site(weather):
    return FLAT.replace("@", 'stands = "outdoors"').replace('id = "flat"', f'id = "flat"\nweather = "{weather}"')


@pytest.fixture(scope="module")
def coldest(tmp_path_factory):
    """Return how long a vessel outdoors ferments in the coldest month, by the name of the climate file."""

    def days_with(name, content):
        folder = tmp_path_factory.mktemp("weather")
        (folder / name).write_text(content, "utf-8")
        (folder / "site.toml").write_text(site(name), "utf-8")
        said = alone("plan", folder / "site.toml", "--json", cwd=ROOT)
        assert said.code in (0, 1), said.err
        held = json.loads(said.out)
        assert not any("The months outdoors are those of" in each for each in held["assumptions"])
        return held["figures"]["ferment_days_coldest"]["value"], held["figures"]["ferment_days_warmest"]["value"]

    return days_with


def test_a_table_and_an_hourly_file_of_the_same_year_give_the_same_fermentation(coldest):
    from_table, from_hours = coldest("days.csv", csv()), coldest("hours.epw", epw())
    assert from_table == pytest.approx(from_hours, rel=0.02)
    assert from_table[0] > 2.0 * from_table[1]  # 2 °C against 20 °C


@pytest.mark.parametrize("name", ["../days.csv", "/etc/hosts", "sub/../../days.csv"])
def test_no_file_outside_the_folder_is_read(name, tmp_path):
    (tmp_path / "days.csv").write_text(csv(), "utf-8")
    (tmp_path / "here" / "sub").mkdir(parents=True)
    (tmp_path / "here" / "site.toml").write_text(site(name), "utf-8")
    said = alone("plan", "here/site.toml", cwd=tmp_path)
    assert (said.code, said.out) == (2, "")
    assert f'weather = "{name}" lies outside the folder of the site file; put it beside the site file.' in said.told


def test_a_climate_file_that_is_not_there_is_named(tmp_path):
    (tmp_path / "site.toml").write_text(site("days.csv"), "utf-8")
    said = alone("plan", "site.toml", cwd=tmp_path)
    assert (said.code, said.out) == (2, "")
    assert "days.csv" in said.err
    assert "Traceback" not in said.err
