"""The course of a bed as figures: rests, nitrogen by thirds of a season, when soft parts are gone."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import Figure, derive, derived, law
from sourloam.base.numbers import FloatArray
from sourloam.science.batch.content import Content
from sourloam.science.chem.elements import mass_share
from sourloam.science.places.bed import dose, season
from sourloam.science.places.bed.spot import Known, Spot, exactly, moist, warmth_d
from sourloam.science.places.ground.crops import Crop, Edible
from sourloam.science.places.ground.thermal import first_day

MODEL: Final = "the bed, day by day from the temperature of its soil (science/places/bed)"
GONE_FRAC: Final = 0.1  # of the soft parts; what is left then nobody sees. judgement
THIRDS: Final = 3
RESTS: Final = MappingProxyType(
    {
        "transplant": "days until it may be planted",
        "sowing": "days until it may be sown",
        "root_crop": "days until root crops",
    }
)
Simulation = Callable[..., FloatArray]


@dataclass(frozen=True)
class Course:
    """Where carbon and nitrogen are, day by day, and how sour it is."""

    pools: season.Pools
    sourer_ph: FloatArray


def rest_figures(spot: Spot, known: Known) -> dict[str, Figure]:
    """Return the rests before planting, sowing and root crops, counted from digging in."""
    at_20c = {
        "transplant": known.bed.rest_at_20c_d,
        "sowing": known.season.rest_sown_at_20c_d,
        "root_crop": known.season.rest_root_at_20c_d,
    }
    return {
        f"rest_days_{name}": derived(
            f"rest_days_{name}",
            _rest_law(spot),
            {"at_20c_d": each, "least_d": known.bed.rest_least_d} | _warmth(spot, known),
            words=RESTS[name],
        )
        for name, each in at_20c.items()
    }


def course_figures(content: Content, found: Mapping[str, Figure], spot: Spot, known: Known) -> dict[str, Figure]:
    """Return the nitrogen that comes free in a season and in each third of it, and when soft parts are gone."""
    moved = _moved(content, found, known)
    last = round(known.season.season_d.value)
    ends = [round(last * each / THIRDS) for each in range(THIRDS + 1)]
    inputs = moved | _warmth(spot, known)
    whole = derived(
        "available_n_g_per_m2", _net_law(spot, 0, last), inputs, words="of which plants get in the season, six months"
    )
    names = ("first", "second", "last")
    thirds = [
        derived(
            f"n_{name}_third_g_per_m2", _net_law(spot, *ends[at : at + 2]), inputs, words=f"in its {name} two months"
        )
        for at, name in enumerate(names)
    ]
    gone = derived(
        "gone_days",
        _gone_law(spot),
        {"visible_per_d": known.season.visible_per_d} | _warmth(spot, known),
        words="days until nine tenths of the soft parts are gone",
    )
    return {each.name: each for each in (whole, *thirds, gone)}


def harvest_figure(content: Content, crop: Crop | None, known: Known, local_wait_d: float | None) -> Figure | None:
    """Return the wait from digging in to a harvest, the longest of all rules; none where no animal matter went in.

    Where nobody says what grows there, the part that is eaten is taken to touch the soil.
    """
    if not content.animal_matter or (crop is not None and crop.edible is Edible.NONE):
        return None
    more = known.season
    touches = crop is None or crop.edible.touches_soil
    rule = known.bed.harvest_wait_d if touches else more.harvest_high_d
    where = "touches the soil" if touches else "does not touch the soil"
    waits = {"rule_d": rule.called(f"as after raw manure, for what {where}")}
    if touches:
        waits["soil_d"] = more.soil_contact_d.called("in soil, since souring is no heat")
    if local_wait_d is not None:
        waits["local_d"] = exactly("local_wait_d", local_wait_d, "d", words="by your local rule", known=known)
    return derived("earliest_harvest_days", dose.longest_d, waits, words="days until something may be harvested")


def course_of(content: Content, found: Mapping[str, Figure], known: Known, passed_d: FloatArray) -> Course:
    """Return the pools of a bed and its acid, for (members, days) of days at 20 °C."""
    given = {name: each.members for name, each in _moved(content, found, known).items()}
    sour = np.reshape(found["shift_ph"].members, (-1, 1)) * np.exp(
        -np.reshape(known.season.fast_per_d.members, (-1, 1)) * passed_d
    )
    return Course(_pools(given, passed_d), sour)


def fast_carbon(content: Content, known: Known) -> Figure:
    """Return the part of the carbon that is eaten first."""
    if content.state != "ready":
        return known.season.fresh_fast_frac
    return derive(
        "fast_frac",
        fast_frac,
        words="part of its carbon in acid and sugar",
        lactic_g_per_kg=content["lactic_g_per_kg"],
        acetic_g_per_kg=content["acetic_g_per_kg"],
        sugar_g_per_kg=content["sugar_g_per_kg"],
        carbon_g_per_kg=content["carbon_g_per_kg"],
    )


@law("carbon of lactic acid, acetic acid and sugar ÷ all carbon", unit="1", source="carbon_formula")
def fast_frac(
    lactic_g_per_kg: FloatArray, acetic_g_per_kg: FloatArray, sugar_g_per_kg: FloatArray, carbon_g_per_kg: FloatArray
) -> FloatArray:
    """Return the part of the carbon that microbes of the soil eat first."""
    acids = lactic_g_per_kg * mass_share("C", "C3H6O3") + acetic_g_per_kg * mass_share("C", "C2H4O2")
    return np.minimum((acids + sugar_g_per_kg * mass_share("C", "C6H12O6")) / carbon_g_per_kg, 1.0)


def _moved(content: Content, found: Mapping[str, Figure], known: Known) -> dict[str, Figure]:
    """Return all that the pools go by, by name."""
    more = known.season
    return {
        "nitrogen_g": found["nitrogen_g_per_m2"],
        "carbon_g": found["carbon_g_per_m2"],
        "ammonia_frac": content["ammonia_frac"],
        "free_frac": found["free_frac"],
        "fast_frac": fast_carbon(content, known),
        "fast_per_d": more.fast_per_d,
        "slow_per_d": more.slow_per_d,
        "turnover_per_d": more.turnover_per_d,
        "decomposes_frac": more.decomposes_frac,
        "efficiency": more.efficiency,
        "microbial_c_to_n": more.microbial_c_to_n,
    }


def _warmth(spot: Spot, known: Known) -> dict[str, Figure]:
    return {
        "q10": known.bed.rest_q10,
        "stops_c": known.bed.rest_stops_c,
        "weather_k": known.season.weather_k,
        "fades_d": known.season.reading_fades_d,
        "moist_frac": moist(spot, known),
    }


WARMTH: Final = ("q10", "stops_c", "weather_k", "fades_d", "moist_frac")


def _passing(spot: Spot, given: Mapping[str, FloatArray]) -> FloatArray:
    return warmth_d(spot, *(given[name] for name in WARMTH))


def _pools(given: Mapping[str, FloatArray], passed_d: FloatArray) -> season.Pools:
    carbon, nitrogen = given["carbon_g"], given["nitrogen_g"]
    applied = season.Applied(
        carbon, carbon * given["fast_frac"], nitrogen, nitrogen * given["ammonia_frac"], given["free_frac"]
    )
    return season.pools(applied, season.Rates(*(given[name] for name in season.Rates._fields)), passed_d)


def _rest_law(spot: Spot) -> Simulation:
    @law(
        "first day by which the warmth of the soil makes up the rest at 20 °C, at least two weeks",
        unit="d",
        model=MODEL,
    )
    def rest(at_20c_d: FloatArray, least_d: FloatArray, **warmth: FloatArray) -> FloatArray:
        return np.maximum(first_day(_passing(spot, warmth), at_20c_d), least_d)

    return rest


def _gone_law(spot: Spot) -> Simulation:
    @law("first day by which nine tenths have rotted, at so much a day at 20 °C", unit="d", model=MODEL)
    def gone(visible_per_d: FloatArray, **warmth: FloatArray) -> FloatArray:
        return first_day(_passing(spot, warmth), -np.log(GONE_FRAC) / visible_per_d)

    return gone


def _net_law(spot: Spot, first: int, last: int) -> Simulation:
    words = "ammonia + what comes free of the rest − what microbes tie up that eat acid and sugar"
    if first:
        words = f"{words}, from day {first} to day {last}"

    @law(words, unit="g/m2", model=MODEL)
    def net(**given: FloatArray) -> FloatArray:
        ends = _passing(spot, given)[:, [first, last]]
        free = _pools(given, ends).free_nitrogen_g
        return np.asarray(free[:, 1] - (free[:, 0] if first else 0.0))

    return net
