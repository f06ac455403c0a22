"""A pile from what is at hand, by a quadratic programme: as near to what a pile wants as the amounts allow.

Each want is a straight line in the amounts: of C:N, for instance, carbon is to
be at least the least ratio times nitrogen. What a want misses is squared,
weighed by how much of it would be felt, and the sum of all is made least. So a
recipe comes out even where no amounts meet every want, and says which it misses.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import highspy
import numpy as np

from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.stuff import Stuff

PARTICLE_KG_PER_L: Final = MappingProxyType({"solids": 1.55, "ash": 2.65, "water": 1.0})  # agnew_leonard2003
ROUNDS: Final = 4  # the weights rest on the whole, which the amounts make
TINY: Final = 1e-2  # weight of amounts as such, so that nothing goes in that helps nothing
VOLUME_WEIGHT: Final = 0.2  # a recipe that is right counts for more than a pile that is large
MET: Final = 0.15  # of what is felt of a want: less than that nobody notices
NEVER: Final = 1e9
ALL_WATER: Final = 0.99
GREEN_RATIO: Final = 30.0  # C:N under which something counts as green
CURES: Final = MappingProxyType(
    {
        "brown": frozenset({"carbon", "wet", "air", "heavy", "sour"}),
        "green": frozenset({"nitrogen"}),
        "water": frozenset({"dry"}),
    }
)
LONGEST_S: Final = 2.0  # s; a hundred times what it takes, so that nobody waits for a recipe


@dataclass(frozen=True)
class Want:
    """One line that the amounts should keep above nothing, and how large a miss is felt, per unit of the whole."""

    id: str  # "dry", "wet", "carbon", "nitrogen", "air", "loose", "sour", "heavy", "small"
    felt: float


WANTS: Final = (
    Want("carbon", 5.0),  # units of C:N
    Want("nitrogen", 5.0),
    Want("wet", 0.05),  # of the mass
    Want("dry", 0.05),
    Want("air", 0.05),  # of the volume
    Want("loose", 1.0),
    Want("heavy", 0.10),
    Want("sour", 0.05),
    Want("small", 0.5),
)


@dataclass(frozen=True)
class Aims:
    """The ranges that a recipe aims at; each is a target of a handbook or a limit of the place."""

    ratio: tuple[float, float]
    moisture_frac: tuple[float, float]
    air_frac: tuple[float, float]
    most_kg_per_l: float
    sour_frac: float
    blend_frac: float
    wanted_l: float  # from which it heats
    room_l: float = NEVER

    @classmethod
    def of(cls, p: PileParameters, *, ratio_most: float, air: tuple[float, float], room_l: float = NEVER) -> "Aims":
        """Return the aims that the numbers of a pile give."""
        return cls(
            (p.carbon_to_nitrogen.value, ratio_most),
            (p.moisture_least_frac.value, p.moisture_most_frac.value),
            air,
            p.pile_kg_per_l.high,
            p.sour_share_frac.value,
            p.blend_frac.value,
            min(p.heats_l.value, room_l),
            room_l,
        )


@dataclass(frozen=True)
class Composed:
    """Amounts, what they come to, and which wants they miss; all at middle values."""

    kg: Mapping[str, float]  # by id
    missed: Mapping[str, float]  # by want, in steps that are felt
    whole: Mapping[str, float]  # mass, water, carbon, nitrogen, volume ...

    @property
    def is_met(self) -> bool:
        """Whether every want is met but those of size and of lying loose, which settles."""
        return not set(self.missed) - {"small", "loose"}


def compose(stuffs: Sequence[Stuff], aims: Aims) -> Composed:
    """Return the best recipe from what there is; every amount lies between what must and what can go in.

    Raises
    ------
    ValueError
        If there is nothing at all.
    """
    if not stuffs or sum(each.most_kg for each in stuffs) <= 0.0:
        raise ValueError("a pile is made of something")
    per_kg = [_per_kg(each) for each in stuffs]
    amounts = _first(stuffs, per_kg, aims)
    for _ in range(ROUNDS):
        whole = _whole(per_kg, amounts, aims)
        amounts = _solved(stuffs, per_kg, whole, aims, before=amounts)
    whole = _whole(per_kg, amounts, aims)
    lines = _lines(per_kg, aims)
    scale = _felt(whole, aims.wanted_l)
    missed = {
        name: -short / scale[name]
        for name, (line, above) in lines.items()
        if (short := float(line @ amounts) - above) < -MET * scale[name]
    }
    kept = {each.id: float(amount) for each, amount in zip(stuffs, amounts, strict=True) if amount > 1e-6}
    return Composed(kept, missed, whole)


def _first(stuffs: Sequence[Stuff], per_kg: Sequence[Mapping[str, float]], aims: Aims) -> np.ndarray:
    """Return amounts to begin with: all there is, or so much of it as makes a pile that heats."""
    must = np.array([each.least_kg for each in stuffs])
    free = np.array([min(each.most_kg, 1000.0) if each.id != "water" else 0.0 for each in stuffs]) - must
    litres = aims.blend_frac * np.array([each["litres"] for each in per_kg])
    lacks = max(aims.wanted_l - float(litres @ must), 0.0)
    share = min(lacks / max(float(litres @ np.maximum(free, 0.0)), 1e-9), 1.0)
    return np.asarray(must + share * np.maximum(free, 0.0))


def lifted(made: Composed, stuffs: Sequence[Stuff], more: Mapping[str, Stuff]) -> list[Stuff]:
    """Return the same with as much as is wanted of what would cure it; all else stays as it was made.

    What is dry and rich in carbon cures all but a want of nitrogen and of
    water. Where none of that kind is at hand the usual thing of `more` stands
    for it: "brown", "green" or "water".
    """
    kinds = {kind for kind, wants in CURES.items() if wants & set(made.missed)}
    found = [replace(each, most_kg=made.kg.get(each.id, 0.0), least_kg=made.kg.get(each.id, 0.0)) for each in stuffs]
    for kind in sorted(kinds):
        mine = [n for n, each in enumerate(found) if not each.is_sour and kind_of(each) == kind]
        found = [replace(each, most_kg=NEVER) if n in mine else each for n, each in enumerate(found)]
        if not mine:
            found.append(replace(more[kind], most_kg=NEVER))
    return found


def kind_of(stuff: Stuff) -> str:
    """Return what something is good for in a pile."""
    if stuff.middle("water") > ALL_WATER:
        return "water"
    return "green" if stuff.middle("carbon") < GREEN_RATIO * stuff.middle("nitrogen") else "brown"


def _per_kg(stuff: Stuff) -> dict[str, float]:
    """Return what a kilogram brings to the lines, at middle values."""
    water, ash = stuff.middle("water"), stuff.middle("ash")
    solids = max(1.0 - water - ash, 0.0)
    return {
        "one": 1.0,
        "water": water,
        "carbon": stuff.middle("carbon"),
        "nitrogen": stuff.middle("nitrogen"),
        "litres": stuff.middle("litres"),
        "filled": solids / PARTICLE_KG_PER_L["solids"] + ash / PARTICLE_KG_PER_L["ash"] + water,
        "sour": float(stuff.is_sour),
        "thins": float(water < ALL_WATER),  # water makes nothing less sour
    }


def _whole(per_kg: Sequence[Mapping[str, float]], amounts: np.ndarray, aims: Aims) -> dict[str, float]:
    """Return what the amounts come to."""
    summed = {
        name: float(sum(amount * each[name] for amount, each in zip(amounts, per_kg, strict=True)))
        for name in per_kg[0]
    }
    summed["volume_l"] = aims.blend_frac * summed["litres"]
    return summed


def _felt(whole: Mapping[str, float], wanted_l: float) -> dict[str, float]:
    """Return the miss of each want that counts as one."""
    mass, volume = max(whole["one"], 1e-6), max(whole["volume_l"], 1e-6)
    per = {
        "carbon": whole["nitrogen"],
        "nitrogen": whole["nitrogen"],
        "air": volume,
        "loose": volume,
        "small": wanted_l,
    }
    return {each.id: each.felt * max(per.get(each.id, mass), 1e-9) for each in WANTS}


def _lines(per_kg: Sequence[Mapping[str, float]], aims: Aims) -> dict[str, tuple[np.ndarray, float]]:
    """Return each want as a line over the amounts, and what it must come to at least."""
    column = {name: np.array([each[name] for each in per_kg]) for name in per_kg[0]}
    volume = aims.blend_frac * column["litres"]
    (least_ratio, most_ratio), (least_wet, most_wet), (least_air, most_air) = (
        aims.ratio,
        aims.moisture_frac,
        aims.air_frac,
    )
    return {
        "carbon": (column["carbon"] - least_ratio * column["nitrogen"], 0.0),
        "nitrogen": (most_ratio * column["nitrogen"] - column["carbon"], 0.0),
        "wet": (most_wet * column["one"] - column["water"], 0.0),
        "dry": (column["water"] - least_wet * column["one"], 0.0),
        "air": ((1.0 - least_air) * volume - column["filled"], 0.0),
        "loose": (column["filled"] - (1.0 - most_air) * volume, 0.0),
        "heavy": (aims.most_kg_per_l * volume - column["one"], 0.0),
        "sour": (aims.sour_frac * column["thins"] - column["sour"], 0.0),
        "small": (volume, aims.wanted_l),
    }


def _solved(
    stuffs: Sequence[Stuff],
    per_kg: Sequence[Mapping[str, float]],
    whole: Mapping[str, float],
    aims: Aims,
    *,
    before: np.ndarray,
) -> np.ndarray:
    """Return the amounts that make the squared misses least; those before where no solution came in time."""
    felt, lines = _felt(whole, aims.wanted_l), _lines(per_kg, aims)
    count, mass = len(stuffs), max(whole["one"], 1.0)
    model = highspy.Highs()  # type: ignore[no-untyped-call]
    model.silent()
    model.setOptionValue("time_limit", LONGEST_S)
    for each in stuffs:  # in parts of the whole, so that all numbers are about one
        most = max(each.most_kg, each.least_kg) / mass
        model.addVar(each.least_kg / mass, most if most < NEVER / mass else highspy.kHighsInf)
    for _ in lines:
        model.addVar(0.0, highspy.kHighsInf)
    for number, (name, (line, above)) in enumerate(lines.items()):
        held = np.flatnonzero(line)
        columns = np.array([*held, count + number], dtype=np.int32)
        values = np.array([*(line[held] * mass / felt[name]), 1.0])
        model.addRow(above / felt[name], highspy.kHighsInf, len(columns), columns, values)
    if aims.room_l < NEVER:
        volume = aims.blend_frac * np.array([each["litres"] for each in per_kg]) * mass / aims.room_l
        held = np.flatnonzero(volume).astype(np.int32)
        must = float(volume @ np.array([each.least_kg for each in stuffs])) / mass
        model.addRow(-highspy.kHighsInf, max(1.0, must), len(held), held, volume[held])
    weights = [2.0 * TINY] * count + [2.0 * (VOLUME_WEIGHT if name == "small" else 1.0) for name in lines]
    model.passHessian(_diagonal(weights, count + len(lines)))
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:  # never seen since all is scaled; then what was
        return before
    found = mass * np.array(model.getSolution().col_value[:count])
    return np.clip(found, [each.least_kg for each in stuffs], [max(each.most_kg, each.least_kg) for each in stuffs])


def _diagonal(weights: Sequence[float], size: int) -> highspy.HighsHessian:
    """Return the quadratic part of the programme."""
    held = highspy.HighsHessian()
    held.dim_ = size
    held.format_ = highspy.HessianFormat.kTriangular
    held.start_ = np.arange(size + 1, dtype=np.int32)
    held.index_ = np.arange(size, dtype=np.int32)
    held.value_ = np.array(weights)
    return held
