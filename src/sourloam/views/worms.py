"""What a worm bin may show: whether to feed, how much, with what, when again, and what binds."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech, when
from sourloam.science.batch.cautions import Caution
from sourloam.science.batch.content import Content
from sourloam.science.places.offer import UNSOUND
from sourloam.science.places.worm_bin.feed import LIMITS, SHELL, Bin, binding, population
from sourloam.views.place import Decision, PlaceView, Section, caution_lines, numbers_of, reasons_of
from sourloam.views.reason import number_of
from sourloam.views.spoken import said, said_range

SHOWN: Final = (
    *("ration_g", "eggshell_g", "eggshell_g_per_kg", "next_feed_days", "corner_ph", "bed_ph", "corner_salt_g_per_kg"),
    *("corner_ammonia_mg_per_g", "bran_most_ml", "lime_for_bed_g"),
)
HEAT, DUG_UP = "worm-heat-and-ammonia", "rodents-foxes-flies"
LEAST_G: Final = 5.0
SOUR_PH, SWEET_PH = 5.5, 6.0
WARN_C: Final = 28.0  # a leaflet or other stops feeding from 24 °C on


@dataclass(frozen=True)
class WormsTold:
    """What is said of a worm bin beside its numbers."""

    speech: Speech
    name: str
    bin: Bin
    is_eaten: bool
    is_anyway: bool
    is_conditioned: bool
    on: date
    least_c: float
    most_c: float
    dies_c: float
    acid_gone_per_d: float

    @property
    def warm_c(self) -> float:
        """Return how warm the bed is."""
        return self.bin.warm.value


def worms_view(
    content: Content,
    figures: Mapping[str, Figure],
    told: WormsTold,
    *,
    sources: Mapping[str, Source],
    cautions: Mapping[str, Caution],
    assumptions: Sequence[str],
) -> PlaceView:
    """Return what of a feed is shown."""
    decision, says, because, limit = _decided(content, figures, told)
    keys = [HEAT, *([DUG_UP] if content.animal_matter else [])]
    feeds, following = decision is Decision.YES, _next(figures, told)
    return PlaceView(
        place="worm_bin",
        name=told.name,
        decision=decision,
        says=says,
        because=tuple(because),
        cautions=caution_lines(keys, cautions),
        numbers=numbers_of(figures, SHOWN),
        reasons=reasons_of(figures, sources),
        speech=told.speech,
        sections=(Section("How to feed", tuple(_steps(content, figures, told))),) if feeds else (),
        later=tuple(_later(figures, told, feeds=feeds)),
        tables={
            "binding": limit,
            "population": population(figures) + "s",
            "limits": [
                {"limit": name, "kg": figures[f"by_{name}"].value} for name in LIMITS if f"by_{name}" in figures
            ],
            "next_feed": following.isoformat() if feeds and following else None,
        },
        assumptions=tuple(assumptions),
    )


def _later(figures: Mapping[str, Figure], told: WormsTold, *, feeds: bool) -> Iterator[Section]:
    if feeds:
        yield Section("The limits, each alone (the smallest is the ration)", tuple(_limits(figures, told.speech)))
    yield Section("When to stop", tuple(_stops(told)))
    yield Section("Warmth", tuple(_warmth(told)))
    if feeds:
        yield Section("What they become", (_becomes(figures),))


def _decided(content: Content, figures: Mapping[str, Figure], told: WormsTold) -> tuple[Decision, str, list[str], str]:
    """Return whether they get some, in a word and a sentence, why, and the limit that binds."""
    speech, warm = told.speech, told.warm_c
    if warm >= told.dies_c:
        says = f"stop: {speech.celsius(warm)} kills them. Move the bin into the cool and wet its bed now."
        return Decision.NO, says, [f"They die at {_few(told)}."], "heat of the bed"
    if warm > told.most_c:
        says = f"no more while the bed is at {speech.celsius(warm)}: shade it or move it, damp it, and wait."
        return Decision.NO, says, ["What they are fed heats the bed further.", _spread(told)], "heat of the bed"
    if warm < told.least_c:
        says = f"not while the bed is at {speech.celsius(warm)}: they hardly eat under {speech.celsius(told.least_c)}."
        return Decision.NOT_YET, says, ["Keep the batch shut; bring the bin in or wrap it."], "cold of the bed"
    if told.bin.ph is not None and told.bin.ph < SOUR_PH:
        lime = said(number_of(figures["lime_for_bed_g"]), speech)
        says = f"no more until the bed is over pH {SWEET_PH:g}: it is sour, at {told.bin.ph:g}."
        return (
            Decision.NOT_YET,
            says,
            [f"Strew {lime} of ground shell or lime on it, loosen it, and look again in a week."],
            "acid of the bed",
        )
    if not told.is_eaten:
        return (
            Decision.NOT_YET,
            "no more until the last feed is eaten.",
            ["What lies there heats and goes sour."],
            "the last feed",
        )
    if content.state != "ready" and not told.is_anyway:
        says = f"{UNSOUND[content.state]}, and worms get only what is sound."
        wait = Decision.NOT_YET if content.state == "unfinished" else Decision.NO
        return (
            wait,
            says,
            ["In a bed it would ferment on, heat and go without air; --anyway says how much."],
            "the batch",
        )
    ration, limit = figures["ration_g"], binding(figures)
    if ration.value < LEAST_G:
        return Decision.NOT_YET, "the bed bears none of it as it is.", [f"What binds: {LIMITS[limit]}."], limit
    number = number_of(ration)
    says = f"about {said(number, speech)} now ({said_range(number, speech)}), on a tenth of the bed."
    return Decision.YES, says, [f"What binds: {LIMITS[limit]}."], limit


def _few(told: WormsTold) -> str:
    celsius = told.speech.celsius
    return f"{celsius(told.dies_c)}; leaflets print {celsius(32.0)}"


def _spread(told: WormsTold) -> str:
    celsius = told.speech.celsius
    return (
        f"Sources differ on what they bear: {celsius(24.0)}, {celsius(29.0)}, {celsius(32.0)} and {celsius(35.0)} are "
        f"printed; from {celsius(told.most_c)} up this tool feeds none."
    )


def _next(figures: Mapping[str, Figure], told: WormsTold) -> date | None:
    days = figures["next_feed_days"].value
    return told.on + timedelta(days=round(days)) if math.isfinite(days) else None


def _steps(content: Content, figures: Mapping[str, Figure], told: WormsTold) -> Iterator[str]:
    speech = told.speech
    amount = said(number_of(figures["ration_g"]), speech)
    if told.bin.aired_d < 2.0:
        yield from _airing(told)
    yield f"Lay {amount} on one tenth of the bed, 3 to 5 cm deep at most; keep a cool corner free for them to go to."
    yield from _shell(figures, told)
    day = _next(figures, told)
    if day is not None:
        between = said_range(number_of(figures["next_feed_days"]), speech)
        yield f"Next when that is eaten, about {when(day)}{f' ({between} days)' if between else ''}, in another corner."
    rest = content["mass_kg"].value - figures["ration_g"].value / 1000.0
    if rest > 0.1:
        yield (
            f"Keep the other {speech.kg(rest)} shut: a whole batch at once kills a bin. Double the ration weekly if "
            "the last is gone."
        )
    yield "Torn paper or cardboard over it takes up water: a bed that is wet and slimy goes without air."
    yield (
        f"Starter bran is no food for them: {said(number_of(figures['bran_most_ml']), speech)} at the very most in all "
        "of the bedding, mixed in with ground lime before the worms go in (one breeder; a single source)."
    )


def _airing(told: WormsTold) -> Iterator[str]:
    yield (
        "First let it air: a thin layer in a tray for 2 to 7 days, stirred, out of the rain; or a week in a bag, 1:1 "
        "by volume with torn paper and two handfuls of castings (it warms up). It fizzes with baking soda while it is "
        "sour: feed it when it hardly does."
    )
    yield f"Aired for four days it is milder (about {_aired(told)} of its acid left): ask again with --aired 4."


def _aired(told: WormsTold) -> str:
    warm = max(told.warm_c, 0.0)
    left = math.exp(-told.acid_gone_per_d * 4.0 * 2.0 ** ((warm - 20.0) / 10.0))
    return f"{100.0 * left:.0f} %"


def _shell(figures: Mapping[str, Figure], told: WormsTold) -> Iterator[str]:
    shell = figures["eggshell_g"]
    if not SHELL[told.bin.shell]:
        yield (
            "Coarse shell counts nothing: pieces of it last a year and more. Grind it to powder, or strew ground lime."
            if told.bin.shell == "coarse"
            else "Without ground shell or lime less of it can be borne."
        )
        return
    number = number_of(shell)
    eggs = shell.value / 5.5
    about = f"about {eggs:.0f} shells" if eggs >= 0.75 else "a pinch"
    yield (
        f"Mix in {said(number, told.speech)} ({said_range(number, told.speech)}) of eggshell ground fine, {about}: "
        "that takes up half to 70 % of its acid. More would drive off ammonia. Shell that was in the vessel has spent "
        "itself there and is not counted again."
    )


def _limits(figures: Mapping[str, Figure], speech: Speech) -> Iterator[str]:
    held = [(name, figures[f"by_{name}"]) for name in LIMITS if f"by_{name}" in figures]
    for name, figure in sorted(held, key=lambda each: each[1].value):
        much = figure.value > 100.0
        told = (
            "no limit here"
            if much
            else f"{speech.kg(figure.value)} ({speech.kg(figure.low)} to {speech.kg(min(figure.high, 100.0))})"
        )
        yield f"{LIMITS[name][0].upper()}{LIMITS[name][1:]}: {told}"


def _stops(told: WormsTold) -> Iterator[str]:
    yield (
        f"Worms leaving or balled up, a smell of ammonia, a bed over {told.speech.celsius(told.most_c)} or under pH "
        f"{SOUR_PH:g}: take "
        'the feed out, loosen the bed, add paper. "sourloam ails worms" goes through the causes.'
    )
    yield (
        "Worms that curl and flee when they touch it are not dying: it is too sour for them yet. Let it air, or give a "
        "smaller pocket that they can go round."
    )
    yield (
        "Rates such as their own weight a day are for grown beds at 20 to 25 °C with food that is not sour: new worms, "
        "a cool room or little bedding eat a small part of it. Begin with a quarter of their weight in a week or less."
    )


def _warmth(told: WormsTold) -> Iterator[str]:
    yield _spread(told)
    if told.warm_c >= WARN_C - 5.0:
        yield "In a hot week: into the shade, a wet cloth over it, half a ration, a frozen bottle beside it."
    if told.warm_c < 12.0:
        yield "In the cool they take weeks over what takes days in summer; below 0 °C bring it in, or pack it in straw."


def _becomes(figures: Mapping[str, Figure]) -> str:
    word = population(figures)
    return f"Fed on like this the worms {word}. No count is given: too much besides the food decides it."
