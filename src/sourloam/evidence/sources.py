"""The list of sources that every packaged value rests on."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from sourloam.base.errors import UnknownSource
from sourloam.base.source import Basis, Source


@cache
def load_sources() -> Mapping[str, Source]:
    """Return every source by its key, read from `data/sources.toml`, once."""
    rows = tomllib.loads((files("sourloam.evidence") / "data" / "sources.toml").read_text("utf-8"))
    return MappingProxyType(
        {key: Source(key, row["text"], Basis(row["basis"]), row.get("through", "")) for key, row in rows.items()}
    )


def known(key: str, where: str, sources: Mapping[str, Source]) -> Source:
    """Return the source that `key` names; `where` says which value asked for it.

    Raises
    ------
    UnknownSource
        If no source has that key.
    """
    try:
        return sources[key]
    except KeyError:
        raise UnknownSource(key, where) from None
