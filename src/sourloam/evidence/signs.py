"""The table of signs, and the published key that counts how grave they are."""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Final

from sourloam.base.source import Basis
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of, words_in
from sourloam.science.readings.signs import Column, Sign, Signs

TABLE, SEVERITY = "signs", "severity"
COLUMNS: Final = tuple(each.name.lower() for each in Column)


@lru_cache(maxsize=1)
def load_signs() -> Signs:
    """Return all signs by id.

    Raises
    ------
    UnknownSource
        If a sign rests on a source that is not listed.
    """
    sources = load_sources()
    found = {}
    for row in rows_of(TABLE):
        known(row["source"], f"{TABLE}.csv: {row['id']}", sources)
        found[row["id"]] = Sign(
            row["id"],
            row["kind"],
            row["words"],
            words_in(row["also"]),
            tuple(float(row[each]) for each in COLUMNS),
            float(row["told"]),
            row["flag"] == "red",
            row["source"],
            row["place"],
            Basis(row["basis"]),
        )
    return Signs(MappingProxyType(found))


@lru_cache(maxsize=1)
def load_severity() -> Mapping[tuple[str, str], int]:
    """Return the points that the key of senses takes off, by attribute and degree.

    Raises
    ------
    UnknownSource
        If a row rests on a source that is not listed.
    """
    sources = load_sources()
    for row in rows_of(SEVERITY):
        known(row["source"], f"{SEVERITY}.csv: {row['attribute']}", sources)
    return MappingProxyType({(row["attribute"], row["degree"]): int(row["points"]) for row in rows_of(SEVERITY)})
