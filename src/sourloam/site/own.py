"""A keeper's own material, as it stands in a site file or in a row of a table."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated

from sourloam.base.fields import Key
from sourloam.base.kinds import Ident, Text, amount
from sourloam.science.materials.stated import Stated

SHARES = ("water", "protein", "fat", "sugars", "starch", "fibre", "ash")


def _share(name: str, help_: str) -> Key:
    return amount(name, "0 %", "100 %", help=help_, default=None, why="it is a share of the mass.")


@dataclass(frozen=True)
class OwnMaterial:
    """What a keeper knows of something that the table does not hold; all but the id may be left out."""

    id: Annotated[str, Key("id", Ident(), "A short name that never changes; streams and mixes call it by that.")]
    name: Annotated[str, Key("name", Text(80), "What you call it.", default="")] = ""
    like: Annotated[
        str | None,
        Key("like", Text(80), "The material that stands for what you do not know; else the nearest.", default=None),
    ] = None
    water_wb_frac: Annotated[float | None, _share("water", "Its water.")] = None
    protein_wb_frac: Annotated[float | None, _share("protein", "Its protein.")] = None
    fat_wb_frac: Annotated[float | None, _share("fat", "Its fat.")] = None
    sugars_wb_frac: Annotated[float | None, _share("sugars", "Its sugars.")] = None
    starch_wb_frac: Annotated[float | None, _share("starch", "Its starch: carbohydrate less sugars and fibre.")] = None
    fibre_wb_frac: Annotated[float | None, _share("fibre", "Its fibre.")] = None
    ash_wb_frac: Annotated[float | None, _share("ash", "Its ash.")] = None
    salt_wb_frac: Annotated[float | None, _share("salt", "Its salt, as on a label; it is part of the ash.")] = None
    litre_kg: Annotated[
        float | None, amount("litre", "5 g", "2 kg", help="What a loose litre of it weighs.", default=None)
    ] = None
    piece_kg: Annotated[float | None, amount("piece", "0.1 g", "20 kg", help="What one weighs.", default=None)] = None

    @property
    def stated(self) -> Stated:
        """Return what is known of it."""
        return Stated(
            self.id,
            self.name or self.id.replace("-", " "),
            dict(self._shares()),
            salt_wb_frac=self.salt_wb_frac,
            loose_kg_per_l=self.litre_kg,
            piece_kg=self.piece_kg,
        )

    def _shares(self) -> Iterator[tuple[str, float]]:
        for name in SHARES:
            value = getattr(self, f"{name}_wb_frac")
            if value is not None:
                yield name, value
