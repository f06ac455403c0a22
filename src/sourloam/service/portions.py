"""What a person brings: names looked up in the table and among their own materials, amounts weighed."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, NotFound
from sourloam.base.figure import derive, written
from sourloam.evidence.materials import Materials, load_materials
from sourloam.evidence.wholes import Whole, load_wholes
from sourloam.exchange.amounts import Amount
from sourloam.exchange.own import read_own
from sourloam.science.load import laws
from sourloam.science.load.assess import Portion
from sourloam.science.load.members import members_of, value_figure
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.materials.composition import Material
from sourloam.service.assemble import own_materials, said_of_own
from sourloam.service.weighing import weighed
from sourloam.site.own import OwnMaterial

BRAN, SUGAR = "wheat-bran", "sugar"  # rows of the table: what a vessel is dosed with, and what sweetens it
VOLUME_L: Final = 20.0  # a usual vessel, where none is named


@dataclass(frozen=True)
class Pantry:
    """The table, and before it the keeper's own materials."""

    table: Materials
    own: Mapping[str, Material]
    wholes: Mapping[str, Whole]
    said: tuple[str, ...]  # what stands for what was not stated of them

    @classmethod
    def of(cls, of_site: Iterable[OwnMaterial], path: Path | None = None) -> "Pantry":
        """Load the table, and what the keeper has of their own: in a site file, and in a table at `path`.

        Raises
        ------
        BadInput
            If a material of their own cannot be read.
        """
        table = load_materials()
        own = (*of_site, *(read_own(path) if path else ()))
        try:
            said = tuple(each.says for each in said_of_own(own, table))
            return cls(table, own_materials(own, table), load_wholes(), said)
        except NotFound as missing:
            raise BadInput(path.name if path else "materials", (missing.problem("like"),)) from None

    def find(self, words: str) -> Material:
        """Return what `words` name: the keeper's own, then what is counted whole, then the table's.

        Raises
        ------
        NotFound
            If nothing answers to that.
        """
        plain = words.casefold()
        mine = (each for each in self.own.values() if plain in (each.id, each.name.casefold()))
        return next(mine, None) or self._whole(plain) or self.table.find(words)

    def _whole(self, plain: str) -> Material | None:
        whole = self.wholes.get(plain)
        return whole.of(self.table[whole.material]) if whole else None

    def by_id(self) -> dict[str, Material]:
        """Return all of them by their id."""
        return {each.id: each for each in self.table} | dict(self.own)


def portion_of(amount: Amount, number: int, load: LoadParameters, *, members: int, caddy_d: float = 0.0) -> Portion:
    """Return an amount weighed: by the density of the table, a handful, or the mass of a piece."""
    mass = weighed(amount, f"mass.{number}", load.handful_l, members)
    if not caddy_d:
        return Portion(amount.material, mass, amount.typed)
    drawn = members_of(amount.material, members)
    fresh = derive(
        f"fresh.{number}",
        laws.fresh_kg,
        words=f"{amount.material.name} as it was thrown in",
        weighed_kg=mass,
        loss_frac_per_d=load.caddy_loss_frac_per_d,
        days=written("caddy_d", caddy_d, "d", words="days in the caddy", members=members),
        dry_wb_frac=value_figure(amount.material, "dry", drawn),
    )
    return Portion(amount.material, fresh, amount.typed)
