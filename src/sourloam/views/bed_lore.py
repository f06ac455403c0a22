"""What people who dig batches in have seen: what is left of them, how much others give, what digs."""

from collections.abc import Iterator
from typing import Final

import numpy as np

from sourloam.science.places.bed.dig import Dug
from sourloam.science.places.offer import rough

SLOW: Final = (
    "Shells, bones, stones of fruit, avocado skin and paper lie on for months: push them back under, or pick them out."
)
ABOVE: Final = (
    "Plants that stand a hand above it, plain soil between, mostly do well all the same: try two side by side."
)
CROWDED: Final = (
    "A barrel or tube without a bottom, set into the bed, takes it among plants; or a tub of soil, or the pile."
)
BUCKET_KG: Final = 10.0  # what a vessel of 20 L gives; as the usual batch


def left_lines(dug: Dug) -> Iterator[str]:
    """Give when the soft parts are gone, what lies on, and what helps where they do not go."""
    gone = dug.figures["gone_days"]
    if np.isfinite(gone.value):
        span = f"{gone.low:.0f} to {gone.high:.0f} days" if np.isfinite(gone.high) else f"{gone.low:.0f} days or more"
        yield f"Nine tenths of the soft parts are gone after {span}; longer in lumps, in sticky clay and in dry soil."
    yield SLOW
    yield "Lumps after that? Chop them once more, mix in more soil, and wait: clay gets better with each round."


def custom_lines(dug: Dug) -> Iterator[str]:
    """Give what is told without a source, beside what is worked out."""
    dose, area = dug.figures["dose_kg_per_m2"].value, dug.spot.area_m2
    whole = ""
    if area is not None:
        buckets = f"{rough(area / BUCKET_KG)} to {rough(2.0 * area / BUCKET_KG)} vessels"
        whole = f": on {rough(area)} m2 {rough(area)} to {rough(2.0 * area)} kg a year, {buckets} of {BUCKET_KG:g} kg"
    yield f"By custom, without a source, one kilogram to a square metre and year, two on poor ground{whole}."
    yield f"A metre of trench is given ten times that and rests; {rough(dose)} kg, as above, is for the whole bed."
    yield "By volume one part to two of soil for most plants, one to one for pumpkins."


def digging_lines(dug: Dug) -> Iterator[str]:
    """Give what draws animals, and what to do when they came."""
    yield "Sour scraps draw fewer animals than fresh ones, unripe more than ripe; none are safe, and reports differ."
    if dug.spot.animals_dig:
        yield "Dug up? Bury it again deeper, lay wire mesh or thorny twigs on it, and take another place the next time."
        yield "Leave the next one shut for a week longer, and chop it finer: the less it smells, the less is dug."
