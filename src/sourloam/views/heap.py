"""What a heap that sours under a sheet may show."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech
from sourloam.science.load.assess import Portion
from sourloam.science.load.heap import LEAST_KNOWN, HeapParameters, is_for_a_heap
from sourloam.science.materials.composition import Material
from sourloam.views.reason import Number, Reason, number_of, reason_of

DRIPS_PCT: Final = 70.0  # water above which forage drips when it is pressed
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
    sources: Mapping[str, Source],
    speech: Speech,
) -> HeapView:
    """Return what of a heap is shown."""
    return HeapView(
        says=_says(figures),
        steps=tuple(_steps(figures, given, speech)) if figures else (),
        notes=tuple(_notes(portions, figures)),
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


def _steps(figures: Mapping[str, Figure], given: HeapParameters, speech: Speech) -> Iterator[str]:
    held = {name: each.value for name, each in figures.items()}
    deep = speech.told(f"{100.0 * given.layer_m.value:.0f} cm")
    count = max(1, round(held["layers"]))
    yield "Choose level ground without a drain near by. Cut or fork it loose, without clods or long stems."
    yield (
        f"Stir {speech.litres(held['culture_l'])} of live culture, such as serum, into "
        f"{speech.litres(held['water_l'])} of water."
    )
    many = "one layer" if count == 1 else f"{count} layers"
    minerals = speech.kg(held["mineral_kg"] / count)
    yield (
        f"Build {many} of about {deep}. Strew {minerals} of ground shell, lime or rock dust on each (custom, and may "
        "be left out), sprinkle it with its share of the water, and tread it hard."
    )
    yield (
        f"Cover it with a black sheet of about {held['sheet_m2']:.0f} m2, with no air under it and airtight to the "
        "ground: stones or sand bags as weights all round the edge and on top."
    )
    yield "Do not turn it, and do not open it until then. It should smell sour, not rotten."


def _notes(portions: Sequence[Portion], figures: Mapping[str, Figure]) -> Iterator[str]:
    for material in dict.fromkeys(each.material for each in portions):
        yield from _of_material(material)
    if figures and figures["moisture_pct"].value > DRIPS_PCT:
        yield (
            "It is so wet that it drips when it is trodden: wilt it for a day or mix in something dry such as straw, "
            "and let nothing run into a ditch or a pond."
        )


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
    yield (
        f"How much culture: two pages say {speech.told(f'{usual:g} L')} to a cubic metre, a third about "
        f"{speech.told(f'{1000.0 * least:.0f} ml')}, {1.0 / LEAST_KNOWN:.0f} times less ({here} here). It is an open "
        "question; nobody has compared them."
    )
