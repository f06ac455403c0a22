"""Something is wrong: the questions, at most five, and what their answers mean as readings."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.views.mix import ToDo
from sourloam.views.watch import WatchView

MOST: Final = 5


@dataclass(frozen=True)
class Choice:
    """One answer: its name for scripts, its words, and the sign that it stands for."""

    name: str
    words: str
    sign: str = ""


@dataclass(frozen=True)
class Question:
    """One question in plain words; without choices a number with its unit is wanted."""

    name: str
    words: str
    how: str
    choices: tuple[Choice, ...] = ()
    unknown: str = ""  # what is taken where somebody cannot tell


TROUBLE: Final = Question(
    "trouble",
    "What is wrong?",
    "The one thing that made you look.",
    (
        Choice("smells", "It smells bad"),
        Choice("mould", "Something grows on it"),
        Choice("nothing", "Nothing seems to happen"),
        Choice("liquid", "Too much liquid, or none"),
        Choice("maggots", "Maggots or flies are in it"),
        Choice("bulging", "The lid bulges or gas comes out"),
        Choice("full", "Everything is full and scraps keep coming"),
        Choice("frozen", "It is frozen, or the ground is"),
        Choice("planted", "Something was planted on it too early"),
    ),
    "it is looked at as a whole",
)
SMELL: Final = Question(
    "smell",
    "What does it smell of, most of all?",
    "Open it outdoors and smell the lid first. The strongest smell counts.",
    (
        Choice("pickle", "Sour, like pickles or yoghurt", "pickle"),
        Choice("vinegar", "Sharp, like vinegar", "vinegar"),
        Choice("yeast", "Of beer, wine or bread", "yeast"),
        Choice("rancid", "Of old butter or vomit", "rancid"),
        Choice("rotten", "Of rot, sewage or bad eggs", "putrid"),
        Choice("ammonia", "Of ammonia, like a stable or a cleaner", "ammonia"),
        Choice("musty", "Musty, like a cellar", "musty"),
        Choice("none", "Of nothing but what went in", "fresh"),
    ),
    "smell is left out",
)
GROWTH: Final = Question(
    "growth",
    "What grows on top?",
    "Look in daylight. The worst colour counts.",
    (
        Choice("none", "Nothing", "clean"),
        Choice("white", "White film or fluff only", "white"),
        Choice("specks", "A few small blue or green specks", "specks"),
        Choice("blue", "Blue or green fur", "blue"),
        Choice("black", "Black fur", "black"),
        Choice("red", "Orange, pink or red fur", "red"),
    ),
    "growth is left out",
)
WET: Final = Question(
    "wet",
    "How wet is it?",
    "Look under the lid, and let the liquid out if there is a tap.",
    (
        Choice("droplets", "Droplets hang under the lid, or it swims", "droplets"),
        Choice("dry", "The lid is dry inside", "dry lid"),
    ),
    "wetness is left out",
)
FIZZ: Final = Question(
    "fizz",
    "Does baking soda fizz on it?",
    "A pinch on a spoonful from the core. Fizz means sour, below about 5.",
    (Choice("yes", "It fizzes"), Choice("no", "It does not")),
    "the test is left out",
)
TEXTURE: Final = Question(
    "texture",
    "How do the scraps feel in a glove?",
    "Squeeze some from below the top.",
    (
        Choice("firm", "Firm", "firm"),
        Choice("slimy", "Slimy, or falling apart", "slimy"),
        Choice("dry", "Dry", "parched"),
    ),
    "texture is left out",
)
DAYS: Final = Question(
    "days", "How many days ago was it filled and shut?", "A number, such as 9.", (), "14 days are taken"
)
WARMTH: Final = Question(
    "warmth", "How warm is it where it stands?", 'Such as "18 C" or "60 F".', (), "18 °C, an ordinary room, is taken"
)
QUESTIONS: Final[Mapping[str, Question]] = MappingProxyType(
    {each.name: each for each in (TROUBLE, SMELL, GROWTH, WET, FIZZ, TEXTURE, DAYS, WARMTH)}
)
FIRST: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {  # what a trouble asks for before anything else; the rest goes by what tells most
        "smells": ("smell", "days"),
        "mould": ("growth", "days"),
        "nothing": ("days", "warmth"),
        "liquid": ("wet", "days"),
        "maggots": ("days",),
        "bulging": ("days",),
        "": ("days",),
        "full": ("days", "warmth"),
        "frozen": ("days", "warmth"),
        "planted": ("days", "warmth"),
    }
)
OPEN: Final = ("smell", "growth", "wet", "fizz", "texture")
SHORT: Final = ("full", "frozen", "planted")  # two questions are enough


@dataclass(frozen=True)
class TroubleView:
    """What is wrong and what to do, from the answers."""

    trouble: str
    answers: tuple[tuple[str, str], ...]
    heading: str
    says: str
    is_well: bool
    do: tuple[ToDo, ...]
    look_next: tuple[str, ...]
    worry_if: tuple[str, ...]
    route: str
    hints: tuple[str, ...]
    watch: WatchView
