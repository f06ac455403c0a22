"""The solid that a finished batch gives: what a place is asked to take."""

from dataclasses import dataclass, replace
from typing import Literal

Soundness = Literal["ready", "unfinished", "failed", "unknown"]


@dataclass(frozen=True)
class Product:
    """A batch, or a part of one, on its way to a place."""

    batch: str  # VESSEL/N
    mass_kg: float
    volume_l: float
    moisture_wb_frac: float
    carbon_g: float
    nitrogen_g: float
    sodium_g: float
    acid_mol: float
    state: Soundness = "ready"
    animal_matter: bool = False
    ammonia_g: float = 0.0  # nitrogen in ammonia, counted in nitrogen_g too
    phosphorus_g: float = 0.0
    potassium_g: float = 0.0
    sugar_g: float = 0.0  # what the ferment left over
    conductivity_ds_per_m: float = 0.0  # of its liquid, by all ions; 0 where nobody said

    def part(self, mass_kg: float) -> "Product":
        """Return the part of it that weighs `mass_kg`."""
        share = mass_kg / self.mass_kg if self.mass_kg else 0.0
        return replace(
            self,
            mass_kg=mass_kg,
            volume_l=self.volume_l * share,
            carbon_g=self.carbon_g * share,
            nitrogen_g=self.nitrogen_g * share,
            sodium_g=self.sodium_g * share,
            acid_mol=self.acid_mol * share,
            ammonia_g=self.ammonia_g * share,
            phosphorus_g=self.phosphorus_g * share,
            potassium_g=self.potassium_g * share,
            sugar_g=self.sugar_g * share,
        )

    @property
    def dry_kg(self) -> float:
        """Return its dry matter."""
        return self.mass_kg * (1.0 - self.moisture_wb_frac)

    @property
    def carbon_to_nitrogen(self) -> float:
        """Return its C:N by mass."""
        return self.carbon_g / self.nitrogen_g
