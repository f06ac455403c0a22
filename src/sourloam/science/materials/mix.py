"""Several materials into one load: mass-weighted, and the same in whatever order they come."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import reduce
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.materials.composition import Composition, Material
from sourloam.science.materials.elements import carbon_to_nitrogen
from sourloam.science.materials.packing import mixed_kg_per_l

MASS: Final = Range(0.0, 1e6, "kg")
SHARE: Final = Range(0.0, 1.0)
MOISTURE: Final = Range(0.0, 0.999)
ABOVE_NOTHING: Final = Range(1e-12, 1e9)


@dataclass(frozen=True)
class Ingredient:
    """An amount of something with its water, carbon and nitrogen; plain numbers, or an array of members each.

    Raises
    ------
    OutOfRange
        If a mass is negative, or a share is none.
    """

    mass_kg: ArrayLike
    moisture_wb_frac: ArrayLike
    carbon_db_frac: ArrayLike
    nitrogen_db_frac: ArrayLike

    def __post_init__(self) -> None:
        within(self.mass_kg, MASS, name="mass_kg", why="an amount is not negative.")
        within(self.moisture_wb_frac, MOISTURE, name="moisture_wb_frac", why="something must be dry matter.")
        within(self.carbon_db_frac, SHARE, name="carbon_db_frac", why="it is a share of the dry matter.")
        within(self.nitrogen_db_frac, SHARE, name="nitrogen_db_frac", why="it is a share of the dry matter.")

    @classmethod
    def of(cls, material: Material, mass_kg: ArrayLike) -> "Ingredient":
        """Return so much of a material."""
        held = material.composition
        return cls(mass_kg, held.water_wb_frac, held.carbon_db_frac, held.nitrogen_db_frac)

    @property
    def water_kg(self) -> FloatArray:
        """Return its water."""
        return np.asarray(np.asarray(self.mass_kg, dtype=float) * np.asarray(self.moisture_wb_frac, dtype=float))

    @property
    def dry_kg(self) -> FloatArray:
        """Return its dry matter."""
        return np.asarray(np.asarray(self.mass_kg, dtype=float) - self.water_kg)

    @property
    def carbon_kg(self) -> FloatArray:
        """Return its carbon."""
        return np.asarray(self.dry_kg * np.asarray(self.carbon_db_frac, dtype=float))

    @property
    def nitrogen_kg(self) -> FloatArray:
        """Return its nitrogen."""
        return np.asarray(self.dry_kg * np.asarray(self.nitrogen_db_frac, dtype=float))


@law("water of all ÷ mass of all", unit="1", source="cornell_moisture", place="moisture of a mix")
def mix_moisture_wb_frac(*parts: Ingredient) -> float | FloatArray:
    r"""Water of several materials together.

    .. math:: M = \frac{\sum Q_i M_i}{\sum Q_i}

    Parameters
    ----------
    parts : Ingredient
        What is mixed; at least one has a mass.

    Returns
    -------
    moisture : float or array
        Water of the mix, of its wet mass. [-]

    Raises
    ------
    OutOfRange
        If nothing has a mass.

    Notes
    -----
    Nothing drains and nothing dries while it is mixed.

    References
    ----------
    cornell_moisture: the formula.

    Examples
    --------
    >>> grass, leaves = Ingredient(10.0, 0.77, 0.45, 0.024), Ingredient(6.8, 0.35, 0.50, 0.0075)
    >>> round(mix_moisture_wb_frac(grass, leaves), 2)
    0.6
    """
    mass = within(_total(*(each.mass_kg for each in parts)), ABOVE_NOTHING, name="mass of all", why="there is nothing.")
    return keep_shape(np.asarray(_total(*(each.water_kg for each in parts)) / mass))


@law("carbon of all ÷ nitrogen of all", unit="1", source="cornell_mix", place="C:N of a mix")
def mix_carbon_to_nitrogen(*parts: Ingredient) -> float | FloatArray:
    r"""C:N of several materials together: never the mean of their ratios.

    .. math:: CN = \frac{\sum Q_i (1 - M_i) C_i}{\sum Q_i (1 - M_i) N_i}

    Parameters
    ----------
    parts : Ingredient
        What is mixed.

    Returns
    -------
    ratio : float or array
        C:N by mass; infinite where there is no nitrogen. [-]

    Notes
    -----
    Counts all carbon alike; that of wood is given up far more slowly.

    References
    ----------
    cornell_mix: the formula and its symbols.

    Examples
    --------
    >>> grass, leaves = Ingredient(10.0, 0.77, 0.45, 0.024), Ingredient(6.8, 0.35, 0.50, 0.0075)
    >>> round(mix_carbon_to_nitrogen(grass, leaves), 1)
    36.7
    """
    carbon = _total(*(each.carbon_kg for each in parts))
    return carbon_to_nitrogen(carbon, _total(*(each.nitrogen_kg for each in parts)))


def mix(shares: Mapping[Material, float]) -> tuple[Composition, float]:
    """Return the composition of a load and its pressed density in kg/L, from the shares of its materials by mass.

    The shares may be masses: what counts is their proportion.

    Raises
    ------
    OutOfRange
        If a share is negative, or all are nothing.
    """
    parts = [
        (each, float(within(share, MASS, name=f"share of {each}", why="a share is not negative.")))
        for each, share in shares.items()
    ]
    parts.sort(key=lambda part: part[0].id)  # sums of floats depend on their order
    whole = float(within(sum(share for _, share in parts), ABOVE_NOTHING, name="mass of all", why="there is nothing."))
    weighted = [(each.composition, share / whole) for each, share in parts]
    names = [each.name for each in fields(Composition)]
    mixed = Composition(**{name: sum(share * getattr(held, name) for held, share in weighted) for name in names})
    pressed = mixed_kg_per_l([share for _, share in parts], [each.pressed_kg_per_l for each, _ in parts])
    return mixed, float(pressed)


def _total(*values: ArrayLike) -> FloatArray:
    return reduce(np.add, (np.asarray(each, dtype=float) for each in values), np.zeros(()))
