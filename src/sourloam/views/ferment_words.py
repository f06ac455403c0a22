"""What is said of a forecast: when, how likely not, what may go wrong, what would help, with what care."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.plan.words import days, enumerated, when
from sourloam.science.batch.cautions import Caution
from sourloam.science.ferment.ensemble.failing import Failing
from sourloam.science.ferment.ensemble.forecast import Forecast
from sourloam.science.vessel.headspace import gauge_bar
from sourloam.views.batch import Batch
from sourloam.views.ferment_vessel import FILLED, pressed_l, slowest_layer

RARE: Final = 0.02  # under 1 in 50 no number is named: the model is not known so well
MANY, HALF = 0.95, 0.5
VENT_BAR: Final = 0.1  # gas that much over the air outside in a day is let out; judgement
FREEZES_C: Final = 0.0
LITTLE_GAS_L: Final = 0.5
FAILED: Final = (
    "If it smells of rot or sewage, or is green or black throughout, it has failed: bury it deep and off food beds, or "
    "ask your waste authority. Local rules go before this."
)
HELD: Final = (
    "Meat, fish, egg or dairy is in it: leave it until day {day} after the last layer, held sour for a fortnight. It "
    "is sour then, not sanitised."
)
NOT_HELD: Final = (
    "Meat, fish, egg or dairy is in it, and in these days it is not held sour for a fortnight: leave it shut."
)


def chance_words(share: float) -> str:
    """Return how often something happens: in 20 cases, in 100 where it is seldom, and no number where it is rare."""
    if share < RARE:
        return "fewer than 1 in 50"
    if share > 1.0 - RARE:
        return "more than 49 of 50"
    if share < 0.1 or share > 0.9:
        return f"{round(100.0 * share)} of 100"
    return f"{round(20.0 * share)} of 20"


def says(forecast: Forecast, batch: Batch) -> tuple[str, str]:
    """Return the answer as a sentence, and how often it is another one."""
    sour, ready, due = (forecast.figures[name] for name in ("soured_day", "ready_day", "due_day"))
    never = ready.never_frac
    horizon = f"within {days(batch.follow_d)} after the last layer"
    if never > MANY:
        return f"Not ready {horizon}.", f"It gets there in {chance_words(1.0 - never)} cases. {_wait(batch)}"
    worst = forecast.failing[0]
    if failing_chance(worst) >= HALF:
        often = f"So it is in {chance_words(failing_chance(worst))} cases."
        before = (
            f" It is ready in {chance_words(1.0 - never)}, {dated(ready, batch)}; that does not outlast what spoils it."
        )
        return f"Probably {worst.kind.value}: {worst.because}.", often + (before if never < HALF else "")
    chance = f"In {chance_words(never)} cases it is not ready {horizon}; the dates are those of the others."
    if never >= HALF:
        return f"Probably not ready {horizon}.", f"{chance} Where it gets there, it is ready {dated(ready, batch)}."
    until = "" if round(due.value) <= round(ready.value) else f"; due {dated(due, batch)}, since it is left so long"
    return f"Sour {dated(sour, batch)}, ready {dated(ready, batch)}{until}.", chance


def dated(figure: Figure, batch: Batch) -> str:
    """Return a day with its interval: "on day 9 (6 to 15)", or by its date."""
    low, middle, high = (round(each) for each in (figure.low, figure.value, figure.high))
    if batch.first is None:
        return f"on day {middle}" + (f" ({low} to {high})" if low < high else "")
    return f"about {when(batch.on(middle))}" + (f" ({span(batch, low, high)})" if low < high else "")


def span(batch: Batch, low: float, high: float) -> str:
    """Return a stretch of dates: "18 to 26 Mar"."""
    first, last = batch.on(low), batch.on(high)
    if first is not None and last is not None and (first.year, first.month) == (last.year, last.month):
        return f"{first.day} to {when(last)}"
    return f"{when(first)} to {when(last)}"


def _wait(batch: Batch) -> str:
    longer = "Follow it longer with --days" if batch.follow_d < 90 else "Waiting alone will hardly cure it"
    return f"{longer}; what holds it up stands below."


def because(forecast: Forecast, batch: Batch, strongest: Sequence[str]) -> Iterator[str]:
    """Say what the forecast rests on most."""
    room = batch.filling.kept.room_c
    low, high = (batch.speech.celsius(float(each)) for each in (room.min(), room.max()))
    mean = batch.speech.celsius(float(room.mean()))
    yield f"It stands at {mean}." if low == high else f"It stands at {mean} on average, {low} to {high}."
    last = int(np.ceil(batch.last_d))
    if len(batch.filling.layers) > 1:
        number = slowest_layer(forecast.followed, min(last + 3, forecast.followed.ph.shape[1] - 1))
        place = {1: ", the lowest", len(batch.filling.layers): ", the newest"}.get(number, "")
        yield f"Layer {number}{place}, is the last to sour." if place else f"Layer {number} is the last to sour."
    if strongest:
        yield f"What moves the dates most: {enumerated([batch.speech.warmths(each) for each in strongest])}."


def failing_chance(failing: Failing) -> float:
    """Return the share of cases that fail so."""
    return float(failing.members.mean())


def hints(forecast: Forecast, batch: Batch) -> Iterator[str]:
    """Say what to do with it while it ferments."""
    yield from _room(batch)
    yield from _liquid(forecast, batch)
    yield from _gas(forecast, batch)
    yield from _frost(forecast, batch)


def _room(batch: Batch) -> Iterator[str]:
    kept, speech = batch.filling.kept, batch.speech
    wants, holds = pressed_l(batch), FILLED * kept.volume_l - kept.sump_l
    if wants > 1.15 * holds:
        yield (
            f"Pressed it takes {speech.litres(wants)}, and the vessel has room for {speech.litres(holds)}: lay less "
            "in, or take a larger one."
        )


def _liquid(forecast: Forecast, batch: Batch) -> Iterator[str]:
    speech, came = batch.speech, forecast.figures["leachate_l"]
    if not batch.has_drain:
        yield "It has no drain: what liquid comes stays among the scraps. Line the floor with something dry."
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
    soured = forecast.figures["soured_day"].value + batch.last_d
    first = int(cold[0])
    day = when(batch.on(first - batch.last_d)) if batch.first else f"day {first} after the first layer"
    is_before = not np.isfinite(soured) or first < soured
    fresh = "it has not soured by then, and what freezes before that counts as fresh"
    state = fresh if is_before else "sour by then"
    yield f"From {day} on it stands below freezing: frozen, nothing goes on; {state}. It goes on once it has thawed."
    if pressed_l(batch) > 0.75 * batch.filling.kept.volume_l:
        yield "A full vessel may crack in frost, and so may its tap: empty the tap, and leave a hand's breadth free."


def cautions(batch: Batch, hold: Figure | None, known: Mapping[str, Caution]) -> Iterator[str]:
    """Say what to take care of, each thing once."""
    if batch.has_animal and hold is not None:
        yield HELD.format(day=round(hold.value)) if np.isfinite(hold.value) else NOT_HELD
        yield known["rodents-foxes-flies"].text
    if batch.is_tight:
        yield known["gas-pressure-in-sealed-vessels"].text
    if batch.has_drain:
        yield known["acid-liquid-on-skin-eyes-metal-concrete"].text
    yield known["fermented-scraps-are-not-sanitised"].text
    yield FAILED


def interval_of(share: float, count: int) -> tuple[float, float]:
    """Return how far a share of so many cases may be off: Wilson's interval for nine in ten."""
    z = 1.645
    middle = (share + z * z / (2.0 * count)) / (1.0 + z * z / count)
    half = z * np.sqrt(share * (1.0 - share) / count + z * z / (4.0 * count**2)) / (1.0 + z * z / count)
    return max(middle - half, 0.0), min(middle + half, 1.0)


def plain(values: FloatArray) -> tuple[float | None, ...]:
    """Return the values of a course; nothing on days on which there is none."""
    return tuple(float(each) if np.isfinite(each) else None for each in values)
