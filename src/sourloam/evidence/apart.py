"""What is kept apart from everything else: a packaged table becomes sentences, by material."""

from collections import defaultdict
from collections.abc import Mapping

from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of


def load_apart() -> Mapping[str, tuple[str, ...]]:
    """Return what to do with what stays out of every vessel of the kitchen, by the id of the material.

    Raises
    ------
    UnknownSource
        If a sentence rests on a source that is not listed.
    """
    sources, found = load_sources(), defaultdict(list)
    for row in rows_of("apart"):
        known(row["source"], f"apart.csv: {row['id']}", sources)
        found[row["material"]].append(row["text"])
    return {material: tuple(texts) for material, texts in found.items()}
