"""What is counted whole: a head of cabbage and not a leaf of it, a loaf and not a slice."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sourloam.base.source import Basis
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of, words_in
from sourloam.science.materials.composition import Ground, Group, Material, Method, Provenance


@dataclass(frozen=True)
class Whole:
    """What one of something weighs as it is bought, and of which material it is."""

    name: str
    material: str  # its id
    whole_kg: float
    ground: Ground

    def of(self, material: Material) -> Material:
        """Return the material with its pieces counted whole."""
        grounds = {**material.grounds, Group.PIECE: self.ground}
        return replace(material, name=self.name, piece_kg=self.whole_kg, grounds=grounds)


def load_wholes() -> Mapping[str, Whole]:
    """Return what is counted whole, by every word for it.

    Raises
    ------
    UnknownSource
        If a mass rests on a source that is not listed.
    """
    sources = load_sources()
    found: dict[str, Whole] = {}
    for row in rows_of("wholes"):
        source = known(row["source"], f"wholes.csv: {row['id']}", sources).key
        where = Provenance(source, row["place"], Basis(row["basis"]))
        ground = Ground(where, Method.MEASURED, float(row["spread_pct"]) / 100.0)
        whole = Whole(row["id"], row["material"], float(row["whole_g"]) / 1000.0, ground)
        found |= dict.fromkeys(words_in(row["words"]), whole)
    return found
