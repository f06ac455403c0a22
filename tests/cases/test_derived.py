"""Arithmetic that was made while the table was compiled, worked again before an answer rests on it."""

import csv
import math

import pytest

from tests.cases.answering import HERE, answers

US_GALLON_L = 3.785411784  # exact by definition: NIST Handbook 44, appendix C

# Case, the words of the table, what they give, what the numbers beside them give, and how near that must come.
DERIVED = [
    ("C177", "17 x 0.333 lb = 5.7 lb", 5.7, 17 * 0.333, 0.05),
    ("C177", "20% = 1.1 lb/day", 1.1, 0.2 * 5.661, 0.05),
    ("C177", "= 3.6 kg/week", 3.6, 7 * 0.2 * 5.661 * 0.45359237, 0.05),
    ("C021", "roughly 9 layers", 9.0, (300 - 75) / 25, 0.0),
    ("C032", "100 mL -> 30 L", 30.0, 0.1 * 300, 0.0),
    ("C111", "6 L of hole per litre of ferment", 6.0, 1000.0 * 1.0 * 0.30 * 0.30 / 15, 0.0),
    ("C118", "20-40 kg = 1.5-3 buckets of 13.6 kg", 1.5, 20 * 1 / 13.6, 0.05),
    ("C118", "20-40 kg = 1.5-3 buckets of 13.6 kg", 3.0, 20 * 2 / 13.6, 0.1),
    ("C129", "16 L -> 32 L soil + cover 10 L", 32.0, 2 * 16, 0.0),
    ("C129", "32 L soil + cover 10 L -> 60 L tote", 60.0, 16 + 32 + 10, 2.0),
    ("C135", "blocked 13-26 weeks", 13.0, 3 * 365.25 / 12 / 7, 0.1),
    ("C135", "blocked 13-26 weeks", 26.0, 6 * 365.25 / 12 / 7, 0.1),
    ("C161", "moisture about 25%", 25.0, 100 * (50 * 0.12 + 10 * 0.80 + 2 * 0.60) / 62, 1.0),
    ("C161", "(42 lb) water for 55%", 42.0, (50 * 0.88 + 10 * 0.20 + 2 * 0.40) / 0.45 - 62, 0.5),
    ("C042", "2 weeks x 22 weeks = 11 buckets", 11.0, 22 / 2, 0.0),
    ("C042", "1 bucket (16 L) per 2 weeks x 22 weeks = 11 buckets = about 175 L", 175.0, 11 * 16, 2.0),
    ("C042", "x 22 weeks", 22.0, (30 + 31 + 31 + 29 + 31) / 7, 0.5),  # November to March of a leap year
    ("C049", "22.7 L (6 US gal)", 22.7, 6 * US_GALLON_L, 0.05),
    ("C049", "2.1-2.3 L/week", 2.1, 22.7 / 11, 0.05),
    ("C049", "2.1-2.3 L/week", 2.3, 22.7 / 10, 0.05),
    ("C049", "about 5-6 L bucket", 5.5, 2 * (2.1 + 2.3) / 2 / 0.8, 0.5),
    ("C052", "full every 5.2 days", 5.2, 13.6 / (18.36 / 7), 0.05),
    ("C052", "2.64 kg/day; 18.36 kg/week", 2.64, 18.36 / 7, 0.02),
    ("C052", "955 kg/year", 955.0, 18.36 * 52, 0.5),
    ("C065", "13.6 kg bucket -> 0.41 kg bran", 0.41, 0.03 * 13.6, 0.005),
    ("C065", "65.8 kg bin -> 2.0 kg", 2.0, 0.03 * 65.8, 0.05),
    ("C066", "3.5 kg/week -> 105 g/week", 105.0, 0.03 * 3500, 0.0),
    ("C066", "1 kg lasts 9.5 weeks", 9.5, 1000 / 105, 0.05),
    ("C074", "4 L gives about 27%", 27.0, 100 * (20 * 0.12 + 4.08) / (20 + 4.08), 0.5),
    ("C074", "30% needs 5.1 L", 5.1, 20 * (0.30 - 0.12) / 0.70, 0.05),
    ("C074", "35% 7.1 L", 7.1, 20 * (0.35 - 0.12) / 0.65, 0.05),
    ("C074", "40% 9.3 L", 9.3, 20 * (0.40 - 0.12) / 0.60, 0.05),
    ("C077", "mix is 1:1:42", 42.0, 2500 / 60, 0.5),
    ("C077", "moisture about 43%", 43.0, 100 * (4.5 * 0.12 + 2.5) / (4.5 + 2.5), 0.7),
    ("C077", "0.45-0.75 kg/month", 0.75, 4.5 / 6, 0.01),
    ("C077", "0.45-0.75 kg/month", 0.45, 4.5 / 10, 0.01),
    ("C079", "about 25% (1.5 L)", 25.0, 100 * (1.2 + 1.5 + 0.3 + 0.09) / (10 + 1.5 + 0.3 + 0.42), 0.5),
    ("C079", "28% (2 L)", 28.0, 100 * (1.2 + 2.0 + 0.3 + 0.09) / (10 + 2.0 + 0.3 + 0.42), 0.5),
    ("C080", "the bran is about 4.3 kg", 4.3, 19 * 0.225, 0.05),
    ("C080", "70-75% moisture", 72.5, 100 * (4.3 * 0.12 + 9.7) / (4.3 + 9.7), 2.5),
    ("C081", "43% moisture", 43.0, 100 * (0.454 * 0.12 + 0.237 + 0.015) / (0.454 + 0.237 + 0.035), 1.0),
    ("C088", "grounds at 60% moisture already exceed the 40% target", 1.0, math.ceil(0.60 - 0.40), 0.0),
    ("C091", "14 / 0.5 = 28", 28.0, 14 / 0.5, 0.0),
    ("C091", "24-26", 24.0, (356 - 50) / 12.7, 0.2),
    ("C091", "24-26", 26.0, (356 - 25) / 12.7, 0.2),
    ("C096", "1:800", 800.0, 4 / 0.005, 1.0),
    ("C096", "1:50", 50.0, 1000 / 20, 0.0),
    ("C096", "1:200", 200.0, 200 / 1, 0.0),
    ("C096", "1:64-1:32", 64.0, 128 / 2, 0.0),
    ("C096", "1:64-1:32", 32.0, 128 / 4, 0.0),
    ("C173", "6 L culture, 30 L water, 30 kg minerals", 6.0, 3 * 2, 0.0),
    ("C173", "6 L culture, 30 L water, 30 kg minerals", 30.0, 3 * 10, 0.0),
    ("C173", "same as 200 mL per 100 L", 200.0, 2.0 / 1000.0 * 100.0 * 1000.0, 0.0),
    ("C173", "about 15 mL culture per m3", 15.0, 15000.0 / (1 + 1 + 1000), 0.1),
    ("C173", "(factor 130)", 130.0, 2000.0 / 15.0, 5.0),
    ("C179", "118.8 kg = 12-16 buckets of 7.6-9.8 kg", 12.0, 118.8 / 9.8, 0.2),
    ("C179", "118.8 kg = 12-16 buckets of 7.6-9.8 kg", 16.0, 118.8 / 7.6, 0.4),
    ("C180", "120 L x 0.7 = 84 kg -> 2.5 kg bran each", 84.0, 120 * 0.7, 0.0),
    ("C180", "120 L x 0.7 = 84 kg -> 2.5 kg bran each", 2.5, 0.03 * 84, 0.05),
    ("C181", "fill 3 d: 1+ceil(14/3)=6", 6.0, 1 + math.ceil(14 / 3), 0.0),
    ("C181", "fill 7 d: 3", 3.0, 1 + math.ceil(14 / 7), 0.0),
    ("C181", "bran 2.0 kg per bin", 2.0, 0.03 * 65.8, 0.05),
    ("C183", "20.4 t/year = 393 kg/week", 20.4, (85000 - 40000) * 0.45359237 / 1000, 0.05),
    ("C183", "20.4 t/year = 393 kg/week", 393.0, 20400 / 52, 1.0),
    ("C183", "29 buckets of 13.6 kg per week", 29.0, 393 / 13.6, 0.2),
    ("C183", "6 bins of 65.8 kg", 6.0, 393 / 65.8, 0.1),
    ("C183", "bran 11.8 kg/week", 11.8, 0.03 * 393, 0.05),
    ("C185", "16 kg per bin", 16.0, 336 / 21, 0.0),
    ("C052", "with 14 days rest 4 buckets", 4.0, 1 + math.ceil(14 / 5.2), 0.0),
]

UNWORKED = {"C165"}  # its note says what to work out, and gives no result


def rows():
    with (HERE / "cases.csv").open(encoding="utf-8", newline="") as file:
        return {row["id"]: " | ".join(row.values()) for row in csv.DictReader(file)}


@pytest.mark.parametrize(("case", "words", "said", "worked", "within"), DERIVED, ids=lambda each: str(each)[:40])
def test_what_was_derived_can_be_derived_again(case, words, said, worked, within):
    assert words in rows()[case]
    assert worked == pytest.approx(said, abs=within + 1e-9)


def test_no_answer_rests_on_a_derived_value_that_is_not_checked():
    checked = {case for case, *_ in DERIVED}
    resting = {each.case for each in answers() if "[derived]" in rows()[each.case]}
    assert resting - UNWORKED <= checked
