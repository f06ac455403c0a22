"""The plain questions of a first day, at most a dozen: made from the declared answers, for terminal and page alike."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any, Final

from sourloam.base.fields import Asking, Fault, Key, declared
from sourloam.base.kinds import Amount, Choice
from sourloam.site.answers import Answers, key_of
from sourloam.site.draft import Region
from sourloam.site.people import Keeper
from sourloam.sitefile.typed import raw_of

MOST: Final = 12
UNKNOWN: Final = ("", "?", "i don't know", "i do not know", "don't know", "dont know", "unknown")

Asked = Callable[[Answers], bool]


def _always(_answers: Answers) -> bool:
    return True


@dataclass(frozen=True)
class Question:
    """One question: what it fills, how it is put, what may be answered in full words, what "I don't know" means."""

    attributes: tuple[str, ...]  # one, but that people and the amount that they bring are asked together
    words: str
    hint: str
    unknown: str  # what is taken then
    labels: tuple[tuple[str, str], ...] = ()  # a choice and its full words
    is_asked: Asked = _always


def keys() -> Mapping[str, Key]:
    """Return every answer that can be given, by its attribute: the options of the command."""
    return {attribute: mark for attribute, mark in declared(Answers) if isinstance(mark, Key)}


def answered(answers: Answers, attribute: str, text: str, regions: Mapping[str, Region]) -> Answers:
    """Return the answers with one more, read from what was typed.

    Raises
    ------
    Fault
        If it cannot be read; the sentence says what would do.
    """
    key = key_of(Answers, attribute)
    if attribute == "climate":
        return _with_region(answers, text, regions)
    raw = raw_of(key.kind, text)
    value = key.kind.read(raw, Asking(Keeper().handful_kg))  # nobody new has weighed theirs
    told = ((attribute, raw),) if isinstance(key.kind, Amount) and isinstance(raw, str) else ()
    typed = tuple(each for each in answers.typed if each[0] != attribute) + told
    return replace(answers, **{attribute: value}, typed=typed)  # type: ignore[arg-type]


def reply(answers: Answers, question: Question, text: str, regions: Mapping[str, Region]) -> Answers:
    """Return the answers after a question; "I don't know" leaves its place empty.

    Raises
    ------
    Fault
        If no answer can be read from the text.
    """
    cleared: dict[str, Any] = dict.fromkeys(question.attributes)  # a first try that was taken back is forgotten
    before = replace(answers, **cleared)
    if is_unknown(question, text):
        return before
    if question.attributes == ("flow", "people"):
        attribute = "people" if _is_a_count(text) else "flow"
        return answered(before, attribute, text, regions)
    return answered(before, question.attributes[0], _named(question, text), regions)


def _named(question: Question, text: str) -> str:
    """Return the choice whose number or full words were written, or the text as it is."""
    said = text.strip().lower()
    numbered = enumerate(question.labels, start=1)
    return next((name for number, (name, label) in numbered if said in (str(number), label.lower())), text)


def _is_a_count(text: str) -> bool:
    """Whether people are meant, not an amount: a bare number, or one that says so."""
    return isinstance(raw_of(key_of(Answers, "people").kind, text), int)


def is_unknown(question: Question, text: str) -> bool:
    """Whether the text says "I don't know": in words, by nothing, or by the number that stands last."""
    said = text.strip().lower().rstrip(".").replace("’", "'")
    return said in UNKNOWN or (bool(question.labels) and said == str(len(question.labels) + 1))


def _with_region(answers: Answers, text: str, regions: Mapping[str, Region]) -> Answers:
    """Return the answers with a climate; one south of the equator has its like's latitude there."""
    words, south, rest = text.strip().lower().partition("south")
    if not south or rest.strip():
        return replace(answers, climate=_region(text.strip(), regions))
    name = _region(words.strip(" ,-"), regions)
    latitude_deg = -regions[name].latitude_deg if answers.latitude_deg is None else answers.latitude_deg
    return replace(answers, climate=name, latitude_deg=latitude_deg)


def _region(text: str, regions: Mapping[str, Region]) -> str:
    chosen = raw_of(Choice(tuple(regions)), text)
    if chosen not in regions:
        likes = [name for name, each in regions.items() if each.like.lower() == text.strip().lower()]
        if likes:
            return likes[0]
        raise Fault(f'"{text}" is not a climate that is known.', f"Known: {', '.join(regions)}.")
    return str(chosen)


_LABELS: Final = MappingProxyType(
    {
        "premises": {
            "home": "a home",
            "school": "a school or nursery",
            "shared-garden": "a shared garden, to which people bring them",
            "business": "an office, a café, another business",
        },
        "diet": {"all": "whatever is left over, meat and fish too", "plants": "plants only"},
        "stands": {
            "kitchen": "in the kitchen",
            "indoors": "elsewhere indoors, as warm as the kitchen",
            "cellar": "in a cellar",
            "shed": "in a shed or garage without heating",
            "outdoors": "outdoors",
        },
        "places": {
            "bed": "a bed or border that can be dug",
            "pile": "a heap or bin that rots with air",
            "worm-bin": "a worm bin",
            "soil-tub": "a tub of soil, on a balcony too",
            "neighbour": "a neighbour takes it",
            "shared-garden": "a shared garden takes it",
            "collection": "it is collected",
        },
        "bran_from": {"made": "I make it", "bought": "I buy it ready"},
        "days": {
            "mon": "Monday",
            "tue": "Tuesday",
            "wed": "Wednesday",
            "thu": "Thursday",
            "fri": "Friday",
            "sat": "Saturday",
            "sun": "Sunday",
        },
    }
)


def questions(regions: Mapping[str, Region]) -> tuple[Question, ...]:
    """Return the questions in their order; of some only one of two is asked, so that they are a dozen at most."""
    return (
        _choice("premises", "Where do the scraps come from?", "", "a home"),
        Question(
            ("flow", "people"),
            "How many people eat there, or how much comes?",
            "A number of people, such as 3. If you have weighed a week: 4 kg/week; or a caddy: 12 L/week.",
            "two people are reckoned with",
        ),
        _choice("diet", "What comes?", "", "whatever is left over"),
        Question(
            ("buckets",),
            "Which buckets have you, or think of buying?",
            "What one holds, and how many: 18 L, or 2 x 18 L, or 2 x 5 gal.",
            "two of 20 L",
        ),
        Question(
            ("has_drain",),
            "Can liquid run off below: by a tap, or into a second bucket?",
            "",
            "it can",
            (("yes", "yes"), ("no", "no")),
        ),
        _choice("stands", "Where do they stand?", "", "in the kitchen"),
        _climate(regions),
        _choice("places", "Where can a finished bucket go?", "One or more, such as 1, 4.", "into the waste bin"),
        Question(
            ("bed_m2",),
            "How large is the bed?",
            "Length times width: 6 m2, or 60 sq ft.",
            "4 square metres",
            is_asked=lambda answers: "bed" in answers.chosen,
        ),
        Question(
            ("fridge_l",),
            "How much room is there in the fridge or freezer for scraps that wait?",
            "Such as 5 L; 0 for none.",
            "none",
        ),
        _choice("bran_from", "Do you make the bran, or buy it ready?", "", "you make it"),
        Question(
            ("bran_kg",),
            "How much bran is in the house?",
            "Such as 1 kg or 2 lb; 0 for none.",
            "none",
            is_asked=lambda answers: answers.bran_from == "bought",
        ),
        _choice(
            "days",
            "On which days is there time to dig, mix and carry?",
            "One or more, such as 3, 6.",
            "Saturdays and Sundays; in a school or business Monday to Friday",
            is_asked=lambda answers: answers.bran_from != "bought",
        ),
    )


def _choice(attribute: str, words: str, hint: str, unknown: str, *, is_asked: Asked = _always) -> Question:
    return Question((attribute,), words, hint, unknown, tuple(_LABELS[attribute].items()), is_asked)


def _climate(regions: Mapping[str, Region]) -> Question:
    return Question(
        ("climate",),
        "What is it like where you live?",
        'The nearest will do. South of the equator, add "south": 2 south.',
        "mild winters, cool summers",
        tuple((name, f"{each.words}, as in {each.like}") for name, each in regions.items()),
    )
