"""How much of one material brings a mix to a moisture or a C:N.

The laws say what the balance says, and a negative amount means that no amount
will do: nothing is clipped. `Recipe` and `NoRecipe` put that in words.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.materials.mix import Ingredient

MOISTURE: Final = Range(0.0, 0.99)
RATIO: Final = Range(1.0, 1000.0)
SOURCE: Final = Range(0.001, 1.0)


@dataclass(frozen=True)
class Recipe:
    """The amounts that meet the goals."""

    added_kg: tuple[float, ...]


@dataclass(frozen=True)
class NoRecipe:
    """No amounts meet the goals; keeps what the balance came to."""

    added_kg: tuple[float, ...]
    why: str

    def __str__(self) -> str:
        return self.why


@law("mass × (goal − moisture) ÷ (moisture of the second − goal)", unit="kg", source="cornell_moisture")
def added_for_moisture_kg(first: Ingredient, second: Ingredient, goal_wb_frac: ArrayLike) -> float | FloatArray:
    r"""Mass of a second material that brings a mix to a moisture.

    .. math:: Q_2 = Q_1 \frac{G - M_1}{M_2 - G}

    Parameters
    ----------
    first, second : Ingredient
        What is there, and what is added; the mass of the second does not count.
    goal_wb_frac : float or array
        Moisture wanted. [-]

    Returns
    -------
    added : float or array
        Negative or infinite where the goal does not lie between the two. [kg]

    Raises
    ------
    OutOfRange
        If the goal is outside 0 to 0.99.

    References
    ----------
    cornell_moisture: the formula, printed with its worked example.

    Examples
    --------
    >>> grass, leaves = Ingredient(10.0, 0.77, 0.45, 0.024), Ingredient(0.0, 0.35, 0.50, 0.0075)
    >>> round(added_for_moisture_kg(grass, leaves, 0.60), 1)
    6.8
    """
    goal = _moisture(goal_wb_frac)
    above = goal - np.asarray(first.moisture_wb_frac, dtype=float)
    below = np.asarray(second.moisture_wb_frac, dtype=float) - goal
    return keep_shape(_divided(np.asarray(first.mass_kg, dtype=float) * above, below))


@law(
    "(goal × nitrogen − carbon) ÷ (carbon of a kilogram of the second − goal × its nitrogen)",
    unit="kg",
    source="cornell_mix",
)
def added_for_ratio_kg(first: Ingredient, second: Ingredient, goal: ArrayLike) -> float | FloatArray:
    r"""Mass of a second material that brings a mix to a C:N.

    .. math:: Q_2 = \frac{Q_1 (1 - M_1) (R N_1 - C_1)}{(1 - M_2) (C_2 - R N_2)}

    Parameters
    ----------
    first, second : Ingredient
        What is there, and what is added; the mass of the second does not count.
    goal : float or array
        C:N wanted, by mass. [-]

    Returns
    -------
    added : float or array
        Negative or infinite where the goal does not lie between the two. [kg]

    Raises
    ------
    OutOfRange
        If the goal is outside 1 to 1000.

    References
    ----------
    cornell_mix: C:N of a mix, from which it follows.

    Examples
    --------
    >>> grass, leaves = Ingredient(10.0, 0.77, 0.45, 0.024), Ingredient(0.0, 0.35, 0.50, 0.0075)
    >>> round(added_for_ratio_kg(grass, leaves, 30.0), 2)
    3.47
    """
    ratio = within(goal, RATIO, name="goal", why="no pile is made for such a C:N.")
    return keep_shape(_divided(-_excess_kg(first, ratio), _excess_kg(_kilogram(second), ratio)))


@law("dry matter ÷ (1 − goal) − mass", unit="kg", source="cornell_moisture", place="from the balance of water")
def water_to_add_kg(first: Ingredient, goal_wb_frac: ArrayLike) -> float | FloatArray:
    """Return the water that brings a mix to a moisture; negative where the mix is too wet.

    Raises
    ------
    OutOfRange
        If the goal is outside 0 to 0.99.
    """
    return keep_shape(
        np.asarray(first.dry_kg / (1.0 - _moisture(goal_wb_frac)) - np.asarray(first.mass_kg, dtype=float))
    )


@law("(carbon ÷ goal − nitrogen) ÷ nitrogen share of the source", unit="kg", source="extension_351921")
def nitrogen_source_kg(
    carbon_kg: ArrayLike, nitrogen_kg: ArrayLike, goal: ArrayLike, source_frac: ArrayLike
) -> float | FloatArray:
    r"""Mass of a source of nitrogen without carbon that brings a mix to a C:N.

    .. math:: Q = \frac{C / R - N}{s}

    Parameters
    ----------
    carbon_kg, nitrogen_kg : float or array
        In the whole of what is there. [kg]
    goal : float or array
        C:N wanted, by mass. [-]
    source_frac : float or array
        Nitrogen of the source, of its mass: 0.46 for urea. [-]

    Returns
    -------
    source : float or array
        Negative where there is too much nitrogen already. [kg]

    Raises
    ------
    OutOfRange
        If the goal is outside 1 to 1000, or the source holds less than 0.1 % nitrogen.

    References
    ----------
    extension_351921: worked example with sawdust.

    Examples
    --------
    >>> round(nitrogen_source_kg(240.0, 0.6, goal=30.0, source_frac=0.46), 1)
    16.1
    """
    ratio = within(goal, RATIO, name="goal", why="no pile is made for such a C:N.")
    held = within(source_frac, SOURCE, name="source_frac", why="it would be no source of nitrogen.")
    short = np.asarray(carbon_kg, dtype=float) / ratio - np.asarray(nitrogen_kg, dtype=float)
    return keep_shape(np.asarray(short / held))


def added_for_both_kg(
    first: Ingredient, second: Ingredient, third: Ingredient, *, goal_wb_frac: ArrayLike, goal: ArrayLike
) -> tuple[float | FloatArray, float | FloatArray]:
    r"""Masses of two materials that bring a mix to a moisture and a C:N together.

    With :math:`a_i = M_i - G` and :math:`b_i = (1 - M_i)(C_i - R N_i)`,

    .. math:: a_2 Q_2 + a_3 Q_3 = -a_1 Q_1 \quad b_2 Q_2 + b_3 Q_3 = -b_1 Q_1

    Parameters
    ----------
    first, second, third : Ingredient
        What is there, and the two that are added; their masses do not count.
    goal_wb_frac : float or array
        Moisture wanted. [-]
    goal : float or array
        C:N wanted, by mass. [-]

    Returns
    -------
    second, third : float or array
        Negative or infinite where the three cannot meet both. [kg]

    Raises
    ------
    OutOfRange
        If a goal is outside its range.

    References
    ----------
    cornell_mix: the two balances, solved together.
    """
    ratio = within(goal, RATIO, name="goal", why="no pile is made for such a C:N.")
    moisture = _moisture(goal_wb_frac)
    a1, a2, a3 = (np.asarray(each.moisture_wb_frac, dtype=float) - moisture for each in (first, second, third))
    b1, b2, b3 = (_excess_kg(_kilogram(each), ratio) for each in (first, second, third))
    there = np.asarray(first.mass_kg, dtype=float)
    det = a2 * b3 - a3 * b2
    return (
        keep_shape(_divided(there * (a3 * b1 - a1 * b3), det)),
        keep_shape(_divided(there * (a1 * b2 - a2 * b1), det)),
    )


def recipe(*added_kg: float | FloatArray, names: tuple[str, ...] = ()) -> Recipe | NoRecipe:
    """Return the amounts that a law gave, or why no amounts will do.

    Arrays are judged by their median.
    """
    amounts = tuple(float(np.median(each)) for each in added_kg)
    if all(np.isfinite(each) and each >= 0.0 for each in amounts):
        return Recipe(amounts)
    called = names or tuple(f"material {number}" for number in range(2, 2 + len(amounts)))
    wrong = ", ".join(f"{each:.3g} kg of {name}" for each, name in zip(amounts, called, strict=True))
    return NoRecipe(amounts, f"These materials cannot meet that goal in any amounts: it would take {wrong}.")


def _moisture(goal_wb_frac: ArrayLike) -> FloatArray:
    return within(goal_wb_frac, MOISTURE, name="goal_wb_frac", why="a mix is never all water.")


def _kilogram(part: Ingredient) -> Ingredient:
    return Ingredient(1.0, part.moisture_wb_frac, part.carbon_db_frac, part.nitrogen_db_frac)


def _excess_kg(part: Ingredient, ratio: FloatArray) -> FloatArray:
    """Return the carbon beyond what its nitrogen calls for at that C:N."""
    return np.asarray(part.carbon_kg - ratio * part.nitrogen_kg)


def _divided(above: FloatArray, below: FloatArray) -> FloatArray:
    """Return a quotient; not a number over nothing is as infinite as anything over nothing."""
    over, under = np.broadcast_arrays(np.asarray(above, dtype=float), np.asarray(below, dtype=float))
    return np.asarray(np.divide(over, under, out=np.full(over.shape, np.inf), where=under != 0.0))
