"""What a pile comes to, as figures that open to what went in and to the rates that it goes by."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, Law, derived, law
from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.science.places.pile.heat import Course, Start
from sourloam.science.places.pile.heat_parameters import PileHeatParameters
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.rates import free_air_frac
from sourloam.science.places.pile.stuff import Stuff

HOT_C: Final = 55.0
MODEL: Final = "a pile of core and edge, followed in time"
RISE_K: Final = 45.0  # of a usual hot pile, for which the known error stands
PARTS: Final = ("kg", "water", "ash", "carbon", "nitrogen", "litres")


@dataclass(frozen=True)
class Laid:
    """A recipe with its start."""

    stuffs: Sequence[Stuff]
    kg: Mapping[str, float]
    start: Start


def _sums(parts: Mapping[str, ArrayLike], name: str) -> FloatArray:
    """Return the whole of something over all parts; inputs are named kg_0, water_0 and so on."""
    count = sum(each.startswith("kg_") for each in parts)
    return np.asarray(sum(np.asarray(parts[f"kg_{n}"]) * np.asarray(parts[f"{name}_{n}"]) for n in range(count)))


@law("carbon of all ÷ nitrogen of all", unit="1", source="cornell_mix", place="C:N of a mix")
def c_to_n(**parts: ArrayLike) -> FloatArray:
    """Return C:N by mass."""
    return np.asarray(_sums(parts, "carbon") / _sums(parts, "nitrogen"))


@law("100 × water of all ÷ mass of all", unit="%", source="cornell_moisture", place="moisture of a mix")
def moisture_pct(**parts: ArrayLike) -> FloatArray:
    """Return the water of the mix."""
    return np.asarray(100.0 * _sums(parts, "water") / _mass(parts))


@law("volumes as they lie moist, added up × what a blend keeps of them", unit="L", source="memory", place="0.75 to 0.9")
def volume_l(blend_frac: ArrayLike, **parts: ArrayLike) -> FloatArray:
    """Return the room of the pile on its first day."""
    return np.asarray(_sums(parts, "litres") * np.asarray(blend_frac))


@law("1000 × mass of all ÷ volume", unit="kg/m3", source="cooperband2002", place="bulk density")
def bulk_density_kg_m3(blend_frac: ArrayLike, **parts: ArrayLike) -> FloatArray:
    """Return the bulk density of the pile on its first day."""
    return np.asarray(1000.0 * _mass(parts) / volume_l(blend_frac, **parts))


@law("100 × (1 − volumes of solids, ash and water ÷ volume)", unit="%", source="agnew_leonard2003", basis=Basis.MEMORY)
def free_air_space_pct(blend_frac: ArrayLike, **parts: ArrayLike) -> FloatArray:
    """Return the free air space of the pile on its first day."""
    mass, water = _mass(parts), _sums(parts, "water")
    burns = 1.0 - _sums(parts, "ash") / (mass - water)
    return np.asarray(100.0 * np.asarray(free_air_frac(mass / volume_l(blend_frac, **parts), water / mass, burns)))


@law("100 × sour ferment ÷ mass of all", unit="%")
def sour_share_pct(sour_kg: ArrayLike, whole_kg: ArrayLike) -> FloatArray:
    """Return the part of the pile that is fresh and sour, by mass."""
    return np.asarray(100.0 * np.asarray(sour_kg) / np.asarray(whole_kg))


def _mass(parts: Mapping[str, ArrayLike]) -> FloatArray:
    return np.asarray(sum(np.asarray(each) for name, each in parts.items() if name.startswith("kg_")))


def recipe_figures(laid: Laid, p: PileParameters) -> dict[str, Figure]:
    """Return what a recipe comes to."""
    parts, amounts = _inputs(laid)
    blend = {"blend_frac": p.blend_frac}
    found = {
        "c_to_n": derived("c_to_n", c_to_n, parts, words="C:N of the pile"),
        "moisture_pct": derived("moisture_pct", moisture_pct, parts, words="water in it"),
        "free_air_space_pct": derived(
            "free_air_space_pct", free_air_space_pct, blend | parts, words="air in it, of its room"
        ),
        "bulk_density_kg_m3": derived(
            "bulk_density_kg_m3", bulk_density_kg_m3, blend | parts, words="what a cubic metre weighs"
        ),
        "volume_l": derived("volume_l", volume_l, blend | parts, words="room that it takes"),
    }
    water = laid.kg.get("water", 0.0)
    count = found["c_to_n"].members.size
    found["water_l"] = _decided("water_l", water, "L", words="water to pour on", count=count)
    sour = sum(laid.kg.get(each.id, 0.0) for each in laid.stuffs if each.is_sour)
    if sour:
        whole = _decided("whole_kg", sum(laid.kg.values()), "kg", words="mass of all", count=count)
        share = {
            "sour_kg": _decided("sour_kg", sour, "kg", words="what is fresh and sour", count=count),
            "whole_kg": whole,
        }
        found["sour_share_pct"] = derived("sour_share_pct", sour_share_pct, share, words="sour ferment in it, by mass")
    return found | {f"amount.{name}": each for name, each in amounts.items()}


def _decided(name: str, value: float, unit: str, *, words: str, count: int) -> Figure:
    """Return an amount that was chosen; it has no interval."""
    told = "chosen by the programme, within what there is"
    return Figure(name, unit, np.full(count, value), words, "sourloam_derivation", told, Basis.DERIVED)


def _inputs(laid: Laid) -> tuple[dict[str, Figure], dict[str, Figure]]:
    """Return what the laws of a mix are handed, part by part, and the amounts by the ids of the parts."""
    used = [each for each in laid.stuffs if laid.kg.get(each.id, 0.0) > 0.0]
    found, amounts = {}, {}
    for n, each in enumerate(used):
        count = each.all("water").size
        amounts[each.id] = found[f"kg_{n}"] = _decided(
            f"amount.{each.id}", laid.kg[each.id], "kg", words=each.name, count=count
        )
        for name in PARTS[1:]:
            found[f"{name}_{n}"] = _value(each, name)
    return found, amounts


def _value(stuff: Stuff, name: str) -> Figure:
    """Return what a kilogram brings; from the values of the table or of the batch that it rests on."""
    words = {"litres": "room of a kilogram, moist and built up"}.get(name, f"{name} of a kilogram")
    rests = dict(stuff.figures)
    own = {"litres": ("loose", "kg_per_l"), "carbon": ("carbon", "carbon_g_per_kg")}.get(
        name, (name, f"{name}_g_per_kg")
    )
    open_ = next((rests[each] for each in own if each in rests), rests.get("dry_wb_frac"))
    source, place, basis = (
        (open_.source, open_.place, open_.basis)
        if open_ is not None and open_.source
        else ("sourloam_derivation", "", Basis.DERIVED)
    )
    if open_ is not None and open_.typed:
        return open_
    return Figure(f"{stuff.id}.{name}", "1", stuff.all(name), f"{stuff.name}: {words}", source, place, basis)


def with_error(course: Course, air_c: FloatArray, p: PileHeatParameters) -> tuple[FloatArray, FloatArray]:
    """Return core and edge, times by members, with the known error of such forecasts in them.

    The error is that of the rise above the air: as large a part of it as the
    known error is of the rise of a usual hot pile.
    """
    core, edge = course.table("core_c"), course.table("edge_c")
    spread = Spread(0.0, -p.peak_error_k.value, p.peak_error_k.value, "normal")
    off = spread.members(core.shape[1], name="pile.model_error", seed=20261) / RISE_K
    outside = np.interp(np.array(course.day), np.arange(air_c.size), air_c)[:, None]
    return outside + (core - outside) * (1.0 + off), outside + (edge - outside) * (1.0 + off)


def heat_figures(course: Course, air_c: FloatArray, laid: Laid, p: PileHeatParameters) -> dict[str, Figure]:
    """Return how warm it gets, when, for how long, and what it loses."""
    core, _ = with_error(course, air_c, p)
    day = np.array(course.day)
    steps = np.diff(day, prepend=0.0)
    hot = core > HOT_C
    first = np.where(hot.any(axis=0), day[np.argmax(hot, axis=0)], np.inf)
    height = day[np.argmax(core, axis=0)]
    rests = {each.name: getattr(p, each.name) for each in fields(p)}
    rests |= {f"amount_{name}": fig for name, fig in _inputs(laid)[1].items()}
    ends, start = course.end, laid.start
    kept = 100.0 * ends.nitrogen / start.nitrogen if ends else np.full(core.shape[1], np.nan)
    values = (
        ("peak_c", "Cel", core.max(axis=0), "hottest that its core gets", "greatest temperature of the core"),
        ("peak_d", "d", height, "days until then", "day of the greatest temperature of the core"),
        ("hot_after_d", "d", first, f"days until its core is at {HOT_C:.0f} °C", f"first day above {HOT_C:.0f} °C"),
        (
            "days_over_55c",
            "d",
            (hot * steps[:, None]).sum(axis=0),
            f"days that its core is above {HOT_C:.0f} °C",
            "days added up",
        ),
        ("ph_over_6_d", "d", _sweet(course, day), "days until its pH is over 6", "first day on which the pH is over 6"),
        ("nitrogen_kept_pct", "%", kept, "part of its nitrogen that stays", "what is left ÷ what went in"),
        (
            "shrinks_to_pct",
            "%",
            100.0 * course.table("volume_l")[-1] / start.volume_l,
            "room that is left of it by then",
            "volume at the end ÷ volume at the start",
        ),
    )
    return {
        name: Figure(
            name,
            unit,
            np.asarray(held, dtype=float),
            words,
            "haug1993",
            "after its form",
            Basis.MEMORY,
            law=Law(told, unit, "haug1993", basis=Basis.MEMORY, model=MODEL),
            inputs=tuple(rests.items()),
        )
        for name, unit, held, words, told in values
    }


def _sweet(course: Course, day: FloatArray) -> FloatArray:
    sweet = course.table("ph") > 6.0
    return np.where(sweet.any(axis=0), day[np.argmax(sweet, axis=0)], np.inf)
