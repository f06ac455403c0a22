"""What may be shown of a vessel that is watched."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from sourloam.base.source import Source
from sourloam.science.readings.kinds import Reading, Seen
from sourloam.science.readings.signs import Signs
from sourloam.science.watch.acts import Acts
from sourloam.science.watch.conditions import CONDITIONS, Condition
from sourloam.science.watch.conflict import Conflict
from sourloam.science.watch.diagnosis import Diagnosis
from sourloam.science.watch.faults import Fault
from sourloam.science.watch.next_look import Look, unread
from sourloam.views import watch_words as words
from sourloam.views.batch import Batch
from sourloam.views.ferment import FermentView
from sourloam.views.ferment_verdict import chance_words
from sourloam.views.ferment_words import SPOILS
from sourloam.views.mix import ToDo
from sourloam.views.reason import Number, Reason, number_of, reason_of
from sourloam.views.watch_causes import causes

LIKELY, NEARLY = 0.5, 0.8  # chances from which it is said to be probably so, and to be so; judgement
TWENTY: Final = 20
MOST_LOOKS: Final = 3
SAID: Final[Mapping[Condition, str]] = MappingProxyType(
    {
        Condition.SOUND: "sound so far",
        Condition.YEASTY: "yeasty: it works like wine, and may still do",
        Condition.PUTRID: "rotting",
        Condition.MOULDY: "mouldy: air gets in at the top",
        Condition.STUCK: "stuck: it does not turn sour in time",
        Condition.DROWNED: "standing in its own liquid",
    }
)


GRUBBY: Final = "open to the air, and flies get in"


@dataclass(frozen=True)
class Found:
    """What the readings say, before words."""

    day: int
    readings: tuple[Reading, ...]
    diagnosis: tuple[Diagnosis, ...]
    faults: Mapping[Fault, float]
    amiss: float
    is_known: bool
    effective: float
    conflicts: tuple[Conflict, ...]
    red: tuple[Seen, ...]
    looks: tuple[Look, ...]
    acts: Acts


@dataclass(frozen=True)
class StateView:
    """One state: how likely, and because of what."""

    state: str
    chance: Number
    often: str
    because: str


@dataclass(frozen=True)
class ReadingView:
    """A reading as it was understood."""

    day: float
    words: str
    ph: float | None
    typed: str
    mark: str


@dataclass(frozen=True)
class LookView:
    """What to look at next."""

    what: str
    gain_bits: float
    buys: bool


@dataclass(frozen=True)
class WatchView:
    """What is going on in a vessel."""

    batch: Batch
    day: int
    heading: str
    says: str
    is_sound: bool  # in more than half of all cases that fit, and nothing speaks against it alone
    is_known: bool
    effective: float
    diagnosis: tuple[StateView, ...]
    twenty: tuple[tuple[str, int], ...]  # of 20 vessels that read so, the most first
    causes: tuple[str, ...]
    conflicts: tuple[str, ...]
    readings: tuple[ReadingView, ...]
    do: tuple[ToDo, ...]
    next_time: tuple[ToDo, ...]
    look_next: tuple[LookView, ...]
    worry_if: tuple[str, ...]
    route: str
    hints: tuple[str, ...]
    reasons: Mapping[str, Reason]
    forecast: FermentView
    before: FermentView  # as it was forecast without the readings

    @property
    def assumptions(self) -> tuple[str, ...]:
        """Return what was taken as given."""
        return self.batch.assumptions


def watch_view(
    found: Found,
    batch: Batch,
    forecast: FermentView,
    *,
    before: FermentView,
    signs: Signs,
    sources: Mapping[str, Source],
) -> WatchView:
    """Return what may be shown."""
    chances = {each.condition: each.chance.value for each in found.diagnosis}
    it = words.Situation(
        batch,
        chances,
        found.diagnosis[0].condition,
        found.readings,
        is_red=bool(found.red),
        now={each.do: each for each in found.acts.now},
        next_time={each.do: each for each in found.acts.next_time},
        is_late=_is_late(found, batch, forecast),
        look=next((words.LOOKS[each.id] for each in found.looks if not each.buys), ""),
    )
    heading = _heading(found, it, signs)
    is_sound = found.is_known and not it.is_amiss and chances[Condition.SOUND] > LIKELY
    rest = batch.speech.told(" ".join(_rest(found, it, forecast)))
    return WatchView(
        batch=batch,
        day=found.day,
        heading=heading,
        says=f"{heading} {rest}".rstrip(),
        is_sound=is_sound,
        is_known=found.is_known,
        effective=found.effective,
        diagnosis=tuple(_state(each, batch, signs) for each in found.diagnosis),
        twenty=tuple(_twenty(chances)),
        causes=tuple(
            causes(
                found.faults,
                it.next_time,
                drowned=chances[Condition.DROWNED],
                is_amiss=not is_sound and bool(found.readings),
            )
        ),
        conflicts=tuple(_conflict(each, batch, signs) for each in found.conflicts),
        readings=tuple(
            ReadingView(
                each.day, words.heard_words(each, signs, batch.speech), getattr(each, "ph", None), each.typed, each.mark
            )
            for each in found.readings
        ),
        do=tuple(_told(each, batch) for each in words.to_do(it)),
        next_time=tuple(words.next_time(it)),
        look_next=() if it.has_failed and not it.may_be_liquid else tuple(_looks(found)),
        worry_if=() if it.has_failed else tuple(words.worry_if(it, forecast, found.day)),
        route=batch.speech.told(words.ROUTE) if it.has_failed else "",
        hints=tuple(words.hints(it)),
        reasons={each.chance.name: reason_of(each.chance, sources) for each in found.diagnosis}
        | dict(forecast.reasons),
        forecast=_careful(forecast, it),
        before=before,
    )


def _is_late(found: Found, batch: Batch, forecast: FermentView) -> bool:
    """Whether the last day of its being due is over."""
    due = forecast.number("due_day")
    return due is not None and due.high is not None and found.day >= batch.last_d + due.high


def _told(act: ToDo, batch: Batch) -> ToDo:
    """Return an act in the units of its keeper."""
    return replace(act, do=batch.speech.told(act.do), because=batch.speech.told(act.because))


def _careful(forecast: FermentView, it: words.Situation) -> FermentView:
    """Return a forecast that does not call what was seen to be well a failure, by what it was before."""
    told = tuple(it.batch.speech.told(each) for each in forecast.cautions if it.has_failed or each != SPOILS)
    return replace(forecast, cautions=told)


def _heading(found: Found, it: words.Situation, signs: Signs) -> str:
    """Return the answer in a sentence."""
    if not found.is_known:
        return "These readings fit nothing I know."
    if found.conflicts:
        one, other = (
            words.heard_words(each, signs, it.batch.speech)
            for each in (found.conflicts[0].one, found.conflicts[0].other)
        )
        return f"{one[0].upper()}{one[1:]} and {other} do not go together."
    if found.red and it.chances[Condition.SOUND] < NEARLY:
        seen = signs.by_id[found.red[0].sign].words
        if it.may_be_liquid:
            return f"Treat it as failed, unless only the liquid has {seen}."
        return f"Treat it as failed: {seen} is enough by itself."
    first = found.diagnosis[0]
    twenty = dict(_twenty(it.chances))
    if it.is_only_liquid and it.top is not Condition.SOUND:
        return "Only the liquid is known to have gone off; how the scraps smell decides."
    if it.is_patchy:
        what = "mouldy in places" if it.has_seen("blue") else "with a few specks of mould"
        return f"Sour in the main, {what}: at risk, not lost. Smell outranks what grows ({_likeliest(found)})."
    unless = ", unless only the liquid smells so" if it.may_be_liquid else ""
    if it.has_failed and first.chance.value < LIKELY:
        amiss = TWENTY - twenty.get(Condition.SOUND.value, 0)
        return f"Treat it as failed{unless}: {amiss} of {TWENTY} that read so are not sound ({_likeliest(found)})."
    if first.chance.value < LIKELY:
        return f"Not clear yet: {_likeliest(found)}."
    said = GRUBBY if it.has_seen("larvae") and first.condition is Condition.MOULDY else SAID[first.condition]
    often = f"{twenty[first.condition.value]} of {TWENTY}"
    if not found.readings:
        return f"Nothing read yet. By day {found.day}, as it was laid in, it is {said}: {often}."
    if it.has_failed:
        return f"Treat it as failed{unless}: {said.split(':')[0]} in {often} that read so."
    probably = "" if first.chance.value >= NEARLY else "Probably "
    sentence = f"{probably}{said}" if probably else f"{said[0].upper()}{said[1:]}"
    return f"{sentence}: {often}."


def _likeliest(found: Found) -> str:
    told = [f"{each.condition.value} {chance_words(each.chance.value)}" for each in found.diagnosis[:2]]
    return ", ".join(told)


def _rest(found: Found, it: words.Situation, forecast: FermentView) -> Iterator[str]:
    """Give what goes with the answer."""
    if not found.is_known:
        yield words.ask_more(unread(found.readings))
        return
    if found.conflicts:
        yield "Smell the lid, then the core. Both readings are kept."
    if it.may_be_liquid:
        yield f"If the core smells of it too: {words.ROUTE[0].lower()}{words.ROUTE[1:]}"
    elif it.has_failed:
        yield words.ROUTE
    elif it.top is Condition.SOUND:
        yield forecast.heading


def _state(each: Diagnosis, batch: Batch, signs: Signs) -> StateView:
    """Return a state with what speaks for it."""
    told = [
        f"{words.heard_words(reason.heard.readings[0], signs, batch.speech)} is {_times(reason.times)} in one that is "
        f"{each.condition.value}"
        for reason in each.because[:2]
    ]
    because = "; ".join(told) if told else "nothing that was read speaks for it"
    return StateView(each.condition.value, number_of(each.chance), chance_words(each.chance.value), because)


def _times(times: float) -> str:
    if times < 2.0:
        return "a little likelier"
    return f"{min(times, 100.0):.0f} times as likely" if times < 100.0 else "far likelier"


def _conflict(each: Conflict, batch: Batch, signs: Signs) -> str:
    one, other = (words.heard_words(reading, signs, batch.speech) for reading in (each.one, each.other))
    return (
        f"{one[0].upper()}{one[1:]} and {other} do not go together: {each.times:.0f} times as seldom seen together as "
        "apart. Smell the lid, then the core; read it again with a fresh strip."
    )


def _looks(found: Found) -> Iterator[LookView]:
    for each in found.looks[:MOST_LOOKS]:
        yield LookView(words.LOOKS[each.id], each.gain_bits, each.buys)


def _twenty(chances: Mapping[Condition, float]) -> Iterator[tuple[str, int]]:
    """Give how many of 20 vessels are in each state: the largest remainders get what is left."""
    whole = {each: int(TWENTY * chances[each]) for each in CONDITIONS}
    left = TWENTY - sum(whole.values())
    for each in sorted(CONDITIONS, key=lambda each: whole[each] - TWENTY * chances[each])[:left]:
        whole[each] += 1
    ranked = sorted(CONDITIONS, key=lambda each: (-whole[each], CONDITIONS.index(each)))
    yield from ((each.value, whole[each]) for each in ranked if whole[each])
