"""The bran of a load by custom: by weight, by habit, how long a kilogram lasts, and how it goes without."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.load.assess import Known, Load
from sourloam.science.load.laws import dose_times


@dataclass(frozen=True)
class Wild:
    """What is known of souring by the wild flora alone."""

    ready_at_20c_d: Figure  # with bran
    without_bran_times: Figure
    failing_share: Figure  # with bran


@law("1 + (times for animal matter − 1) × animal part, and more where it smells", unit="1")
def bran_times(animal_frac: ArrayLike, animal_times: ArrayLike, smell_times: ArrayLike) -> float | FloatArray:
    """Return how many times the dose of plants a load gets."""
    return keep_shape(dose_times(animal_frac, animal_times) * np.asarray(smell_times, dtype=float))


@law("mass × plain dose × how many times as much", unit="g")
def bran_usual_g(mass_kg: ArrayLike, plain_dose_g_per_kg: ArrayLike, bran_times: ArrayLike) -> float | FloatArray:
    """Return the bran that custom puts on a load by its weight."""
    plain = np.asarray(mass_kg, dtype=float) * np.asarray(plain_dose_g_per_kg, dtype=float)
    return keep_shape(plain * np.asarray(bran_times, dtype=float))


@law("bran × how many times as much", unit="g")
def raised_g(bran_g: ArrayLike, times: ArrayLike) -> float | FloatArray:
    """Return an amount of bran raised for a bad smell."""
    return keep_shape(np.asarray(bran_g, dtype=float) * np.asarray(times, dtype=float))


@law("1000 g ÷ bran that is used × days in which it is", unit="d")
def kilogram_lasts_d(bran_g: ArrayLike, over_d: ArrayLike) -> float | FloatArray:
    """Return how long a kilogram of bran lasts."""
    return keep_shape(1000.0 * np.asarray(over_d, dtype=float) / np.asarray(bran_g, dtype=float))


@law("loadings × floor × bran that covers it × 1000", unit="g")
def habit_bran_g(loads: ArrayLike, area_m2: ArrayLike, cover_kg_per_m2: ArrayLike) -> float | FloatArray:
    """Return the bran that goes on where all of the surface is covered at every loading."""
    covered = np.asarray(loads, dtype=float) * np.asarray(area_m2, dtype=float)
    return keep_shape(1000.0 * covered * np.asarray(cover_kg_per_m2, dtype=float))


@law("days until ready with bran × how much longer it takes without", unit="d")
def wild_ready_d(ready_at_20c_d: ArrayLike, without_bran_times: ArrayLike) -> float | FloatArray:
    """Return the days from sealing until ready without bran, at 20 °C."""
    return keep_shape(np.asarray(ready_at_20c_d, dtype=float) * np.asarray(without_bran_times, dtype=float))


@law("share of batches that fail with bran × how many times as many do without, at most all", unit="1")
def wild_fails_frac(failing_share: ArrayLike, wild_fails_times: ArrayLike) -> float | FloatArray:
    """Return the share of batches that fail without bran."""
    times = np.asarray(failing_share, dtype=float) * np.asarray(wild_fails_times, dtype=float)
    return keep_shape(np.minimum(times, 1.0))


def usual_figures(load: Load, known: Known, *, over: Figure, smell_times: Figure) -> dict[str, Figure]:
    """Return the bran of a load by its weight, and how long a kilogram lasts at that."""
    times = derive(
        "bran_times",
        bran_times,
        words="times as much bran as on plants",
        animal_frac=load.figures["animal_frac"],
        animal_times=known.load.animal_times,
        smell_times=smell_times,
    )
    usual = derive(
        "bran_usual_g",
        bran_usual_g,
        words="bran by weight, as is usual",
        mass_kg=load.figures["mass_kg"],
        plain_dose_g_per_kg=known.inoculum.plain_dose_g_per_kg,
        bran_times=times,
    )
    lasts = derive("kilogram_lasts_d", kilogram_lasts_d, words="a kilogram of bran lasts", bran_g=usual, over_d=over)
    least = load.figures["bran_g"]
    words = f"{least.words}, for it smells"
    raised = derive("bran_g", raised_g, words=words, bran_g=replace(least, name="bran_fresh_g"), times=smell_times)
    return {each.name: each for each in (times, usual, lasts, raised)}


def habit_figures(load: Load, known: Known, *, over: Figure, loads: Figure) -> dict[str, Figure]:
    """Return the bran that covering it at every loading takes, and how long a kilogram lasts at that."""
    habit = derive(
        "habit_bran_g",
        habit_bran_g,
        words="bran that covers it at every loading",
        loads=loads,
        area_m2=load.figures["area_m2"],
        cover_kg_per_m2=known.load.cover_kg_per_m2,
    )
    words = "a kilogram of bran lasts, at that habit"
    lasts = derive("habit_lasts_d", kilogram_lasts_d, words=words, bran_g=habit, over_d=over)
    return {each.name: each for each in (habit, lasts)}


def wild_figures(known: Known, wild: Wild) -> dict[str, Figure]:
    """Return how long it takes without bran, and how often it fails."""
    ready = derive(
        "wild_ready_d",
        wild_ready_d,
        words="until ready at 20 °C, without bran",
        ready_at_20c_d=wild.ready_at_20c_d,
        without_bran_times=wild.without_bran_times,
    )
    fails = derive(
        "wild_fails_frac",
        wild_fails_frac,
        words="part of such batches that fails, without bran",
        failing_share=wild.failing_share,
        wild_fails_times=known.load.wild_fails_times,
    )
    return {each.name: each for each in (ready, fails)}
