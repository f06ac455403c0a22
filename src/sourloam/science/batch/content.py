"""What a finished batch holds, as figures: what every place judges it by."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import date
from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import Figure, derive, law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.batch.product import Product, Soundness

MASS: Final = Range(1e-3, 5000.0, "kg")
SHARE: Final = Range(0.0, 1.0)
WORDS: Final = MappingProxyType(
    {
        "carbon_g": "carbon in it",
        "nitrogen_g": "nitrogen in it",
        "phosphorus_g": "phosphorus in it",
        "potassium_g": "potassium in it",
        "sodium_g": "sodium in it",
        "lactic_g": "lactic acid in it",
        "acetic_g": "acetic acid in it",
        "sugar_g": "sugar that is left in it",
    }
)


@dataclass(frozen=True)
class ContentParameters:
    """What a kilogram holds; filled from `parameters/product.toml`, or worked out for one batch."""

    dry_wb_frac: Figure
    carbon_g_per_kg: Figure
    nitrogen_g_per_kg: Figure
    ammonia_frac: Figure  # of the nitrogen
    phosphorus_g_per_kg: Figure
    potassium_g_per_kg: Figure
    sodium_g_per_kg: Figure
    conductivity_ds_per_m: Figure  # of its liquid, by all ions
    titratable_mol_per_kg: Figure
    lactic_g_per_kg: Figure
    acetic_g_per_kg: Figure
    sugar_g_per_kg: Figure  # what the ferment left over
    kg_per_l: Figure  # pressed


@dataclass(frozen=True)
class Content:
    """A finished batch, or a part of one, with all that a place asks of it; amounts are of the whole."""

    batch: str  # what it is called
    state: Soundness
    animal_matter: bool
    figures: Mapping[str, Figure]
    ready_on: date | None = None  # when it is expected to be ready, where that is known

    def __getitem__(self, name: str) -> Figure:
        """Return a figure by its name: `mass_kg`, `nitrogen_g`, `acid_mol` and the others of `content_of`."""
        return self.figures[name]

    def product(self) -> Product:
        """Return it at its medians, as the places of a plan are asked with."""
        of = {name: each.value for name, each in self.figures.items()}
        return Product(
            self.batch,
            of["mass_kg"],
            of["volume_l"],
            1.0 - of["dry_wb_frac"],
            of["carbon_g"],
            of["nitrogen_g"],
            of["sodium_g"],
            of["acid_mol"],
            self.state,
            self.animal_matter,
            ammonia_g=of["ammonia_g"],
            phosphorus_g=of["phosphorus_g"],
            potassium_g=of["potassium_g"],
            sugar_g=of["sugar_g"],
            conductivity_ds_per_m=of["conductivity_ds_per_m"],
        )


def content_of(
    mass_kg: Figure,
    held: ContentParameters,
    *,
    batch: str,
    state: Soundness = "ready",
    animal_matter: bool = False,
    ready_on: date | None = None,
) -> Content:
    """Return so much of a batch with all its figures: the shares as they are, and the amounts of the whole."""
    found = {"mass_kg": mass_kg} | {each.name: getattr(held, each.name) for each in fields(held)}
    for name, words in WORDS.items():
        per_kg = found[f"{name.removesuffix('_g')}_g_per_kg"]
        found[name] = derive(name, held_g, words=words, mass_kg=mass_kg, g_per_kg=per_kg)
    found["ammonia_g"] = derive(
        "ammonia_g", part_g, words="ammonia nitrogen in it", whole_g=found["nitrogen_g"], share=held.ammonia_frac
    )
    found["acid_mol"] = derive(
        "acid_mol",
        held_mol,
        words="acid in it, by titration",
        mass_kg=mass_kg,
        mol_per_kg=held.titratable_mol_per_kg,
    )
    found["water_kg"] = derive("water_kg", water_kg, words="water in it", mass_kg=mass_kg, dry_wb_frac=held.dry_wb_frac)
    found["volume_l"] = derive(
        "volume_l", volume_l, words="room that it takes, pressed", mass_kg=mass_kg, kg_per_l=held.kg_per_l
    )
    found["c_to_n"] = derive(
        "c_to_n", ratio, words="C:N of it", carbon_g=found["carbon_g"], nitrogen_g=found["nitrogen_g"]
    )
    return Content(batch, state, animal_matter, MappingProxyType(found), ready_on)


@law("mass × what a kilogram holds", unit="g")
def held_g(mass_kg: ArrayLike, g_per_kg: ArrayLike) -> float | FloatArray:
    """Return what a mass holds of something.

    Raises
    ------
    OutOfRange
        If the mass is no batch, under 1 g or above 5 t.
    """
    return keep_shape(_mass(mass_kg) * np.asarray(g_per_kg, dtype=float))


@law("mass × acid of a kilogram", unit="mol")
def held_mol(mass_kg: ArrayLike, mol_per_kg: ArrayLike) -> float | FloatArray:
    """Return the acid of a mass.

    Raises
    ------
    OutOfRange
        As `held_g`.
    """
    return keep_shape(_mass(mass_kg) * np.asarray(mol_per_kg, dtype=float))


@law("whole × part of it", unit="g")
def part_g(whole_g: ArrayLike, share: ArrayLike) -> float | FloatArray:
    """Return a part of a whole.

    Raises
    ------
    OutOfRange
        If the part is outside 0 to 1.
    """
    part = within(share, SHARE, name="share", why="it is a part of a whole.")
    return keep_shape(np.asarray(whole_g, dtype=float) * part)


@law("mass × (1 − dry matter)", unit="kg")
def water_kg(mass_kg: ArrayLike, dry_wb_frac: ArrayLike) -> float | FloatArray:
    """Return the water of a mass.

    Raises
    ------
    OutOfRange
        If the dry matter is outside 0 to 1, or as `held_g`.
    """
    dry = within(dry_wb_frac, SHARE, name="dry_wb_frac", why="it is a share of the whole.")
    return keep_shape(_mass(mass_kg) * (1.0 - dry))


@law("mass ÷ mass of a litre", unit="L")
def volume_l(mass_kg: ArrayLike, kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the room that a mass takes, pressed.

    Raises
    ------
    OutOfRange
        As `held_g`.
    """
    return keep_shape(_mass(mass_kg) / np.asarray(kg_per_l, dtype=float))


@law("carbon ÷ nitrogen", unit="1")
def ratio(carbon_g: ArrayLike, nitrogen_g: ArrayLike) -> float | FloatArray:
    """Return C:N by mass."""
    return keep_shape(np.asarray(carbon_g, dtype=float) / np.asarray(nitrogen_g, dtype=float))


def _mass(mass_kg: ArrayLike) -> FloatArray:
    return within(mass_kg, MASS, name="mass_kg", why="that is no batch.")
