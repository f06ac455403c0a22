"""Whether what comes in will sour at all: a week of it judged as one load."""

from collections.abc import Iterator
from typing import Final

from sourloam.base.figure import written
from sourloam.fleet.arrivals import kg_per_d, mass_shares_of
from sourloam.plan.question import Question
from sourloam.science.load.assess import Known, Portion, Setting, assess
from sourloam.science.load.verdict import Verdict, limits
from sourloam.science.materials.composition import Rule

WEEK_D: Final = 7.0
ABSORBENT: Final = "cardboard"


def load_hints(question: Question) -> Iterator[str]:
    """Say where a usual week would not sour surely, and where to ask for the cure."""
    portions = tuple(_week(question))
    if not portions:
        return
    known = Known(question.knowledge.load, question.knowledge.vessel, question.knowledge.inoculum)
    worst = limits(assess(portions, _setting(question), known), known)[0]
    if worst.verdict is not Verdict.SOUND:
        yield f"A usual week of it is {worst.verdict.value}. {worst.words} What to add: sourloam mix --site SITE."


def _week(question: Question) -> Iterator[Portion]:
    """Give what goes into a vessel in a usual week."""
    materials = question.knowledge.materials
    masses: dict[str, float] = {}
    for stream in question.site.streams:
        for name, part in mass_shares_of(stream, materials).items():
            masses[name] = masses.get(name, 0.0) + WEEK_D * kg_per_d(stream, materials) * part
    for name, mass in masses.items():
        if mass > 0.0 and materials[name].rule is not Rule.NO:
            yield Portion(materials[name], written(f"week.{name}", mass, "kg"))


def _setting(question: Question) -> Setting:
    vessel = question.site.vessels[0]
    return Setting(
        written("volume_l", vessel.volume_l, "L"),
        written("below_grid_l", vessel.below_grid_l, "L"),
        vessel.has_drain,
        question.knowledge.materials[ABSORBENT],
    )
