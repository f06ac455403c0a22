"""`base.kinds`: what each kind of value takes, what it refuses in which words, and that it writes what it reads."""

import tomllib
from datetime import date, datetime, time

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from sourloam.base.days import WEEKDAYS, Span
from sourloam.base.fields import Asking, Fault
from sourloam.base.kinds import (
    WEEK,
    Amount,
    Amounts,
    Choice,
    Choices,
    Day,
    Factors,
    Flag,
    Ident,
    Shares,
    Spans,
    Text,
    Whole,
    amount,
)
from sourloam.base.units import OWN, Dimension

ASKING = Asking(handful_kg=0.03)
VOLUME = Amount(Dimension.VOLUME, "1 L", "250 L", "smaller ones dry out.")
SHARE = Amount(Dimension.SHARE, "10 %", "95 %", "some room must stay free for gas.")
MONTHS = Amounts(12, Amount(Dimension.TEMPERATURE, "-60 C", "50 C", "no garden has such a month."), "January")
STANDS = Choice(("kitchen", "cellar", "shed"))


@pytest.mark.parametrize(
    ("kind", "raw", "want"),
    [
        (VOLUME, "18 L", 18.0),
        (VOLUME, "1 L", 1.0),  # both ends are included
        (VOLUME, "250 litres", 250.0),
        (Text(), "  north   house\n of four ", "north house of four"),
        (Ident(), "blue-2", "blue-2"),
        (STANDS, "shed", "shed"),
        (WEEK, ["sun", "wed", "sun"], ("wed", "sun")),
        (WEEK, [], ()),
        (Whole(1, 12), 12, 12),
        (Flag(), False, False),
        (Day(), date(2027, 3, 1), date(2027, 3, 1)),
        (Day(), "2027-03-01", date(2027, 3, 1)),
        (
            Spans(),
            ["2027-08-01 to 2027-08-02", " 2027-07-10  until 2027-07-10"],
            (Span(date(2027, 7, 10), date(2027, 7, 10)), Span(date(2027, 8, 1), date(2027, 8, 2))),
        ),
        (Factors(3, "Monday"), [0, 1, 2.5], (0.0, 1.0, 2.5)),
        (MONTHS, ["5 C"] * 11 + ["41 F"], (5.0,) * 12),
        (Shares("material"), {"bread": "40 %", "tea-leaves": "60 %"}, (("bread", 0.4), ("tea-leaves", 0.6))),
        (Shares("material"), {"bread": "33.3 %", "tea-leaves": "66.6 %"}, (("bread", 0.333), ("tea-leaves", 0.666))),
    ],
)
def test_a_value_is_read(kind, raw, want):
    assert kind.read(raw, ASKING) == want


@pytest.mark.parametrize(
    ("kind", "raw", "sentence"),
    [
        (VOLUME, 18, '18 has no unit; write it in quotes with its unit, for example "18 L" or "4 gal".'),
        (
            VOLUME,
            float("nan"),
            'nan has no unit; write it in quotes with its unit, for example "18 L" or "4 gal".',
        ),
        (
            VOLUME,
            True,
            'true is not a quantity; write it in quotes with its unit, for example "18 L" or "4 gal".',
        ),
        (
            VOLUME,
            ["18 L"],
            '["18 L"] is not a quantity; write it in quotes with its unit, for example "18 L" or "4 gal".',
        ),
        (VOLUME, "0 L", '"0 L" is outside 1 L to 250 L: smaller ones dry out. '),
        (VOLUME, "-3 L", '"-3 L" is outside 1 L to 250 L: smaller ones dry out. '),
        (VOLUME, "1e9 L", '"1e9 L" is outside 1 L to 250 L: smaller ones dry out. '),
        (
            VOLUME,
            "1800 L",
            '"1800 L" is outside 1 L to 250 L: smaller ones dry out. If you meant 180 L, write "180 L".',
        ),
        (
            SHARE,
            "850 %",
            '"850 %" is outside 10 % to 95 %: some room must stay free for gas. If you meant 85 %, write "85 %".',
        ),
        (SHARE, "855 %", '"855 %" is outside 10 % to 95 %: some room must stay free for gas. '),
        (VOLUME, "18 kg", '"18 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".'),
        (Text(), 5, "5 is not text; write it in quotes."),
        (Text(4), "a b c", "5 characters are too long; 4 will do."),
        (Text(), "a\x1b[2J", '"a\\U0000001b[2J" holds a character that cannot be shown; leave it out.'),
        (
            Ident(),
            "Blue Bucket",
            (
                '"Blue Bucket" is not an id: a letter first, then letters, digits and hyphens, all small, 40 at most. '
                'Write "blue-bucket".'
            ),
        ),
        (
            Ident(),
            7,
            (
                "7 is not an id: a letter first, then letters, digits and hyphens, all small, 40 at most. "
                'Write one such as "blue-1".'
            ),
        ),
        (
            Ident(),
            "x" * 41,
            (
                f'"{"x" * 41}" is not an id: a letter first, then letters, digits and hyphens, all small, 40 at most. '
                f'Write "{"x" * 40}".'
            ),
        ),
        (STANDS, "celar", '"celar" is not one of kitchen, cellar, shed. Did you mean cellar?'),
        (STANDS, 3, "3 is not one of kitchen, cellar, shed. "),
        (WEEK, "sun", '"sun" is not a list; write one such as ["mon"].'),
        (WEEK, ["sunday"], '"sunday" is not one of mon, tue, wed, thu, fri, sat, sun. Did you mean sun?'),
        (Whole(1, 12), 0, "0 will not do; write a whole number from 1 to 12."),
        (Whole(1, 12), 2.0, "2.0 will not do; write a whole number from 1 to 12."),
        (Whole(1, 12), True, "true will not do; write a whole number from 1 to 12."),
        (Flag(), "yes", '"yes" is neither yes nor no; write true or false, without quotes.'),
        (Flag(), 1, "1 is neither yes nor no; write true or false, without quotes."),
        (Day(), "1 March", '"1 March" is not a date; write one such as 2027-03-01.'),
        (Day(), 2027, "2027 is not a date; write one such as 2027-03-01."),
        (Day(), time(12), "12:00:00 is not a date; write one such as 2027-03-01."),
        (
            Day(),
            datetime(2027, 3, 1, 12),  # noqa: DTZ001 - a file has no zone
            "2027-03-01T12:00:00 has a time of day; write only the date: 2027-03-01.",
        ),
        (Day(), date(27, 3, 1), "0027-03-01 lies outside 1970 to 2199; write one such as 2027-03-01."),
        (Day(), "9999-12-31", "9999-12-31 lies outside 1970 to 2199; write one such as 2027-03-01."),
        (
            Spans(),
            "2027-07-10 to 2027-07-24",
            '"2027-07-10 to 2027-07-24" is not a list; write ["2027-07-10 to 2027-07-24"].',
        ),
        (
            Spans(),
            ["July"],
            '"July" is not a time from one day to another; write "2027-07-10 to 2027-07-24".',
        ),
        (
            Spans(),
            ["2027-07-24 to 2027-07-10"],
            '"2027-07-24 to 2027-07-10" ends before it begins; write "2027-07-10 to 2027-07-24".',
        ),
        (Spans(), ["2027-02-30 to 2027-03-10"], '"2027-02-30" is not a date; write one such as 2027-03-01.'),
        (
            Factors(3, "Monday"),
            [1, 1],
            "[1, 1] will not do; write a list of 3 numbers, Monday first.",
        ),
        (
            Factors(3, "Monday"),
            [1, 1, "1"],
            '[1, 1, "1"] holds something that is no number; write a list of 3 numbers, Monday first.',
        ),
        (
            Factors(3, "Monday"),
            [0, 0, 0],
            "[0, 0, 0] holds a factor outside 0 to 100, or nothing but 0; 1 is the usual amount.",
        ),
        (
            Factors(2, "Monday"),
            [1, float("nan")],
            "[1, nan] holds a factor outside 0 to 100, or nothing but 0; 1 is the usual amount.",
        ),
        (
            Factors(2, "Monday"),
            [1, -1],
            "[1, -1] holds a factor outside 0 to 100, or nothing but 0; 1 is the usual amount.",
        ),
        (
            MONTHS,
            ["5 C"] * 11,
            'the list holds 11; write a list of 12, January first, each such as "18 C".',
        ),
        (MONTHS, "5 C", 'the list is no list; write a list of 12, January first, each such as "18 C".'),
        (
            MONTHS,
            ["5 C"] * 11 + ["90 C"],
            '"90 C" is outside -60 C to 50 C: no garden has such a month. If you meant 9 C, write "9 C".',
        ),
        (
            Shares("material"),
            {},
            '{} does not say what part each material is; write { vegetable-scraps = "70 %", coffee-grounds = "30 %" }.',
        ),
        (
            Shares("material"),
            "bread",
            (
                '"bread" does not say what part each material is; '
                'write { vegetable-scraps = "70 %", coffee-grounds = "30 %" }.'
            ),
        ),
        (Shares("material"), {"bread": "40 %"}, "the shares make 40 % together; they must make 100 %."),
        (
            Shares("material"),
            {"bread": 40},
            'a share in it: 40 has no unit; write it in quotes with its unit, for example "60 %".',
        ),
    ],
)
def test_what_cannot_be_used_is_refused_with_the_cure(kind, raw, sentence):
    with pytest.raises(Fault) as caught:
        kind.read(raw, ASKING)
    assert f"{caught.value.found} {caught.value.remedy}" == sentence


def test_a_handful_is_offered_to_any_mass():
    assert amount("bran", "0 kg", "9 kg", help="").kind.read("two handfuls", ASKING) == 0.06


@pytest.mark.parametrize("dimension", Dimension)
def test_the_dimension_of_an_amount_is_that_of_its_bounds(dimension):
    assert amount("x", f"0 {OWN[dimension]}", f"9 {OWN[dimension]}", help="").kind.dimension is dimension


SPANS = st.tuples(st.dates(date(1970, 1, 1), date(2199, 12, 31)), st.dates(date(1970, 1, 1), date(2199, 12, 31)))
VALUES = st.one_of(
    st.tuples(st.just(VOLUME), st.floats(1.0, 250.0)),
    st.tuples(st.just(SHARE), st.floats(0.1, 0.95)),
    st.tuples(st.just(Text()), st.text(max_size=60).map(lambda text: " ".join(text.split())).filter(str.isprintable)),
    st.tuples(st.just(Ident()), st.from_regex(r"\A[a-z][a-z0-9-]{0,39}\Z")),
    st.tuples(
        st.just(WEEK), st.sets(st.sampled_from(WEEKDAYS)).map(lambda days: tuple(sorted(days, key=WEEKDAYS.index)))
    ),
    st.tuples(st.just(Choices(WEEKDAYS)), st.just(())),
    st.tuples(st.just(STANDS), st.sampled_from(STANDS.options)),
    st.tuples(st.just(Whole(1, 12)), st.integers(1, 12)),
    st.tuples(st.just(Flag()), st.booleans()),
    st.tuples(st.just(Day()), st.dates(date(1970, 1, 1), date(2199, 12, 31))),
    st.tuples(st.just(Spans()), st.lists(SPANS).map(lambda all_: tuple(sorted(Span(*sorted(each)) for each in all_)))),
    st.tuples(st.just(Factors(7, "Monday")), st.tuples(*[st.floats(0.01, 100.0)] * 7)),
    st.tuples(st.just(MONTHS), st.tuples(*[st.floats(-60.0, 50.0)] * 12)),
    st.tuples(
        st.just(Shares("material")),
        # The smaller one is drawn: in floating point 1 - 0.9999 lies below the least share that can be read.
        st.floats(0.0001, 0.5).flatmap(
            lambda share: st.permutations([("bread", share), ("tea-leaves", 1.0 - share)]).map(tuple)
        ),
    ),
)


@given(pair=VALUES)
@example(pair=(Shares("material"), (("bread", 0.9999), ("tea-leaves", 0.0001))))
def test_each_kind_writes_what_it_reads(pair):
    kind, value = pair
    raw = tomllib.loads(f"key = {kind.write(value)}")["key"]
    assert kind.read(raw, ASKING) == value


@given(
    raw=st.recursive(
        st.none() | st.text() | st.booleans() | st.integers() | st.floats() | st.dates() | st.datetimes(),
        lambda inner: st.lists(inner, max_size=12) | st.dictionaries(st.text(), inner, max_size=3),
        max_leaves=12,
    ),
    kind=st.sampled_from(
        [
            VOLUME,
            SHARE,
            Text(),
            Ident(),
            STANDS,
            WEEK,
            Whole(1, 12),
            Flag(),
            Day(),
            Spans(),
            Factors(7, ""),
            MONTHS,
            Shares("material"),
        ]
    ),
)
def test_anything_at_all_is_read_or_refused_and_nothing_else(raw, kind):
    assert is_read_or_refused(kind, raw)


def is_read_or_refused(kind, raw):
    try:
        kind.read(raw, ASKING)
    except Fault as fault:
        return bool(fault.found)
    return True
