"""The verdict on a batch: when it is ready, or that it goes wrong, how, and in how many cases."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from sourloam.base.figure import Figure
from sourloam.plan.words import days, enumerated, when
from sourloam.science.ferment.ensemble.failing import TIME_HELPS, Failing, Kind
from sourloam.science.ferment.ensemble.forecast import Forecast
from sourloam.science.vessel.parameters import VesselParameters
from sourloam.views.batch import Batch
from sourloam.views.ferment_vessel import FILLED, lying_l, pressed_l

RARE: Final = 0.02  # under 1 in 50 no number is named: the model is not known so well
MANY, HALF = 0.95, 0.5
SURE: Final = 0.75  # of the cases, from which on no "probably" is said of rot; judgement
MOST_WAYS: Final = 2  # of going wrong that are named in the verdict
BRIM_TIMES: Final = 1.15  # of the room of a vessel: how far off the room of scraps is known; judgement
FREEZES_C: Final = 0.0
USUAL_D: Final = 42  # days that are followed where nothing else is asked
LONG_D: Final = 90  # by which what sours has soured
FROZEN: Final = "It stands frozen throughout: nothing goes on, and it is as fresh as it was laid in."
THAW: Final = "It sours once it has thawed: count from then."


@dataclass(frozen=True)
class Verdict:
    """The answer as a sentence, what goes with it, and whether it gets there in most cases without harm."""

    heading: str
    rest: str
    is_likely: bool = False


def chance_words(share: float, *, is_known: bool = False) -> str:
    """Return how often something happens: in 20 cases, and no number where it is rare or nearly always so.

    What is rare is told where so many batches were seen to their end that it is known.
    """
    if share < RARE:
        return f"1 in {min(round(1.0 / share), 1000)}" if is_known and share > 0.0 else "fewer than 1 in 50"
    if share > 1.0 - RARE:
        return "nearly all"
    return f"{min(max(round(20.0 * share), 1), 19)} of 20"


def is_told(figure: Figure) -> bool:
    """Whether a date is shown: at least half of all cases get there."""
    return figure.never_frac <= HALF


def never_words(never_frac: float) -> str:
    """Return what stands in the place of a date that is not told."""
    if never_frac == 1.0:
        return "in no case that was tried"
    return f"only in {chance_words(1.0 - never_frac)} cases"


def verdict(forecast: Forecast, batch: Batch, vessel: VesselParameters) -> Verdict:
    """Return the verdict; what must not be done stands before what the model says."""
    if is_overfilled(batch, vessel):
        wants, holds = (batch.speech.litres(each) for each in (pressed_l(batch), _room_l(batch)))
        heading = f"It does not fit: pressed it takes {wants}, and the vessel has room for {holds}."
        rest = "Lay less in, or take a larger one; what stands below is of a vessel that would hold it."
        return Verdict(heading, " ".join((*_leave_out(batch), rest)))
    rot = next(each for each in forecast.failing if each.kind is Kind.PUTRID)
    if rot.chance >= HALF:
        return Verdict(f"It {_rots(rot)}: {rot.because}.", " ".join((*_leave_out(batch), _wrong(forecast, batch))))
    if batch.unguarded:
        why = "Without bran nothing makes sure that it sours before it rots."
        return Verdict(" ".join(_leave_out(batch)), f"{why} {_wrong(forecast, batch)}")
    return _gone_wrong(forecast, batch) or _in_time(forecast, batch)


def is_overfilled(batch: Batch, vessel: VesselParameters) -> bool:
    """Whether it is more than the vessel holds to the brim, however much of it has settled by the last layer."""
    kept = batch.filling.kept
    return lying_l(batch, vessel) > BRIM_TIMES * (kept.volume_l - kept.sump_l)


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


def _rots(rot: Failing) -> str:
    return "rots" if rot.chance >= SURE else "probably rots"


def _room_l(batch: Batch) -> float:
    kept = batch.filling.kept
    return FILLED * kept.volume_l - kept.sump_l


def _leave_out(batch: Batch) -> Iterator[str]:
    if batch.unguarded:
        yield f"Leave out the {enumerated(batch.unguarded[:3])} until there is bran."


def _horizon(batch: Batch) -> str:
    return f"within {days(batch.follow_d)} after the last layer"


def _gone_wrong(forecast: Forecast, batch: Batch) -> Verdict | None:
    """Return the verdict where it goes wrong in half of the cases or more, or nothing."""
    never, worst = forecast.figures["ready_day"].never_frac, forecast.failing[0]
    spoilt = next(each for each in forecast.failing if each.kind is not Kind.STUCK)
    if spoilt.chance >= HALF:
        return Verdict(f"Probably {spoilt.kind.value}: {spoilt.because}.", _wrong(forecast, batch))
    if never > MANY or (never >= HALF and batch.follow_d < batch.least_d):
        if float(batch.filling.kept.room_c.max()) < FREEZES_C:
            return Verdict(FROZEN, THAW)
        there = "no case" if never == 1.0 else f"{chance_words(1.0 - never)} cases"
        return Verdict(f"Not ready {_horizon(batch)}.", f"It gets there in {there}. {_wait(forecast, batch)}")
    if worst.chance >= HALF:
        return Verdict(f"Probably {worst.kind.value}: {worst.because}.", _wrong(forecast, batch))
    if never >= HALF:
        return Verdict(f"Probably not ready {_horizon(batch)}.", _wrong(forecast, batch))
    if forecast.goes_wrong_frac >= HALF:
        return Verdict(f"It goes wrong as often as not, most often {worst.kind.value}.", _wrong(forecast, batch))
    return None


def _wait(forecast: Forecast, batch: Batch) -> str:
    """Say what holds it up, and whether to look at more days."""
    if batch.follow_d < USUAL_D:
        return f"Only {days(batch.follow_d)} were looked at: follow it longer with --days."
    stuck = next(each for each in forecast.failing if each.kind is Kind.STUCK)
    helps = stuck.because in TIME_HELPS and batch.follow_d < LONG_D
    then = "Follow it longer with --days." if helps else "Waiting alone will hardly cure it."
    return f"What holds it up: {stuck.because}. {then}"


def _in_time(forecast: Forecast, batch: Batch) -> Verdict:
    """Return the verdict where it is ready in most cases and does not spoil."""
    sour, ready, due = (forecast.figures[name] for name in ("soured_day", "ready_day", "due_day"))
    wrong = _wrong(forecast, batch)
    if not is_told(due):
        often = chance_words(1.0 - due.never_frac)
        heading = f"Sour, but with {enumerated(batch.animals[:1])} in it probably not held so for a fortnight."
        return Verdict(heading, f"It is held sour for a fortnight {_horizon(batch)} in {often} cases. {wrong}")
    told = [f"sour {dated(sour, batch)}"] if is_told(sour) else []
    told.append(f"ready {dated(ready, batch)}")
    said = ", ".join(told)
    until = ""
    if round(due.value) > round(ready.value):
        until = f"; due {dated(due, batch)}, since {_why_later(forecast, batch)}"
    return Verdict(f"{said[0].upper()}{said[1:]}{until}.", wrong, is_likely=True)


def _why_later(forecast: Forecast, batch: Batch) -> str:
    """Say what moves the day on which it is due beyond that on which it is ready."""
    hold = forecast.figures.get("hold_day")
    if hold is not None and round(hold.value) > round(batch.least_d):
        return f"it must stay sour for a fortnight with {enumerated(batch.animals[:1])} in it"
    return f"it is left shut for {days(batch.least_d)} at least"


def _wrong(forecast: Forecast, batch: Batch) -> str:
    """Say in how many cases it goes wrong, and how."""
    share, never = forecast.goes_wrong_frac, forecast.figures["ready_day"].never_frac
    ways = [f"{each.kind.value} in {chance_words(each.chance)}" for each in _told(forecast)]
    if never >= RARE:
        ways.append(f"not ready {_horizon(batch)} in {chance_words(never)}")
    how = f": {enumerated(ways)}" if share >= RARE and ways else ""
    said = f"It goes wrong in {chance_words(share, is_known=forecast.past.tells)} cases{how}."
    return f"{said} Dates are those of the cases that get there." if RARE <= never <= HALF else said


def _told(forecast: Forecast) -> Iterator[Failing]:
    """Give the likeliest ways of going wrong that are not low."""
    yield from (each for each in forecast.failing[:MOST_WAYS] if each.word != "low")
