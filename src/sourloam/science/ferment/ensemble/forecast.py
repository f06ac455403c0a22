"""The forecast of a vessel: figures with their intervals, courses, what may go wrong."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import Figure, Law
from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis
from sourloam.science.ferment.ensemble import balance
from sourloam.science.ferment.ensemble.dates import Dates, critical_ph, dates_of
from sourloam.science.ferment.ensemble.failing import Failing, failing_of, goes_wrong, log10_per_g
from sourloam.science.ferment.ensemble.filling import Filling
from sourloam.science.ferment.ensemble.follow import Followed
from sourloam.science.ferment.ensemble.liquid import strength
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.ensemble.past import Past, chance_after, learned
from sourloam.science.ferment.layer.acidity import dissolved_co2_mol
from sourloam.science.ferment.layer.species import G_PER_MOL
from sourloam.science.ferment.layer.state import State
from sourloam.science.ferment.stack.air import L_PER_MOL
from sourloam.science.ferment.stack.life import LIQUID, LIQUID_PH

MODEL: Final = "the vessel, followed layer by layer every four hours (science/ferment)"
LACTIC: Final = State._fields.index("lactic_mol")
SHOWN: Final = ("lactic", "acetic", "butyric", "ethanol")
LEAST_PER_G: Final = 1e-3  # fewer living cells than one in a kilogram are none
COUNTED: Final = MappingProxyType(  # what is counted together, of the groups that are followed
    {
        "lactic": ("warm", "cold"),
        "enteric": ("enteric",),
        "putrid": ("sugar_putrid", "protein_putrid"),
        "yeast": ("yeast", "film"),
    }
)


@dataclass(frozen=True)
class Band:
    """A quantity day by day from the first layer: its middle, the ends of its 90 % interval, and of the half within."""

    median: FloatArray
    low: FloatArray
    high: FloatArray
    inner_low: FloatArray  # half of all cases lie between these two
    inner_high: FloatArray
    unit: str


@dataclass(frozen=True)
class Forecast:
    """What a vessel is expected to do."""

    figures: Mapping[str, Figure]
    course: Mapping[str, Band]
    failing: tuple[Failing, ...]
    goes_wrong_frac: float  # chance that it is never ready, or fails in any way
    past: Past
    followed: Followed


@dataclass(frozen=True)
class Limits:
    """What a keeper asks of a vessel, beside what the model knows."""

    least_d: float  # a keeper leaves it shut at the least
    critical_scatter: FloatArray
    has_animal: bool
    past: Past = Past()


def forecast(followed: Followed, filling: Filling, living: Living, limits: Limits) -> Forecast:
    """Return what the courses of all members say.

    Raises
    ------
    BalanceError
        If carbon or nitrogen was gained or lost on the way.
    """
    balance.check(followed)
    dates = dates_of(
        followed, filling, scatter=limits.critical_scatter, acid_m2_per_d=living.model.acid_m2_per_d.members
    )
    failing, gas_l = failing_of(followed, living, filling.kept.floor_m2), _gas_l(followed)
    past, weighs = limits.past, living.model.weighs_batches.value
    amiss = float(goes_wrong(dates.ready_d, failing).mean())
    return Forecast(
        MappingProxyType(_figures(followed, living, dates=dates, limits=limits, gas_l=gas_l)),
        MappingProxyType(_course(followed, living, limits.critical_scatter, gas_l)),
        learned(failing, past, weighs=weighs),
        float(chance_after(amiss, past.failed, past.batches, weighs=weighs)),
        past,
        followed,
    )


def _figures(
    followed: Followed, living: Living, *, dates: Dates, limits: Limits, gas_l: FloatArray
) -> dict[str, Figure]:
    inputs = strongest(living)
    start = np.sum(followed.starts.dry_kg, axis=1) * 1000.0
    gas_g = balance.gas_g(followed)[:, -1]
    nitrogen = np.sum(balance.nitrogen_laid_g(followed), axis=1)
    mass = np.sum(followed.starts.dry_kg + followed.water_kg[:, -1], axis=1)
    lactic = balance.whole(followed.layers[:, -1, :, LACTIC] * G_PER_MOL["lactic"], followed)

    def figure(name: str, unit: str, members: FloatArray, words: str) -> Figure:
        rule = Law("read off the course of every member", unit, model=MODEL)
        return Figure(name, unit, members, words, basis=Basis.DERIVED, law=rule, inputs=inputs)

    due = np.maximum(dates.ready_d, limits.least_d)
    held = np.where(np.isinf(dates.ready_d), np.inf, dates.held_d)  # sour, and never such that it keeps: not held
    if limits.has_animal:
        due = np.maximum(due, held)
    found = [
        figure("soured_day", "d", dates.soured_d, "days from the last layer until all of it is sour"),
        figure("ready_day", "d", dates.ready_d, "days from the last layer until it keeps"),
        figure("due_day", "d", due, "days from the last layer until it is due"),
        figure("chance_not_ready", "1", np.isinf(dates.ready_d).astype(float), "chance that it never gets there"),
        figure("final_ph", "[pH]", np.max(followed.ph[:, -1], axis=1), "pH of the worst layer in the end"),
        figure("leachate_l", "L", followed.vessel[:, -1, LIQUID], "liquid that runs off"),
        figure("dry_matter_loss_pct", "%", 100.0 * gas_g / start, "dry matter that leaves as gas"),
        figure(
            "nitrogen_loss_pct",
            "%",
            100.0 * balance.liquid_nitrogen_g(followed) / np.maximum(nitrogen, 1e-12),
            "nitrogen that leaves with the liquid",
        ),
        figure("lactic_g_per_kg", "g/kg", lactic / mass, "lactic acid in what stays"),
        figure("gas_l", "L", gas_l[:, -1], "gas that it gives off"),
    ]
    strong = strength(followed)
    found += [
        figure("leachate_ec_ds_m", "dS/m", strong["ec_ds_m"], "that liquid conducts"),
        figure("leachate_nitrogen_g_per_l", "g/L", strong["nitrogen_g_per_l"], "nitrogen in a litre of it"),
        figure("leachate_potassium_g_per_l", "g/L", strong["potassium_g_per_l"], "potassium in a litre of it"),
    ]
    if limits.has_animal:
        found.append(figure("hold_day", "d", held, "days until it has been held sour for meat and fish"))
    return {each.name: each for each in found}


def strongest(living: Living) -> tuple[tuple[str, Figure], ...]:
    """Return the parameters that move a vessel most."""
    names = ("lactic_rate_times", "buffer_times", "ceiling_times", "release_per_d", "bran_log10", "warmer_c")
    return tuple((name, getattr(living.model, name)) for name in names)


def _gas_l(followed: Followed) -> FloatArray:
    """Return the gas that leaves the water, L at 20 °C: (members, days + 1)."""
    made = balance.gas_mol(followed)
    water = np.nansum(followed.water_kg, axis=2)
    kept = np.vectorize(dissolved_co2_mol)(made, np.maximum(water, 1e-9))
    return np.asarray(np.maximum(made - kept, 0.0) * L_PER_MOL)


def _course(followed: Followed, living: Living, scatter: FloatArray, gas_l: FloatArray) -> dict[str, Band]:
    worst = np.nanmax(followed.ph, axis=2)
    course = {
        "ph": _band(worst, "[pH]"),
        "critical_ph": _band(np.nanmin(critical_ph(followed, scatter), axis=2), "[pH]"),
        "leachate_l": _band(followed.vessel[:, :, LIQUID], "L"),
        "leachate_ph": _band(followed.vessel[:, :, LIQUID_PH], "[pH]"),
        "gas_l": _band(gas_l, "L"),
    }
    water = followed.water_kg
    whole = np.nansum(water, axis=2)
    for name in SHOWN:
        held = np.nansum(followed.amount(f"{name}_mol") * water, axis=2) / whole * G_PER_MOL[name]
        course[f"{name}_g_per_kg_water"] = _band(held, "g/kg")
    laid_g = np.sum(followed.starts.dry_kg, axis=1, keepdims=True) * 1000.0
    course["dry_matter_loss_pct"] = _band(100.0 * balance.gas_g(followed) / laid_g, "%")
    course["nitrogen_loss_pct"] = _band(100.0 * _nitrogen_lost_frac(followed), "%")
    for name, groups in COUNTED.items():
        cells = sum(10.0 ** log10_per_g(followed, living, group) for group in groups)
        whole_log10 = np.log10(np.maximum(np.nansum(cells * water, axis=2) / whole, LEAST_PER_G))
        course[f"{name}_log10_per_g_water"] = _band(whole_log10, "1")
    return course


def _nitrogen_lost_frac(followed: Followed) -> FloatArray:
    """Return what of the nitrogen of all that is laid in has left with the liquid: (members, days + 1)."""
    laid = balance.nitrogen_laid_g(followed)
    there = balance.nitrogen_g(followed.layers) * followed.first_water_kg[:, None, :]
    left = np.nansum(np.where(np.isfinite(there), laid[:, None, :] - there, 0.0), axis=2)
    return np.asarray(left / np.maximum(laid.sum(axis=1)[:, None], 1e-12))


def _band(values: FloatArray, unit: str) -> Band:
    """Return the middle and the interval of (members, days + 1); days on which there is none are not numbers."""
    ends = np.full((5, values.shape[1]), np.nan)
    there = np.isfinite(values).any(axis=0)
    if there.any():
        ends[:, there] = np.nanquantile(values[:, there], (0.05, 0.25, 0.5, 0.75, 0.95), axis=0)
    low, inner_low, median, inner_high, high = ends
    return Band(median, low, high, inner_low, inner_high, unit)
