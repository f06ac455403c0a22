"""`sitefile.write`: any site reads back as it was written, and every key has its row in the manual."""

import tomllib

import pytest
from hypothesis import given

from sourloam.base.fields import Key, declared
from sourloam.base.kinds import Amount
from sourloam.science.ferment.ensemble.past import Past
from sourloam.science.places.bed.bed import Planting
from sourloam.site.facts import Facts
from sourloam.site.people import Keeper
from sourloam.site.site import REPEATED
from sourloam.site.stocks import Stock
from sourloam.sitefile.read import parse_site
from sourloam.sitefile.write import manual, write_site
from tests.site.strategies import sites
from tests.sitefile.known import KNOWN

TABLES = {"[site]": Facts, "[stock]": Stock, "[keeper]": Keeper, "[past]": Past, "[[bed.planting]]": Planting} | {
    f"[[{table}]]": kind for table, kind in REPEATED.items()
}
KEYS = [(header, mark) for header, kind in TABLES.items() for _, mark in declared(kind) if isinstance(mark, Key)]


@given(site=sites())
def test_any_site_reads_back_from_what_is_written(site):
    assert parse_site(write_site(site), "yard.toml", KNOWN).site == site


@given(site=sites())
def test_explanations_change_nothing(site):
    text = write_site(site, with_help=True)
    assert tomllib.loads(text) == tomllib.loads(write_site(site))
    assert parse_site(text, "yard.toml", KNOWN).site == site


@given(site=sites())
def test_each_key_is_explained_once(site):
    notes = [line for line in write_site(site, with_help=True).splitlines() if line.startswith("# ")]
    used = {f"# {mark.help}" for _, mark in KEYS}
    assert set(notes) <= used
    assert len(notes) <= len(KEYS)


def sections():
    found = {}
    for section in manual().split("\n## ")[1:]:
        header, _, body = section.partition("\n")
        found[header.strip("`")] = [line for line in body.splitlines() if line.startswith("| `")]
    return found


def test_the_manual_has_a_section_for_each_table():
    assert set(sections()) == set(TABLES)


@pytest.mark.parametrize(("header", "key"), KEYS, ids=lambda each: getattr(each, "name", each))
def test_each_key_has_one_row_in_the_manual_that_says_what_it_is(header, key):
    rows = [row for row in sections()[header] if row.startswith(f"| `{key.name}` | ")]
    assert len(rows) == 1
    assert key.help in rows[0]
    assert rows[0].endswith("| must be written |") == key.is_required
    if isinstance(key.kind, Amount):
        assert f'from "{key.kind.low}" to "{key.kind.high}"' in rows[0]


def test_the_manual_says_nothing_of_keys_that_are_not():
    assert sum(len(rows) for rows in sections().values()) == len(KEYS)
