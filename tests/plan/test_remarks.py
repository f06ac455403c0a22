"""`plan.remarks`: cautions, hints and questions arise where they should, and nowhere else."""

import re

import pytest

from sourloam.plan.figures import figures
from sourloam.plan.remarks import asks, assumptions, cautions, hints
from sourloam.plan.sizes import sizes
from tests.fleet.sites import USUAL, lived, question

BED = '[[bed]]\nid = "beans"\narea = "20 m2"\ndug = "strips"\n'


def said(what, **tables):
    asked = question(**tables)
    if what is hints:
        flows = figures(asked)
        return " ".join(hints(asked, lived(asked), flows | sizes(asked, flows)))
    if what is cautions:
        return " ".join(cautions(asked, lived(asked)))
    return " ".join(what(asked))


def keeper(line):
    return f'[keeper]\ndays = ["wed", "sat"]\n{line}\n'


@pytest.mark.parametrize(
    ("word", "tables"),
    [
        ("worm", {"rest": '[[worm_bin]]\nid = "worms"\narea = "0.4 m2"\nworms = "0.6 kg"\n'}),
        ("hens", {"keeper": keeper('animals = ["hens"]')}),
        ("litter", {"keeper": keeper('animals = ["cat"]')}),
        ("local waste authority", {"stream": USUAL["stream"] + 'premises = "other-household"\n'}),
        ("bare soil", {}),  # every vessel of the usual site has a drain
    ],
)
def test_a_caution_is_given_where_its_situation_is(word, tables):
    assert word in said(cautions, **tables).lower()


@pytest.mark.parametrize("word", ["worm", "hens", "litter", "local waste authority"])
def test_a_caution_is_not_given_elsewhere(word):
    assert word not in said(cautions).lower()


def test_a_site_without_a_drain_is_not_told_how_to_pour_the_liquid():
    dry = USUAL["vessel"] + "drain = false\n"
    assert "bare soil" not in said(cautions, vessel=dry)


def test_what_is_always_so_is_said_first_and_once():
    asked = question(rest=BED)
    given = cautions(asked, lived(asked))
    assert "not sanitised" in given[0]
    assert len(given) == len(set(given))


def test_an_assumption_that_two_vessels_share_is_said_once_for_both():
    two = '[[vessel]]\nid = "blue"\nvolume = "20 L"\n[[vessel]]\nid = "red"\nvolume = "12 L"\n'
    told = [each for each in assumptions(question(vessel=two)) if "stands in the kitchen" in each]
    assert told == ["vessel blue, red: It stands in the kitchen."]


def test_what_was_written_is_not_said_to_be_assumed():
    written = USUAL["vessel"] + 'stands = "cellar"\n'
    assert "stands in the kitchen" not in said(assumptions, vessel=written)
    assert "stands in the kitchen" in said(assumptions)


def test_a_vessel_that_takes_months_to_fill_is_hinted_at_with_a_size_that_fits():
    slow = said(hints, vessel='[[vessel]]\nid = "drum"\ncount = 2\nvolume = "120 L"\n')
    days = int(re.search(r"takes ([0-9]+) days to fill", slow)[1])
    fits = float(re.search(r"One of about ([0-9.]+) L", slow)[1])
    assert days > 35
    # It should hold what two weeks bring: as much smaller as it fills too slowly, and a little room over.
    assert 120.0 * 14 / days <= fits <= 1.5 * 120.0 * 14 / days
    assert "days to fill" not in said(hints)


def test_a_chain_that_ends_in_the_waste_bin_is_hinted_at():
    waste = '[[taker]]\nid = "grey"\nkind = "waste-bin"\n'
    assert "end in the waste bin" in said(hints, taker=waste)
    assert "waste bin" not in said(hints, taker=waste + USUAL["taker"])


def test_bran_for_a_cupful_of_scraps_is_not_worth_brewing():
    little = '[[stream]]\nid = "me"\namount = "60 g/day"\n'
    assert "hardly worth brewing" in said(hints, stream=little)
    assert "worth brewing" not in said(hints, stream=little, rest='[stock]\nbran_from = "bought"\n')
    assert "worth brewing" not in said(hints)


@pytest.mark.parametrize(
    ("words", "tables"),
    [
        ("much for one home", {"stream": '[[stream]]\nid = "me"\namount = "30 kg/week"\n'}),
        ("Weigh the scraps of a day once", {"stream": '[[stream]]\nid = "me"\namount = "two handfuls/day"\n'}),
        ("more than the 15.0 kg you lift", {"vessel": '[[vessel]]\nid = "drum"\nvolume = "60 L"\n'}),
        ("unusual. Is it so?", {"site": USUAL["site"].replace("20 C", "34 C")}),
    ],
)
def test_what_is_possible_but_doubtful_is_asked_about(words, tables):
    assert words in said(asks, **tables)


def test_a_usual_site_is_asked_nothing():
    assert said(asks) == ""
