"""What each place gets in the year, and when it may be planted."""

from collections import defaultdict
from datetime import date

from sourloam.base.days import after
from sourloam.fleet.life import Life, Placing
from sourloam.plan.answer import Ground
from sourloam.plan.question import Question
from sourloam.plan.words import days, when
from sourloam.science.places.bed.bed import Planting
from sourloam.science.places.bed.place import LIKE_MANURE
from sourloam.site.site import PLACES


def ground(question: Question, life: Life) -> tuple[Ground, ...]:
    """Return every place with what it got, places that got nothing included."""
    given: dict[str, list[Placing]] = defaultdict(list)
    for batch in life.batches:
        for placing in batch.placings:
            given[placing.place].append(placing)
    parts = question.site.parts()
    return tuple(_place(question, kind, each, given[each.id]) for kind in PLACES for each in parts[kind])


def _place(question: Question, kind: str, place: object, placings: list[Placing]) -> Ground:
    nitrogen = sum(each.nitrogen_g for each in placings)
    area = getattr(place, "area_m2", None) if kind == "bed" else None
    plantings = sorted(getattr(place, "plantings", ()), key=lambda each: each.on)
    ahead = [each for each in plantings if each.on >= question.first]
    return Ground(
        place=str(getattr(place, "id", "")),
        kind=kind,
        got_kg=sum(each.mass_kg for each in placings),
        nitrogen_g=nitrogen,
        nitrogen_g_per_m2=nitrogen / area if area else None,
        free_on=max((each.usable_on for each in placings), default=None),
        plantings=tuple(
            (question.knowledge.crops[each.crop].name, each.on, _warning(each.on, placings)) for each in ahead
        ),
        harvests=tuple(_harvest(question, each, placings) for each in ahead),
    )


def _warning(planted_on: date, placings: list[Placing]) -> str:
    """Say where a crop comes too soon after a batch was dug in."""
    unrested = [each for each in placings if each.on <= planted_on < each.usable_on]
    if not unrested:
        return ""
    rested = max(each.usable_on for each in unrested)
    return f"too soon: the bed rests until {when(rested)}, {days((rested - planted_on).days)} longer"


def _harvest(question: Question, planting: Planting, placings: list[Placing]) -> str:
    """Say from when a crop may be eaten, where animal matter was dug in too shortly before."""
    known = question.knowledge.bed
    cleared = planting.until or after(planting.on, known.crop_stands_d.value)
    animal = [each.on for each in placings if LIKE_MANURE in each.cautions and each.on <= cleared]
    if not animal or after(max(animal), known.harvest_wait_d.value) <= planting.on:
        return ""
    eaten = f"harvest what touches the soil from {when(after(max(animal), known.harvest_wait_d.value))}"
    return f"{eaten}, {days(known.harvest_wait_d.value)} after meat or fish was dug in"
