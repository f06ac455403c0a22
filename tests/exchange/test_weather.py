"""`exchange.weather`: tables and hourly files into days; each fault by its line."""

from datetime import date, timedelta
from pathlib import Path
from statistics import fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import BadInput, Surroundings
from sourloam.evidence.parameters import load_parameters
from sourloam.exchange import weather
from sourloam.exchange.weather import read_weather
from sourloam.science.climate.climate import Climate
from sourloam.science.climate.parameters import ClimateParameters
from sourloam.science.climate.series import DayRange, monthly_means_c, typical_year

DATA = Path(__file__).parent / "data"
# Means of (temp_max + temp_min) / 2 by month over 2012 to 2015, worked out from the published weather.csv itself.
SEATTLE_C = (5.46, 6.96, 8.62, 10.69, 14.46, 17.32, 20.10, 20.44, 17.14, 12.87, 7.86, 5.76)
TWO_DAYS = (DayRange(date(2024, 2, 29), -1.5, 6.0), DayRange(date(2024, 3, 1), 0.5, 8.0))


def _read(tmp_path, text, name="weather.csv"):
    path = tmp_path / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_weather(path)


def _faults(tmp_path, text, name="weather.csv"):
    with pytest.raises(BadInput) as caught:
        _read(tmp_path, text, name)
    assert caught.value.name == name
    return [str(each) for each in caught.value.problems]


def test_months_of_a_measured_series_are_those_of_its_days():
    days = read_weather(DATA / "seattle.csv")
    assert len(days) == 1461
    assert days[0] == DayRange(date(2012, 1, 1), 5.0, 12.8)
    # An ordinary year lacks 29 February 2012, one of the 113 days of February there.
    assert monthly_means_c(typical_year(days).ordinary_c) == pytest.approx(SEATTLE_C, abs=0.04)


def test_a_measured_series_makes_a_climate():
    p = load_parameters(ClimateParameters, "climate")
    climate = Climate.from_daily(read_weather(DATA / "new_york.csv"), indoors_c=20, latitude_deg=40.7, parameters=p)
    assert 8 < fmean(climate.soil_c(date(2023, month, 15), 0.2) for month in range(1, 13)) < 18


@pytest.mark.parametrize(
    "text",
    [
        "date,min,max\n2024-02-29,-1.5,6\n2024-03-01,0.5,8\n",
        "max,date,min\n6,2024-02-29,-1.5\n8,2024-03-01,0.5\n",
        "Date;Min;Max\n2024-02-29;-1,5;6,0\n2024-03-01;0,5;8,0\n",
        "date;min;max\n2024-02-29;-1.5;6.0\n2024-03-01;0.5;8.0\n",
        "date,min_c,max_c\r\n2024-02-29,-1.5,6\r\n\r\n2024-03-01,0.5,8\r\n",
        "\ufeffdate,temp_max,temp_min,rain\n2024-03-01,8,0.5,3\n2024-02-29,6,-1.5,0\n",
        "date,min_f,max_f\n2024-02-29,29.3,42.8\n2024-03-01,32.9,46.4\n",
        "date,min (°F),max (°F)\n2024-02-29,29.3,42.8\n2024-03-01,32.9,46.4\n",
        "date,min,max\n,°F,°F\n2024-02-29,29.3,42.8\n2024-03-01,32.9,46.4\n",
        "date,min,max\n,C,deg C\n2024-02-29,-1.5,6\n2024-03-01,0.5,8\n",
        'date,min,max\n"2024-02-29","-1.5","6"\n2024-03-01, 0.5 , 8\n',
        "date,min,max\n2024-02-28,,6\n2024-02-29,-1.5,6\n2024-03-01,0.5,8\n2024-03-02,NA,8\n",
    ],
)
def test_a_table_is_read_however_it_is_written(tmp_path, text):
    for read, want in zip(_read(tmp_path, text), TWO_DAYS, strict=True):
        assert read.on == want.on
        assert read[1:] == pytest.approx(want[1:])


@given(days=st.lists(st.tuples(st.floats(-60, 50), st.floats(-60, 50)), min_size=1, max_size=30))
def test_what_is_written_is_read(tmp_path_factory, days):
    start = date(2024, 1, 1)
    want = tuple(DayRange(start + timedelta(days=each), min(pair), max(pair)) for each, pair in enumerate(days))
    rows = "".join(f"{on},{low!r},{high!r}\n" for on, low, high in want)
    assert _read(tmp_path_factory.mktemp("w"), "date,min,max\n" + rows) == want


def test_all_faults_are_told_at_once_with_their_lines(tmp_path):
    text = """date,min,max
2024-03-01,1,8
2024-13-01,1,8
1.3.2024,1,8

2024-03-04,cold,8
2024-03-05,9,8
2024-03-06,1
2024-03-01,1,8
2024-03-07,nan(1),1e400
2024-03-08,-90,8
"""
    assert _faults(tmp_path, text) == [
        'line 3: date: "2024-13-01" is not a day of the calendar. Write year, month and day as in 2024-03-01.',
        'line 4: date: "1.3.2024" is not a date. Write year, month and day as in 2024-03-01.',
        'line 6: min: "cold" is not a number. Leave it empty if it was not measured.',
        "line 7: 2024-03-05: min, 9 °C, is above max, 8 °C. Are the columns swapped?",
        "line 8: only 2 of the columns stand here. Fill the line.",
        "line 9: 2024-03-01: this day stands here twice. Keep one of the two.",
        'line 10: min: "nan(1)" is not a number. Leave it empty if it was not measured.',
        "line 10: max: 1e400 is outside -60 to 50 °C. If it is in Fahrenheit, name the columns min_f and max_f.",
        "line 11: min: -90 is outside -60 to 50 °C. Leave it empty if it was not measured.",
    ]


def test_fahrenheit_without_its_name_is_suspected(tmp_path):
    faults = _faults(tmp_path, "date,min,max\n2024-07-01,60,85\n")
    assert faults[1] == (
        "line 2: max: 85 is outside -60 to 50 °C. If it is in Fahrenheit, name the columns min_f and max_f."
    )


def test_faults_of_one_kind_are_not_listed_without_end(tmp_path):
    faults = _faults(tmp_path, "date,min,max\n" + "today,1,2\n" * 1000)
    assert len(faults) == weather.SHOWN + 1
    assert faults[-1] == "and 970 more of the kind. Mend these first."


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("date,min\n2024-03-01,1\n", r'line 1: there is no column "max"\. The first line names the columns date, min'),
        ("a,b,c\n1,2,3\n", r'there is no column "date" and no "min" and no "max"\.'),
        ("2024-03-01,1,8\n", r'there is no column "date"'),
        ("date,min,max,min\n2024-03-01,1,8,1\n", r'line 1: column "min": it stands here twice\. Keep one of the two'),
        ("date,min_c,max_c\n,F,F\n2024-03-01,1,8\n", r"line 2: the units differ from those in the first line\."),
        ("date,min,max\n", r"weather\.csv: there is no day in it\. It needs every day of a year\.$"),
        ("date,min,max\n2024-03-01,,\n", r"there is no day in it\."),
        ("", r"weather\.csv: the file is empty\. It needs a line with the names date, min, max, and then the days\.$"),
        (" \n\n", r"the file is empty\."),
        ("\ufeff\n", r"line 1: there is no column"),
        (",,\n,,\n", r"line 1: there is no column"),
        (b"date,min,max\n2024-03-01,\xb0,8\n", r"line 2: this is not text in UTF-8\. Save the table as CSV in UTF-8\."),
        ('date,min,max\n2024-03-01,"1,8\n', r"this is not a table \(.*\)\. Save it as CSV\."),
        (b"\x00\x01\x02\x03" * 10, r"there is no column|this is not a table"),
        (b"PK\x03\x04\xff\xfe\x00", r"this is not text in UTF-8"),
    ],
)
def test_what_is_no_table_of_days_is_refused(tmp_path, text, fault):
    with pytest.raises(BadInput, match=fault):
        _read(tmp_path, text)


def test_a_folder_is_refused(tmp_path):
    with pytest.raises(BadInput, match=r": this is a folder\. Name the file in it\.$"):
        read_weather(tmp_path)


def test_a_file_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(BadInput, match=r"^none\.csv: there is no such file\. Give its name as seen from the site file"):
        read_weather(tmp_path / "none.csv")


def test_a_file_under_a_file_cannot_be_read(tmp_path):
    (tmp_path / "file").write_text("x")
    with pytest.raises(Surroundings, match=r"^w\.csv cannot be read: Not a directory\. See who may read it\.$"):
        read_weather(tmp_path / "file" / "w.csv")


def test_a_huge_file_is_refused_before_it_is_read(tmp_path, monkeypatch):
    path = tmp_path / "weather.csv"
    with path.open("wb") as file:
        file.truncate(weather.LARGEST_BYTES + 1)
    monkeypatch.setattr(Path, "read_bytes", lambda _: pytest.fail("it was read"))
    with pytest.raises(BadInput, match=r"^weather\.csv: the file has 20\.0 MB\. At most 20 MB is read\. Cut it down"):
        read_weather(path)


def _epw(days, *, place="Quillet", spoil=None):
    """An hourly file in the layout of EnergyPlus: 0 °C, but a temperature that rises from day to day at noon."""
    head = [
        f"LOCATION,{place},-,XXX,made,000000,50.00,0.00,0.0,10.0",
        *["COMMENTS 1,made for a test"] * 6,
        "DATA PERIODS,1",
    ]
    start = date(2023, 1, 1)
    rows = []
    for each in range(days):
        on = start + timedelta(days=each)
        for hour in range(1, 25):
            dry_bulb = float(each % 30) if hour == 13 else 0.0
            row = f"{on.year},{on.month},{on.day},{hour},60,?9?9,{dry_bulb:.1f},5.0,80,101000" + ",0" * 25
            rows.append(spoil(on, hour, row) if spoil else row)
    return ("\r\n".join([*head, *rows]) + "\r\n").encode("latin-1")


def test_hours_become_the_least_and_the_greatest_of_each_day(tmp_path):
    days = _read(tmp_path, _epw(365, place="Málaga"), "typical.epw")
    assert len(days) == 365
    assert days[12] == DayRange(date(2023, 1, 13), 0.0, 12.0)


def test_months_of_a_typical_year_may_be_of_different_years(tmp_path):
    text = _epw(365, spoil=lambda on, _, row: row.replace("2023", "1997", 1) if on.month == 2 else row)
    assert len(typical_year(_read(tmp_path, text, "typical.epw")).ordinary_c) == 365


def test_a_day_with_few_hours_counts_as_missing(tmp_path):
    def lose(on, hour, row):
        return row.replace(",0.0,", ",99.9,", 1) if on.day == 5 and hour < 8 else row

    assert [day.on.day for day in _read(tmp_path, _epw(7, spoil=lose), "t.epw")] == [1, 2, 3, 4, 6, 7]


def test_an_hour_that_is_none_is_refused_with_its_line(tmp_path):
    def spoil(on, hour, row):
        return {(2, 1): "2023,1,2", (3, 1): row.replace(",0.0,", ",70.0,", 1)}.get((on.day, hour), row)

    assert _faults(tmp_path, _epw(5, spoil=spoil), "t.epw") == [
        "line 33: this is not an hour of an EPW file. Take the file anew from where it came.",
        "line 57: dry bulb: 70 is outside -60 to 50 °C. Take the file anew from where it came.",
    ]


def test_hours_without_a_day_are_refused(tmp_path):
    assert _faults(tmp_path, _epw(0), "t.epw") == ["there is no day in it. It needs every day of a year."]
