"""What comes in each day, weighed by the materials table."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

import numpy as np

from sourloam.base.days import daily
from sourloam.base.figure import Figure, leaf
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.fleet.knowledge import Knowledge
from sourloam.science.materials.composition import Material
from sourloam.science.vessel.contents import Contents
from sourloam.site.streams import Stream

GRAMS = 1000.0  # in a kilogram
OUTERMOST = 1.8  # half intervals from the median to the outermost of a few hundred normal members
DENSITY_LOW, DENSITY_HIGH = (
    0.75,
    1.35,
)  # loose density of a caddy against the table; JUDGEMENT, published means differ so


def contents_of(material: Material, mass_kg: float = 1.0) -> Contents:
    """Return a mass of one material as amounts that add up."""
    held = material.composition
    return Contents(
        scraps_kg=mass_kg,
        scraps_dry_kg=mass_kg * held.dry_wb_frac,
        dry_kg=mass_kg * held.dry_wb_frac,
        carbon_g=mass_kg * held.carbon_wb_frac * GRAMS,
        nitrogen_g=mass_kg * held.nitrogen_wb_frac * GRAMS,
        sodium_g=mass_kg * held.sodium_wb_frac * GRAMS,
        animal_kg=mass_kg * material.animal_frac,
        loose_l=mass_kg / material.loose_kg_per_l,
        pressed_l=mass_kg / material.pressed_kg_per_l,
    )


def stream_kg(stream: Stream, materials: Mapping[str, Material]) -> Contents:
    """Return a kilogram of a stream."""
    masses = mass_shares(stream, materials)
    whole = Contents()
    for name, share in masses.items():
        whole = whole.plus(contents_of(materials[name], share))
    return whole


def usual_day(streams: Iterable[Stream], materials: Mapping[str, Material]) -> Contents:
    """Return what all streams bring on a usual day."""
    whole = Contents()
    for stream in streams:
        whole = whole.plus(stream_kg(stream, materials).times(kg_per_d(stream, materials)))
    return whole


def usual_kg(streams: Iterable[Stream], materials: Mapping[str, Material]) -> Contents:
    """Return a kilogram of what usually comes."""
    day = usual_day(streams, materials)
    return day.times(1.0 / day.scraps_kg)


def arrivals(
    streams: Iterable[Stream], materials: Mapping[str, Material], first: date, days: int
) -> tuple[Contents, ...]:
    """Return what comes in on each day, as the streams say and without chance."""
    return uneven_arrivals(streams, materials, first, days=days, times={})


def uneven_arrivals(
    streams: Iterable[Stream],
    materials: Mapping[str, Material],
    first: date,
    *,
    days: int,
    times: Mapping[str, Sequence[float]],
) -> tuple[Contents, ...]:
    """Return what comes in on each day, where each stream brings so many times its usual on each."""
    whole = np.zeros((days, len(Contents._fields)))
    dates = tuple(daily(first, days))
    for stream in streams:
        amount = np.array(stream_kg(stream, materials).times(kg_per_d(stream, materials)))
        usual = np.array([stream.usual_times(on) for on in dates])
        whole += (usual * times[stream.id] if stream.id in times else usual)[:, np.newaxis] * amount
    return tuple(map(Contents._make, whole.tolist()))


def kg_per_d(stream: Stream, materials: Mapping[str, Material]) -> float:
    """Return the mass of a stream on a usual day."""
    if not stream.flow.is_by_volume:
        return stream.flow.per_day
    return stream.flow.per_day / stream_kg(stream, materials).loose_l


def loose_density_figure(stream: Stream, materials: Mapping[str, Material]) -> Figure:
    """Return how much a litre of a stream weighs in the caddy."""
    value = 1.0 / stream_kg(stream, materials).loose_l
    spread = Spread(value, value * DENSITY_LOW, value * DENSITY_HIGH, "lognormal")
    return leaf(
        f"{stream.id}.loose_kg_per_l",
        spread,
        "kg/L",
        words=f"a litre of {stream.name or stream.id} in the caddy",
        source="materials_table",
        place="loose_kg_per_l",
        basis=Basis.JUDGEMENT,
    )


def dry_figure(streams: Iterable[Stream], materials: Mapping[str, Material]) -> Figure:
    """Return the dry matter of what usually comes, with the spread of the materials' water."""
    shares = _shares_of_all(tuple(streams), materials)
    value = sum(share * materials[name].composition.dry_wb_frac for name, share in shares.items())
    low = sum(share * (1.0 - materials[name].water_high_wb_frac) for name, share in shares.items())
    high = sum(share * (1.0 - materials[name].water_low_wb_frac) for name, share in shares.items())
    low, high = min(low, value), max(high, value)
    is_share = value - OUTERMOST * (value - low) >= 0.0 and value + OUTERMOST * (high - value) <= 1.0
    return leaf(
        "dry_wb_frac",
        Spread(value, low, high, "normal" if is_share else "uniform"),
        "1",
        words="dry matter of the scraps, part of their mass",
        source="materials_table",
        place="water, water_low, water_high",
        basis=Basis.DERIVED,
    )


def week_kg(streams: Iterable[Stream], materials: Mapping[str, Material]) -> dict[str, float]:
    """Return the mass of each material that streams bring in a usual week; what brings nothing is left out."""
    known = tuple(streams)
    whole = 7.0 * sum(kg_per_d(each, materials) for each in known)
    return {name: whole * share for name, share in _shares_of_all(known, materials).items() if share > 0.0}


def bran_per_kg(knowledge: Knowledge) -> Contents:
    """Return what a kilogram of bran brings beside the scraps; it lies between them and takes up no room."""
    bran = contents_of(knowledge.materials["wheat-bran"])
    return bran._replace(scraps_kg=0.0, scraps_dry_kg=0.0, bran_kg=1.0, loose_l=0.0, pressed_l=0.0)


def mass_shares(stream: Stream, materials: Mapping[str, Material]) -> dict[str, float]:
    """Return the shares of a stream by mass, from volumes in the caddy where they were given so."""
    if stream.shares_by == "mass":
        return dict(stream.shares)
    masses = {name: share * materials[name].loose_kg_per_l for name, share in stream.shares}
    whole = sum(masses.values())
    return {name: mass / whole for name, mass in masses.items()}


def _shares_of_all(streams: tuple[Stream, ...], materials: Mapping[str, Material]) -> dict[str, float]:
    whole = sum(kg_per_d(stream, materials) for stream in streams)
    shares: dict[str, float] = {}
    for stream in streams:
        weight = kg_per_d(stream, materials) / whole
        for name, share in mass_shares(stream, materials).items():
            shares[name] = shares.get(name, 0.0) + weight * share
    return shares
