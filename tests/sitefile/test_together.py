"""`sitefile.together`: what no single table can see, and how many can be made of one."""

import pytest

from sourloam.sitefile.read import parse_site
from tests.sitefile.known import KNOWN
from tests.sitefile.yard import YARD, changed, faults, told

OUTLETS = "a bed, a pile, a worm bin, a soil tub, or a taker: a neighbour, a shared garden, a collection, the waste bin"


def site_of(text):
    return parse_site(text, "yard.toml", KNOWN).site


def without(header):
    """Return the yard without the block that begins with a header."""
    blocks = YARD.split("\n\n")
    kept = [block for block in blocks if not block.startswith(header)]
    assert len(kept) == len(blocks) - 1
    return "\n\n".join(kept)


def test_a_site_without_a_vessel_is_refused():
    remedy = 'write [[vessel]] with id and volume, for example id = "blue", volume = "18 L".'
    assert told(without("[[vessel]]")) == faults(f"there is no vessel; {remedy}")


def test_a_site_without_scraps_is_refused():
    remedy = 'write [[stream]] with id and amount, for example amount = "4 kg/week".'
    assert told(without("[[stream]]")) == faults(f"no scraps come in; {remedy}")


def test_a_site_without_a_place_is_refused_with_the_outlets_that_would_do():
    text = changed('[[bed]]\nid = "plot"\narea = "6 m2"\nclosed = ["2027-12-18 to 2028-01-09"]\n', "")
    text = text.replace('[[bed.planting]]\ncrop = "lettuce"\non = 2027-04-20\n', "")
    assert told(text) == faults(f"there is nowhere for a finished batch to go; add {OUTLETS}.")


def test_a_file_that_says_nothing_of_a_site_is_told_all_that_it_needs():
    assert told("# nothing yet\n") == faults(
        "format is missing; write format = 1 on the first line.",
        'site: id is missing; write id = "blue".',
        "site: start is missing; write start = 2027-03-01.",
        'there is no vessel; write [[vessel]] with id and volume, for example id = "blue", volume = "18 L".',
        'no scraps come in; write [[stream]] with id and amount, for example amount = "4 kg/week".',
        f"there is nowhere for a finished batch to go; add {OUTLETS}.",
    )


def test_a_count_makes_as_many_whose_ids_end_in_their_number():
    vessels = site_of(changed('volume = "18 L"', 'volume = "18 L"\ncount = 4\nname = "Blue"')).vessels
    assert [each.id for each in vessels] == ["blue-1", "blue-2", "blue-3", "blue-4"]
    assert [each.name for each in vessels] == ["Blue 1", "Blue 2", "Blue 3", "Blue 4"]
    assert {each.volume_l for each in vessels} == {18.0}


def test_a_count_of_one_changes_nothing():
    assert site_of(changed('"18 L"', '"18 L"\ncount = 1')) == site_of(YARD)


def test_places_can_be_counted_too_and_keep_what_lies_in_them():
    beds = site_of(changed('id = "plot"', 'id = "plot"\ncount = 2')).beds
    assert [(each.id, len(each.plantings)) for each in beds] == [("plot-1", 1), ("plot-2", 1)]


def test_what_is_assumed_of_copies_is_said_once():
    one, four = (
        parse_site(changed('"18 L"', f'"18 L"\ncount = {count}'), "yard.toml", KNOWN).assumptions for count in (1, 4)
    )
    assert four == one


def test_two_rows_may_not_share_an_id():
    text = changed("[[bed]]", '[[vessel]]\nid = "blue"\nvolume = "9 L"\n\n[[bed]]')
    assert told(text) == faults('line 17: vessel "blue": the id "blue" is taken by a vessel; give it another one.')


@pytest.mark.parametrize("is_first", [True, False])
def test_a_copy_may_not_have_the_id_of_another_row(is_first):
    counted, single = 'id = "blue"\ncount = 3\nvolume = "18 L"', 'id = "blue-2"\nvolume = "9 L"'
    one, two = (counted, single) if is_first else (single, counted)
    text = changed('id = "blue"\nvolume = "18 L"', f"{one}\n\n[[vessel]]\n{two}")
    name, line = ("blue-2", 18) if is_first else ("blue", 17)
    assert told(text) == faults(
        f'line {line}: vessel "{name}": the id "blue-2" is taken by a vessel; give it another one.'
    )


def test_an_id_is_taken_even_by_a_row_with_faults():
    text = changed('volume = "18 L"', 'volume = "18 kg"').replace('"plot"', '"blue"')
    assert told(text) == faults(
        'line 14: vessel "blue": volume = "18 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".',
        'line 17: bed "blue": the id "blue" is taken by a vessel; give it another one.',
    )


def test_an_id_that_is_too_long_to_be_numbered_is_refused():
    long = "b" * 40
    assert told(changed('id = "blue"', f'id = "{long}"\ncount = 4')) == faults(
        f'line 13: vessel "{long}": id is too long to be numbered; 38 characters will do.'
    )


@pytest.mark.parametrize(
    "line",
    [
        "strips_opened = 2024-01-01",  # a box of strips may be years old
        'measures_with = ["strips"]\nhandful = "1 oz"',
        'days = ["sun", "mon"]',
        "days = []",
    ],
)
def test_what_is_possible_is_not_refused(line):
    assert site_of(changed('days = ["sat"]', line))


def test_dates_in_free_words_are_left_alone():
    assert site_of(changed('id = "yard"', 'id = "yard"\nname = "The yard, since 1912-05-01"')).facts.name.endswith(
        "-01"
    )


def test_a_collection_may_have_begun_long_ago():
    text = YARD + '\n[[taker]]\nid = "cart"\nkind = "collection"\nfirst = 2019-01-07\n'
    assert site_of(text).takers[0].first.year == 2019


def test_handfuls_weigh_what_the_keeper_says_wherever_that_stands():
    text = changed('"4 kg/week"', '"two handfuls/day"').replace("[keeper]", '[keeper]\nhandful = "40 g"')
    assert site_of(text).streams[0].flow.per_day == 0.08


def test_handfuls_weigh_the_usual_where_the_keeper_says_nothing():
    assert site_of(changed('"4 kg/week"', '"two handfuls/day"')).streams[0].flow.per_day == 0.06


def test_a_handful_may_not_be_written_in_handfuls():
    text = YARD.replace("[keeper]", '[keeper]\nhandful = "a handful"')
    assert told(text) == faults(
        "line 29: keeper: handful = a handful is a different weight for everybody; "
        'say yours first: [keeper] handful = "30 g".'
    )
