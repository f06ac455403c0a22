"""The living groups of a vessel, from the packaged table."""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Final

from sourloam.base.figure import MEMBERS, SEED, Figure, leaf
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of

TABLE: Final = "organisms"


@lru_cache(maxsize=4)
def load_organisms(*, members: int = MEMBERS, seed: int = SEED) -> Mapping[str, Mapping[str, Figure]]:
    """Return the values of each group, by the names of `Group` and of `cell_g`.

    Raises
    ------
    UnknownSource
        If a value rests on a source that is not listed.
    """
    sources = load_sources()
    found: dict[str, dict[str, Figure]] = {}
    for row in rows_of(TABLE):
        name = f"{row['group']}.{row['value_of']}"
        known(row["source"], f"{TABLE}.csv: {name}", sources)
        found.setdefault(row["group"], {})[row["value_of"]] = leaf(
            f"organism.{name}",
            Spread(float(row["value"]), float(row["low"]), float(row["high"]), row["shape"]),  # type: ignore[arg-type]
            row["unit"],
            words=row["words"],
            source=row["source"],
            place=row["place"],
            basis=Basis(row["basis"]),
            members=members,
            seed=seed,
        )
    return MappingProxyType({group: MappingProxyType(values) for group, values in found.items()})
