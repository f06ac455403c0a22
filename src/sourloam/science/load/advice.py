"""The smallest change that makes a load sound, as a linear programme.

What a load needs and holds adds up over its materials, so that every limit is a
line in the amounts that are added or held back. The programme is solved at the
middle values with some room to spare. The changed load is then judged like any
other, members and all, and the room to spare is widened until it is sound.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from types import MappingProxyType
from typing import Final

import highspy
import numpy as np

from sourloam.base.figure import written
from sourloam.science.chem.acids import ACIDS
from sourloam.science.chem.charge import Protolytes, lactic_to_reach_mol
from sourloam.science.load import laws
from sourloam.science.load.assess import Known, Load, Portion, assess
from sourloam.science.load.laws import STARCH_TO_SUGAR
from sourloam.science.load.members import members_of
from sourloam.science.load.verdict import POURS_MORE_THAN, TWICE, Limit, Verdict, is_limited, limits
from sourloam.science.materials.composition import Material
from sourloam.science.vessel.leachate import MOST_L_PER_KG, effluent_l_per_kg

ROUNDS: Final = 8
WIDER: Final = 1.35  # times the room to spare, from round to round
LEAST_KG: Final = 0.002  # nobody weighs less
FILLED: Final = 0.9  # of a vessel; some room stays free for gas
MOST_HELD_BACK: Final = 0.8  # of a load; beyond that it is no cure but another load
MOST_TIMES: Final = 12.0  # an addition beyond so many times the load is no advice
MOST_SUGAR: Final = 0.25  # more than so many times the load of sugar is jam
SCREENS: Final = ("fermentability", "alcohol", "share")
SWEETENS: Final = "fermentability"  # what is sweetened where the cure of another limit would break it
HELPS_AT_LEAST: Final = 0.15  # of what a limit is short of; less is by the way
TINY: Final = 1e-6
PACKED: Final = "air"  # cured by cutting and pressing, and by nothing that is added
DRY_GOODS: Final = ("brown", "carrier", "sweetener", "liquid")  # do not make sweet fruit less sweet
Line = Mapping[str, float]


class Do(StrEnum):
    """What a keeper can do with a load."""

    SWEETEN = "sweeten"
    SOAK = "soak"
    MOISTEN = "moisten"
    SPREAD = "spread"
    HOLD_BACK = "hold back"
    PRESS = "press"


COST: Final = MappingProxyType(
    {  # what a kilogram weighs in the choice; judgement: trouble and money
        Do.SPREAD: 0.3,
        Do.MOISTEN: 0.5,
        Do.SOAK: 1.0,
        Do.HOLD_BACK: 2.0,
        Do.SWEETEN: 3.0,
    }
)


@dataclass(frozen=True)
class Means:
    """What a keeper has at hand to change a load with."""

    sugar: Material
    water: Material
    absorbents: tuple[Material, ...]
    plants: Material  # the scraps over whose layers anything can be spread


@dataclass(frozen=True)
class Step:
    """One thing to do, with its amount."""

    do: Do
    material: Material | None  # None where nothing is added or taken
    amount_kg: float
    because: str  # the limit that it helps most


@dataclass(frozen=True)
class Advice:
    """What to do, and what the load is then."""

    steps: tuple[Step, ...]
    after: tuple[Limit, ...]


@dataclass(frozen=True)
class _Column:
    """A choice: a kilogram more of something, or one less of what is there."""

    do: Do
    material: Material
    most_kg: float
    values: Mapping[str, float]
    portion: int | None = None  # its number where it is held back; None where something is added

    @property
    def sign(self) -> float:
        """Return whether a kilogram comes or goes."""
        return 1.0 if self.portion is None else -1.0


Choice = tuple[_Column, float]


@dataclass(frozen=True)
class _Aims:
    """What the programme aims at: how much room to spare each limit gets, and which screens it must pass."""

    room: Mapping[str, float]
    screens: frozenset[str]

    @classmethod
    def at_first(cls, kept: Sequence[Limit]) -> "_Aims":
        """Return the aims for a load: a screen that it passes is not asked for until a cure breaks it."""
        return cls(dict.fromkeys((each.id for each in kept), 1.0), _broken(kept))

    def widened(self, after: Sequence[Limit]) -> "_Aims":
        """Return the aims of the next round, by what the last one left broken."""
        broken = _broken(after)
        room = {name: times * (WIDER if name in broken else 1.0) for name, times in self.room.items()}
        return _Aims(room, self.screens | broken)


def _broken(kept: Sequence[Limit]) -> frozenset[str]:
    return frozenset(each.id for each in kept if each.verdict is not Verdict.SOUND)


def advise(load: Load, kept: Sequence[Limit], known: Known, means: Means) -> Advice | None:
    """Return the smallest change that makes a load sound; None where it is sound, or nothing at hand will do."""
    if kept[0].verdict is Verdict.SOUND:
        return None
    columns, there = _columns(load, known, means), _there(load, known)
    aims = _Aims.at_first(kept)
    for _ in range(ROUNDS):
        found = _solved(columns, there, _lines(load, known, aims))
        if found is None or _leaves_nothing(load, found):
            return None
        changed = assess(_changed(load, found), load.setting, known, members=load["mass_kg"].size)
        after = tuple(each for each in limits(changed, known) if each.id != PACKED)
        if after[0].verdict is Verdict.SOUND:
            return Advice(_steps(found, there, _lines(load, known, _Aims.at_first(kept)), _broken(kept)), after)
        aims = aims.widened(after)
    return None


def _leaves_nothing(load: Load, found: Sequence[Choice]) -> bool:
    """Whether the cure would be to leave the load."""
    held_back = sum(amount for column, amount in found if column.portion is not None)
    return held_back > MOST_HELD_BACK * load.figures["mass_kg"].value


def _changed(load: Load, amounts: Sequence[Choice]) -> list[Portion]:
    """Return the portions after the changes."""
    held_back = {column.portion: amount for column, amount in amounts if column.portion is not None}
    portions = [
        _less(each, held_back.get(number, 0.0))
        for number, each in enumerate(load.portions)
        if each.mass.value - held_back.get(number, 0.0) > LEAST_KG
    ]
    added = [
        Portion(column.material, written(f"added.{column.material.id}", amount, "kg", members=load["mass_kg"].size))
        for column, amount in amounts
        if column.portion is None
    ]
    return [*portions, *added]


def _less(portion: Portion, amount_kg: float) -> Portion:
    if not amount_kg:
        return portion
    times = 1.0 - amount_kg / portion.mass.value
    mass = replace(portion.mass, members=portion.mass.members * times, at_medians=portion.mass.value * times)
    return replace(portion, mass=mass)


def _solved(columns: Sequence[_Column], there: Line, lines: Mapping[str, Line]) -> list[Choice] | None:
    """Return the cheapest amounts that keep every limit at the middle values; None where no amounts do."""
    model = highspy.Highs()  # type: ignore[no-untyped-call]
    model.silent()
    amounts = [model.addVariable(lb=0.0, ub=each.most_kg, obj=COST[each.do]) for each in columns]
    for line in lines.values():
        terms = [each.sign * _along(line, each.values) * amount for each, amount in zip(columns, amounts, strict=True)]
        model.addConstr(sum(terms) >= -_along(line, there))
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    solution = model.getSolution().col_value
    return [(each, value) for each, value in zip(columns, solution, strict=True) if value > LEAST_KG]


def _columns(load: Load, known: Known, means: Means) -> list[_Column]:
    """Return what can be done: add one of the means, or hold back what is there."""
    mass = load.figures["mass_kg"].value

    def column(do: Do, material: Material, most_kg: float, portion: int | None = None) -> _Column:
        values = _values(material, load, known)
        if do is Do.SPREAD:  # the layers over which a load is spread lie in later vessels too
            values["room"] = 0.0
        return _Column(do, material, most_kg, values, portion)

    return [
        column(Do.SWEETEN, means.sugar, MOST_SUGAR * mass),
        column(Do.SPREAD, means.plants, MOST_TIMES * mass),
        column(Do.MOISTEN, means.water, mass),
        *(column(Do.SOAK, each, mass) for each in means.absorbents),
        *(column(Do.HOLD_BACK, each.material, each.mass.value, n) for n, each in enumerate(load.portions)),
    ]


def _there(load: Load, known: Known) -> dict[str, float]:
    """Return what the load brings as it is: its materials at their middle values, added up."""
    whole: dict[str, float] = {"one": 1.0}
    for each in load.portions:
        for name, value in _values(each.material, load, known).items():
            whole[name] = whole.get(name, 0.0) + each.mass.value * value
    return whole


def _values(material: Material, load: Load, known: Known) -> dict[str, float]:
    """Return what a kilogram of a material brings, at its middle values."""
    held = {name: float(each[0]) for name, each in members_of(material, 1).items()}
    wet = load.figures["wet_kg"].value
    wet_dry_frac = load.figures["wet_dry_kg"].value / wet if wet > 0.0 else 0.0
    free = min(float(effluent_l_per_kg(wet_dry_frac)) * known.vessel.softness.value, MOST_L_PER_KG)
    return held | {
        "mass": 1.0,
        "salt": laws.SALT_PER_SODIUM * held["sodium"],
        "animal": material.animal_frac,
        "room": 1.0 / held["pressed"],
        "dry_scraps": 0.0 if material.kind in DRY_GOODS else held["dry"],
        "needed": _lactic_kg(held, load.figures["critical_ph"].value),
        "free": held["wet"] * free,
        f"of {material.id}": 1.0,
    }


def _lactic_kg(held: Mapping[str, float], ph: float) -> float:
    """Return the lactic acid that takes a kilogram to a pH; below nothing where it is more acid than that."""
    parts = Protolytes(held["tissue"], {name: held[name] / ACIDS[name].kg_per_mol for name in ACIDS})
    moles = lactic_to_reach_mol(parts, held["strong"] + held["alkali"], held["water"], ph)
    return float(moles) * ACIDS["lactic"].kg_per_mol


def _along(line: Line, held: Mapping[str, float]) -> float:
    return sum(times * held.get(name, 0.0) for name, times in line.items())


def _lines(load: Load, known: Known, aims: _Aims) -> dict[str, Line]:
    """Return each limit as a sum that must not fall below nothing, by what is multiplied with what."""
    given, room = known.load, aims.room
    released = 1.0 - np.exp(-given.starch_release_per_d.value * given.sours_in_d.value)
    yields = given.lactic_yield.value
    of_starch = yields * STARCH_TO_SUGAR * released
    lines = {
        "sugar": {"sugars": yields, "starch": of_starch, "needed": -room["sugar"]},
        "pours": {"mass": POURS_MORE_THAN, "soaks": 1.0 / room["pours"], "pours": -1.0},
        "dry": {"mass": given.dry_most_frac.value / room["dry"], "dry": -1.0},
        "salt": {"water": given.salt_stops_frac.value / room["salt"], "salt": -1.0},
        "animal": {"mass": given.animal_most_frac.value / room["animal"], "animal": -1.0},
        "fat": {"mass": given.fat_most_frac.value / room["fat"], "fat": -1.0},
        "liquid": {"mass": given.stands_l_per_kg.value / room["liquid"], "soaks": 1.0, "pours": -1.0}
        | {"free": -room["liquid"]},
        "fermentability": {"sugars": yields, "starch": of_starch, "needed": -TWICE * room["fermentability"]},
        "alcohol": {"dry_scraps": given.sweet_most_frac.value / room["alcohol"], "sugars": -1.0},
    }
    if load.setting.has_drain:
        del lines["liquid"]
    for each in {portion.material for portion in load.portions if is_limited(portion.material)}:
        lines[f"share of {each.id}"] = {"mass": each.at_most_frac / room["share"], f"of {each.id}": -1.0}
    holds_l = FILLED * load.setting.volume.value
    if load.figures["pressed_l"].value <= holds_l:  # what is added must fit too; a larger load has room elsewhere
        lines["room"] = {"one": holds_l, "room": -1.0}
    return {
        name: line for name, line in lines.items() if _limit_of(name) in aims.screens or _limit_of(name) not in SCREENS
    }


def _limit_of(line: str) -> str:
    """Return the limit that a line belongs to: a share has a line for each material."""
    return line.partition(" ")[0]


def _steps(found: Sequence[Choice], there: Line, lines: Mapping[str, Line], broken: frozenset[str]) -> tuple[Step, ...]:
    """Return the choices as things to do, each with the limit that it helps most; pressing comes last."""
    short = {name: max(-_along(line, there), TINY) for name, line in lines.items() if _limit_of(name) in broken}
    steps = []
    for column, amount in found:
        helps = {name: column.sign * amount * _along(lines[name], column.values) / lack for name, lack in short.items()}
        most = max(helps, key=lambda name: helps[name], default="")
        because = most if helps.get(most, 0.0) > HELPS_AT_LEAST else SWEETENS
        steps.append(Step(column.do, column.material, amount, _limit_of(because)))
    packed = [Step(Do.PRESS, None, 0.0, PACKED)] if PACKED in broken else []
    return (*steps, *packed)
