"""How much of a second material brings a first one to the moisture or the C:N that a pile wants."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range

AMOUNT: Final = Range(0.0, 1e9, "kg")
BETWEEN: Final = "the goal must lie between the two materials."


@law(
    "mass × (goal - moisture) ÷ (moisture of the second - goal)",
    unit="kg",
    source="cornell_moisture",
    place="amount of the second material",
)
def second_for_moisture_kg(
    mass_kg: ArrayLike, moisture_frac: ArrayLike, second_frac: ArrayLike, goal_frac: ArrayLike
) -> float | FloatArray:
    r"""Mass of a second material that brings a mix to a moisture.

    From the balance of water,

    .. math:: Q_2 = Q_1 \frac{G - M_1}{M_2 - G}

    Parameters
    ----------
    mass_kg : float or array
        Mass of the first material as received. [kg]
    moisture_frac, second_frac : float or array
        Water in each of the two, of its wet mass. [-]
    goal_frac : float or array
        Water wanted in the mix, of its wet mass. [-]

    Returns
    -------
    second : float or array
        Mass of the second material; shape of the arguments broadcast together. [kg]

    Raises
    ------
    OutOfRange
        If the goal does not lie between the two, so that no amount would do.

    Notes
    -----
    Leaves out what drains or dries before the pile is built.

    References
    ----------
    cornell_moisture: moisture goal of two materials.

    Examples
    --------
    >>> round(second_for_moisture_kg(10.0, 0.77, second_frac=0.35, goal_frac=0.60), 1)
    6.8
    """
    above = np.asarray(goal_frac, dtype=float) - np.asarray(moisture_frac, dtype=float)
    below = np.asarray(second_frac, dtype=float) - np.asarray(goal_frac, dtype=float)
    with np.errstate(divide="ignore", invalid="ignore"):
        second = np.asarray(mass_kg, dtype=float) * above / below
    return keep_shape(within(second, AMOUNT, name="second_kg", why=BETWEEN))


@law(
    "(goal × nitrogen - carbon) ÷ (carbon of a kilogram of the second - goal × its nitrogen)",
    unit="kg",
    source="cornell_mix",
    place="C:N of a mix, solved for one amount",
)
def second_for_carbon_kg(
    carbon_g: ArrayLike,
    nitrogen_g: ArrayLike,
    second_carbon_g_per_kg: ArrayLike,
    second_nitrogen_g_per_kg: ArrayLike,
    *,
    goal: ArrayLike,
) -> float | FloatArray:
    r"""Mass of a second material that brings a mix to a C:N.

    Ratios are never averaged: carbon and nitrogen are added up, then divided,

    .. math:: Q_2 = \frac{R N_1 - C_1}{c_2 - R n_2}

    Parameters
    ----------
    carbon_g, nitrogen_g : float or array
        In the whole of the first material. [g]
    second_carbon_g_per_kg, second_nitrogen_g_per_kg : float or array
        In a kilogram of the second as received. [g/kg]
    goal : float or array
        C:N wanted, by mass. [-]

    Returns
    -------
    second : float or array
        Mass of the second material; shape of the arguments broadcast together. [kg]

    Raises
    ------
    OutOfRange
        If the goal does not lie between the two, so that no amount would do.

    Notes
    -----
    Counts all carbon alike; that of wood is given up far more slowly.

    References
    ----------
    cornell_mix: C:N of a mix.

    Examples
    --------
    >>> round(second_for_carbon_kg(240.0, 0.6, 0.0, 460.0, goal=30.0), 4)
    0.0161
    """
    short = np.asarray(goal, dtype=float) * np.asarray(nitrogen_g, dtype=float) - np.asarray(carbon_g, dtype=float)
    per_kg = np.asarray(second_carbon_g_per_kg, dtype=float) - np.asarray(goal, dtype=float) * np.asarray(
        second_nitrogen_g_per_kg, dtype=float
    )
    with np.errstate(divide="ignore", invalid="ignore"):
        second = short / per_kg
    return keep_shape(within(second, AMOUNT, name="second_kg", why=BETWEEN))
