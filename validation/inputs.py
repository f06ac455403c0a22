"""What a run of a study was given, by the rules of admission.md: the same rule for every study."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import SEED, Figure, leaf
from sourloam.base.numbers import FloatArray
from sourloam.base.spread import Spread
from sourloam.evidence.materials import load_materials
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer, Measured
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.stack.life import Starts
from sourloam.science.load.assess import Portion
from validation.studies import Number, Run, ends

PIECE_MM: Final = MappingProxyType(  # by what the classes of admission.md say; judgement
    {"whole": 100.0, "coarse": 70.0, "chopped": 25.0, "shredded or salted": 4.0, "ground": 2.0}
)
MATERIAL: Final = MappingProxyType(
    {
        "salt_pct": "salt",
        "sugar_pct": "sugar",
        "molasses_pct": "molasses",
        "water_pct": "water",
        "bran_pct": "wheat-bran",
    }
)
WHOLE_KG: Final = 1.0  # of ingredients
JAR_L_PER_KG: Final = 2.0  # of all that is in it; judgement
JAR_FLOOR_M2: Final = 0.01  # judgement
IS_COOKED: Final = MappingProxyType({"raw": (False,), "cooked": (True,), "unknown": (False, True)})
"""Whether it was cooked; of what may have been either, each half of the members takes one."""


def starts_of(run: Run, days: int, living: Living, *, seed: int = SEED) -> Starts:
    """Return the members of a run as they were laid."""
    drawn = [draw(each, living, seed=seed) for each in fillings_of(run, days, members=living.members, seed=seed)]
    starts = drawn[0] if len(drawn) == 1 else halves(*drawn)
    return starts._replace(warmer_c=warmer_c(run, starts.warmer_c, seed))


def halves(one: Starts, other: Starts) -> Starts:
    """Return an ensemble whose members come from two in turn."""
    arrays = (np.array(each) for each in one)
    mixed = Starts(*arrays)
    for mine, theirs in zip(mixed, other, strict=True):
        mine[1::2] = theirs[1::2]
    return mixed


def warmer_c(run: Run, as_usual: FloatArray, seed: int) -> FloatArray:
    """Return how much warmer each member stood than the middle of what is printed: a range goes before the usual."""
    low, high = ends(run.temperature_c)
    if low == high:
        return as_usual
    half = 0.5 * (high - low)
    return Spread(0.0, -half, half, "uniform").members(as_usual.size, name="validation room", seed=seed)


def fillings_of(run: Run, days: int, *, members: int, seed: int = SEED) -> tuple[Filling, ...]:
    """Return what a run laid in: one filling, or two where it may have been raw or cooked."""
    return tuple(_filling(run, days, is_cooked, members, seed=seed) for is_cooked in IS_COOKED[run.flora])


def _filling(run: Run, days: int, is_cooked: bool, members: int, *, seed: int) -> Filling:  # noqa: FBT001
    total = sum(_middle(each) for each in run.ingredients.values())
    portions = _portions(run.ingredients, WHOLE_KG / total, members, seed)
    by_material = {MATERIAL[name]: amount for name, amount in run.added.items()}
    added = _portions(by_material, WHOLE_KG / 100.0, members, seed)
    layer = Layer(
        portions,
        added=added,
        culture_log10=_spread(run.culture_log10),
        piece_mm=PIECE_MM[run.preparation],
        is_cooked=is_cooked,
        measured=measured_of(run),
    )
    mass_kg = sum(each.mass.value for each in (*portions, *added))
    room_c = np.full(days, _middle(run.temperature_c))
    kept = Kept(JAR_L_PER_KG * mass_kg, JAR_FLOOR_M2, 0.0, room_c, draws_every_d=0, is_sealed=run.is_sealed)
    return Filling((layer,), kept)


def measured_of(run: Run) -> Measured:
    """Return what a study prints of its matter, which goes before the table of materials."""
    told = run.measured
    return Measured(
        dry_frac=_spread(told.get("dry_pct"), 0.01),
        protein_dry_frac=_spread(told.get("protein_pct_dry"), 0.01),
        start_ph=_spread(told.get("start_ph")),
    )


def _portions(amounts: Mapping[str, Number], times: float, members: int, seed: int) -> tuple[Portion, ...]:
    materials = load_materials()
    return tuple(
        Portion(materials[name], _mass(name, amount, times, members=members, seed=seed))
        for name, amount in amounts.items()
    )


def _mass(name: str, amount: Number, times: float, *, members: int, seed: int) -> Figure:
    return leaf(f"validation {name}", _between(amount, times), "kg", members=members, seed=seed)


def _spread(value: Number | None, times: float = 1.0) -> Spread | None:
    return None if value is None else _between(value, times)


def _between(value: Number, times: float) -> Spread:
    low, high = (times * each for each in ends(value))
    return Spread.exactly(low) if low == high else Spread(0.5 * (low + high), low, high, "uniform")


def _middle(value: Number) -> float:
    return 0.5 * sum(ends(value))
