"""What people write of a vessel: read, refused with all faults at once, or kept with a mark."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import BadInput
from sourloam.evidence.signs import load_signs
from sourloam.science.readings.kinds import Caddy, Fizz, Liquid, Seen, Strip, Thermometer, Weight, Where
from sourloam.science.readings.read import Setting, read_readings

SETTING = Setting(load_signs(), date(2027, 3, 1), volume_l=20.0, laid_kg=10.0)


def one(text, setting=SETTING):
    (found,) = read_readings([text], setting)
    return found


def test_the_first_example_is_read():
    assert one("day 9 strip 4.5 leachate") == Strip(
        day=9.0, typed="day 9 strip 4.5 leachate", ph=4.5, where=Where.LEACHATE
    )


@pytest.mark.parametrize(
    ("text", "kind", "values"),
    [
        ("day 9 smell vinegar", Seen, {"sign": "vinegar"}),
        ("day 9 smells like old wine", Seen, {"sign": "yeast"}),
        ("day 9 smell of rotten eggs", Seen, {"sign": "putrid"}),
        ("day 9 smell nothing", Seen, {"sign": "fresh"}),
        ("day 9 mould white fuzz", Seen, {"sign": "white"}),
        ("day 9 mould a few small blue spots", Seen, {"sign": "specks"}),
        ("day 9 growth blue-green", Seen, {"sign": "blue"}),
        ("day 9 lid bulging", Seen, {"sign": "bulging"}),
        ("day 9 droplets", Seen, {"sign": "droplets"}),
        ("day 9 maggots", Seen, {"sign": "larvae"}),
        ("day 9 leachate dark red-brown", Seen, {"sign": "amber"}),
        ("day 9 leachate dark brown and foul", Seen, {"sign": "foul"}),
        ("day 9 leachate 1 cup", Liquid, {"litres": pytest.approx(0.2366, abs=1e-3)}),
        ("day 9 drained nothing", Liquid, {"litres": 0.0}),
        ("day 9 temperature 70 F core", Thermometer, {"celsius": pytest.approx(21.1, abs=0.1)}),
        ("day 9 temp 18 C room", Thermometer, {"where": Where.ROOM}),
        ("day 9 fizz no", Fizz, {"fizzes": False}),
        ("day 9 weight 20 lb", Weight, {"mass_kg": pytest.approx(9.07, abs=0.01)}),
        ("day 9 caddy 3 days", Caddy, {"caddy_d": 3.0}),
        ("day 9 pH 4.0 to 4.5 squeezed core", Strip, {"ph": 4.25, "where": Where.CORE}),
        ("day 9 strip 4.5 box b", Strip, {"box": "b"}),
    ],
)
def test_what_people_write_is_read(text, kind, values):
    found = one(text)
    assert type(found) is kind
    assert found.day == 9.0
    assert {name: getattr(found, name) for name in values} == values


def test_a_date_counts_from_the_first_layer():
    assert one("2027-03-10 smell sour").day == 9.0
    with pytest.raises(BadInput, match="the batch has none"):
        one("2027-03-10 smell sour", Setting(load_signs()))


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("a week after I closed it: smell vinegar", 19.0),
        ("day 9 after sealing strip 4.2 core", 21.0),
        ("10 days after the last layer fizz yes", 22.0),
        ("two weeks since it was sealed, smell sour", 26.0),
        ("3 days after we shut the lid growth white", 15.0),
    ],
)
def test_a_day_may_count_from_when_it_was_shut(text, day):
    assert one(text, Setting(load_signs(), closed_d=12.0)).day == day


def test_a_smell_of_the_liquid_alone_is_a_reading_of_the_liquid():
    liquid, core, sour = (one(f"day 9 smell {each}") for each in ("rotten liquid", "rotten core", "pickle liquid"))
    assert (liquid.kind, liquid.sign) == ("leachate", "foul")
    assert (core.kind, core.sign, core.where) == ("smell", "putrid", Where.CORE)
    assert sour.sign == "pickle"


def test_several_in_one_text_come_by_day():
    assert [each.day for each in read_readings(["day 9 smell sour; day 3 strip 5", "day 5 fizz yes"], SETTING)] == [
        3.0,
        5.0,
        9.0,
    ]


def test_what_cannot_be_is_refused_with_all_its_faults():
    wrong = (
        *("strip 4", "day 9 pH 15", "day 2 smell banana", "day 3 weight -2 kg", "day 1 temp 30"),
        *("day -2 smell sour", "day 4 leachate 40 L", "day 3 cats", "day 2 temperature 300 C"),
    )
    with pytest.raises(BadInput) as caught:
        read_readings(wrong, SETTING)
    assert len(caught.value.problems) == len(wrong)
    assert "pH 15 cannot be" in str(caught.value)
    assert all(each.remedy for each in caught.value.problems)


@pytest.mark.parametrize("text", ["day 9 pH 2.5", "day 2 strip 3.5", "day 5 leachate 9 L", "day 9 weight 2 kg"])
def test_what_is_unlikely_is_kept_with_a_mark(text):
    assert one(text).mark


def test_what_is_likely_has_no_mark():
    assert not one("day 9 strip 4.2").mark


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused_in_words(text):
    try:
        found = read_readings([f"day 9 {text}"], SETTING)
    except BadInput:
        return
    assert all(each.day == 9.0 or ";" in text for each in found)


@given(st.floats(0.0, 14.0), st.integers(0, 400))
def test_a_strip_comes_back_as_it_was_written(ph, day):
    found = one(f"day {day} strip {ph:.2f} top")
    assert (found.day, found.ph, found.where) == (float(day), pytest.approx(ph, abs=0.006), Where.TOP)
