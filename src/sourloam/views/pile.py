"""What a pile may show: whether a batch goes in, with what, how warm it gets, which rules that keeps."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from types import MappingProxyType
from typing import Final

from sourloam.base.source import Source
from sourloam.plan.words import Speech, enumerated, when
from sourloam.science.batch.cautions import Caution
from sourloam.science.batch.content import Content
from sourloam.science.places.offer import UNSOUND
from sourloam.science.places.pile.answer import Answer, Ruled
from sourloam.science.places.pile.compose import GREEN_RATIO, kind_of
from sourloam.science.places.pile.stuff import Stuff
from sourloam.views.place import Decision, PlaceView, Section, caution_lines, numbers_of, reasons_of
from sourloam.views.reason import number_of
from sourloam.views.spoken import said, said_range

SHOWN: Final = (
    *("c_to_n", "moisture_pct", "free_air_space_pct", "bulk_density_kg_m3", "volume_l", "water_l", "sour_share_pct"),
    *("peak_c", "peak_d", "hot_after_d", "days_over_55c", "ph_over_6_d", "shrinks_to_pct", "nitrogen_kept_pct"),
    *("cold_months", "vanish_d"),
)
BUCKET_L, BARROW_L = 10.0, 85.0  # what a keeper fills and pushes; judgement
FORTNIGHTS: Final = 26
RARELY: Final = 0.9  # never in so many cases
MANY_L: Final = 200.0  # from here it is said in barrows
WILL_NOT_L, WARM_C, HOT_C = 200.0, 40.0, 55.0
MISSES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "carbon": "too rich in nitrogen for its carbon: it will smell of ammonia and lose nitrogen",
        "nitrogen": "too much carbon for its nitrogen: it will warm little and rot slowly",
        "wet": "too wet: it will go without air",
        "dry": "too dry: it will hardly rot",
        "air": "too dense for air to get in",
        "heavy": "heavier than a pile that breathes",
        "sour": "more than a third of it is sour: it will stick at about 40 °C until the acid is gone",
    }
)
SPORES, LEGIONELLA, FIRE = (
    "aspergillus-and-other-mould-spores",
    "legionella-longbeachae-in-composts-and-potting-mixes",
    "pile-fire-and-hot-core",
)
DUG_UP, ANIMALS = "rodents-foxes-flies", "animals-sharing-a-home-composting-site"


@dataclass(frozen=True)
class PileTold:
    """What is said of a pile beside its numbers."""

    sack_l: float
    speech: Speech
    name: str
    room_l: float | None
    is_anyway: bool
    is_as_it_is: bool
    on: date
    heats_l: float
    has_readings: bool


def pile_view(
    answer: Answer,
    content: Content | None,
    told: PileTold,
    *,
    sources: Mapping[str, Source],
    cautions: Mapping[str, Caution],
    assumptions: Sequence[str],
) -> PlaceView:
    """Return what of a pile is shown."""
    decision, says, because = _decided(answer, content, told)
    animal = content is not None and content.animal_matter
    keys = [SPORES, LEGIONELLA, *([DUG_UP, ANIMALS] if animal else []), *([FIRE] if _is_hot(answer) else [])]
    return PlaceView(
        place="pile",
        name=told.name,
        decision=decision,
        says=says,
        because=tuple(because),
        cautions=caution_lines(keys, cautions),
        numbers=numbers_of(answer.figures, [each for each in SHOWN if not _is_idle(each, answer)]),
        reasons=reasons_of(answer.figures, sources),
        speech=told.speech,
        sections=tuple(_sections(answer, content, told)),
        later=tuple(_later(answer, told)),
        tables={
            "amounts": [_amount(each, answer.made.kg[each.id]) for each in answer.stuffs if each.id in answer.made.kg],
            "short": [_amount(each, answer.short_kg[each.id]) for each in answer.wider if each.id in answer.short_kg],
            "missed": sorted(answer.made.missed),
            "turned_d": list(answer.course.turned),
            "watered_d": list(answer.course.watered),
            "rules": [
                {
                    "rule": each.verdict.rule.id,
                    "met": each.verdict.is_met,
                    "likely": each.likely,
                    "lacks": each.verdict.lacks,
                }
                for each in answer.rules
            ],
        },
        assumptions=tuple(assumptions),
    )


def _is_idle(name: str, answer: Answer) -> bool:
    """Whether a figure is about a heat that hardly ever comes."""
    return name == "hot_after_d" and answer.figures[name].never_frac > RARELY


def _is_hot(answer: Answer) -> bool:
    return answer.figures["peak_c"].high > HOT_C


def _amount(stuff: Stuff, kg: float) -> dict[str, object]:
    litres = kg * stuff.middle("loose_l")
    return {"what": stuff.name, "kg": kg, "loose_l": litres, "buckets": litres / BUCKET_L, "barrows": litres / BARROW_L}


def _decided(answer: Answer, content: Content | None, told: PileTold) -> tuple[Decision, str, list[str]]:
    """Return whether it goes in, in a word and in a sentence, and why."""
    missed = [MISSES[each] for each in MISSES if each in answer.made.missed]
    warmth = _warmth(answer, told)
    if content is not None and content.state != "ready":
        kept = answer.figures["days_over_55c"].low > 3.0
        if content.state in ("failed", "unknown") and kept:
            return Decision.YES, f"into the core, and only there: {UNSOUND[content.state]}. {warmth}", missed
        if not told.is_anyway:
            wait = Decision.NOT_YET if content.state == "unfinished" else Decision.NO
            return wait, f"{UNSOUND[content.state]}, and this pile does not surely heat.", [_else(content), *missed]
        return Decision.YES, f"since you ask, although {UNSOUND[content.state]}. {warmth}", [_else(content), *missed]
    if missed:
        return (
            Decision.YES if told.is_anyway else Decision.NOT_YET,
            f"{_lacking(answer, told)} {warmth}".strip(),
            missed,
        )
    return Decision.YES, warmth, []


def _else(content: Content) -> str:
    if content.state == "unfinished":
        return "Leave it shut until it is ready; in the open now its sugar ferments on, smells and draws flies."
    return "Bury it deep, off every bed of food, or leave it until there is a pile that heats."


def _lacking(answer: Answer, told: PileTold) -> str:
    """Say what else would do."""
    named = [
        _measured(each, answer.short_kg[each.id], told.speech) for each in answer.wider if each.id in answer.short_kg
    ]
    if not named:
        return "Nothing that is usual makes it right in that: use less of the batch, or wait for more browns."
    return f"With {enumerated(named)} more it would be right."


def _warmth(answer: Answer, told: PileTold) -> str:
    """Say how warm it gets."""
    volume, peak = answer.figures["volume_l"], answer.figures["peak_c"]
    speech = told.speech
    low, middle, high = (speech.celsius(each) for each in (peak.low, peak.value, peak.high))
    months = said(number_of(answer.figures["cold_months"]), speech)
    if volume.value < WILL_NOT_L:
        return (
            f"It will not heat: {speech.size(volume.value, digits=0)} lose their warmth as fast as they make it "
            f"(about {middle} at most, {low} to {high}). It rots cold, in about {months}."
        )
    if peak.value < WARM_C:
        return f"It rots cold, in about {months}: {middle} at most ({low} to {high})."
    after = answer.figures["hot_after_d"]
    if peak.value < HOT_C:
        return f"It warms to about {middle} ({low} to {high}), not surely to {speech.celsius(HOT_C)}."
    number = number_of(after)
    between = said_range(number, speech)
    hot = said(number_of(answer.figures["days_over_55c"]), speech)
    return (
        f"It heats: its core is at {speech.celsius(HOT_C)} after about {said(number, speech)} ({between}), "
        f"{middle} at most ({low} to {high}), and above {speech.celsius(HOT_C)} for about {hot}."
    )


def _measured(stuff: Stuff, kg: float, speech: Speech) -> str:
    """Return an amount as a keeper measures it out."""
    if stuff.id == "water":
        return f"{speech.litres(kg)} of water"
    litres = kg * stuff.middle("loose_l")
    count = f"{litres / BARROW_L:.1f} barrows" if litres >= MANY_L else f"{max(litres / BUCKET_L, 0.1):.1f} buckets"
    return f"{speech.kg(kg)} of {stuff.name} ({count}, loose)"


def _sections(answer: Answer, content: Content | None, told: PileTold) -> Iterator[Section]:
    """Give what to do."""
    speech = told.speech
    bucket, barrow = speech.size(BUCKET_L), speech.size(BARROW_L)
    lines = [
        f"The batch: {speech.kg(answer.made.kg[each.id])}"
        if each.is_sour
        else _measured(each, answer.made.kg[each.id], speech)
        for each in answer.stuffs
        if each.id in answer.made.kg
    ]
    yield Section(f"What goes in (a bucket is {bucket}, a barrow {barrow})", tuple(lines))
    yield Section("How to build and keep it", tuple(_steps(answer, content, told)))
    if answer.equal is not None:
        yield Section("Equal parts of green and brown, by volume?", (_equal(answer),))


def _steps(answer: Answer, content: Content | None, told: PileTold) -> Iterator[str]:
    speech = told.speech
    if content is not None:
        yield "Mix the batch well with the browns, in the middle, and cover it with a hand of browns or old compost."
        ph_d = answer.figures["ph_over_6_d"]
        if 0.0 < ph_d.value < float("inf"):
            yield (
                f"It starts sour. Fork it to keep the core under {speech.celsius(40.0)} until its pH is over 6 "
                f"(about {said(number_of(ph_d), speech)}); mature compost, a tenth to a quarter of it, helps."
            )
    turned = [told.on + timedelta(days=round(each)) for each in answer.course.turned]
    days = [f"day {round(each)} ({when(on)})" for each, on in zip(answer.course.turned, turned, strict=True)]
    if days:
        yield f"Turn it, outside to inside, on about {enumerated(days)}, or when the core has lost 8 to 10 degrees."
    else:
        yield "It need not be turned for its warmth; fork it once when it has sunk by a quarter, or when it smells."
    wet = [f"day {round(each)}" for each in answer.course.watered]
    yield (
        f"Water it when a squeezed handful no longer holds together: about {enumerated(wet)}."
        if wet
        else "Keep it as moist as a wrung-out sponge; under a cover it needs no water in that time."
    )
    yield "Cover it against rain. A long thermometer, in core, edge and base, is what shows any of this."


def _equal(answer: Answer) -> str:
    equal = answer.equal
    if equal is None:
        return ""
    wrong = [MISSES[each].partition(":")[0] for each in MISSES if each in equal.missed]
    judged = "it does for these" if not wrong else f"not for these: {enumerated(wrong)}"
    return (
        f"Common practice says equal parts of carbon-rich and nitrogen-rich. With what you have (green is C:N under "
        f"{GREEN_RATIO:.0f}): C:N {equal.c_to_n:.0f} and {100.0 * equal.moisture_frac:.0f} % water, so {judged}."
    )


def _later(answer: Answer, told: PileTold) -> Iterator[Section]:
    """Give what else is worth knowing."""
    yield Section("How sure the warmth is", tuple(_sureness(answer, told)))
    lines = [_ruled(each, told) for each in answer.rules]
    if lines:
        head = "Rules of time and warmth (a yardstick, no duty for a household)"
        if not told.has_readings:
            lines.append('Only readings of core, edge and base meet one: --reading "3 core 57 C".')
        yield Section(head, tuple(lines))
    if sacks := _sacks(answer, told):
        yield Section("Leaf sacks", (sacks,))
    lost = 100.0 - answer.figures["nitrogen_kept_pct"].value
    yield Section(
        "What it costs",
        (f"About {lost:.0f} % of its nitrogen goes off in the time that was followed; a C:N of 30 keeps most.",),
    )


def _sacks(answer: Answer, told: PileTold) -> str:
    """Say how many sacks of what is dry are to be kept for a year of such batches."""
    litres = sum(
        answer.made.kg[each.id] * each.middle("loose_l")
        for each in answer.stuffs
        if each.id in answer.made.kg and kind_of(each) == "brown" and not each.is_sour
    )
    if litres <= 0.0 or not any(each.is_sour for each in answer.stuffs):
        return ""
    count = math.ceil(FORTNIGHTS * litres / told.sack_l)
    size, sack = told.speech.size(litres, digits=0), told.speech.size(told.sack_l)
    return (
        f"One such batch a fortnight takes {size} of browns each time: keep {count} sacks of {sack} dry in autumn for "
        "the whole year, under a roof."
    )


def _ruled(each: Ruled, told: PileTold) -> str:
    """Say of a rule what the readings show, and what the forecast makes likely."""
    rule, verdict = each.verdict.rule, each.verdict
    met = "met by your readings" if verdict.is_met else f"not met, {verdict.lacks}" if told.has_readings else "not met"
    hot = " Hotter than it allows." if verdict.too_hot else ""
    return f"{rule.jurisdiction}, {rule.instrument}: {met}.{hot} Likely by the forecast: {each.likely}."


def _sureness(answer: Answer, told: PileTold) -> Iterator[str]:
    speech = told.speech
    yield (
        "A forecast of the warmth of a pile is a sketch: published models miss the peak by 5 to 10 degrees, and the "
        "brackets hold that error."
    )
    volume = answer.figures["volume_l"].value
    size, usual = speech.size(volume, digits=0), speech.size(told.heats_l, digits=0)
    if volume < WILL_NOT_L:
        yield (
            f"Handbooks: {usual} heat in most weather, under {speech.size(WILL_NOT_L)} nothing holds "
            f"{speech.celsius(HOT_C)}. Yours has {size}."
        )
    elif volume < told.heats_l:
        yield f"Handbooks: {usual} heat in most weather; {size} may, if built in one go and insulated (--insulated)."
    else:
        yield f"Handbooks: {usual} heat in most weather, and yours has {size}."
    yield (
        "Compostable lids, cutlery and bags stay out of any pile at home: they ask for weeks of heat that only works "
        "hold."
    )
    sour = answer.figures.get("sour_share_pct")
    if sour is not None and sour.value > 100.0 / 3.0:
        yield f"{sour.value:.0f} % of it is sour: over a third it sticks at about {speech.celsius(42.0)} for days."
