"""Whether what comes in will sour at all: a week of it judged as one load."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from sourloam.base.figure import MEMBERS, Figure, written
from sourloam.fleet.arrivals import week_kg
from sourloam.plan.question import Question
from sourloam.science.load.assess import Known, Portion, Setting, assess
from sourloam.science.load.verdict import Verdict, limits
from sourloam.science.materials.composition import Material, Rule
from sourloam.site.streams import Stream
from sourloam.site.vessels import Vessel

ABSORBENT: Final = "cardboard"  # is at hand in every house


def load_hints(question: Question) -> Iterator[str]:
    """Say where a usual week would not sour surely, and where to ask for the cure."""
    knowledge, site = question.knowledge, question.site
    week = week_of(site.streams, knowledge.materials)
    going = [each for each in week if each.material.rule is not Rule.NO]
    if not going:
        return
    known = Known(knowledge.load, knowledge.vessel, knowledge.inoculum)
    setting = setting_of(site.vessels[0], knowledge.materials[ABSORBENT])
    worst = limits(assess(going, setting, known), known)[0]
    if worst.verdict is not Verdict.SOUND:
        yield f"A usual week of it is {worst.verdict.value}. {worst.words} What to add: sourloam mix --site SITE."


def setting_of(vessel: Vessel, absorbent: Material, *, members: int = MEMBERS) -> Setting:
    """Return a vessel of the keeper's as what a load goes into."""

    def told(name: str, litres: float, words: str) -> Figure:
        return written(name, litres, "L", words=words, members=members)

    return Setting(
        told("volume_l", vessel.volume_l, "the vessel"),
        told("below_grid_l", vessel.below_grid_l, "room for liquid below the grid"),
        vessel.has_drain,
        absorbent,
    )


def week_of(streams: Iterable[Stream], materials: Mapping[str, Material], *, members: int = MEMBERS) -> list[Portion]:
    """Return what streams bring in a usual week."""
    return [
        Portion(materials[name], written(f"week.{name}", mass, "kg", words=materials[name].name, members=members))
        for name, mass in week_kg(streams, materials).items()
    ]
