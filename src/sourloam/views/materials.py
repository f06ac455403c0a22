"""What the table of materials may show."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.base.source import Source
from sourloam.science.materials.buffering import buffering_of
from sourloam.science.materials.composition import MINERALS, Group, Material, Rule
from sourloam.science.materials.elements import cod_kg_per_kg

GOES_IN: Final = MappingProxyType(
    {
        Rule.YES: "yes",
        Rule.PREPARE: "once prepared",
        Rule.A_LITTLE: "a little",
        Rule.NO: "no",
    }
)
UNSOURCED: Final = ("judgement", "memory", "practice", "sourloam_derivation")


@dataclass(frozen=True)
class GroundView:
    """Where a group of values is from."""

    group: str
    words: str
    method: str
    basis: str  # the key: READ, DERIVED ...
    known: str  # the basis as a reader says it
    source: str  # its key
    text: str  # of the source; empty where there is none
    place: str
    spread_pct: float


@dataclass(frozen=True)
class MaterialView:
    """A material as it is shown."""

    id: str
    name: str
    synonyms: tuple[str, ...]
    kind: str
    family: str
    rule: str
    goes_in: str
    reason: str
    preparation: str
    at_most_pct: float
    is_barred_by_strict: bool
    persists: str
    is_animal: bool
    values: Mapping[str, float | None]  # by name with the unit in it
    grounds: tuple[GroundView, ...]
    note: str

    @property
    def main(self) -> GroundView:
        """Return the ground of what it is made of."""
        return next(each for each in self.grounds if each.group == Group.PROXIMATE)


def material_view(material: Material, sources: Mapping[str, Source]) -> MaterialView:
    """Return what of a material is shown."""
    return MaterialView(
        id=material.id,
        name=material.name,
        synonyms=material.synonyms,
        kind=material.kind,
        family=material.family,
        rule=material.rule.value,
        goes_in=GOES_IN[material.rule],
        reason=material.reason,
        preparation=material.preparation,
        at_most_pct=100.0 * material.at_most_frac,
        is_barred_by_strict=material.is_barred_by_strict,
        persists=material.persists.value,
        is_animal=material.animal,
        values=MappingProxyType(_values(material)),
        grounds=tuple(_grounds(material, sources)),
        note=material.note,
    )


def _values(material: Material) -> dict[str, float | None]:
    held = material.composition
    parts = {f"{name}_g_per_kg": 1000.0 * share for name, share in held.constituents().items()}
    minerals = {f"{name}_g_per_kg": 1000.0 * getattr(held, f"{name}_wb_frac") for name in MINERALS}
    flora = material.flora
    return {
        **parts,
        "water_low_g_per_kg": 1000.0 * material.water_low_wb_frac,
        "water_high_g_per_kg": 1000.0 * material.water_high_wb_frac,
        **minerals,
        "nitrogen_g_per_kg": 1000.0 * held.nitrogen_wb_frac,
        "carbon_g_per_kg": 1000.0 * held.carbon_wb_frac,
        "c_to_n": _finite(held.carbon_to_nitrogen),
        "cod_g_per_kg": 1000.0 * float(cod_kg_per_kg(**held.organic())),
        "ph": material.ph.median,
        "ph_low": material.ph.low,
        "ph_high": material.ph.high,
        "buffering_meq_per_kg_dm": buffering_of(held, material.buffering_meq_per_kg_dry) if held.dry_wb_frac else 0.0,
        "alkali_eq_per_kg": material.alkali.eq_per_kg if material.alkali else 0.0,
        "loose_kg_per_l": material.loose_kg_per_l,
        "pressed_kg_per_l": material.pressed_kg_per_l,
        "held_g_per_g_dm": material.held_kg_per_kg_dry,
        "piece_mm": material.piece_mm,
        "piece_g": 1000.0 * material.piece_kg if material.piece_kg else None,
        "lactic_log10_per_g": flora.lactic_log10,
        "enteric_log10_per_g": flora.enteric_log10,
        "yeast_log10_per_g": flora.yeast_log10,
        "spore_log10_per_g": flora.spore_log10,
    }


def _grounds(material: Material, sources: Mapping[str, Source]) -> list[GroundView]:
    found = []
    for group, ground in material.grounds.items():
        where = ground.provenance
        text = "" if where.source in UNSOURCED or where.source not in sources else sources[where.source].text
        spread = 100.0 * ground.spread_frac
        found.append(
            GroundView(
                group=group.value,
                words=group.words,
                method=ground.method.value,
                basis=where.basis.value,
                known=where.basis.words,
                source=where.source,
                text=text,
                place=where.place,
                spread_pct=spread,
            )
        )
    return found


def _finite(value: float) -> float | None:
    return value if value < float("inf") else None
