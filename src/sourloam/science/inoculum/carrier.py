"""What carries the culture: bran, hulls, grounds, paper; and what is blended where one is too wet by itself."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.errors import OutOfRange
from sourloam.base.figure import Figure, derived, law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.inoculum.water import activity_of, resting_moisture_wb_frac

LEAST_LIQUID: Final = 0.15  # kg of liquid to a kilogram of blend that spreads the culture evenly; judgement
PARTS: Final = (
    "moisture_wb_frac",
    "target_wb_frac",
    "least_wb_frac",
    "most_wb_frac",
    "drips_wb_frac",
    "sugar_times",
    "loose_kg_per_l",
    "monolayer_kg_per_kg",
)


@dataclass(frozen=True)
class Carrier:
    """A carrier as it is bought or thrown away."""

    id: str
    name: str
    synonyms: tuple[str, ...]
    values: Mapping[str, Figure]  # by the names of PARTS
    note: str
    is_wet: bool  # comes wet, whatever the air
    piece_kg: float | None = None  # of a sheet

    def __getitem__(self, name: str) -> Figure:
        return self.values[name]


@dataclass(frozen=True)
class Gab:
    """The two constants of the isotherm that all carriers share."""

    c: Figure
    k: Figure


@law("shares × values, by mass", unit="1")
def blended(**parts: ArrayLike) -> float | FloatArray:
    """Return the mean of values weighted with their shares: `share_0`, `value_0`, `share_1` and on."""
    count = len(parts) // 2
    pairs = ((np.asarray(parts[f"share_{n}"]), np.asarray(parts[f"value_{n}"])) for n in range(count))
    held = [(share, share * value) for share, value in pairs]
    whole = np.asarray(sum(share for share, _ in held))
    return keep_shape(np.asarray(sum(each for _, each in held) / whole, dtype=float))


@law("(water of the wet one − water that leaves room for liquid) ÷ (water of the wet one − of the dry one)", unit="1")
def dry_frac(
    wet_moisture_wb_frac: ArrayLike,
    dry_moisture_wb_frac: ArrayLike,
    target_wb_frac: ArrayLike,
    least_liquid_kg_per_kg: ArrayLike = LEAST_LIQUID,
) -> float | FloatArray:
    """Return the least share of dry carrier in a blend that still takes some liquid; none where it does by itself.

    Raises
    ------
    OutOfRange
        If the dry one is too wet itself.
    """
    wet, dry, target, liquid = (
        np.asarray(each, dtype=float)
        for each in (wet_moisture_wb_frac, dry_moisture_wb_frac, target_wb_frac, least_liquid_kg_per_kg)
    )
    may_be = target * (1.0 + liquid) - liquid
    if np.any(dry >= may_be):
        why = "it takes no liquid itself; dry it first, or blend in something drier."
        raise OutOfRange("dry_moisture_wb_frac", float(np.max(dry)), Range(0.0, float(np.min(may_be))), why)
    return keep_shape(np.clip(np.where(wet > may_be, (wet - may_be) / np.maximum(wet - dry, 1e-9), 0.0), 0.0, 1.0))


@law("water of the blend, but no more than leaves room for liquid: dry carrier is added until it does", unit="1")
def takes_liquid_wb_frac(
    moisture_wb_frac: ArrayLike, target_wb_frac: ArrayLike, least_liquid_kg_per_kg: ArrayLike = LEAST_LIQUID
) -> float | FloatArray:
    """Return the moisture of a blend that a keeper keeps dry enough to take some liquid."""
    target, liquid = np.asarray(target_wb_frac, dtype=float), np.asarray(least_liquid_kg_per_kg, dtype=float)
    return keep_shape(np.minimum(np.asarray(moisture_wb_frac, dtype=float), target * (1.0 + liquid) - liquid))


def kept_dry(carrier: Carrier, target: Figure | None = None) -> Carrier:
    """Return a blend that is kept dry enough to take liquid, however wet its wet part comes."""
    moisture = derived(
        "carrier_moisture_wb_frac",
        takes_liquid_wb_frac,
        {"moisture_wb_frac": carrier["moisture_wb_frac"], "target_wb_frac": target or carrier["target_wb_frac"]},
        words=f"water in {carrier.name}, as blended",
    )
    return with_moisture(carrier, moisture)


def in_air(carrier: Carrier, humidity: Figure | None, gab: Gab) -> Carrier:
    """Return a carrier at rest with the air of a room; what comes wet, or where nobody measured, stays as it is."""
    if humidity is None or carrier.is_wet:
        return carrier
    moisture = derived(
        "carrier_moisture_wb_frac",
        resting_moisture_wb_frac,
        {
            "humidity_frac": humidity,
            "monolayer_kg_per_kg": carrier["monolayer_kg_per_kg"],
            "gab_c": gab.c,
            "gab_k": gab.k,
        },
        words=f"water in {carrier.name} that stands in that air",
    )
    return with_moisture(carrier, moisture)


def with_moisture(carrier: Carrier, moisture: Figure) -> Carrier:
    """Return a carrier with another moisture."""
    values = {**carrier.values, "moisture_wb_frac": moisture}
    return Carrier(carrier.id, carrier.name, carrier.synonyms, values, carrier.note, carrier.is_wet, carrier.piece_kg)


def blend(parts: Sequence[tuple[Carrier, Figure]]) -> Carrier:
    """Return several carriers as one, by their masses or shares."""
    if len(parts) == 1:
        return parts[0][0]
    values = {name: _mean(name, parts) for name in PARTS}
    names = " and ".join(each.name for each, _ in parts)
    return Carrier("blend", names, (), values, "", is_wet=any(each.is_wet for each, _ in parts))


def _mean(name: str, parts: Sequence[tuple[Carrier, Figure]]) -> Figure:
    shares = {f"share_{n}": share for n, (_, share) in enumerate(parts)}
    values = {f"value_{n}": carrier[name] for n, (carrier, _) in enumerate(parts)}
    return derived(name, blended, {**shares, **values}, words=f"{parts[0][0][name].words}, blended")


def activity_figure(name: str, carrier: Carrier, moisture: Figure, gab: Gab, *, words: str) -> Figure:
    """Return the water activity of a carrier at a moisture."""
    layer = carrier["monolayer_kg_per_kg"]
    inputs = {"moisture_wb_frac": moisture, "monolayer_kg_per_kg": layer, "gab_c": gab.c, "gab_k": gab.k}
    return derived(name, activity_of, inputs, words=words)
