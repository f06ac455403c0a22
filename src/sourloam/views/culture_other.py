"""What came of a mix, other uses of bran and serum, and a culture that is being woken, in words."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech
from sourloam.science.inoculum.bench import Use
from sourloam.science.inoculum.carrier import Carrier
from sourloam.science.inoculum.wetting import liquid_kg_per_kg
from sourloam.views.culture import CultureView, Disagreement, UseLine
from sourloam.views.culture_words import capital, numbers_of, reasons_of, with_measure

LATE_D: Final = 7.0
DISCARD_PH: Final = 3.9
COOL_C: Final = 17.0
NEAR_PCT: Final = 2.0  # of moisture; no squeeze tells less


@dataclass(frozen=True)
class Squeezed:
    """A mix that was made: of how much, how wet, and what a squeezed handful did."""

    carrier: Carrier
    carrier_kg: float | None
    liquid_kg: float | None
    squeeze: str | None
    target: Figure | None

    def frac(self, name: str) -> float:
        """Return a value of the carrier."""
        return self.carrier[name].value

    @property
    def aim(self) -> float:
        """Return the moisture that is aimed at."""
        return self.target.value if self.target is not None else self.frac("target_wb_frac")


def poured_view(
    mix: Squeezed,
    figures: Mapping[str, Figure],
    *,
    disagreements: Sequence[Disagreement],
    sources: Mapping[str, Source],
    speech: Speech,
) -> CultureView:
    """Return what is shown of a mix."""
    moisture = figures.get("moisture_pct")
    is_right = mix.squeeze == "holds" or (
        mix.squeeze is None
        and moisture is not None
        and mix.frac("least_wb_frac") <= moisture.value / 100.0 <= mix.frac("most_wb_frac")
    )
    return CultureView(
        says=_verdict(mix, moisture, is_right=is_right),
        speech=speech,
        is_yes=is_right,
        because=tuple(_window(mix, moisture)),
        do=tuple(_mend(mix, moisture, speech, is_right=is_right)),
        numbers=numbers_of(figures),
        reasons=reasons_of(figures, sources),
        disagreements=tuple(disagreements),
        notes=(
            (
                "Squeeze a handful: right, it holds together and falls apart at a touch, and no drop comes. Recipes "
                "by volume depend on how the carrier lies: weigh it, or trust the squeeze."
            ),
        ),
        cautions=("Minerals and salt that some recipes add are not needed, and salt slows the culture.",),
        assumptions=(
            f"The carrier held {100.0 * mix.frac('moisture_wb_frac'):.0f} % of water before (--carrier-moisture).",
            "The liquid is counted as water.",
        ),
        name="a mix",
    )


def _verdict(mix: Squeezed, moisture: Figure | None, *, is_right: bool) -> str:
    told = "" if moisture is None else f" It comes to {moisture.value:.0f} % of water."
    if is_right:
        return f"Wet enough, and not too wet.{told}"
    wet = mix.squeeze == "drips" or (
        mix.squeeze is None and moisture is not None and moisture.value / 100.0 > mix.frac("most_wb_frac")
    )
    return f"Too wet.{told}" if wet else f"Too dry.{told}"


def _window(mix: Squeezed, moisture: Figure | None) -> Iterator[str]:
    least, most, drips = (100.0 * mix.frac(each) for each in ("least_wb_frac", "most_wb_frac", "drips_wb_frac"))
    name = mix.carrier.name
    yield (
        f"{capital(name)} is packed at {least:.0f} to {most:.0f} % of water; from about {drips:.0f} % it drips when "
        "squeezed."
    )
    if moisture is None or mix.squeeze is None:
        return
    expected = "drips" if moisture.value > drips - NEAR_PCT else "crumbles" if moisture.high < least else "holds"
    if expected != mix.squeeze:
        yield (
            f"By its amounts it should be at {moisture.low:.0f} to {moisture.high:.0f} %, and the squeeze says "
            "otherwise. The hand is right: the carrier was damper or drier, or the cup another one, than was thought."
        )


def _now(mix: Squeezed, moisture: Figure | None) -> float:
    """Return the moisture to mend from: by its amounts, but no less than what drips and no more than what crumbles."""
    by_amounts = moisture.value / 100.0 if moisture is not None else None
    if mix.squeeze == "drips":
        return max(by_amounts or 0.0, mix.frac("drips_wb_frac"))
    if mix.squeeze == "crumbles":
        driest = mix.frac("least_wb_frac") - 0.05
        return min(by_amounts or 1.0, driest)
    return by_amounts if by_amounts is not None else mix.aim


def _mend(mix: Squeezed, moisture: Figure | None, speech: Speech, *, is_right: bool) -> Iterator[str]:
    """Say what to add to bring a mix to what is aimed at."""
    if is_right:
        yield "Pack it hard and shut it airtight."
        return
    now, own, name = _now(mix, moisture), mix.frac("moisture_wb_frac"), mix.carrier.name
    wet_kg = (mix.carrier_kg or 0.0) + (mix.liquid_kg or 0.0)
    of = wet_kg if mix.carrier_kg is not None and mix.liquid_kg is not None else 1.0
    of_what = "" if of != 1.0 else f" to each {speech.kg(1.0)} of the mix"
    aim = f"{100.0 * mix.aim:.0f} %"
    if now > mix.aim:
        dry = of * (now - mix.aim) / (mix.aim - own)
        yield f"Work in {speech.kg(dry)} of dry {name}{of_what}: that brings it to {aim}. More bran does no harm."
        yield "Without more of it: spread the mix for some hours and stir it, until a squeezed handful lets no drop go."
        yield "Do not pack it dripping: at the bottom it drowns and smells of rot."
        return
    water = of * float(liquid_kg_per_kg(mix.aim, now))
    told = with_measure(water / 0.998, speech)
    yield f"Sprinkle in {told} more of the same liquid{of_what}, a little at a time: that brings it to {aim}."
    if mix.carrier_kg is not None and mix.liquid_kg is not None:
        yield from _targets(mix, speech)


def _targets(mix: Squeezed, speech: Speech) -> Iterator[str]:
    """Say how much liquid in all each moisture would have taken."""
    carrier_kg, own = mix.carrier_kg or 0.0, mix.frac("moisture_wb_frac")
    wanted = [each for each in (0.30, 0.35, 0.40, 0.45) if each > own]
    told = [
        f"{100.0 * each:.0f} % takes {speech.litres(carrier_kg * float(liquid_kg_per_kg(each, own)) / 0.998)}"
        for each in wanted
    ]
    yield f"In all, on {speech.kg(carrier_kg)}: {', '.join(told)}."


def uses_view(
    which: str,
    uses: Sequence[Use],
    parts: float | None,
    *,
    typed: str,
    sources: Mapping[str, Source],
    speech: Speech,
) -> CultureView:
    """Return what is shown of other uses."""
    if which == "bran":
        return CultureView(
            says="Bran is for scraps. What else it is used for, and what stands behind that:",
            speech=speech,
            uses=tuple(_use(each, sources, speech) for each in uses),
            cautions=(
                (
                    "Where nothing was found, nothing is promised. Feed and litter: ask a vet, and follow the rules "
                    "where you are; the worms' own limits cap what they get."
                ),
            ),
            name="uses of bran",
        )
    lines = tuple(
        UseLine(each.name, f"1 to {each.usual:g} (1 to {each.low:g} up to 1 to {each.high:g})", "habit", each.does, "")
        for each in uses
    )
    return CultureView(
        says="Serum thinned: to 1 part of it so many of water, by what it is for.",
        speech=speech,
        because=tuple(_diluted(parts, typed, uses)) if parts is not None else (),
        uses=lines,
        notes=(
            (
                "Advice differs about 25 times over: 1 teaspoon to 4 L is 1 to 800, 20 ml to a litre 1 to 50, 4 to 8 "
                "tablespoons to a US gallon 1 to 64 up to 1 to 32, 1 L to a drum of 200 L 1 to 200."
            ),
            "More is not better: what was stronger than advised has hurt plants. Start at 1 to 1000.",
        ),
        cautions=("Not on what is eaten raw, and not to be drunk.",),
        name="uses of serum",
    )


def _diluted(parts: float, typed: str, uses: Sequence[Use]) -> Iterator[str]:
    plants = next(each for each in uses if each.id == "plants")
    is_strong = parts < plants.low
    verdict = (
        f"stronger than plants should get (1 to {plants.low:g} at most)" if is_strong else "within what plants get"
    )
    yield f'"{typed}" is 1 to {parts:.0f}: {verdict}.'


def _use(use: Use, sources: Mapping[str, Source], speech: Speech) -> UseLine:
    amount = speech.told(f"{use.usual:g} {use.unit}") + speech.told(f" ({use.low:g} to {use.high:g})")
    evidence, says = use.evidence, use.does
    if use.trial:
        evidence = f"trial: {sources[use.trial].text.split(':')[0].rstrip('.')}"
        says = f"{use.does} {use.trial_says}"
    elif evidence == "none found":
        says = f"{use.does} No trial was found: no benefit is claimed."
    return UseLine(use.name, amount, evidence, says, use.caution)


def activation_view(
    readings: Sequence[tuple[float, float]],
    figures: Mapping[str, Figure],
    *,
    is_stalled: bool,
    room_c: float,
    sources: Mapping[str, Source],
    speech: Speech,
) -> CultureView:
    """Return what is shown of a culture that is being woken."""
    day, ph = readings[-1]
    ready = figures["ready_ph"].value
    left = figures["days_left"]
    is_ready = ph <= ready
    if is_ready:
        says = f"Ready: pH {ph:g} on day {day:g}, if it smells sweet and sour."
    elif is_stalled:
        says = f"It has stalled at pH {ph:g}: it has to come under {ready:g}."
    else:
        says = f"Not yet: pH {ph:g} on day {day:g}; it has to come to {ready:g}. About {left.value:.0f} days more."
    numbers = {name: figures[name] for name in ("days_left", "ready_ph")}
    return CultureView(
        says=says,
        speech=speech,
        is_yes=is_ready,
        because=tuple(_falling(day, left, is_ready=is_ready, is_stalled=is_stalled)),
        do=tuple(_wake(day, ph, room_c, speech, is_ready=is_ready, is_stalled=is_stalled)),
        numbers=numbers_of(numbers),
        reasons=reasons_of(numbers, sources),
        notes=(
            "Pages want pH 3.6, 3.7, 3.8 or 4.0, and 3 to 14 days; 3.7 is what most agree on.",
            (
                "A woken culture is strongest within two weeks; sources say 2 weeks to 6 months: sourloam culture "
                "--alive culture."
            ),
            (
                "Gas: most of it comes in the first days, while it sours fastest. Let it out every day then, later "
                "every few days, away from your face; fill a bottle to nine tenths at most, and keep it under 40 °C."
            ),
            (
                "A bottle that bulges is a danger in glass or shut tightly: loosen it slowly. Plastic that gives, a "
                "loose cap or an airlock; never tight glass."
            ),
        ),
        cautions=("What smells of rot, or is slimy or coloured, goes to the pile.",),
        name="a culture being woken",
    )


def _falling(day: float, left: Figure, *, is_ready: bool, is_stalled: bool) -> Iterator[str]:
    if is_ready:
        return
    if is_stalled:
        yield "Two days or more without a tenth of a unit: it does not get there by waiting."
        return
    yield f"If it goes on as it fell so far: {left.value:.1f} days ({left.low:.1f} to {left.high:.1f})."


def _wake(day: float, ph: float, room_c: float, speech: Speech, *, is_ready: bool, is_stalled: bool) -> Iterator[str]:
    if is_ready:
        yield "Use it, or keep it cool and full to the neck."
        return
    if room_c < COOL_C:
        yield f"Put it warmer: under {speech.celsius(COOL_C)} it hardly moves; 30 to 35 C is best.".replace(
            "30 to 35 C", f"{speech.celsius(30.0)} to {speech.celsius(35.0)}"
        )
    else:
        yield (
            "Keep it warm, shut, and wait."
            if not is_stalled
            else "Warm it, and look for the cause, the likeliest first:"
        )
    if is_stalled or (day >= LATE_D and ph >= DISCARD_PH):
        yield (
            "Causes: too cool; water with chlorine or chloramine; too little mother culture, or an old one; a bottle "
            "that was not clean; more molasses than it can sour."
        )
        yield (
            "Add as much mother culture again, once. If it still stands at 3.9 or more, or stinks ten minutes after "
            "it was opened, it goes to the pile."
        )
