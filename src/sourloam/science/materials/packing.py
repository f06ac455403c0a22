"""How much room a load takes: loose as in a caddy, pressed as in a vessel."""

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.materials.composition import Material

DENSITY: Final = Range(0.005, 3.0, "kg/L")
MASS: Final = Range(0.0, 1e6, "kg")
VOLUME: Final = Range(0.0, 1e6, "L")
SOME: Final = Range(1e-12, 1e9)
TOO_LIGHT: Final = "nothing that is thrown away packs like that."


@law("(full − empty) ÷ volume", unit="kg/L", source="cooperband2002", place="bulk density by bucket")
def bulk_kg_per_l(full_kg: ArrayLike, empty_kg: ArrayLike, volume_l: ArrayLike) -> float | FloatArray:
    """Return the density of what fills a bucket, by its weight full and empty.

    Raises
    ------
    OutOfRange
        If the bucket has no volume, or what is in it comes out impossibly light or heavy.
    """
    volume = within(volume_l, Range(0.01, 1e5, "L"), name="volume_l", why="a bucket has a volume.")
    held = np.asarray(full_kg, dtype=float) - np.asarray(empty_kg, dtype=float)
    return keep_shape(within(held / volume, DENSITY, name="bulk_kg_per_l", why=TOO_LIGHT))


@law("mass of all ÷ volumes added up", unit="kg/L", source="judgement", place="pressed volumes add up")
def mixed_kg_per_l(masses_kg: Sequence[ArrayLike], densities_kg_per_l: Sequence[ArrayLike]) -> float | FloatArray:
    r"""Density of several materials together, their volumes added up.

    .. math:: \rho = \frac{\sum m_i}{\sum m_i / \rho_i}

    Parameters
    ----------
    masses_kg : sequence of float or array
        Masses or shares by mass of the materials. [kg]
    densities_kg_per_l : sequence of float or array
        Density of each, as it lies or as it is pressed. [kg/L]

    Returns
    -------
    density : float or array
        [kg/L]

    Raises
    ------
    OutOfRange
        If a mass is negative, all are nothing, or a density is impossible.

    Notes
    -----
    Fine material that falls between coarse pieces takes less room than this
    says: 0.75 to 0.9 of it, recalled for composting mixes.

    Examples
    --------
    >>> round(mixed_kg_per_l([1.0, 1.0], [0.5, 1.0]), 3)
    0.667
    """
    masses = [within(each, MASS, name="masses_kg", why="an amount is not negative.") for each in masses_kg]
    densities = [within(each, DENSITY, name="densities_kg_per_l", why=TOO_LIGHT) for each in densities_kg_per_l]
    volumes = [mass / density for mass, density in zip(masses, densities, strict=True)]
    whole = within(sum(masses), SOME, name="mass of all", why="there is nothing.")
    return keep_shape(np.asarray(whole / np.asarray(sum(volumes))))


@law("mass ÷ density", unit="L")
def litres(mass_kg: ArrayLike, density_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the room that a mass takes.

    Raises
    ------
    OutOfRange
        If the mass is negative or the density impossible.
    """
    mass = within(mass_kg, MASS, name="mass_kg", why="an amount is not negative.")
    return keep_shape(np.asarray(mass / within(density_kg_per_l, DENSITY, name="density_kg_per_l", why=TOO_LIGHT)))


@law("volume × density", unit="kg")
def kilograms(volume_l: ArrayLike, density_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the mass that a volume holds.

    Raises
    ------
    OutOfRange
        If the volume is negative or the density impossible.
    """
    volume = within(volume_l, VOLUME, name="volume_l", why="an amount is not negative.")
    return keep_shape(np.asarray(volume * within(density_kg_per_l, DENSITY, name="density_kg_per_l", why=TOO_LIGHT)))


def mass_shares(volume_shares: Mapping[Material, float]) -> dict[Material, float]:
    """Return shares by mass from shares by loose volume, as a caddy shows them.

    Raises
    ------
    OutOfRange
        If a share is negative, or all are nothing.
    """
    masses = {each: float(kilograms(share, each.loose_kg_per_l)) for each, share in volume_shares.items()}
    whole = float(within(sum(masses.values()), SOME, name="volume of all", why="there is nothing."))
    return {each: mass / whole for each, mass in masses.items()}
