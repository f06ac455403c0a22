"""What may be shown of a vessel that is watched."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
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
from sourloam.views.mix import ToDo
from sourloam.views.reason import Number, Reason, number_of, reason_of

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
FAULTS: Final[Mapping[Fault, str]] = MappingProxyType(
    {
        Fault.LEAK: "air leaks in at the lid",
        Fault.DROWNED: "liquid has no way out",
        Fault.DEAD: "the bran was dead",
        Fault.SPOILED: "some of it had begun to rot before it went in",
        Fault.COLD: "it stands far colder than you said",
    }
)


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
    )
    heading = _heading(found, it, signs)
    rest = " ".join(_rest(found, it, forecast))
    return WatchView(
        batch=batch,
        day=found.day,
        heading=heading,
        says=f"{heading} {rest}".rstrip(),
        is_sound=found.is_known and not it.has_failed and chances[Condition.SOUND] > LIKELY,
        is_known=found.is_known,
        effective=found.effective,
        diagnosis=tuple(_state(each, batch, signs) for each in found.diagnosis),
        twenty=tuple(_twenty(chances)),
        causes=tuple(_causes(found.faults)),
        conflicts=tuple(_conflict(each, batch, signs) for each in found.conflicts),
        readings=tuple(
            ReadingView(
                each.day, words.heard_words(each, signs, batch.speech), getattr(each, "ph", None), each.typed, each.mark
            )
            for each in found.readings
        ),
        do=tuple(words.to_do(it)),
        next_time=tuple(words.next_time(it)),
        look_next=tuple(_looks(found)),
        worry_if=() if it.has_failed else tuple(words.worry_if(it, forecast, found.day)),
        route=words.ROUTE if it.has_failed else "",
        hints=tuple(words.hints(it)),
        reasons={each.chance.name: reason_of(each.chance, sources) for each in found.diagnosis}
        | dict(forecast.reasons),
        forecast=forecast,
        before=before,
    )


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
        if it.top is Condition.DROWNED:
            return f"Treat it as failed, unless only the liquid has {seen}."
        return f"Treat it as failed: {seen} is enough by itself."
    first = found.diagnosis[0]
    if first.chance.value < LIKELY:
        return f"Not clear yet: {_likeliest(found)}."
    said = SAID[first.condition]
    often = f"{dict(_twenty(it.chances))[first.condition.value]} of {TWENTY}"
    if not found.readings:
        return f"Nothing read yet. By day {found.day}, as it was laid in, it is {said}: {often}."
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
    if it.has_failed and it.top is Condition.DROWNED:
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


def _causes(faults: Mapping[Fault, float]) -> Iterator[str]:
    """Give what is likeliest behind it."""
    ranked = sorted((each for each in faults if each in FAULTS), key=lambda each: -faults[each])
    yield from (f"{FAULTS[each]}: {chance_words(faults[each])}" for each in ranked if faults[each] >= 0.1)


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
