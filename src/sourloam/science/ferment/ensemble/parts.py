"""What a layer is made of, member by member: its portions added up, and what was measured of them put before."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.base.spread import Spread
from sourloam.science.chem.acids import ACIDS
from sourloam.science.chem.charge import Protolytes, ph_of
from sourloam.science.ferment.ensemble.filling import Layer
from sourloam.science.load.assess import Portion
from sourloam.science.load.members import Members, members_of
from sourloam.science.materials.composition import Material

RAW_KINDS: Final = ("vegetable", "fruit", "garden", "flower")
LEAST_WATER: Final = 0.01  # of the mass: what is drier does not ferment anyway
LEAST_KG: Final = 1e-9  # what less is divided by


def share(figure: Figure) -> FloatArray:
    """Return a part of a whole: the ends of its spread may reach beyond what can be."""
    return np.clip(figure.members, 0.0, 1.0)


@dataclass(frozen=True)
class Part:
    """One portion with its members."""

    portion: Portion
    mass_kg: FloatArray
    values: Members
    is_raw: bool
    is_added: bool  # what was measured does not hold for it


@dataclass(frozen=True)
class Parts:
    """The portions of a layer; what is measured of them goes before what their materials say."""

    layer: Layer
    parts: tuple[Part, ...]
    members: int
    seed: int

    @classmethod
    def of(cls, layer: Layer, members: int, seed: int) -> "Parts":
        """Return the parts of a layer with their members."""
        told = ((each, at >= len(layer.portions)) for at, each in enumerate(layer.all_of_it))
        parts = tuple(
            Part(
                each,
                each.mass.members[:members],
                members_of(each.material, members, seed),
                _is_raw(layer, each.material, is_added=is_added),
                is_added,
            )
            for each, is_added in told
        )
        return cls(layer, parts, members, seed)

    def bare_kg(self, name: str, *, raw: bool | None = None, added: bool | None = None) -> FloatArray:
        """Return what there is of something by the materials, of all, or of what is raw or added or is not."""
        total = np.zeros(self.members)
        for each in self.parts:
            if raw in (None, each.is_raw) and added in (None, each.is_added):
                total += each.mass_kg * each.values[name]
        return total

    def kg(self, name: str, *, raw: bool | None = None) -> FloatArray:
        """Return what there is of something; by what was measured; tissue buffers by its protein."""
        told = {"protein": self._protein_times, "tissue": self._protein_times, "sugars": self._sugar_times}
        times = told.get(name, self.dry_times)
        return times * self.bare_kg(name, raw=raw, added=False) + self.bare_kg(name, raw=raw, added=True)

    @cached_property
    def mass_kg(self) -> FloatArray:
        """Return the mass of all."""
        return np.asarray(np.sum([each.mass_kg for each in self.parts], axis=0))

    @cached_property
    def _own_kg(self) -> FloatArray:
        return np.asarray(np.sum([each.mass_kg for each in self.parts if not each.is_added], axis=0))

    @cached_property
    def _own_dry_kg(self) -> FloatArray:
        told = self.layer.measured.dry_frac
        if told is None:
            return self._own_kg - self.bare_kg("water", added=False)
        return self._own_kg * np.clip(self.drawn(told, "dry"), 0.001, 0.999)

    @cached_property
    def dry_times(self) -> FloatArray:
        """Return the dry matter that was measured against what the materials say."""
        return self._own_dry_kg / np.maximum(self._own_kg - self.bare_kg("water", added=False), LEAST_KG)

    @cached_property
    def water_kg(self) -> FloatArray:
        """Return the water of all."""
        water = self._own_kg - self._own_dry_kg + self.bare_kg("water", added=True)
        return np.maximum(water, LEAST_WATER * self.mass_kg)

    @cached_property
    def _protein_times(self) -> FloatArray:
        return self._told_times(self.layer.measured.protein_dry_frac, "protein")

    @cached_property
    def _sugar_times(self) -> FloatArray:
        return self._told_times(self.layer.measured.sugar_dry_frac, "sugars")

    def _told_times(self, told: Spread | None, name: str) -> FloatArray:
        if told is None:
            return self.dry_times
        wanted = self._own_dry_kg * np.maximum(self.drawn(told, name), 0.0)
        return wanted / np.maximum(self.bare_kg(name, added=False), LEAST_KG)

    def drawn(self, spread: Spread, name: str) -> FloatArray:
        """Return the members of something that was measured."""
        return spread.members(self.members, name=f"measured {name}", seed=self.seed)

    def raw_frac(self, name: str) -> FloatArray:
        """Return the part of something that is in raw tissue."""
        return self.bare_kg(name, raw=True) / np.maximum(self.bare_kg(name), LEAST_KG)

    @cached_property
    def volume_l(self) -> FloatArray:
        """Return the room of all when pressed."""
        return np.asarray(np.sum([each.mass_kg / each.values["pressed"] for each in self.parts], axis=0))

    @cached_property
    def held_kg(self) -> FloatArray:
        """Return the water that the solids keep when pressed."""
        held = [each.mass_kg * each.values["held"] * (each.values["dry"] - each.values["fat"]) for each in self.parts]
        return np.asarray(self.dry_times * np.maximum(np.sum(held, axis=0), 0.0))

    @cached_property
    def start_ph(self) -> FloatArray:
        """Return the pH as it is mixed."""
        if self.layer.measured.start_ph is not None:
            return self.drawn(self.layer.measured.start_ph, "ph")
        moles = {name: self.bare_kg(name) / acid.kg_per_mol for name, acid in ACIDS.items()}
        balance = Protolytes(self.bare_kg("tissue"), moles)
        return np.asarray(ph_of(balance, self.bare_kg("strong"), self.bare_kg("water")))


def _is_raw(layer: Layer, material: Material, *, is_added: bool) -> bool:
    if layer.is_cooked is not None and not is_added:
        return not layer.is_cooked
    return material.kind in RAW_KINDS and not material.family.startswith("cooked")


def per_kg(amounts: Mapping[str, FloatArray], water_kg: FloatArray) -> dict[str, FloatArray]:
    """Return amounts in kg as g to a kg of water."""
    return {name: 1000.0 * amount / water_kg for name, amount in amounts.items()}
