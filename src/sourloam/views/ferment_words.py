"""What is said of a forecast beside its verdict: what it rests on, what to do meanwhile, with what care."""

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.plan.words import days, enumerated, when
from sourloam.science.batch.cautions import Caution
from sourloam.science.ferment.ensemble.forecast import Forecast
from sourloam.science.vessel.headspace import gauge_bar
from sourloam.views.batch import Batch
from sourloam.views.ferment_verdict import FREEZES_C, RARE, USUAL_D, chance_words, is_told
from sourloam.views.ferment_vessel import FILLED, pressed_l, slowest_layer

VENT_BAR: Final = 0.1  # gas that much over the air outside in a day is let out; judgement
LITTLE_GAS_L: Final = 0.5
LITTLE_LIQUID_L: Final = 0.05
FAILED: Final = (
    "If it smells of rot or sewage, or is green or black throughout, it has failed: bury it deep and off food beds, or "
    "ask your waste authority. Local rules go before this."
)
HELD: Final = (
    "Meat, fish, egg or dairy is in it: leave it until day {day} after the last layer, held sour for a fortnight"
    "{often}. It is sour then, not sanitised."
)
NOT_HELD: Final = (
    "Meat, fish, egg or dairy is in it, and in {often} cases it is never held sour for a fortnight: treat it as failed."
)
TOO_SHORT: Final = (
    "Meat, fish, egg or dairy is in it, and in {days} it is not held sour for a fortnight: leave it shut, and follow "
    "it longer with --days."
)
SPOILS: Final = (
    "Meat, fish, egg or dairy is in it, and it probably goes wrong: treat it as failed, whatever the days above say."
)
BARE: Final = (
    "Meat, fish, egg or dairy lies in it without bran: leave it out until there is bran. No day above makes it safe."
)
NO_GLASS: Final = "Gas cannot lift its lid: use no tight glass, and open it slowly and away from your face."
ALERT_C: Final = 38.0  # common practice, no source; the warm rods of scraps end at 42 to 43 °C
HOT: Final = (
    "Heat: at {warmth} gas comes fast and rot may outrun the acid. Stand it in the shade or indoors, let gas out on "
    "the first days, smell it then and strew bran again; a large load of green stuff waits for cooler days."
)
LEFT_LONGER: Final = (
    "Left longer than planned: shut and drained it stays sour for months, by custom for a year or two; it gets wetter "
    "below, and white fuzz on top is usual. Open it out of doors, in gloves, and use it if it smells sour, not of rot."
)
STRONGEST: Final = MappingProxyType(  # what moves a batch, as a keeper would say it
    {
        "lactic_rate_times": "how fast lactic bacteria grow",
        "buffer_times": "how much acid the scraps take up before they turn sour",
        "ceiling_times": "how much acid lactic bacteria can bear",
        "release_per_d": "how fast the scraps let go of their sugar",
        "bran_log10": "how many live cells are in the bran",
        "warmer_c": "how much warmer it is inside than around it",
    }
)


def because(forecast: Forecast, batch: Batch, strongest: Sequence[str]) -> Iterator[str]:
    """Say what the forecast rests on most."""
    room = batch.filling.kept.room_c
    low, high = (batch.speech.celsius(float(each)) for each in (room.min(), room.max()))
    mean = batch.speech.celsius(float(room.mean()))
    yield f"It stands at {mean}." if low == high else f"It stands at {mean} on average, {low} to {high}."
    last = int(np.ceil(batch.last_d))
    if len(batch.filling.layers) > 1:
        number = slowest_layer(forecast.followed, min(last + 3, forecast.followed.ph.shape[1] - 1))
        yield _slowest(number, batch)
    if strongest:
        by_words = {each.words: STRONGEST.get(name, each.words) for name, each in forecast.figures["ready_day"].inputs}
        told = [by_words.get(each, batch.speech.warmths(each)) for each in strongest]
        yield f"What moves the dates most: {enumerated(told)}."


def _slowest(number: int, batch: Batch) -> str:
    """Say which layer sours last; of what was laid in at once, which part."""
    count = len(batch.filling.layers)
    if batch.last_d == 0.0:
        part = {1: "The bottom", count: "The top"}.get(number, "The middle")
        return f"{part} of it is the last to sour."
    place = {1: ", the lowest", count: ", the newest"}.get(number, "")
    return f"Layer {number}{place}, is the last to sour." if place else f"Layer {number} is the last to sour."


def hints(forecast: Forecast, batch: Batch, *, is_over: bool) -> Iterator[str]:
    """Say what to do with it while it ferments; that it does not fit only where the verdict has not said so."""
    yield from _room(batch, is_over=is_over)
    yield from _liquid(forecast, batch)
    yield from _gas(forecast, batch)
    yield from _frost(forecast, batch)
    yield from _heat(batch)
    yield LEFT_LONGER


def _heat(batch: Batch) -> Iterator[str]:
    hottest = float(np.max(batch.filling.kept.room_c))
    if hottest >= ALERT_C:
        yield HOT.format(warmth=batch.speech.celsius(hottest))


def _room(batch: Batch, *, is_over: bool) -> Iterator[str]:
    kept, speech = batch.filling.kept, batch.speech
    wants, holds = pressed_l(batch), FILLED * kept.volume_l - kept.sump_l
    if wants > 1.15 * holds and not is_over:
        yield (
            f"Pressed it takes {speech.litres(wants)}, and the vessel has room for {speech.litres(holds)}: lay less "
            "in, or take a larger one."
        )


def _liquid(forecast: Forecast, batch: Batch) -> Iterator[str]:
    speech, came = batch.speech, forecast.figures["leachate_l"]
    if not batch.has_drain:
        yield "It has no drain: what liquid comes stays among the scraps. Line the floor with something dry."
        return
    if came.high < LITTLE_LIQUID_L:
        yield "Liquid: hardly any."
        return
    every = batch.filling.kept.draws_every_d
    low, middle, high = (speech.litres(each) for each in (came.low, came.value, came.high))
    standing = "; nobody draws it off: once the drain space is full it stands in the food."
    often = f"; draw it off every {days(every)}." if every else standing
    yield f"Liquid: about {middle} in all ({low} to {high}){often}"


def _gas(forecast: Forecast, batch: Batch) -> Iterator[str]:
    """Say how much gas comes after the last layer; where the lid is tight, what that does and until when to vent."""
    gas = forecast.course["gas_l"]
    last = int(np.ceil(batch.last_d))
    a_day, most = np.diff(gas.median[last:]), np.diff(gas.high[last:])
    speech, total = batch.speech, float(gas.median[-1] - gas.median[last])
    if total < LITTLE_GAS_L and float(most.sum()) < LITTLE_GAS_L:
        return
    if not batch.is_tight:
        yield f"Gas: about {speech.litres(total)} after the last layer; let the lid lift, and open it slowly."
        return
    head_l = headspace_l(batch)
    bars, high = np.asarray(gauge_bar(a_day, head_l)), np.asarray(gauge_bar(most, head_l))
    over = np.nonzero(high >= VENT_BAR)[0]
    if not over.size:
        yield "Gas comes slowly: let it out once a week, with the lid turned away from you."
        return
    until = int(over[-1]) + 1
    yield (
        f"Gas: its lid cannot breathe, and above it is room for {speech.litres(head_l)}. In a day the pressure rises "
        f"by up to {float(bars.max()):.1f} bar (at worst {float(high.max()):.1f}). Let gas out every day until day "
        f"{until} after the last layer, slowly and away from your face."
    )


def headspace_l(batch: Batch) -> float:
    """Return the room above the last layer, as it is when the lid goes on."""
    kept = batch.filling.kept
    return max(kept.volume_l - kept.sump_l - pressed_l(batch), (1.0 - FILLED) * kept.volume_l)


def _frost(forecast: Forecast, batch: Batch) -> Iterator[str]:
    room = np.asarray(batch.filling.kept.room_c)
    cold = np.nonzero(room < FREEZES_C)[0]
    if not cold.size:
        return
    figure = forecast.figures["soured_day"]
    soured = figure.value + batch.last_d if is_told(figure) else np.inf
    first = int(cold[0])
    day = when(batch.on(first - batch.last_d)) if batch.first else f"day {first} after the first layer"
    is_before = not np.isfinite(soured) or first < soured
    fresh = "it has not soured by then, and what freezes before that counts as fresh"
    state = fresh if is_before else "sour by then"
    yield f"From {day} on it stands below freezing: frozen, nothing goes on; {state}. It goes on once it has thawed."
    if pressed_l(batch) > 0.75 * batch.filling.kept.volume_l:
        yield "A full vessel may crack in frost, and so may its tap: empty the tap, and leave a hand's breadth free."


def cautions(
    batch: Batch, figures: Mapping[str, Figure], known: Mapping[str, Caution], *, is_likely: bool
) -> Iterator[str]:
    """Say what to take care of, each thing once."""
    if batch.has_animal or batch.unguarded:
        yield _animal(batch, figures.get("hold_day"), is_likely=is_likely)
        yield known["rodents-foxes-flies"].text
    if batch.is_tight:
        yield NO_GLASS
    if batch.has_drain:
        yield known["acid-liquid-on-skin-eyes-metal-concrete"].text
    yield known["fermented-scraps-are-not-sanitised"].text
    yield FAILED


def _animal(batch: Batch, hold: Figure | None, *, is_likely: bool) -> str:
    """Say how long meat and the like must be left: a day only where most cases hold it sour and nothing spoils it."""
    if batch.unguarded or hold is None:
        return BARE
    if not is_told(hold):
        if batch.follow_d < USUAL_D:
            return TOO_SHORT.format(days=days(batch.follow_d))
        return NOT_HELD.format(often=chance_words(hold.never_frac))
    if not is_likely:
        return SPOILS
    often = f" in {chance_words(1.0 - hold.never_frac)} cases" if hold.never_frac >= RARE else ""
    return HELD.format(day=round(hold.value), often=often)


def interval_of(share: float, count: int) -> tuple[float, float]:
    """Return how far a share of so many cases may be off: Wilson's interval for nine in ten."""
    z = 1.645
    middle = (share + z * z / (2.0 * count)) / (1.0 + z * z / count)
    half = z * np.sqrt(share * (1.0 - share) / count + z * z / (4.0 * count**2)) / (1.0 + z * z / count)
    return max(middle - half, 0.0), min(middle + half, 1.0)


def plain(values: FloatArray) -> tuple[float | None, ...]:
    """Return the values of a course; nothing on days on which there is none."""
    return tuple(float(each) if np.isfinite(each) else None for each in values)
