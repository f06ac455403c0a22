"""Use case: something is wrong, and nobody knows what: at most five questions, and the answer by the watch."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.fields import Asking, Fault
from sourloam.base.figure import derive, written
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.signs import load_signs
from sourloam.evidence.sources import load_sources
from sourloam.plan.words import Speech
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.ground.rest import rest_d
from sourloam.science.watch.asking import most_telling
from sourloam.service.batches import AskedBatch
from sourloam.service.watch import MEMBERS, USUAL_C, AskedWatch, Compiler, Says, watched
from sourloam.site.batch_kinds import ROOM
from sourloam.views.reason import reason_of
from sourloam.views.trouble import FIRST, MOST, OPEN, QUESTIONS, SHORT, TROUBLE, Question, TroubleView
from sourloam.views.trouble_words import frozen, full, planted
from sourloam.views.watch import WatchView

USUAL_D: Final = 14
MOST_D: Final = 730


@dataclass(frozen=True)
class Answered:
    """What was answered, by the name of each question; an empty answer means that somebody cannot tell."""

    given: Mapping[str, str] = field(default_factory=dict)
    units: str | None = None
    members: int = MEMBERS

    @property
    def trouble(self) -> str:
        """Return what made somebody look."""
        return self.given.get("trouble", "")

    def said(self, name: str, answer: str) -> "Answered":
        """Return the answers with one more."""
        return Answered({**self.given, name: answer}, self.units, self.members)


def next_question(answered: Answered) -> Question | None:
    """Return what to ask next, the most telling first; nothing after five, or where two are enough."""
    given = answered.given
    if "trouble" not in given:
        return TROUBLE
    if len(given) >= MOST:
        return None
    for name in FIRST[answered.trouble]:
        if name not in given:
            return QUESTIONS[name]
    left = [each for each in OPEN if each not in given]
    if answered.trouble in SHORT or not left:
        return None
    signs = load_signs()
    seen = [sign for name, answer in given.items() for sign in [_sign(name, answer)] if sign]
    options = [(name, _options(name)) for name in left]
    return QUESTIONS[most_telling(options, seen, signs)]


def _options(name: str) -> tuple[str, ...]:
    if name == "fizz":
        return ("low", "middle", "high")
    return tuple(each.sign for each in QUESTIONS[name].choices)


def _sign(name: str, answer: str) -> str:
    """Return the sign that an answer stands for, in the table."""
    if name == "fizz":
        return {"yes": "low", "no": "high"}.get(answer, "")
    return next((each.sign for each in QUESTIONS[name].choices if each.name == answer), "")


def read_answer(question: Question, text: str) -> str:
    """Return an answer in the name that it goes by: a choice by its number, name or words; a number of days; a warmth.

    Raises
    ------
    BadInput
        If it cannot be read.
    """
    bare = " ".join(text.split()).casefold()
    if bare in ("", "?", "i cannot tell", "i don't know"):
        return ""
    if question.choices:
        return _choice(question, bare)
    if question.name == "days":
        return _days(text)
    try:
        return f"{float(str(ROOM.read(text, Asking()))):g} C"
    except Fault as fault:
        raise BadInput(f"--{question.name}", (Problem("", fault.found, fault.remedy),)) from None


def _choice(question: Question, bare: str) -> str:
    choices = question.choices
    if bare.isdecimal() and 1 <= int(bare) <= len(choices) + 1:
        return choices[int(bare) - 1].name if int(bare) <= len(choices) else ""
    for each in choices:
        if bare in (each.name, each.words.casefold()):
            return each.name
    names = ", ".join(each.name for each in choices)
    raise BadInput(f"--{question.name}", (Problem("", f'"{bare}" is none of the answers;', f"take one of: {names}."),))


def _days(text: str) -> str:
    number = text.strip().casefold().removesuffix("days").removesuffix("day").strip()
    if not number.isdecimal() or int(number) > MOST_D:
        raise BadInput("--days", (Problem("", f'"{text}" is no number of days;', "write one such as 9."),))
    return str(int(number))


def answer_of(answered: Answered, *, compiler: Compiler | None = None, says: Says | None = None) -> TroubleView:
    """Return what is wrong and what to do.

    Raises
    ------
    BadInput
        If an answer cannot be used.
    """
    given = answered.given
    day = int(given.get("days") or USUAL_D)
    warmth = given.get("warmth") or None
    readings = tuple(_readings(given, day))
    is_short = answered.trouble in SHORT
    # What is asked of a frozen vessel is how it goes on once it has thawed; of a planted one, the soil.
    at = warmth if answered.trouble not in ("frozen", "planted") else None
    batch = AskedBatch((), at=at or USUAL_C, units=answered.units, members=answered.members)
    view = watched(AskedWatch(batch, readings, day, is_advised=not is_short), compiler=compiler, says=says)
    if at is None:
        view = _assumed(view, "It stands at 18 °C, an ordinary room.")
    told = tuple((name, answer or "I cannot tell") for name, answer in given.items())
    if is_short:
        return _short(answered, view, told, day=day, warmth=warmth)
    return TroubleView(
        answered.trouble,
        told,
        view.heading,
        view.says,
        view.is_sound,
        view.do,
        tuple(each.what for each in view.look_next),
        view.worry_if,
        view.route,
        view.hints,
        view,
    )


def _assumed(view: WatchView, says: str) -> WatchView:
    return replace(view, batch=replace(view.batch, assumptions=(says, *view.batch.assumptions)))


def _readings(given: Mapping[str, str], day: int) -> Iterator[str]:
    """Give the answers as readings."""
    kinds = {"smell": "smell", "growth": "growth", "wet": "lid", "texture": "texture"}
    for name, kind in kinds.items():
        sign = _sign(name, given.get(name, ""))
        if sign:
            yield f"day {day} {kind} {sign}"
    if given.get("fizz"):
        yield f"day {day} fizz {given['fizz']}"
    trouble = given.get("trouble")
    if trouble == "maggots":
        yield f"day {day} larvae yes"
    if trouble == "bulging":
        yield f"day {day} lid bulging"


def _short(
    answered: Answered, view: WatchView, told: tuple[tuple[str, str], ...], *, day: int, warmth: str | None
) -> TroubleView:
    """Return the answer to what is no matter of signs: no room, frost, roots that came too early."""
    speech = Speech(answered.units or "metric")
    reasons = dict(view.reasons)
    if answered.trouble == "planted":
        soil_c = float((warmth or USUAL_C).split()[0])
        bed = load_parameters(BedParameters, "bed")
        soil = written("soil_c", soil_c, "Cel", words="warmth of the soil")
        rest = derive(
            "rest_d", rest_d, words="rest before planting", soil_c=soil, at_20c_d=bed.rest_at_20c_d, q10=bed.rest_q10
        )
        reasons["rest_d"] = reason_of(rest, load_sources())
        said = planted(rest, day, soil_c=soil_c, stops_c=bed.rest_stops_c.value, speech=speech)
    elif answered.trouble == "frozen":
        said = frozen(view)
    else:
        said = full(view, day)
    return TroubleView(
        answered.trouble, told, said.heading, f"{said.heading} {said.rest}".strip(), said.is_well, said.do,
        said.look_next, said.worry_if, "", said.hints, replace(view, reasons=reasons),
    )  # fmt: skip
