"""A load as its keeper lives with it: over how many days it comes in, how often it is opened, with bran or without."""

from dataclasses import dataclass, replace

from sourloam.base.figure import Figure, written
from sourloam.science.load.assess import Known, Load
from sourloam.science.load.bran import Wild, habit_figures, usual_figures, wild_figures
from sourloam.science.load.full import full_figures
from sourloam.science.load.liquid import liquid_figures, thinned


@dataclass(frozen=True)
class Habit:
    """How a load comes in, as the keeper says."""

    over_d: float
    loads: int | None = None  # in that time; None where nobody said
    smells: bool = False
    has_bran: bool = True
    parts: float | None = None  # of water to one of the liquid; None where nobody said


def with_course(load: Load, known: Known, habit: Habit, wild: Wild) -> Load:
    """Return the load with the figures of its days beside those of its matter."""
    count = load["mass_kg"].size
    over = written("over_d", habit.over_d, "d", words="days over which it comes in", members=count)
    fresh = written("smell_times", 1.0, "1", words="it does not smell", members=count)
    usual = usual_figures(load, known, over=over, smell_times=known.load.smell_times if habit.smells else fresh)
    if not habit.smells:
        usual["bran_g"] = load.figures["bran_g"]
    none = written("bran_usual_g", 0.0, "g", words="bran: there is none", members=count)
    bran = usual["bran_usual_g"] if habit.has_bran else none
    found = usual if habit.has_bran else wild_figures(known, wild)
    strewn = known if habit.has_bran else _without_cover(known, count)
    full = full_figures(load, strewn, bran_usual=bran)
    found |= {name: each for name, each in full.items() if habit.has_bran or name != "full_bran_g"}
    if load.setting.has_drain:
        parts = thinned(known, habit.parts, members=count)
        found |= liquid_figures(load, known, bran=bran, filling=over, full=full["full_liquid_l"], parts=parts)
    if habit.loads is not None and habit.has_bran:
        loads = written("loads", habit.loads, "1", words="loadings in that time", members=count)
        found |= habit_figures(load, known, over=over, loads=loads)
    figures = {name: each for name, each in load.figures.items() if habit.has_bran or name != "bran_g"}
    return replace(load, figures=figures | found)


def deep(known: Known, *, layer_m: Figure | None, bed_m: Figure | None) -> Known:
    """Return what is known, with the depths that the keeper wrote in place of the usual ones."""
    said = {name: each for name, each in (("layer_m", layer_m), ("bed_m", bed_m)) if each is not None}
    return replace(known, vessel=replace(known.vessel, **said))


def _without_cover(known: Known, members: int) -> Known:
    none = written("cover_kg_per_m2", 0.0, "kg/m2", words="bran that covers a layer: there is none", members=members)
    return replace(known, load=replace(known.load, cover_kg_per_m2=none))
