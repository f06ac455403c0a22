"""The live count as a belief: it grows, it declines, nobody has seen it, and a jar of milk can say something of it."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis
from sourloam.science.microbes.cardinal import cardinal_temperature

MONTHS: Final = Range(0.0, 1200.0)
SHARE: Final = Range(0.0, 1.0)
DRIEST_LOG10_PER_MONTH, PER_ACTIVITY, DRIEST = 0.0207, 19.2, 0.11  # through the two points of vesterlund2012
DEAD: Final = 0.0  # powers of ten: one cell in a gram
LN10: Final = float(np.log(10.0))


@law("start + growth × pace × hours beyond the lag, but no more than it comes to", unit="1")
def grown_log10(
    start_log10: ArrayLike,
    hours: ArrayLike,
    *,
    pace: ArrayLike,
    growth_per_h: ArrayLike,
    growth_lag_h: ArrayLike,
    most_log10: ArrayLike,
) -> float | FloatArray:
    """Return a count after some hours in which it could grow, as a power of ten."""
    share = np.asarray(pace, dtype=float)
    start = np.asarray(start_log10, dtype=float)
    grown = np.maximum(share * np.asarray(hours, dtype=float) - np.asarray(growth_lag_h, dtype=float), 0.0)
    count = start + np.asarray(growth_per_h, dtype=float) * grown / LN10
    return keep_shape(np.asarray(np.minimum(count, np.maximum(most_log10, start))))


@law("(powers of ten still to come) ÷ growth, at that pace", unit="h")
def hours_to_log10(
    start_log10: ArrayLike,
    wanted_log10: ArrayLike,
    *,
    pace: ArrayLike,
    growth_per_h: ArrayLike,
    growth_lag_h: ArrayLike,
) -> float | FloatArray:
    """Return the hours until a count is reached; infinite where nothing grows or nothing lives."""
    start = np.asarray(start_log10, dtype=float)
    missing = np.maximum(np.asarray(wanted_log10, dtype=float) - start, 0.0)
    share = np.asarray(pace, dtype=float)
    with np.errstate(divide="ignore", invalid="ignore"):
        hours = (missing * LN10 / np.asarray(growth_per_h, dtype=float) + np.asarray(growth_lag_h, dtype=float)) / share
    return keep_shape(np.asarray(np.where((share > 0.0) & (start > DEAD), hours, np.inf)))


@law("cardinal temperature model", unit="1", source="rosso1993", place="cardinal temperature model with inflection")
def pace_at(temperature_c: ArrayLike, least_c: ArrayLike, best_c: ArrayLike, most_c: ArrayLike) -> float | FloatArray:
    """Return the pace of growth at a temperature, as a share of the pace at the best one.

    Raises
    ------
    OutOfRange
        If a temperature is impossible.
    """
    return cardinal_temperature(temperature_c, least_c=least_c, best_c=best_c, most_c=most_c)


@law("carrier's count + dose ÷ whole, as powers of ten", unit="1")
def mixed_log10(serum_log10: ArrayLike, serum_l: ArrayLike, wet_kg: ArrayLike) -> float | FloatArray:
    """Return the count in a gram of wetted carrier from that in a millilitre of what was stirred in."""
    share = np.asarray(serum_l, dtype=float) / np.asarray(wet_kg, dtype=float)
    return keep_shape(np.asarray(np.asarray(serum_log10, dtype=float) + np.log10(np.maximum(share, 1e-12))))


@law("count + what share of it goes in, as powers of ten", unit="1")
def sum_log10(one: ArrayLike, two: ArrayLike) -> float | FloatArray:
    """Return a count that is thinned or concentrated: the powers of ten add up; the dead stay dead."""
    count = np.asarray(one, dtype=float)
    return keep_shape(np.asarray(np.where(count > DEAD, count + np.asarray(two, dtype=float), DEAD)))


@law("count when it was wet − what drying costs", unit="1")
def dried_log10(wet_log10: ArrayLike, drying_loss_log10: ArrayLike) -> float | FloatArray:
    """Return the count of bran when it is dry, as a power of ten."""
    return keep_shape(np.asarray(np.asarray(wet_log10, dtype=float) - np.asarray(drying_loss_log10, dtype=float)))


@law("1 − (1 − share that never took) × exp(−share lost in a month × months)", unit="1")
def lost_frac(months: ArrayLike, never_took_frac: ArrayLike, lost_per_month: ArrayLike) -> float | FloatArray:
    """Return the share of lots that are dead for a reason nobody saw: damp, heat, a batch that never took.

    Raises
    ------
    OutOfRange
        If the months are negative or more than a hundred years.
    """
    age = within(months, MONTHS, name="months", why="nothing was made later than today, or keeps so long.")
    took = 1.0 - np.asarray(never_took_frac, dtype=float)
    return keep_shape(np.asarray(1.0 - took * np.exp(-np.asarray(lost_per_month, dtype=float) * age)))


@law("start − decline × months, and nothing in the share of lots that died unseen", unit="1")
def aged_log10(
    start_log10: ArrayLike,
    decline_log10_per_month: ArrayLike,
    months: ArrayLike,
    *,
    lost_frac: ArrayLike,
    luck: ArrayLike,
) -> float | FloatArray:
    """Return what is believed of a count after some months that nobody tested; 0 is dead.

    Raises
    ------
    OutOfRange
        If the months are negative or more than a hundred years.
    """
    age = within(months, MONTHS, name="months", why="nothing was made later than today, or keeps so long.")
    count = np.asarray(start_log10, dtype=float) - np.asarray(decline_log10_per_month, dtype=float) * age
    dead = np.asarray(luck, dtype=float) < np.asarray(lost_frac, dtype=float)
    return keep_shape(np.asarray(np.where(dead, DEAD, np.maximum(count, DEAD))))


@law(
    "0.0207 × exp(19.2 × (water activity − 0.11)) × how this culture bears it, but no more than as usually dried",
    unit="1/mo",
    source="vesterlund2012",
    place="0.29 powers of ten in 14 months at 0.11, 2.4 at 0.22; rapidly at 0.43",
    basis=Basis.DERIVED,
)
def dry_decline_log10_per_month(
    water_activity: ArrayLike, dry_times: ArrayLike, usual_log10_per_month: ArrayLike
) -> float | FloatArray:
    """Return the powers of ten that dry bran loses in a month by how dry it is; bran dried at home is the upper end.

    Raises
    ------
    OutOfRange
        If the water activity is no share.
    """
    activity = within(water_activity, SHARE, name="water_activity", why="it is a share of that of water.")
    dry = DRIEST_LOG10_PER_MONTH * np.exp(PER_ACTIVITY * (activity - DRIEST)) * np.asarray(dry_times, dtype=float)
    return keep_shape(np.asarray(np.minimum(dry, np.asarray(usual_log10_per_month, dtype=float))))


@law("belief weighted by how well each case foretells the jar", unit="1")
def tested_log10(
    believed_log10: ArrayLike,
    curd_h: ArrayLike,
    jar_h: ArrayLike,
    *,
    saw_curd: ArrayLike,
    false_curd_frac: ArrayLike,
    missed_curd_frac: ArrayLike,
) -> float | FloatArray:
    """Return the belief after a jar test: Bayes' rule over the members, which are drawn again by their weight.

    A member that needs less time than the jar stood foretells curd, one that needs more foretells none; either may be
    wrong as often as the two shares say. The members come back in rising order, evenly spaced over their weight.
    """
    believed = np.atleast_1d(np.asarray(believed_log10, dtype=float))
    is_curd = np.asarray(curd_h, dtype=float) <= np.asarray(jar_h, dtype=float)
    chance = np.where(is_curd, 1.0 - np.asarray(missed_curd_frac), np.asarray(false_curd_frac, dtype=float))
    weight = np.broadcast_to(np.where(np.asarray(saw_curd, dtype=float) > 0.5, chance, 1.0 - chance), believed.shape)
    order = np.argsort(believed, kind="stable")
    upto = np.cumsum(weight[order]) / weight.sum()
    wanted = (np.arange(believed.size) + 0.5) / believed.size
    drawn = believed[order][np.searchsorted(upto, wanted).clip(max=believed.size - 1)]
    return keep_shape(drawn.reshape(np.shape(believed_log10)))


@law("what the scraps need ÷ what a gram of bran holds, but no less than custom gives", unit="g/kg")
def dose_by_count_g_per_kg(
    aim_log10_per_g: ArrayLike, count_log10_per_g: ArrayLike, custom_g_per_kg: ArrayLike
) -> float | FloatArray:
    """Return the bran on a kilogram of scraps that its count asks for; a kilogram where it would be more than that."""
    needed = 1000.0 * 10.0 ** (np.asarray(aim_log10_per_g, dtype=float) - np.asarray(count_log10_per_g, dtype=float))
    return keep_shape(np.asarray(np.clip(needed, np.asarray(custom_g_per_kg, dtype=float), 1000.0)))


@law("share of cases in which the count is enough, × 100", unit="%")
def works_pct(count_log10: ArrayLike, least_log10: ArrayLike) -> float | FloatArray:
    """Return in how many of a hundred cases a count reaches what works."""
    enough = np.asarray(count_log10, dtype=float) >= np.asarray(least_log10, dtype=float)
    return keep_shape(np.full(np.shape(count_log10), 100.0 * float(np.mean(enough))))
