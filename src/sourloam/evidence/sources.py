"""The list of sources that every packaged value rests on."""

import tomllib
from collections.abc import Mapping
from importlib.resources import files

from sourloam.base.errors import UnknownSource
from sourloam.base.source import Basis, Source


def load_sources() -> dict[str, Source]:
    """Return every source by its key, read from `data/sources.toml`."""
    rows = tomllib.loads((files("sourloam.evidence") / "data" / "sources.toml").read_text("utf-8"))
    return {key: Source(key, row["text"], Basis(row["basis"]), row.get("through", "")) for key, row in rows.items()}


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
