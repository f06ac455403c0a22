"""Named sets of parameters: a packaged table becomes a frozen value of the core, every field a figure."""

import tomllib
from dataclasses import fields
from importlib.resources import files
from typing import Any, TypeVar

from sourloam.base.figure import MEMBERS, SEED, Figure, leaf
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.evidence.sources import known, load_sources

Parameters = TypeVar("Parameters")


def load_parameters(kind: type[Parameters], table: str, *, members: int = MEMBERS, seed: int = SEED) -> Parameters:
    """Fill the fields of `kind` from `data/parameters/TABLE.toml`.

    Raises
    ------
    ValueError
        If the table and the fields do not name the same values.
    UnknownSource
        If a value rests on a source that is not listed.
    """
    rows = tomllib.loads((files("sourloam.evidence") / "data" / "parameters" / f"{table}.toml").read_text("utf-8"))
    wanted = {each.name for each in fields(kind)}  # type: ignore[arg-type]
    if wanted != rows.keys():
        raise ValueError(f"{table}.toml and {kind.__name__} differ in: {', '.join(sorted(wanted ^ rows.keys()))}")
    sources = load_sources()
    for name, row in rows.items():
        known(row["source"], f"{table}.toml: {name}", sources)
    return kind(**{name: _figure(f"{table}.{name}", row, members, seed) for name, row in rows.items()})


def _figure(name: str, row: dict[str, Any], members: int, seed: int) -> Figure:
    value = float(row["value"])
    return leaf(
        name,
        Spread(value, float(row.get("low", value)), float(row.get("high", value)), row.get("shape", "fixed")),
        row["unit"],
        words=row["words"],
        source=row["source"],
        place=row.get("place", ""),
        basis=Basis(row["basis"]),
        members=members,
        seed=seed,
    )
