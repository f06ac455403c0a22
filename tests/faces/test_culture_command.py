"""`sourloam culture` as a process: what it prints, what it ends with, what it refuses."""

import json
import re
from functools import cache

import pytest

from sourloam.cli.exits import Exit
from tests.architecture.test_docs import CLI, first_cells, paths, section
from tests.architecture.tree import ROOT
from tests.faces.terminal import alone
from tests.faces.test_plan_command import COLUMNS, calm

BY = ("--by", "2027-03-01", "--today", "2026-12-01")
MARCH = ("--bran", "8 kg", "--at", "17 C", *BY)
ASKED = {
    "making": MARCH,
    "milk": ("--milk", "2 L UHT milk", "--today", "2026-12-01"),
    "old bran": ("--alive", "bran", "--age", "11 months", "--kept", "shed"),
    "sugared": ("--alive", "sugared serum", "--age", "2 months"),
    "dripping": ("--carrier", "10 kg wheat bran", "--poured", "9 L", "--squeeze", "drips"),
    "school": ("--scraps", "60 L a week", "--weeks", "12", *BY),
    "no milk": ("--without", "milk", "--bran", "4 kg", *BY),
    "no bran": ("--no-bran", "--scraps", "6 kg/week", "--today", "2026-12-01"),
    "cost": ("--bran", "9 kg", "--price", "bran 9 /kg", "--price", "carrier 1.2 /kg", "--scraps", "6 kg/week", *BY),
    "uses": ("--uses", "bran"),
    "thinned": ("--dilute", "1:64"),
    "waking": ("--ph", "6: 3.9"),
    "grounds": ("--carrier", "coffee grounds", "--bran", "3 kg", *BY),
    "damp": ("--bran", "3 kg", "--air", "75 %", *BY),
    "sheets": ("--carrier", "newspaper", "--vessel", "14 in", "--today", "2026-12-01"),
    "site": ("--site", "examples/quillet_yard.toml", "--weeks", "12", *BY),
    "heel": ("--start", "heel", "--bran", "4 kg", *BY),
    "little heel": ("--heel", "200 g", "--bran", "40 kg", "--today", "2026-12-01"),
}
NUMBERS = ("bran_kg", "carrier_kg", "liquid_l", "water_l", "serum_l", "sugar_g", "milk_l", "rice_water_l")


@cache
def bench(*arguments):
    return alone("culture", *arguments, cwd=ROOT)


def held(*arguments):
    return json.loads(bench(*arguments, "--json").out)


def flat(text):
    return " ".join(text.split())


@pytest.mark.parametrize("name", ASKED)
def test_every_answer_fits_a_terminal_and_speaks_of_no_names_of_the_code(name):
    done = bench(*ASKED[name])
    assert done.code in (Exit.DONE, Exit.NO), done.err
    assert calm(done.out)
    assert not re.search(r"\{\w+\}|_wb_|log10_cfu|None|nan\b", done.out.partition("\n\nWhy?")[0]), done.out


def test_bran_by_march_begins_in_the_second_half_of_january():
    # Common practice, no source: a kitchen at 17 °C.
    done = bench(*MARCH)
    assert done.code == Exit.DONE
    assert re.match(r"8\.0 kg of bran by 1 Mar: begin the rice water on (1[5-9]|2\d|3[01]) Jan\.", done.out)
    answer = held(*MARCH)
    first = answer["steps"][0]
    assert "2027-01-15" <= first["start"] <= "2027-01-31"
    assert answer["safe_start"] <= first["start"] <= first["latest_start"]


def test_it_holds_all_that_a_script_asks_for():
    answer = held(*MARCH)
    assert set(NUMBERS) | {"moisture_pct", "log10_cfu_per_g"} <= set(answer["figures"])
    for step in answer["steps"]:
        assert {"start", "latest_start", "what", "amounts", "ready_when", "throw_away_when"} <= set(step)
    assert all(each["amount"] > 0.0 for each in answer["shopping"])
    assert answer["binds"] == ""


def test_forwards_from_what_backwards_asks_for_comes_to_the_same():
    wanted = held("--bran", "8 kg")["figures"]
    carrier, serum = (wanted[each]["value"] for each in ("carrier_kg", "serum_l"))
    back = held("--carrier", f"{carrier:.4f} kg wheat bran", "--serum", f"{10 * serum:.4f} L")
    assert back["binds"] == "carrier"
    assert back["figures"]["bran_kg"]["value"] == pytest.approx(8.0, rel=0.02)


def test_what_gives_out_first_is_named():
    answer = held("--bran", "8 kg", "--sugar", "50 g", "--serum", "1 L")
    assert answer["binds"] == "sugar"
    assert {each["thing"] for each in answer["shopping"]} == {"wheat bran", "white sugar"}


def test_its_fields_are_told():
    told = set(first_cells(section(CLI, "sourloam.culture/1")))
    found = set()
    for each in ASKED.values():
        answer = held(*each)
        found |= {path for path in paths(answer) if not path.endswith("[]") or answer[path.removesuffix("[]")]}
        assert all(f"`{name}`" in section(CLI, "sourloam.culture/1") for name in answer["figures"]), answer["figures"]
    assert found - told == set()
    assert told - found <= {"steps[].days", "disagreements[].model"}


@pytest.mark.parametrize("name", ["milk", "moisture", "log10_cfu", "days_ahead", "drying_d"])
def test_each_figure_opens_to_its_sources(name):
    done = bench(*MARCH, "--why", name)
    assert done.code == Exit.DONE
    assert " from: " in done.out
    assert max(map(len, done.out.splitlines())) <= COLUMNS


def test_it_speaks_the_units_of_its_keeper():
    words = flat(bench(*MARCH, "--units", "us").out)
    head = words.partition("In numbers")[0]
    assert "17.6 lb of bran" in head
    assert " fl oz" in head
    assert " oz of white sugar" in head
    assert not re.search(r"\d (kg|ml|L|cm|°C)\b", words), re.findall(r".{30}\d (?:kg|ml|L|cm|°C)\b", words)


def test_too_late_is_said_with_what_to_do():
    done = bench("--bran", "4 kg", "--by", "2026-12-20", "--today", "2026-12-01")
    assert done.code == Exit.NO
    assert done.out.startswith("Too late for 20 Dec: begun today, 4.0 kg of bran are dry about ")
    assert "Buy bran for the time between" in flat(done.out)


def test_long_life_milk_gets_its_own_word():
    words = flat(bench(*ASKED["milk"]).out)
    assert words.startswith("That milk gives about 1.3 L of serum")
    assert "UHT milk has no life of its own" in words
    assert "more than a household uses in a year" in words


def test_old_bran_from_a_shed_is_not_counted_on_and_a_jar_is_told():
    done = bench(*ASKED["old bran"])
    words = flat(done.out)
    assert done.code == Exit.NO
    assert words.startswith("Bran 11 months old from a shed: do not count on it.")
    assert "The jar test: boil two glasses of milk" in words
    assert "they do not agree" in words


def test_a_jar_moves_the_belief():
    tried = {jar: held("--alive", "bran", "--age", "4 months", "--jar", jar) for jar in ("curd", "none", "both")}
    works = {jar: each["figures"]["works_pct"]["value"] for jar, each in tried.items()}
    assert works["none"] < works["both"] < works["curd"]
    assert any("says nothing" in each for each in tried["both"]["because"])


def test_a_dripping_mix_is_mended_with_dry_bran():
    words = flat(bench(*ASKED["dripping"]).out)
    assert words.startswith("Too wet. It comes to 54 % of water.")
    assert re.search(r"Work in [\d.]+ kg of dry wheat bran: that brings it to 43 %", words)


def test_no_milk_begins_without_and_says_what_is_surer():
    words = flat(bench(*ASKED["no milk"]).out)
    assert "Without milk rice water and sugar do, less surely." in words
    assert held(*ASKED["no milk"])["figures"]["milk_l"]["value"] == 0.0


def test_a_full_caddy_without_bran_gets_something_today():
    words = flat(bench(*ASKED["no bran"]).out)
    assert words.startswith("No bran today: plants can still sour.")
    assert "Leave out meat, fish, egg and dairy until bran is back" in words
    assert re.search(r"Buy about \d+ g of bran, which lasts until your own is dry", words)


def test_no_benefit_is_claimed_where_nothing_was_found():
    uses = held("--uses", "bran")["uses"]
    assert {each["evidence"].partition(":")[0] for each in uses} == {"habit", "none found", "trial"}
    for each in uses:
        if each["evidence"] == "none found":
            assert "no benefit is claimed" in each["says"]
        if each["use"] in ("feed of animals", "poultry litter"):
            assert "vet" in each["caution"]


def test_damp_air_never_dries_bran():
    answer = held(*ASKED["damp"])
    assert answer["figures"]["drying_d"] is None or answer["figures"]["drying_d"]["never"] > 0.5
    assert any("too damp to dry bran in" in each for each in answer["notes"])


def test_recipes_that_miss_their_own_aim_are_shown():
    says = [each["says"] for each in held(*MARCH)["disagreements"]]
    assert any("20 kg of wheat bran, 4 L of water" in each and "27 %" in each for each in says)


def test_the_bench_sheet_is_written(tmp_path):
    done = bench(*MARCH, "--out", tmp_path)
    assert done.code == Exit.DONE
    page = (tmp_path / "culture.html").read_text("utf-8")
    assert "Step by step" in page
    assert "Monday 18 January" in page
    assert "<svg" in page


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ((), "nothing is wanted, and nothing is in the cupboard"),
        (("--bran", "8"), '"8" has no unit'),
        (("--bran", "-8 kg"), '"-8 kg" is no amount that can be used'),
        (("--bran", "4 kg", "--recipe", "20:1:1"), '"20:1:1" holds more serum than water'),
        (("--bran", "4 kg", "--moisture", "70 %"), "wheat bran does not hold 70 % of water"),
        (("--bran", "4 kg", "--by", "2020-01-01"), "2020-01-01 is past; today is"),
        (("--bran", "4 kg", "--at", "8 C"), "the culture hardly moves there"),
        (("--milk", "2 L oat milk"), "does not part into curd and serum"),
        (("--carrier", "2 kg gravel"), '"gravel" is not a known carrier'),
        (("--alive", "yeast"), '"yeast" is nothing that is kept here'),
        (("--alive", "bran", "--kept", "the moon"), "is no place that is known and no temperature"),
        (("--jar", "curd"), "of what it is, is not said; name it, such as --alive bran"),
        (("--milk", "2 L", "--without", "milk"), "there is no milk, and --milk says that there is"),
        (("--uses", "milk"), '"milk" has no other uses here'),
        (("--ph", "6: 15"), "is no reading of such a culture"),
        (("--poured", "9 L"), "how much carrier it was poured on is not said"),
    ],
)
def test_what_cannot_be_done_is_refused(asked, says):
    done = bench(*asked)
    assert (done.code, done.out) == (Exit.INPUT, "")
    assert says in done.told


def test_all_faults_are_named_at_once():
    done = bench("--milk", "2 L oat milk", "--sugar", "1 kg fudge", "--price", "gold 3")
    assert done.err.startswith("culture: 3 faults to mend first")


def test_a_little_heel_is_multiplied_and_said_how_often():
    answer = held("--heel", "200 g", "--bran", "40 kg", "--today", "2026-12-01")
    assert answer["figures"]["generations"]["value"] == 3.0
    assert answer["binds"] == "heel"
    assert any("3 makings, one after the other" in each for each in answer["because"])
    assert any("begin afresh after about 5 makings" in each for each in answer["notes"])
    assert held("--heel", "200 g")["figures"]["bran_kg"]["value"] == pytest.approx(2.6, abs=0.2)


def test_a_use_by_is_a_range():
    assert any(re.search(r"Use it by about \d+ \w+ \(\d+ \w+ to \d+ \w+\)", each) for each in held(*MARCH)["notes"])
