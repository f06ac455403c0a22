"""What a heap that sours under a sheet may show."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech, converted
from sourloam.science.load.assess import Portion
from sourloam.science.load.heap import DRIPS_FRAC, LEAST_KNOWN, LEAST_M3, HeapParameters, is_for_a_heap
from sourloam.science.materials.composition import Material
from sourloam.views.reason import Number, Reason, number_of, reason_of
from sourloam.views.spoken import said

SERUM: Final = "the sour liquid that bran is wetted with, or fresh whey"
WEEK_D: Final = 7.0


@dataclass(frozen=True)
class HeapView:
    """A heap: what it takes, how it is built, what is not agreed on."""

    says: str
    steps: tuple[str, ...]
    notes: tuple[str, ...]
    asks: tuple[str, ...]
    numbers: tuple[Number, ...]
    reasons: Mapping[str, Reason]
    speech: Speech

    @property
    def is_built(self) -> bool:
        """Whether there is something to build it of."""
        return bool(self.numbers)


def heap_view(
    portions: Sequence[Portion],
    figures: Mapping[str, Figure],
    given: HeapParameters,
    *,
    straw: Material,
    sources: Mapping[str, Source],
    speech: Speech,
) -> HeapView:
    """Return what of a heap is shown."""
    if figures and figures["volume_m3"].value < LEAST_M3:
        says = _too_little(figures, speech)
        return HeapView(says, (), tuple(_notes(portions)), (), numbers=(), reasons={}, speech=speech)
    return HeapView(
        says=_says(figures),
        steps=tuple(_steps(figures, given, speech)) if figures else (),
        notes=(*_notes(portions), *(_dripping(figures, straw, speech) if figures else ())),
        asks=tuple(_asks(figures, given, speech)) if figures else (),
        numbers=tuple(number_of(each) for each in figures.values()),
        reasons={name: reason_of(each, sources) for name, each in figures.items()},
        speech=speech,
    )


def _says(figures: Mapping[str, Figure]) -> str:
    if not figures:
        return "Nothing of it goes into such a heap."
    ready = figures["ready_d"]
    low, high = (each / WEEK_D for each in (ready.low, ready.high))
    return f"It can sour as a heap under a sheet, in {low:.0f} to {high:.0f} weeks while it is warm."


def _too_little(figures: Mapping[str, Figure], speech: Speech) -> str:
    here, least = (speech.size(1000.0 * each) for each in (figures["volume_m3"].value, LEAST_M3))
    return (
        f"{here} are too little for a heap under a sheet, which wants {least} or more: put it into a vessel with a "
        'lid, and ask "sourloam mix".'
    )


def _is_wet(figures: Mapping[str, Figure]) -> bool:
    return figures["moisture_pct"].value > 100.0 * DRIPS_FRAC


def _pour(figures: Mapping[str, Figure], speech: Speech) -> str:
    """Say how the culture comes on: in water, or alone on what is wet already."""
    culture, water = (speech.litres(figures[each].value) for each in ("culture_l", "water_l"))
    if not _is_wet(figures):
        return f"Stir {culture} of live culture, such as serum ({SERUM}), into {water} of water."
    return (
        f"Have {culture} of live culture, such as serum ({SERUM}). It is wet already: sprinkle the culture on alone, "
        f"or in only as much water again. The usual {water} of water are for a drier heap."
    )


def _steps(figures: Mapping[str, Figure], given: HeapParameters, speech: Speech) -> Iterator[str]:
    held = {name: each.value for name, each in figures.items()}
    deep = speech.told(f"{100.0 * given.layer_m.value:.0f} cm")
    count = max(1, round(held["layers"]))
    yield "Choose level ground without a drain near by. Cut or fork it loose, without clods or long stems."
    yield _pour(figures, speech)
    poured = "culture" if _is_wet(figures) else "water"
    many = "one layer" if count == 1 else f"{count} layers"
    minerals = speech.kg(held["mineral_kg"] / count)
    yield (
        f"Build {many} of about {deep}. Strew {minerals} of ground shell, lime or rock dust on each (custom, and may "
        f"be left out), sprinkle it with its share of the {poured}, and tread it hard."
    )
    yield (
        f"Cover it with a black sheet of about {held['sheet_m2']:.0f} m2, with no air under it and airtight to the "
        "ground: stones or sand bags as weights all round the edge and on top."
    )
    yield "Do not turn it, and do not open it until then. It should smell sour, not rotten."


def _notes(portions: Sequence[Portion]) -> Iterator[str]:
    for material in dict.fromkeys(each.material for each in portions):
        yield from _of_material(material)


def _dripping(figures: Mapping[str, Figure], straw: Material, speech: Speech) -> Iterator[str]:
    """Say how much of something dry a wet heap wants."""
    if not _is_wet(figures):
        return
    least, whole = (said(number_of(figures[each]), speech) for each in ("straw_least_kg", "straw_kg"))
    loose = _loose(figures["straw_least_kg"].value / straw.loose_kg_per_l, speech)
    yield (
        f"With {figures['moisture_pct'].value:.0f} % of water it drips when it is trodden. Fork in {least} of "
        f"{straw.name} at least (about {loose} loose), which stops that; {whole} make it as "
        "moist as it should be. Ask again with the straw, for the larger heap. What can be spread thinly may wilt for "
        "a day first. Let nothing run into a ditch or a pond."
    )


def _loose(litres: float, speech: Speech) -> str:
    """Return a large volume to two digits."""
    value, unit = (converted(litres, "L", "gal"), "gal") if speech.is_us else (litres / 1000.0, "m3")
    return f"{float(f'{value:.2g}'):g} {unit}"


def _of_material(material: Material) -> Iterator[str]:
    name = material.name[0].upper() + material.name[1:]
    if not is_for_a_heap(material):
        why = "It is wood, which does not sour." if material.family == "wood" else material.reason
        yield f"{name} stays out. {why}"
    elif material.kind == "manure":
        yield f"{name}: what it carries is not shown to die. Follow local rules for raw manure."


def _asks(figures: Mapping[str, Figure], given: HeapParameters, speech: Speech) -> Iterator[str]:
    usual = given.culture_l_per_m3.value
    least = LEAST_KNOWN * usual
    here = speech.litres(least * figures["volume_m3"].value)
    whole = speech.litres(figures["culture_l"].value)
    yield (
        f"How much culture: two pages say {speech.told(f'{usual:g} L')} to a cubic metre, a third about "
        f"{speech.told(f'{1000.0 * least:.0f} ml')}, {1.0 / LEAST_KNOWN:.0f} times less ({here} here). It is an open "
        f"question; nobody has compared them. Take the {whole} if you have them, and what you have if not."
    )
