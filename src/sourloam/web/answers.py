"""Any answer as one page shows it: the sentence first, what to do, the numbers with their reasons, what was assumed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sourloam.views.culture import CultureView
from sourloam.views.ferment import FermentView
from sourloam.views.heap import HeapView
from sourloam.views.mix import MixView, ToDo
from sourloam.views.place import PlaceView
from sourloam.views.reason import Number, Reason

Part = tuple[str, Sequence[str]]
HEADLINE = 4


@dataclass(frozen=True)
class Answer:
    """What a page shows of an answer, whatever it is about."""

    heading: str
    because: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()  # a title and its lines, before the numbers
    numbers: tuple[Number, ...] = ()
    reasons: Mapping[str, Reason] = field(default_factory=dict)
    later: tuple[Part, ...] = ()  # and after them
    cautions: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    drawings: tuple[str, str] | None = None  # for a table, for a phone

    @property
    def first(self) -> tuple[Number, ...]:
        """Return the numbers that come first."""
        return tuple(each for each in self.numbers if each.name in self.reasons)[:HEADLINE]

    @property
    def others(self) -> tuple[Number, ...]:
        """Return the rest of them."""
        return tuple(each for each in self.numbers if each.name in self.reasons)[HEADLINE:]


def to_do(acts: Sequence[ToDo]) -> tuple[str, ...]:
    """Return what is to be done as sentences."""
    return tuple(f"{each.do}, {each.because}." if each.because else f"{each.do}." for each in acts)


def of_mix(view: MixView) -> Answer:
    """Return the judgement of a load."""
    after = (f"With that: {view.after[:1].lower()}{view.after[1:]}",) if view.after else ()
    return Answer(
        view.says,
        tuple(each.words for each in view.why),
        (
            ("Do this", (*to_do(view.advice), *after, *view.hints)),
            ("How to fill it", view.fill),
            ("The liquid", view.liquid),
            ("What goes in, and how", view.notes),
            ("Kept apart", view.apart),
            ("What it is", tuple(f"{typed}: {mass}" for typed, mass in view.parts)),
        ),
        view.numbers,
        view.reasons,
        (("Once it is in the ground", view.ground), ("Elsewhere, unfermented", view.elsewhere)),
        assumptions=view.assumptions,
    )


def of_place(view: PlaceView) -> Answer:
    """Return what a place does with a batch."""
    return Answer(
        view.says,
        view.because,
        tuple((each.title, each.lines) for each in view.sections),
        view.numbers,
        view.reasons,
        tuple((each.title, each.lines) for each in view.later),
        view.cautions,
        view.assumptions,
    )


def of_culture(view: CultureView) -> Answer:
    """Return an answer of the bench."""
    amounts = tuple(f"{each.said} {each.what}{f' ({each.aside})' if each.aside else ''}" for each in view.amounts)
    steps = tuple(
        f"{f'{each.start:%a} {each.start.day} {each.start:%b}: ' if each.start else ''}{each.what}"
        f"{f'. {each.amounts}' if each.amounts else ''}{f'. Ready when {each.ready_when}' if each.ready_when else ''}."
        for each in view.steps
    )
    custom = tuple(each.says for each in view.disagreements)
    return Answer(
        view.says,
        view.because,
        (
            ("Do this", view.do),
            ("Amounts, in the order of use", amounts),
            ("Step by step", steps),
            ("To buy", tuple(each.said for each in view.shopping)),
        ),
        view.numbers,
        view.reasons,
        (("Custom says", custom), ("Mind", view.notes)),
        view.cautions,
        view.assumptions,
    )


def of_heap(view: HeapView) -> Answer:
    """Return how a heap under a sheet is laid."""
    return Answer(
        view.says,
        (),
        (("Do this", view.steps), ("Is this right?", view.asks)),
        view.numbers,
        view.reasons,
        (("Mind", view.notes),),
    )


def of_ferment(view: FermentView) -> Answer:
    """Return how a batch goes."""
    often = tuple(f"{each.word} in {each.often}: {each.because}" for each in view.failing)
    return Answer(
        view.says,
        (view.because,) if view.because else (),
        (("What would help", (*to_do(view.advice), *view.hints)), ("What could go wrong", often)),
        view.numbers,
        view.reasons,
        cautions=view.cautions,
        assumptions=view.batch.assumptions,
    )
