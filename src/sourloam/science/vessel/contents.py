"""What lies in a vessel, a caddy or a cold box: amounts that add up."""

from typing import NamedTuple


class Contents(NamedTuple):
    """Amounts of scraps and bran, as they went in."""

    scraps_kg: float = 0.0
    bran_kg: float = 0.0
    scraps_dry_kg: float = 0.0
    dry_kg: float = 0.0  # of scraps and bran
    carbon_g: float = 0.0
    nitrogen_g: float = 0.0
    sodium_g: float = 0.0
    animal_kg: float = 0.0  # meat, fish, egg, dairy
    loose_l: float = 0.0  # as a caddy holds it
    pressed_l: float = 0.0  # as it is pressed into a vessel, unsettled

    def plus(self, other: "Contents") -> "Contents":
        """Return both together."""
        return Contents(*(mine + its for mine, its in zip(self, other, strict=True)))

    def times(self, factor: float) -> "Contents":
        """Return so many times as much."""
        return Contents(*(each * factor for each in self))

    @property
    def mass_kg(self) -> float:
        """Return what went in, scraps and bran."""
        return self.scraps_kg + self.bran_kg

    @property
    def scraps_dry_wb_frac(self) -> float:
        """Return the dry matter of the scraps, as a share of their fresh mass."""
        return self.scraps_dry_kg / self.scraps_kg if self.scraps_kg else 0.0

    @property
    def animal_frac(self) -> float:
        """Return how much of the scraps is of animal origin."""
        return self.animal_kg / self.scraps_kg if self.scraps_kg else 0.0
