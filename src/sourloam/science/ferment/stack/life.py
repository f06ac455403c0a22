"""The life of one vessel: water, air and ferment in turn, every four hours, to its last day.

Water moves by half before and by half after the layers have fermented, so that
the order of the two matters little (strang1968).
"""

import math
from collections.abc import Callable
from typing import Final, NamedTuple

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.layer.acidity import TEN, ammonium_k, ln_protons, open_charge, ph_of
from sourloam.science.ferment.layer.growth import warmed
from sourloam.science.ferment.layer.state import OXYGEN, SIZE, STRONG, Flora, Place, State
from sourloam.science.ferment.layer.step import state_of, through
from sourloam.science.ferment.stack.air import (
    L_PER_MOL,
    OXYGEN_OF_AIR,
    breathe,
    displace,
    headspace_l,
    open_lid,
    reached_frac,
    use_per_h,
)
from sourloam.science.ferment.stack.given import SUMP, Stack, Vessel, flora_of, laid_of, vessel_of
from sourloam.science.ferment.stack.water import draw_off, run_down

PH, WATER = SIZE, SIZE + 1  # columns of a record after those of the state
RECORD: int = SIZE + 2
LIQUID, LIQUID_PH, FLOODED, CORE_C, OXYGEN_LEFT, OXYGEN_USED = range(6)  # columns of what is kept of the vessel
KEPT: int = 6
CELL_SUGAR: int = State._fields.index("cell_sugar_g")
SUGAR: int = State._fields.index("sugar_g")
CELLS: int = State._fields.index("cells_g")
WARM: int = State._fields.index("warm_ln_g")
WARM_READY: int = State._fields.index("warm_ready")
CADDY_AIRED: float = 0.5  # of loose scraps; judgement
CADDY_OXYGEN_MOL: float = 10.0  # no want of it
SPARE: float = 2.0  # times what a layer uses now: it may grow until the next exchange
TINY: float = 1e-30
AIRED_EVERY_H: float = 1.0
STEADY_C: float = 0.5  # by which the core may change between two exchanges and count as steady
LIQUID_SALT_TIMES: float = 1.3  # in the liquid that ran off, at about 0.15 mol/kg; davies1962
NEUTRAL: float = math.log(1e-6)
FIRST_STEP_H: float = 0.5


class Days(NamedTuple):
    """What happens around a vessel, at each exchange."""

    room_c: FloatArray
    opened: FloatArray  # how often
    drawn: FloatArray  # whether the liquid is drawn off
    step_h: float
    tolerance: float


class Core(NamedTuple):
    """How warm a vessel is inside, from one exchange to the next."""

    room_c: float
    was_c: float
    mean_c: float
    end_c: float


class Starts(NamedTuple):
    """All members of an ensemble before they begin: arrays by member."""

    y: FloatArray  # (members, layers, state)
    solutes: FloatArray  # (members, layers, solutes)
    laid: FloatArray  # (members, layers, what was laid)
    ph: FloatArray  # (members, layers)
    vessel: FloatArray  # (members, vessel)
    groups: FloatArray  # (members, groups, group)
    homolactic_frac: FloatArray  # (members)
    warmer_c: FloatArray  # (members), than the room is said to be
    dry_kg: FloatArray  # (members, layers)


class Course(NamedTuple):
    """What became of a vessel, or, with members before days, of all: arrays to be filled."""

    layers: FloatArray  # (days + 1, layers, record)
    vessel: FloatArray  # (days + 1, kept)
    drawn: FloatArray  # all liquid that has run off, and what is in it


def place_of(stack: Stack, i: int, temperature_c: float) -> Place:
    """Return what a layer lies in now, without air."""
    f, laid = stack.solutes[i], laid_of(stack.laid[i])
    return Place(
        temperature_c, stack.water[i], laid.tissue_eq, f[0], f[1], f[2], f[3], laid.salt_times,
        laid.release_per_d, laid.starch_per_d, laid.proteolysis_per_d, laid.alkali_per_d,
        laid.respiration_g_per_h, laid.breath_per_h, ammonium_k(temperature_c), 0.0, 0.0,
    )  # fmt: skip


def aired(place: Place, reached: float, oxygen_mol: float) -> Place:
    """Return the same place with air in a part of it."""
    return Place(
        place.temperature_c, place.water, place.tissue_eq, place.malic_mol, place.citric_mol, place.phosphate_mol,
        place.salt_osmol, place.salt_times, place.release_per_d, place.starch_per_d, place.proteolysis_per_d,
        place.alkali_per_d, place.respiration_g_per_h, place.breath_per_h, place.ammonium_k, reached, oxygen_mol,
    )  # fmt: skip


Run = Callable[[Starts, Days, Course], None]
EACH: Final = range  # the compiler puts its own in place, which runs members side by side


def live_all(starts: Starts, days: Days, course: Course) -> None:
    """Follow every member through the days; fill the courses of all."""
    for m in EACH(starts.y.shape[0]):
        layers = starts.y.shape[1]
        vessel = vessel_of(starts.vessel[m])
        stack = Stack(
            starts.y[m].copy(),
            starts.solutes[m].copy(),
            np.ones(layers),
            -TEN * starts.ph[m],
            np.full(layers, FIRST_STEP_H),
            starts.laid[m],
            np.zeros(SUMP),
            np.zeros(3),
        )
        room = Days(days.room_c + starts.warmer_c[m], days.opened, days.drawn, days.step_h, days.tolerance)
        flora = flora_of(starts.groups[m], starts.homolactic_frac[m])
        live(stack, vessel, flora, days=room, course=Course(course.layers[m], course.vessel[m], course.drawn[m]))


def live(stack: Stack, vessel: Vessel, flora: Flora, *, days: Days, course: Course) -> None:
    """Follow a vessel through its days; fill the course of it.

    A frozen vessel keeps its state; when it thaws, its cells are broken.
    """
    present = lay(stack, flora, days, 0.0, before=0)
    core_c, was_frozen, floods = days.room_c[0], False, 0
    stack.air[1] = headspace_l(stack, vessel, present)
    stack.air[0] = OXYGEN_OF_AIR * stack.air[1] / L_PER_MOL
    a_day = round(24.0 / days.step_h)
    record(stack, vessel, course, 0, present=present, core_c=core_c, flooded=0.0)
    for step in range(days.room_c.size):
        present = lay(stack, flora, days, step * days.step_h, before=present)
        mean_c, end_c = warmed_by(days.room_c[step], core_c, days.step_h / vessel.lag_h)
        core = Core(days.room_c[step], core_c, mean_c, end_c)
        core_c = end_c
        displace(stack, headspace_l(stack, vessel, present))
        for _ in range(int(days.opened[step])):
            open_lid(stack, vessel)
        if days.drawn[step] > 0.0:
            draw_off(stack, course.drawn)
        if mean_c <= vessel.freezes_c:
            was_frozen = True
        else:
            if was_frozen:
                thaw(stack, vessel, present)
                was_frozen = False
            run_down(stack, vessel, present, 0.5 * days.step_h)
            ferment(stack, vessel, flora, days, present=present, core=core)
            floods = max(floods, run_down(stack, vessel, present, 0.5 * days.step_h))
        if (step + 1) % a_day == 0:
            record(stack, vessel, course, (step + 1) // a_day, present=present, core_c=core_c, flooded=float(floods))
            floods = 0
    draw_off(stack, course.drawn)


def warmed_by(room_c: float, core_c: float, lags: float) -> tuple[float, float]:
    """Return the temperature of the core, its mean over a time and at its end; `lags` is that time over the lag."""
    left = math.exp(-lags)
    return room_c + (core_c - room_c) * (1.0 - left) / lags, room_c + (core_c - room_c) * left


def layers_at(stack: Stack, hours: float) -> int:
    """Return how many layers have been laid by a time; they lie in the order in which they are given."""
    present = 0
    for i in range(stack.laid.shape[0]):
        present += 1 if laid_of(stack.laid[i]).laid_h <= hours + 1e-6 else 0
    return present


def lay(stack: Stack, flora: Flora, days: Days, hours: float, *, before: int) -> int:
    """Lay the layers of this time upon those before; return how many there are.

    A layer has first lain in its caddy, in air, with what lives on it; bran comes with the laying.
    """
    present = layers_at(stack, hours)
    for i in range(before, present):
        laid, y = laid_of(stack.laid[i]), stack.y[i]
        place = place_of(stack, i, laid.caddy_c)
        open_eq, _ = open_charge(math.exp(stack.ln_h[i]), state_of(y), place)
        y[STRONG] -= open_eq  # what strong ions there are shows in the pH that it starts with
        if laid.caddy_h > 0.0:
            y[OXYGEN] = CADDY_OXYGEN_MOL
            stack.ln_h[i], _ = through(
                y,
                aired(place, CADDY_AIRED, CADDY_OXYGEN_MOL),
                warmed(flora, laid.caddy_c),
                hours=laid.caddy_h,
                near=stack.ln_h[i],
                step_h=FIRST_STEP_H,
                tolerance=days.tolerance,
            )
            y[OXYGEN] = 0.0
        wild = math.exp(y[WARM])
        y[CELLS] += laid.added_g
        y[WARM] = math.log(wild + laid.added_g)
        y[WARM_READY] = (y[WARM_READY] * wild + laid.added_ready * laid.added_g) / (wild + laid.added_g)
    return present


def thaw(stack: Stack, vessel: Vessel, present: int) -> None:
    """Set the sugar of cells free that the frost has burst."""
    for i in range(present):
        freed = vessel.burst_share * stack.y[i, CELL_SUGAR]
        stack.y[i, CELL_SUGAR] -= freed
        stack.y[i, SUGAR] += freed


def ferment(stack: Stack, vessel: Vessel, flora: Flora, days: Days, *, present: int, core: Core) -> None:
    """Let every layer ferment until the next exchange of water.

    Air comes from above, and what lives on it grows fast: layers that it
    reaches are given theirs every hour. The others run on undisturbed, unless
    the core warms or cools meanwhile.
    """
    times = max(round(days.step_h / AIRED_EVERY_H), 1)
    hours, waits_h, core_c = days.step_h / times, np.zeros(present), core.was_c
    is_steady = abs(core.end_c - core.was_c) < STEADY_C
    whole = warmed(flora, core.mean_c)
    for _ in range(times):
        mean_c, core_c = warmed_by(core.room_c, core_c, hours / vessel.lag_h)
        now, now_c = (whole, core.mean_c) if is_steady else (warmed(flora, mean_c), mean_c)
        breathe(stack, vessel, hours)
        over, is_open = stack.air[0] / stack.air[1] * 1000.0, True
        for i in range(present - 1, -1, -1):
            is_open = is_open and stack.air[0] > 0.0
            if is_steady and not is_open:
                waits_h[i] += hours
                continue
            place = place_of(stack, i, now_c)
            if waits_h[i] > 0.0:
                run(stack, i, now, days, place=place, hours=waits_h[i])
                waits_h[i] = 0.0
            if is_open:
                place, is_open = let_in(stack, vessel, i, now, place=place, over=over, hours=hours)
            run(stack, i, now, days, place=place, hours=hours)
            take_back(stack, i)
    for i in range(present):
        if waits_h[i] > 0.0:
            run(stack, i, whole, days, place=place_of(stack, i, core.mean_c), hours=waits_h[i])


def let_in(
    stack: Stack, vessel: Vessel, i: int, flora: Flora, *, place: Place, over: float, hours: float
) -> tuple[Place, bool]:
    """Give a layer the oxygen that it may use for some hours; return its place, and whether air goes on below it."""
    laid = laid_of(stack.laid[i])
    use = use_per_h(stack, i, aired(place, 1.0, 1.0), flora)
    reached = reached_frac(laid, stack.water[i], use=use, over_mol_per_m3=over, floor_m2=vessel.floor_m2)
    lasts = stack.air[0] / max(SPARE * use * hours * laid.water_kg, TINY)
    part = min(reached * vessel.bare_frac, lasts)  # no deeper than what there is lasts, and only where it is bare
    given = SPARE * use * part * hours
    stack.y[i, OXYGEN] = given
    stack.air[0] -= given * laid.water_kg
    stack.air[2] += given * laid.water_kg
    return aired(place, part, given), reached >= 1.0


def take_back(stack: Stack, i: int) -> None:
    """Return the oxygen that a layer has left to the headspace."""
    left = stack.y[i, OXYGEN] * laid_of(stack.laid[i]).water_kg
    stack.air[0] += left
    stack.air[2] -= left
    stack.y[i, OXYGEN] = 0.0


def run(stack: Stack, i: int, flora: Flora, days: Days, *, place: Place, hours: float) -> None:
    """Let one layer ferment for some hours."""
    stack.ln_h[i], stack.step_h[i] = through(
        stack.y[i],
        place,
        flora,
        hours=hours,
        near=stack.ln_h[i],
        step_h=stack.step_h[i],
        tolerance=days.tolerance,
    )


def record(
    stack: Stack, vessel: Vessel, course: Course, day: int, *, present: int, core_c: float, flooded: float
) -> None:
    """Write down where everything stands at the end of a day; layers to come are not numbers."""
    for i in range(stack.y.shape[0]):
        row = course.layers[day, i]
        if i >= present:
            row[:] = np.nan
            continue
        stack.ln_h[i] = ln_protons(state_of(stack.y[i]), place_of(stack, i, core_c), stack.ln_h[i])
        row[:SIZE] = stack.y[i]
        row[PH] = ph_of(stack.ln_h[i])
        row[WATER] = stack.water[i]
    kept = course.vessel[day]
    kept[LIQUID] = stack.sump[0] + course.drawn[0]
    kept[LIQUID_PH] = ph_of_liquid(stack.sump + course.drawn)
    kept[FLOODED] = flooded
    kept[CORE_C] = core_c
    kept[OXYGEN_LEFT] = stack.air[0]
    kept[OXYGEN_USED] = stack.air[2]


def ph_of_liquid(liquid: FloatArray) -> float:
    """Return the pH of a liquid that is its water, its states and its solutes; not a number where there is none."""
    if liquid[0] <= 0.0:
        return math.nan
    per = 1.0 / liquid[0]
    f = liquid[1 + SIZE :] * per
    bare = Place(
        20.0, 1.0, 0.0, f[0], f[1], f[2], f[3], LIQUID_SALT_TIMES,
        0.0, 0.0, 0.0, 0.0, 0.0, 0.0, ammonium_k(20.0), 0.0, 0.0,
    )  # fmt: skip
    return ph_of(ln_protons(state_of(liquid[1 : 1 + SIZE] * per), bare, NEUTRAL))
