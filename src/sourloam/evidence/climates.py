"""Typical climates by plain words, for a keeper who knows no monthly means."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from importlib.resources import files
from typing import Any

from sourloam.base.errors import NotFound
from sourloam.base.source import Basis, Source
from sourloam.evidence.sources import known, load_sources


@dataclass(frozen=True)
class TypicalClimate:
    """The months of one place that stands for many."""

    name: str
    words: str
    like: str  # the place whose months they are
    latitude_deg: float
    monthly_mean_c: tuple[float, ...]  # January first, as north of the equator
    give_k: float  # by which a month of another such place may differ, 90 % of the time
    source: str
    place: str
    basis: Basis

    def months_at(self, latitude_deg: float) -> tuple[float, ...]:
        """Return the twelve months for a site; south of the equator they are shifted by half a year."""
        return self.monthly_mean_c if latitude_deg >= 0 else self.monthly_mean_c[6:] + self.monthly_mean_c[:6]


def load_climates() -> Mapping[str, TypicalClimate]:
    """Return the climates by name, read from `data/climates.toml`.

    Raises
    ------
    UnknownSource
        If a climate rests on a source that is not listed.
    """
    rows = tomllib.loads((files("sourloam.evidence") / "data" / "climates.toml").read_text("utf-8"))
    sources = load_sources()
    return {name: _typical(name, row, sources) for name, row in rows.items()}


def typical_climate(name: str) -> TypicalClimate:
    """Return the climate of that name.

    Raises
    ------
    NotFound
        If there is none; near names are offered, or all of them.
    """
    climates = load_climates()
    if name not in climates:
        near = get_close_matches(name, climates) or list(climates)
        raise NotFound("climate", name, tuple(near))
    return climates[name]


def _typical(name: str, row: dict[str, Any], sources: Mapping[str, Source]) -> TypicalClimate:
    months = tuple(float(each) for each in row["monthly_mean_c"])
    if len(months) != 12:
        raise ValueError(f"climates.toml: {name} has {len(months)} months")
    return TypicalClimate(
        name,
        row["words"],
        row["like"],
        float(row["latitude_deg"]),
        months,
        float(row["give_k"]),
        known(row["source"], f"climates.toml: {name}", sources).key,
        row["place"],
        Basis(row["basis"]),
    )
