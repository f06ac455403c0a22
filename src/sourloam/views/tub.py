"""What the answer of a soil tub may show."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech, days, when
from sourloam.science.batch.cautions import Caution
from sourloam.science.batch.content import Content
from sourloam.science.places.offer import UNSOUND, rough
from sourloam.science.places.soil_tub.finishing import Known, Tub
from sourloam.views.place import Decision, PlaceView, Section, caution_lines, numbers_of, reasons_of

FIRST: Final = ("soil_l", "days", "tubs", "takes_kg", "holds_l", "soil_ds_per_m")
THEN: Final = ("new_soil_l",)
CAUTIONS: Final = (
    "fermented-scraps-are-not-sanitised",
    "legionella-longbeachae-in-composts-and-potting-mixes",
    "salt-build-up",
    "rodents-foxes-flies",
)
FREEZES_C: Final = 0.0
LONG_D: Final = 300

FROZEN: Final = (  # common practice, no source
    "In the largest box you have, with holes to drain: nothing goes down in it until spring.",
    "Layer on layer, each under soil that you kept dry and unfrozen, a bit more of it than in summer.",
    "Wire over it, or a lid that lets air in and closes: frost keeps no animals away.",
    "At the thaw, drain it, mix it through with a handful of fresh bran, and count the days from there.",
)


@dataclass(frozen=True)
class TubCase:
    """What the answer rests on beside its figures."""

    place: str
    name: str
    on: date
    filled: date
    room_c: float
    is_anyway: bool
    assumptions: tuple[str, ...]
    speech: Speech
    sources: Mapping[str, Source]
    cautions: Mapping[str, Caution]

    @property
    def lain_d(self) -> int:
        """Return for how many days it has lain by the day of the question."""
        return (self.on - self.filled).days

    def after(self, count: float) -> str:
        """Return the date so many days after filling, as it is said."""
        if not np.isfinite(count):
            return "no day that we know"
        day = self.filled + timedelta(days=round(count))
        return f"{when(day)}{f' {day.year}' if abs((day - self.on).days) > LONG_D else ''}"


def tub_view(content: Content, figures: Mapping[str, Figure], tub: Tub, case: TubCase, *, known: Known) -> PlaceView:
    """Return the answer of a tub."""
    decision, says, because = _decided(content, figures, case)
    is_going = decision is Decision.YES or case.lain_d > 0
    sections = (Section("Do this", tuple(_steps(figures, tub, case))),) if is_going else ()
    if not is_going and case.room_c < FREEZES_C:
        sections = (Section("If no vessel can wait, lay it in all the same", FROZEN),)
    later = (
        Section("Again and again", tuple(_loops(figures, tub, known))),
        Section("Without a tub", tuple(_slow(known))),
    )
    return PlaceView(
        "soil_tub",
        case.name,
        decision,
        says,
        because,
        caution_lines(CAUTIONS, case.cautions),
        numbers_of(figures, FIRST),
        reasons_of(figures, case.sources),
        case.speech,
        sections,
        later if is_going else (),
        {"takes_kg": _takes(content, figures) if decision is Decision.YES and not case.lain_d else 0.0},
        case.assumptions,
        numbers_of(figures, THEN),
    )


def _takes(content: Content, figures: Mapping[str, Figure]) -> float:
    return figures["takes_kg"].value if "takes_kg" in figures else content["mass_kg"].value


def _decided(content: Content, figures: Mapping[str, Figure], case: TubCase) -> tuple[Decision, str, tuple[str, ...]]:
    """Return the decision, what it says, and why."""
    wanted = figures["days"]
    span = f"{case.after(wanted.low)} to {case.after(wanted.high)}"
    warm = f"Where it stands it is about {case.speech.celsius(case.room_c)}; twice as fast ten degrees warmer."
    if case.lain_d > 0:
        if case.lain_d >= wanted.value:
            return Decision.YES, f"it has lain {days(case.lain_d)}: it is soil, if ten seedlings grow in it.", (warm,)
        by = case.after(wanted.value)
        told = f"it has lain {days(case.lain_d)} of about {days(wanted.value)}: soil by {by} ({span})."
        return Decision.NOT_YET, told, (warm,)
    if content.state in ("failed", "unknown"):
        return Decision.NO, f"{UNSOUND[content.state]}, and a tub gives soil for food or for rooms.", ()
    if content.state == "unfinished" and not case.is_anyway:
        return Decision.NOT_YET, "it is not ready: in a tub it would stink and draw flies (--anyway).", ()
    if case.room_c < FREEZES_C:
        rests = f"Filled today, it rests until the thaw and is soil by about {case.after(wanted.value)} ({span})."
        told = "its soil is frozen: leave the vessel shut until it thaws, or bring the tub in."
        return Decision.NOT_YET, told, (rests,) if np.isfinite(wanted.value) else ()
    if not np.isfinite(wanted.value):
        return Decision.NO, "where it stands it is too cold for it to become soil.", (warm,)
    takes, there = _takes(content, figures), content["mass_kg"].value
    is_part = takes < 0.98 * there
    part = f"{case.speech.kg(takes)} of {case.speech.kg(there)}" if is_part else f"all {case.speech.kg(there)}"
    why = f"The tub holds no more with its soil; {case.speech.kg(there - takes)} go elsewhere." if is_part else ""
    raw = "Not ready, it heats, stinks and takes longer." if content.state == "unfinished" else ""
    told = f"mix in {part}; soil by about {case.after(wanted.value)} ({span})."
    return Decision.YES, told, tuple(each for each in (why, raw, warm) if each)


def _steps(figures: Mapping[str, Figure], tub: Tub, case: TubCase) -> Iterator[str]:
    if case.lain_d > 0:
        yield "Lumps left? Chop and mix it once more and wait a week or two more, or lay a hand of finished soil on it."
        yield "Then roots meet it late: as the lower half of a pot or a bed it may be used now."
        return
    soil = figures["soil_l"].value
    yield (
        f"Put two fingers of soil at the bottom, then batch and soil in thin layers, chopped together: {rough(soil)} L "
        "of soil in all."
    )
    yield "Old potting soil, garden soil, leaf mould or ripe compost all do, roots and all; wet soil wants dry leaves."
    yield "Cover it with some centimetres of plain soil and a lid that lets air in; no airtight one: now it wants air."
    yield "Mix it through after a week and after three: the finer it is chopped, the sooner it is soil."
    if tub.every_d is not None and "tubs" in figures:
        yield f"A batch every {days(tub.every_d)} wants {figures['tubs'].value:.0f} of them, filled in turn."


def _loops(figures: Mapping[str, Figure], tub: Tub, known: Known) -> Iterator[str]:
    soil = figures["soil_ds_per_m"]
    tender, hardy = known.ground.tender_ds_per_m.value, known.ground.hardy_ds_per_m.value
    own = known.finish.tub_ds_per_m.value
    batches = f"{tub.cycles} batches" if tub.cycles > 1 else "one batch"
    yield "Take half out to use, and leave half in as the soil of the next: you get a richer kind of what you put in."
    told = f"Salt stays: after {batches} it has {soil.value:.1f} dS/m ({soil.low:.1f} to {soil.high:.1f})"
    if soil.value <= tender:
        yield f"{told}; tender crops bear that."
        return
    for_hardy, for_tender = (float(np.ceil((soil.value - own) / (each - own))) for each in (hardy, tender))
    thin = f"1 part to {max(for_hardy - 1.0, 1.0):.0f} for tomatoes, to {for_tender - 1.0:.0f} for beans and carrots"
    yield f"{told}: spread it on a bed, or thin it with plain soil, {thin}."
    yield "Rain or a good watering outdoors washes much of the salt out, and some of the feed with it."


def _slow(known: Known) -> Iterator[str]:
    slow = known.finish.slow_d
    weeks = f"{slow.low / 7:.0f} to {slow.high / 7:.0f} weeks"
    yield f"In the bucket itself, with as many dry leaves and a cap of soil, {weeks}, and the bucket is gone."
    yield "Bags that are said to compost fall apart within days when wet: keep nothing in them, and line a box at most."
