"""`sitefile.validate`: every fault of a file at once, each on its line and with its cure."""

from pathlib import Path

import pytest

from sourloam.base.errors import BadInput
from sourloam.service.assemble import known_names, site_file
from sourloam.sitefile.read import parse_site
from sourloam.sitefile.write import write_site
from tests.site.strategies import CLIMATES, CROPS, JURISDICTIONS, MATERIALS
from tests.sitefile.known import KNOWN
from tests.sitefile.yard import YARD, changed, faults, told

ROOT = Path(__file__).parents[2]
OURS = (ROOT / "examples/quillet_yard.toml", *sorted((ROOT / "tests/sites").glob("*.toml")))
ID_RULE = "is not an id: a letter first, then letters, digits and hyphens, all small, 40 at most."


ONE_FAULT = [
    # format and tables
    ("format = 1", "format = 2", "line 1: format = 2 cannot be read; write format = 1 on the first line."),
    ("format = 1", "", "format is missing; write format = 1 on the first line."),
    ("[stock]", "[stok]", "line 25: [stok] is not a table of a site. Did you mean stock?"),
    ("[stock]", "[[stock]]", "line 25: stock: stock is not one table; write [stock], once."),
    ("[[vessel]]", "[vessel]", "line 12: vessel: vessel is not a repeated table; write [[vessel]]."),
    (
        "[[bed.planting]]",
        "[bed.planting]",
        'line 21: bed "plot": planting is not a repeated table; write [[bed.planting]].',
    ),
    # keys
    ('bran = "2 kg"', 'brann = "2 kg"', "line 26: stock: brann is not a key. Did you mean bran?"),
    ('volume = "18 L"', "", 'line 12: vessel "blue": volume is missing; write volume = "18 L".'),
    ("start = 2027-03-01", "", "line 3: site: start is missing; write start = 2027-03-01."),
    (
        'id = "blue"',
        "",
        'line 12: vessel 1: id is missing; write id = "blue".',
    ),
    ('id = "blue"', 'id = "Blue One"', f'line 13: vessel "Blue One": id = "Blue One" {ID_RULE} Write "blue-one".'),
    # amounts
    (
        '"18 L"',
        '"18 kg"',
        'line 14: vessel "blue": volume = "18 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".',
    ),
    (
        '"18 L"',
        "18",
        (
            'line 14: vessel "blue": volume = 18 has no unit; '
            'write it in quotes with its unit, for example "18 L" or "4 gal".'
        ),
    ),
    (
        '"18 L"',
        "nan",
        (
            'line 14: vessel "blue": volume = nan has no unit; '
            'write it in quotes with its unit, for example "18 L" or "4 gal".'
        ),
    ),
    (
        '"18 L"',
        '"nan L"',
        'line 14: vessel "blue": volume = "nan L" holds no number; write a volume, for example "18 L" or "4 gal".',
    ),
    (
        '"18 L"',
        '"-18 L"',
        (
            'line 14: vessel "blue": volume = "-18 L" is outside 1 L to 250 L: '
            "smaller ones dry out, larger ones are another trade."
        ),
    ),
    (
        '"18 L"',
        '"0 L"',
        (
            'line 14: vessel "blue": volume = "0 L" is outside 1 L to 250 L: '
            "smaller ones dry out, larger ones are another trade."
        ),
    ),
    (
        '"18 L"',
        '"18000 L"',
        (
            'line 14: vessel "blue": volume = "18000 L" is outside 1 L to 250 L: '
            "smaller ones dry out, larger ones are another trade."
        ),
    ),
    (
        '"18 L"',
        '"180 cubic yards"',
        (
            'line 14: vessel "blue": volume = "180 cubic yards" is outside 1 L to 250 L: '
            "smaller ones dry out, larger ones are another trade."
        ),
    ),
    (
        '"18 L"',
        '"180 gal"',
        (
            'line 14: vessel "blue": volume = "180 gal" is outside 1 L to 250 L: '
            'smaller ones dry out, larger ones are another trade. If you meant 18 gal, write "18 gal".'
        ),
    ),
    (
        '"4 kg/week"',
        '"4 kg"',
        (
            'line 9: stream "house": amount = "4 kg" is a mass; '
            'a mass per time is wanted, for example "4 kg/week" or "9 lb/week".'
        ),
    ),
    (
        '"4 kg/week"',
        '"0 kg/week"',
        'line 9: stream "house": amount = "0 kg/week" is 0 kg a day; from 0.001 to 500 kg a day can be planned.',
    ),
    (
        '"4 kg/week"',
        '"5000 L/day"',
        'line 9: stream "house": amount = "5000 L/day" is 5000 L a day; from 0.001 to 500 L a day can be planned.',
    ),
    (
        '"4 kg/week"',
        '"1,200 g/week"',
        (
            'line 9: stream "house": amount = "1,200 g/week" can be read in two ways; '
            'write "1.2 g/week" or "1200 g/week".'
        ),
    ),
    # names
    (
        '"18 L"',
        '"18 L"\nstands = "attic"',
        'line 15: vessel "blue": stands = "attic" is not one of kitchen, indoors, cellar, shed, outdoors.',
    ),
    (
        '"lettuce"',
        '"letuce"',
        'line 22: bed "plot", planting 1: "letuce" is not a crop that is known. Did you mean lettuce or leek?',
    ),
    (
        '"lettuce"',
        '"quince"',
        (
            'line 22: bed "plot", planting 1: "quince" is not a crop that is known. '
            "Known are tomato, lettuce, leek, potato and more."
        ),
    ),
    (
        "start = 2027-03-01",
        'start = 2027-03-01\nclimate = "cool-martime"',
        'line 6: site: climate = "cool-martime" is not known. Did you mean cool-maritime or mild-maritime?',
    ),
    (
        "start = 2027-03-01",
        'start = 2027-03-01\njurisdiction = "Atlantis"',
        'line 6: site: jurisdiction = "Atlantis" is not known. Known: UK, OTHER.',
    ),
    (
        "start = 2027-03-01",
        'start = 2027-03-01\ntime_zone = "Europe/Londn"',
        'line 6: site: time_zone = "Europe/Londn" is not known. Did you mean Europe/London or Europe/Lisbon?',
    ),
    (
        'bread = "40 %"',
        'bred = "40 %"',
        'line 10: stream "house": "bred" is not a material that is known. Did you mean bread?',
    ),
    (
        'bread = "40 %"',
        'large-bones = "40 %"',
        'line 10: stream "house": "large-bones" does not go in: they outlast the ferment. Leave it out.',
    ),
    (
        'vegetable-scraps = "60 %", bread = "40 %"',
        'soup = "60 %", milk = "40 %"',
        (
            'line 10: stream "house": it brings nothing but liquid; '
            "liquids drown a ferment: pour them off, and name the solid scraps."
        ),
    ),
    (
        'bread = "40 %"',
        'bread = "4 %"',
        'line 10: stream "house": materials = the shares make 64 % together; they must make 100 %.',
    ),
    # things beside each other
    (
        'id = "plot"',
        'id = "blue"',
        'line 17: bed "blue": the id "blue" is taken by a vessel; give it another one.',
    ),
    (
        '"18 L"',
        '"18 L"\ndrain_space = "17 L"',
        'line 15: vessel "blue": drain_space leaves no room for scraps; measure it again.',
    ),
    (
        "[stock]",
        '[[pile]]\nid = "heap"\nvolume = "400 L"\nfilled = "500 L"\n\n[stock]',
        'line 28: pile "heap": filled is more than its volume; measure it again.',
    ),
    (
        "on = 2027-04-20",
        "on = 2027-04-20\nuntil = 2027-04-02",
        'line 24: bed "plot", planting 1: until = 2027-04-02 lies before on = 2027-04-20; turn them.',
    ),
    # dates
    (
        "on = 2027-04-20",
        "on = 2037-04-20",
        (
            "line 23: bed.planting.on has the date 2037-04-20, far from the plan's first day 2027-03-01; "
            "use dates from 2026-02-28 to 2029-03-01."
        ),
    ),
    (
        "2027-12-18 to 2028-01-09",
        "2017-12-18 to 2028-01-09",
        (
            "line 19: bed.closed has the date 2017-12-18, far from the plan's first day 2027-03-01; "
            "use dates from 2026-02-28 to 2029-03-01."
        ),
    ),
    (
        'bran = "2 kg"',
        'bran = "2 kg"\nbran_made = 2027-03-02',
        "line 27: stock.bran_made has the date 2027-03-02, after the plan's first day 2027-03-01; write when it was.",
    ),
    (
        "on = 2027-04-20",
        "on = 2027-04-20T10:00:00",
        (
            'line 23: bed "plot", planting 1: on = 2027-04-20T10:00:00 has a time of day; '
            "write only the date: 2027-04-20."
        ),
    ),
    (
        "start = 2027-03-01",
        "start = 0027-03-01",
        "line 5: site: start = 0027-03-01 lies outside 1970 to 2199; write one such as 2027-03-01.",
    ),
    # many of one kind
    (
        '"18 L"',
        '"18 L"\ncount = 0',
        'line 15: vessel "blue": count = 0 will not do; write a whole number from 1 to 60.',
    ),
    (
        '"18 L"',
        '"18 L"\ncount = 10000000',
        'line 15: vessel "blue": count = 10000000 will not do; write a whole number from 1 to 60.',
    ),
    (
        '"18 L"',
        '"18 L"\ncount = "four"',
        'line 15: vessel "blue": count = "four" will not do; write a whole number from 1 to 60.',
    ),
    (
        'volume = "18 L"',
        'volume = "18 kg"\ncount = 4',
        'line 14: vessel "blue": volume = "18 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".',
    ),
]


@pytest.mark.parametrize(("old", "new", "fault"), ONE_FAULT, ids=lambda each: each[:40])
def test_a_fault_is_told_with_its_line_and_its_cure(old, new, fault):
    assert told(changed(old, new)) == faults(fault)


def test_all_faults_are_told_at_once_in_the_order_of_their_lines():
    text = (
        YARD.replace('"lettuce"', '"letuce"')
        .replace('"18 L"', '"18 kg"')
        .replace("bread", "bred")
        .replace("2027-03-01", '"1 March"')
        .replace('["sat"]', '"sat"')
        .replace("bran =", "brann =")
        .replace("area =", "aera =")
    )
    assert told(text) == faults(
        'line 5: site: start = "1 March" is not a date; write one such as 2027-03-01.',
        'line 10: stream "house": "bred" is not a material that is known. Did you mean bread?',
        'line 14: vessel "blue": volume = "18 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".',
        'line 16: bed "plot": area is missing; write area = "6 m2".',
        'line 18: bed "plot": aera is not a key. Did you mean area?',
        'line 22: bed "plot", planting 1: "letuce" is not a crop that is known. Did you mean lettuce or leek?',
        "line 26: stock: brann is not a key. Did you mean bran?",
        'line 29: keeper: days = "sat" is not a list; write one such as ["mon"].',
    )


def test_the_example_of_the_style_guide_is_refused_in_like_words():
    text = """\
format = 1

[[vessel]]
id = "blue"
volume = "18 kg"
fill_limit = "850 %"

[stock]
brann = "4 kg"
"""
    assert told(text).splitlines()[-3:] == [
        '  line 5: vessel "blue": volume = "18 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".',
        (
            '  line 6: vessel "blue": fill_limit = "850 %" is outside 10 % to 95 %: some room must stay free for gas. '
            'If you meant 85 %, write "85 %".'
        ),
        "  line 9: stock: brann is not a key. Did you mean bran?",
    ]


def test_a_fault_keeps_its_line_behind_a_faulty_row_and_behind_copies():
    more = '\n[[bed]]\nid = "far"\narea = "3 m2"\n\n[[bed.planting]]\ncrop = "leak"\non = 2027-05-01\n'
    text = (YARD + more).replace('"6 m2"', '"6 kg"').replace('volume = "18 L"', 'volume = "18 L"\ncount = 3')
    assert told(text) == faults(
        'line 19: bed "plot": area = "6 kg" is a mass; an area is wanted, for example "6 m2" or "60 sq ft".',
        'line 37: bed "far", planting 1: "leak" is not a crop that is known. Did you mean leek?',
    )


def test_a_field_of_the_error_says_where_in_the_file_it_was():
    with pytest.raises(BadInput) as caught:
        parse_site(changed('"18 L"', '"18 kg"'), "yard.toml", KNOWN)
    problem = caught.value.problems[0]
    assert (problem.line, problem.key, problem.where) == (14, "vessel.0.volume", 'vessel "blue"')


@pytest.mark.parametrize(
    "path",
    [ROOT / "examples/quillet_yard.toml", *sorted((ROOT / "tests/sites").glob("*.toml"))],
    ids=lambda path: path.stem,
)
def test_the_sites_of_this_repository_are_read_and_read_back(path):
    site = site_file(path).site
    assert parse_site(write_site(site), path.name, known_names()).site == site


def test_generated_sites_use_names_that_the_packaged_tables_know():
    known = known_names()
    assert all(known.has_material(name) and not known.is_refused(name) for name in MATERIALS)
    assert set(CROPS) <= set(known.crops)
    assert set(CLIMATES) <= set(known.climates)
    assert set(JURISDICTIONS) <= set(known.jurisdictions)
