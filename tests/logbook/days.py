"""Entries for tests: a small yard of three vessels, and a short way to write what happened there."""

from datetime import UTC, datetime, timedelta
from functools import cache

from sourloam.logbook import entries as of
from sourloam.logbook.entry import Entry
from sourloam.service.book import Known

SITE = """format = 1
[site]
id = "yard"
start = 2027-03-01
[[stream]]
id = "house"
amount = "5 kg/week"
materials = { vegetable-scraps = "100 %" }
[[vessel]]
id = "blue"
volume = "20 L"
count = 2
[[vessel]]
id = "green"
volume = "16 L"
[[bed]]
id = "long-bed"
name = "the long bed"
area = "9 m2"
[[pile]]
id = "heap"
volume = "700 L"
browns = "300 L"
[stock]
bran = "5 kg"
"""
BEGAN = datetime(2027, 3, 1, 12, tzinfo=UTC)


@cache
def known():
    return Known()


def entry(value, day=0, *, sequence=0, id_=None):
    at = BEGAN + timedelta(days=day)
    return Entry(id_ or f"e{sequence}", at, at, value, sequence=sequence)


def book(*days_and_values):
    """Return a site and then the entries, numbered in the order in which they stand here."""
    rows = [(0, of.SiteSet(SITE)), *days_and_values]
    return [entry(value, day, sequence=at) for at, (day, value) in enumerate(rows, start=1)]


def layer(vessel="blue-1", kg=1.5, bran_kg=0.06):
    return of.LayerAdded(vessel, (("vegetable-scraps", kg),), bran_kg)
