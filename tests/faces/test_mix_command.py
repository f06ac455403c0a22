"""`sourloam mix` as a process: the weeks of real kitchens, what it prints, what it ends with, what it refuses."""

import json
import re

import pytest

from sourloam.cli.exits import Exit
from tests.architecture.test_docs import CLI, first_cells, paths, section
from tests.architecture.tree import ROOT
from tests.faces.terminal import alone
from tests.faces.test_plan_command import COLUMNS, calm

DEMO = ROOT / "examples" / "quillet_yard.toml"
FIGURES = {
    *("mass_kg", "dry_matter_pct", "carbon_pct_dry", "nitrogen_pct_dry", "c_to_n", "buffering_meq_per_kg_dm"),
    *("fermentability", "critical_ph", "start_ph", "lactic_needed_g_per_kg", "free_water_l", "salt_g_per_kg"),
    *("pressed_l", "bran_g", "absorbent_g"),
}
WEEKS = {  # what is brought, and the verdict; common practice, no source
    "a vegan week": (
        ["2 kg vegetable peelings", "6 banana peels", "1 L coffee grounds", "300 g bread", "2 cups cooked lentils"],
        "sound",
    ),
    "a barbecue Sunday": (
        ["800 g cooked chicken", "300 g chicken bones", "4 bread rolls", "200 g coleslaw", "150 g meat fat"],
        "marginal",
    ),
    "a soup-and-citrus week": (["1.5 L soup", "8 orange peels", "4 squeezed lemons", "500 g leek tops"], "marginal"),
    "bread and coffee only": (["1 kg stale bread", "1 L coffee grounds"], "not sound"),
    "a glut of grass": (["6 kg grass clippings"], "marginal"),
    "a fish dinner": (["600 g fish heads", "300 g potato peel", "2 squeezed lemons"], "unsound"),
    "a children's party": (["600 g party cake", "400 g pizza", "300 g strawberries", "200 g crisps"], "not sound"),
}


def mixed(*arguments):
    return alone("mix", *arguments, cwd=ROOT)


def told(*arguments):
    done = mixed(*arguments, "--json")
    return done.code, json.loads(done.out)


@pytest.mark.parametrize("week", WEEKS)
def test_the_weeks_of_real_kitchens_are_judged_and_advised(week):
    amounts, want = WEEKS[week]
    code, held = told(*amounts)
    assert held["schema"] == "sourloam.mix/1"
    assert held["verdict"] == want or (want == "not sound" and held["verdict"] != "sound")
    assert code == (Exit.DONE if held["verdict"] == "sound" else Exit.NO)
    assert held["figures"].keys() >= FIGURES
    if held["verdict"] == "sound":
        assert held["limiting"] == ""
        assert held["advice"] == []
        return
    assert held["limiting"]
    assert held["advice"], held["why"]
    assert held["after"].startswith("Sound")
    assert all({"do", "amount", "unit", "because"} <= each.keys() for each in held["advice"])


def test_the_text_fits_a_terminal_and_opens_with_the_verdict():
    done = mixed("2 kg vegetable peelings", "1 cup cooked rice", "3 eggshells")
    assert done.out.startswith("Sound: it will sour.\n")
    assert calm(done.out)
    assert done.err == ""


def test_each_figure_opens_to_its_sources():
    done = mixed("2 kg vegetable peelings", "--why", "critical")
    assert "pH at which it keeps" in done.out
    assert "scatter of the critical pH about its line" in done.out
    assert max(map(len, done.out.splitlines())) <= COLUMNS


def test_a_week_of_a_site_is_judged_in_its_own_vessel():
    code, held = told("--site", DEMO)
    assert code == Exit.DONE
    assert held["figures"]["mass_kg"]["value"] == pytest.approx(7.7, abs=1.5)
    assert not any("--vessel" in each for each in held["assumptions"])
    _, north = told("--site", DEMO, "--stream", "north-house")
    assert north["figures"]["mass_kg"]["value"] == pytest.approx(5.5)


def test_a_stream_that_is_not_there_is_refused_with_those_that_are():
    done = mixed("--site", DEMO, "--stream", "west-house")
    assert done.code == Exit.INPUT
    assert '"west-house" is no stream of the site. There are: north-house, south-house.' in done.told


def test_a_mix_can_come_from_a_table_with_materials_of_ones_own(tmp_path):
    (tmp_path / "week.csv").write_text("amount,material\n2 kg,potato peel\n300 g,old kimchi\n", encoding="utf-8")
    (tmp_path / "own.csv").write_text("id,name,water,salt\nmy-kimchi,old kimchi,90 %,2.5 %\n", encoding="utf-8")
    _, held = told("--csv", tmp_path / "week.csv", "--materials", tmp_path / "own.csv")
    assert any("What you did not state of old kimchi is taken from " in each for each in held["assumptions"])
    assert held["figures"]["salt_g_per_kg"]["value"] == pytest.approx(25.0 * 0.3 / 2.3, rel=0.3)


def test_without_a_drain_wet_scraps_want_something_dry():
    _, drained = told("3 kg watermelon rind")
    _, standing = told("3 kg watermelon rind", "--no-drain", "--at-hand", "sawdust")
    assert drained["verdict"] == "sound"
    assert (standing["verdict"], standing["limiting"]) == ("unsound", "liquid")
    assert "sawdust" in standing["advice"][0]["do"]


def test_scraps_from_the_caddy_weighed_more_when_they_were_fresh():
    fresh, old = (told("2 kg vegetable peelings", *more)[1] for more in ((), ("--caddy-days", "4")))
    assert old["figures"]["mass_kg"]["value"] > 1.1 * fresh["figures"]["mass_kg"]["value"]


def test_the_strict_lists_leave_meat_out():
    _, held = told("2 kg vegetable peelings", "200 g raw chicken", "--strict")
    assert any("stricter lists" in each for each in held["notes"])
    assert held["figures"]["animal_pct"]["value"] == 0.0


def test_nothing_that_goes_in_is_unsound_by_rule():
    code, held = told("3 kg plastic")
    assert (code, held["verdict"], held["limiting"]) == (Exit.NO, "unsound", "rule")


def test_us_kitchens_are_told_in_their_units():
    done = mixed("4 lb vegetable peelings", "--units", "us")
    assert " lb" in done.out
    assert " kg " not in done.out.split("And behind them")[0]


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["3 frobs"], 'amounts: "3 frobs": "frobs" is not a known material.'),
        (["bread"], '"bread" does not begin with an amount'),
        ([], "there is nothing to mix"),
        (["1 kg bread", "--vessel", "3 kg"], '"3 kg" is a mass'),
        (["1 kg bread", "--vessel", "900 L"], '--vessel: "900 L" is outside 1 L to 250 L'),
        (["1 kg bread", "--at-hand", "soup"], "soup soaks up nothing"),
        (["1 kg bread", "--at-hand", "frobs"], '"frobs" is not a known material.'),
        (["1 kg bread", "--why", "weather"], '"weather" is not a figure of this answer'),
    ],
    ids=str,
)
def test_what_cannot_be_used_is_refused_with_what_would_do(arguments, says):
    done = mixed(*arguments)
    assert done.code == Exit.INPUT
    assert says in done.told
    assert done.out == ""


def test_faults_are_told_to_scripts_too():
    code, held = told("3 frobs")
    assert (code, held["schema"]) == (Exit.INPUT, "sourloam.problems/1")


# Its days, its filling, what stays apart


def test_a_vessel_without_a_drain_is_filled_by_a_plan_and_nothing_is_drawn_off():
    done = mixed("3 kg vegetable peelings", "--no-drain")
    assert "How to fill it" in done.out
    assert "The liquid" not in done.out
    assert calm(done.out)


def test_one_plan_says_how_much_is_mixed_in_and_how_much_lies_as_the_bed():
    done = " ".join(mixed("3 kg vegetable peelings", "--no-drain").out.split())
    advised = re.search(r"Mix in (\d+) g .* of torn cardboard, (\d+) g to each kilogram, over a bed of it", done)
    layers = int(re.search(r"Then (\d+) layers", done)[1])
    each = int(re.search(r"(\d+) g of torn cardboard mixed into them", done)[1])
    bed = int(re.search(r"a bed of torn cardboard, 7.5 cm deep \((\d+) g\)", done)[1])
    scraps, dry = map(float, re.search(r"In all ([\d.]+) kg of scraps, ([\d.]+) kg of cardboard", done).groups())
    assert int(advised[1]) == pytest.approx(3 * int(advised[2]), rel=0.02)
    assert layers * each == pytest.approx(scraps * int(advised[2]), rel=0.05)
    assert layers * each + bed == pytest.approx(1000.0 * dry, rel=0.05)
    assert "cardboard that soaks it up" not in done


@pytest.mark.parametrize("more", [(), ("--no-bran",)], ids=str)
def test_a_bed_is_of_what_soaks_the_liquid_up(more):
    done = mixed("3 kg melon", "--no-drain", "--at-hand", "cardboard", "--at-hand", "newspaper", *more).out
    fill = " ".join(done.partition("How to fill it")[2].split())
    named = re.search(r"of torn (\w+), \d+ g to each kilogram", " ".join(done.split()))[1]
    assert f"a bed of torn {named}," in fill
    assert ("bran" in fill.partition("Once it is")[0]) is (not more)


def test_the_liquid_is_told_of_and_a_strong_mixture_is_warned_of():
    plain, strong = (mixed("3 kg vegetable peelings", *more).out for more in ((), ("--dilute", "1:10")))
    assert "How to fill it" not in plain
    assert "1 to 10 is 10 times as strong as that" in " ".join(strong.split())
    assert "as strong as that" not in plain


@pytest.mark.parametrize(("mixture", "parts"), [(None, 100), ("1:10", 100), ("1:100", 100), ("1:300", 300)])
def test_the_water_is_that_of_the_volume_which_is_printed(mixture, parts):
    more = ("--dilute", mixture) if mixture else ()
    done = " ".join(mixed("3 kg vegetable peelings", *more).out.split())
    ml, water_l = map(
        int, re.search(rf"About (\d+) ml run off in all: at 1 to {parts} that takes (\d+) L", done).groups()
    )
    assert water_l == pytest.approx(parts * ml / 1000.0)
    assert ("as you thin it, is weak enough" in done) is (mixture in ("1:100", "1:300"))


def test_the_day_of_the_first_liquid_comes_with_the_cases_in_which_there_is_none():
    out = " ".join(mixed("2 kg vegetable peelings", "200 g bread").out.split())
    never = re.search(r"never in (\d+) of 100", out)[1]
    assert f"in {never} of 100 cases so little comes that none is seen" in out


def test_without_bran_meat_is_held_back_and_the_odds_are_told():
    code, held = told("2 kg vegetable peelings", "200 g raw chicken", "--no-bran")
    assert code == Exit.NO
    assert held["figures"]["mass_kg"]["value"] == pytest.approx(2.0)
    assert held["figures"].keys() & {"bran_g", "bran_usual_g", "full_bran_g"} == set()
    assert any(each.startswith("Without bran") for each in held["hints"])


def test_a_cover_at_every_loading_is_only_told_of_where_it_costs_more():
    hints = {
        loads: " ".join(told("3 kg vegetable peelings", "--loads", str(loads))[1]["hints"]) for loads in (2, 7, 21)
    }
    assert "Covering it all" not in hints[2]
    assert "load less often" in hints[7]
    assert "Load once a day" in hints[21]


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (("--over", "5 cm"), '"5 cm" is a length; a time is wanted'),
        (("--over", "3 years"), '"3 years" cannot be meant; write a day or more, and a year at most.'),
        (("--layer", "2 m"), '"2 m" cannot be meant; write half a centimetre to half a metre.'),
        (("--bed", "thick"), '"thick" holds no number'),
        (("--dilute", "weak"), '"weak" is no mixture; write "1:100" for 1 part to 100 of water.'),
        (("--dilute", "1:0"), '"1:0" is no mixture;'),
    ],
    ids=str,
)
def test_a_time_or_a_depth_that_cannot_be_is_refused(more, says):
    done = mixed("3 kg vegetable peelings", *more)
    assert done.code == Exit.INPUT
    assert done.told.startswith(f"{more[0]}: {says}")


def test_an_amount_below_nothing_is_an_amount_and_no_option():
    done = mixed("2 kg vegetable peelings", "-1 kg bread")
    assert (done.code, done.out) == (Exit.INPUT, "")
    assert '"-1 kg bread" is no amount that can be soured' in done.err


def test_what_pets_leave_is_kept_apart_and_the_rest_goes_in():
    _, held = told("2 kg vegetable peelings", "1 kg dog waste")
    assert held["figures"]["mass_kg"]["value"] == pytest.approx(2.0)
    assert any("never where food is grown" in each for each in held["apart"])
    assert told("2 kg vegetable peelings")[1]["apart"] == []


def test_the_fields_of_a_mix_are_told():
    ways = ((), ("--no-drain",), ("--no-bran", "500 g dog waste"), ("--loads", "30", "--all"))
    seen, named = set(), set()
    for more in ways:
        _, held = told("2 kg melon", *more)
        seen |= set(paths(held))
        named |= held["figures"].keys()
    text = section(CLI, "sourloam.mix/1")
    assert seen <= set(first_cells(text)) | {"why[]"}
    assert all(f"`{name}`" in text for name in named)


def test_a_head_is_a_head_and_a_leaf_is_a_leaf():
    _, half = told("half a cabbage", "2 kg vegetable peelings")
    _, leaves = told("10 outer cabbage leaves", "2 kg vegetable peelings")
    assert half["figures"]["mass_kg"]["value"] == pytest.approx(2.57, abs=0.1)
    assert leaves["figures"]["mass_kg"]["value"] == pytest.approx(2.33, abs=0.1)
    assert "By count: one cabbage 1.1 kg." in half["assumptions"]


def test_a_pint_that_could_be_either_is_said_to_be_american():
    said = "A pint is the American one, 470 ml;"
    both = [told(amount, "2 kg vegetable peelings")[1] for amount in ("1 pint cooked peas", "1 UK pint cooked peas")]
    assert any(each.startswith(said) for each in both[0]["assumptions"])
    assert not any(each.startswith(said) for each in both[1]["assumptions"])
    assert both[1]["figures"]["mass_kg"]["value"] > both[0]["figures"]["mass_kg"]["value"]


def test_a_bed_that_fills_the_vessel_is_said_to():
    assert (
        "The bed leaves no room for scraps"
        in mixed("2 kg carrots", "--vessel", "2 L", "--no-drain", "--bed", "40 cm").out
    )
