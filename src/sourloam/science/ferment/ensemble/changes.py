"""What would change the course of a vessel: each remedy is tried on the same members, and what it gives is told."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.dates import dates_of
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.failing import failing_of, goes_wrong
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer
from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.stack.given import Laid, Vessel
from sourloam.science.ferment.stack.life import Run, Starts
from sourloam.science.load.assess import Portion
from sourloam.science.materials.composition import Material
from sourloam.science.vessel.geometry import SUMP_OF_VOLUME

WARM_C: Final = 20.0
HOT_C, COOL_C = 33.0, 25.0  # a room over the one is worth leaving for the other
WAIT_D: Final = (14, 28)
BRAN_G_PER_KG: Final = (10.0, 20.0, 30.0)
SUGAR_G_PER_KG: Final = (5.0, 10.0, 20.0)
ABSORBENT_G_PER_KG: Final = (30.0, 80.0)
DRAWN_EVERY_D: Final = 2
TAMPED, SEALED = 0.5, 0.1  # times the air between the pieces, and the air that leaks in; judgement
NEAR_BEST: Final = 0.02  # of the members: a smaller amount that comes so near is enough
WORTH_FRAC, WORTH_D = 0.05, 1.0  # fewer members that fail, or days sooner: less is not worth a word


@dataclass(frozen=True)
class Change:
    """Something that helps, so much of it, and what it gives."""

    do: str  # more bran, warmer, sugar, tamp and seal, drain, dry stuff
    amount: float
    unit: str
    failing_frac: float  # of the members, with it
    ready_d: float  # in the middle of those that get there, with it; endless where fewer than half do
    failing_before_frac: float
    ready_before_d: float


@dataclass(frozen=True)
class AtHand:
    """What a keeper can add."""

    bran: Material
    sugar: Material
    absorbent: Material


@dataclass(frozen=True)
class _Trial:
    """How a vessel comes out: the members that fail in any way, and when the others are ready."""

    failing: FloatArray
    ready_d: FloatArray

    @property
    def failing_frac(self) -> float:
        return float(self.failing.mean())

    @property
    def middle_d(self) -> float:
        """Return when it is ready, in the middle of those that get there, as a figure does; endless if few do."""
        there = self.ready_d[np.isfinite(self.ready_d)]
        return float(np.median(there)) if 2 * there.size >= self.ready_d.size else float("inf")


def changes(
    filling: Filling,
    living: Living,
    scatter: FloatArray,
    at_hand: AtHand,
    *,
    compiler: Callable[[], Run] | None = None,
) -> tuple[Change, ...]:
    """Return the remedies that help, the one that helps most first; the same members are followed with each."""

    def tried(changed: Filling, turned: Callable[[Starts], Starts] = lambda starts: starts) -> _Trial:
        followed = follow(turned(draw(changed, living)), days_of(changed), compiler=compiler)
        dates = dates_of(followed, changed, scatter=scatter, acid_m2_per_d=living.model.acid_m2_per_d.members)
        kinds = failing_of(followed, living, changed.kept.floor_m2)
        return _Trial(goes_wrong(dates.ready_d, kinds).astype(float), dates.ready_d)

    before = tried(filling)
    found = [
        Change(do, amount, unit, trial.failing_frac, trial.middle_d, before.failing_frac, before.middle_d)
        for do, unit, trials in _remedies(filling, at_hand, tried)
        for amount, trial in [_enough(trials)]
        if _is_worth(before, trial)
    ]
    return tuple(sorted(found, key=lambda each: (each.failing_frac, each.ready_d)))


Trials = list[tuple[float, _Trial]]


def _remedies(filling: Filling, at_hand: AtHand, tried: Callable[..., _Trial]) -> Iterator[tuple[str, str, Trials]]:
    """Give each remedy with its trials, from the smallest amount."""
    yield "more bran", "g/kg", [(g, tried(with_bran(filling, at_hand.bran, g))) for g in BRAN_G_PER_KG]
    yield "sugar", "g/kg", [(g, tried(with_material(filling, at_hand.sugar, g))) for g in SUGAR_G_PER_KG]
    yield "dry stuff", "g/kg", [(g, tried(with_material(filling, at_hand.absorbent, g))) for g in ABSORBENT_G_PER_KG]
    kept = filling.kept
    if float(np.mean(kept.room_c)) < WARM_C - 1.0:
        warm = replace(kept, room_c=np.maximum(kept.room_c, WARM_C))
        yield "warmer", "Cel", [(WARM_C, tried(replace(filling, kept=warm)))]
    if float(np.mean(kept.room_c)) > HOT_C:
        cool = replace(kept, room_c=np.minimum(kept.room_c, COOL_C))
        yield "cooler", "Cel", [(COOL_C, tried(replace(filling, kept=cool)))]
    yield "wait", "d", [(float(each), tried(replace(filling, kept=_longer(kept, each)))) for each in WAIT_D]
    if kept.on_top == "nothing":
        yield "film", "1", [(1.0, tried(replace(filling, kept=replace(kept, on_top="film"))))]
    yield "tamp and seal", "1", [(1.0, tried(filling, sealed))]
    if kept.sump_l <= 0.0 or kept.draws_every_d == 0 or kept.draws_every_d > DRAWN_EVERY_D:
        sump_l = max(kept.sump_l, SUMP_OF_VOLUME * kept.volume_l)
        drained = replace(kept, sump_l=sump_l, draws_every_d=DRAWN_EVERY_D)
        yield "drain", "d", [(float(DRAWN_EVERY_D), tried(replace(filling, kept=drained)))]


def _longer(kept: Kept, days: int) -> Kept:
    """Return the vessel left alone for some days more, as warm as on its last one."""
    return replace(kept, room_c=np.append(kept.room_c, np.full(days, kept.room_c[-1])))


def _enough(trials: Trials) -> tuple[float, _Trial]:
    """Return the smallest amount that comes near the best."""
    best = min(trial.failing_frac for _, trial in trials)
    return next((amount, trial) for amount, trial in trials if trial.failing_frac <= best + NEAR_BEST)


def _is_worth(before: _Trial, after: _Trial) -> bool:
    fewer = before.failing_frac - after.failing_frac
    sooner = before.middle_d - after.middle_d if np.isfinite(after.middle_d) else 0.0
    return fewer >= WORTH_FRAC or (fewer > -NEAR_BEST and sooner >= WORTH_D)


def _mass(layer: Layer) -> FloatArray:
    return np.asarray(np.sum([each.mass.members for each in layer.portions], axis=0))


def _portion(material: Material, layer: Layer, g_per_kg: float) -> Portion:
    first = layer.portions[0].mass
    return Portion(material, Figure(first.name, "kg", _mass(layer) * g_per_kg / 1000.0, material.name))


def with_material(filling: Filling, material: Material, g_per_kg: float) -> Filling:
    """Return the filling with so much of a material in every layer."""
    layers = (replace(each, added=(*each.added, _portion(material, each, g_per_kg))) for each in filling.layers)
    return replace(filling, layers=tuple(layers))


def with_bran(filling: Filling, bran: Material, more_g_per_kg: float) -> Filling:
    """Return the filling with so much more bran on every layer."""
    return replace(filling, layers=tuple(_more_bran(each, bran, more_g_per_kg) for each in filling.layers))


def _more_bran(layer: Layer, bran: Material, g_per_kg: float) -> Layer:
    more = _portion(bran, layer, g_per_kg)
    if layer.bran is None:
        return replace(layer, bran=more)
    mass = replace(layer.bran.mass, members=layer.bran.mass.members + more.mass.members)
    return replace(layer, bran=replace(layer.bran, mass=mass))


def sealed(starts: Starts) -> Starts:
    """Return the members with their layers pressed and their lids tight."""
    vessel, laid = starts.vessel.copy(), starts.laid.copy()
    vessel[:, Vessel._fields.index("leak_l_per_d")] *= SEALED
    laid[..., Laid._fields.index("air_frac")] *= TAMPED
    return starts._replace(vessel=vessel, laid=laid)
