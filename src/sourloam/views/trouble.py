"""Something is wrong: the questions, at most five, and what their answers mean as readings."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
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
    also: tuple[str, ...] = ()  # words by which somebody may say it


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
        Choice("smells", "It smells bad", also=("smell", "stinks", "stink", "reeks", "odour", "odor", "stench")),
        Choice(
            "mould", "Something grows on it", also=("mold", "mouldy", "moldy", "fuzz", "fur", "fluff", "white stuff")
        ),
        Choice(
            "nothing", "Nothing seems to happen, or is it done?", also=("looks the same", "unchanged", "done", "ready")
        ),
        Choice(
            "liquid", "Too much liquid, or none", also=("juice", "wet", "water", "leachate", "soggy", "tea", "drain")
        ),
        Choice("maggots", "Maggots or flies", also=("maggot", "flies", "fly", "larvae", "grubs", "insects", "bugs")),
        Choice("bulging", "The lid bulges or gas comes out", also=("bulges", "gas", "hisses", "swollen", "pressure")),
        Choice("full", "Everything is full and scraps keep coming", also=("both full", "no room", "too much")),
        Choice("frozen", "It is frozen, or the ground is", also=("ice", "frost", "froze", "winter")),
        Choice(
            "planted",
            "Something was planted on it too early",
            also=("plants", "roots", "seedlings", "planted too early"),
        ),
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
        Choice("blue", "Blue or green fur in places", "blue"),
        Choice("wide", "Blue or green fur over most of it", "wide"),
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
        Choice("droplets", "Droplets hang under the lid", "droplets"),
        Choice(
            "stands", "Liquid stands in the scraps", "droplets", ("swims", "swimming", "soup", "flooded", "up to the")
        ),
        Choice("dry", "The lid is dry inside", "dry lid"),
    ),
    "wetness is left out",
)
FIZZ: Final = Question(
    "fizz",
    "Does baking soda fizz on it?",
    "A pinch on a spoonful from the core. Fizz means sour, below about 5.",
    (Choice("yes", "It fizzes", also=("y", "fizz", "fizzes")), Choice("no", "It does not", also=("n", "nothing"))),
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
WHERE: Final = Question(
    "where",
    "Where does it smell of that?",
    "Draw all liquid off, then squeeze a handful from the middle, outdoors, in gloves.",
    (
        Choice("liquid", "Only the liquid, or the room below it", also=("juice", "below", "leachate", "underneath")),
        Choice("top", "At the lid and on top", also=("lid", "surface")),
        Choice("core", "The scraps themselves", also=("scraps", "all", "everything", "everywhere", "middle", "inside")),
    ),
    "both are thought of",
)
FED: Final = Question(
    "fed",
    "Was one of these so when it was filled?",
    "The one that was most so.",
    (
        Choice("meat", "Much meat, fish, cheese or fat went in", also=("fish", "cheese", "fat", "dairy", "bones")),
        Choice("wet", "It was wet: soup, melon, fruit, nothing drained", also=("soup", "melon", "fruit", "soggy")),
        Choice("old", "The scraps had lain about for days", also=("lain", "counter", "days", "rotten")),
        Choice("nobran", "Little bran or none, or old bran", also=("bran", "no bran")),
        Choice("usual", "None of these", also=("no", "none", "nothing")),
    ),
    "usual scraps with enough bran are taken",
)
INSECTS: Final = Question(
    "insects",
    "What is there?",
    "Look at the lid and the top layer.",
    (
        Choice("flies", "Small flies about the kitchen or the vessel", also=("fly", "fruit flies", "gnats")),
        Choice("few", "A few maggots at the lid or on top", also=("some", "a few")),
        Choice("many", "It crawls with grubs, and much is eaten", also=("full of", "crawls", "everywhere", "lots")),
        Choice("worms", "Small flies in a worm bin", also=("worm bin", "worm")),
    ),
    "a few maggots are taken",
)
LIQUID: Final = Question(
    "liquid",
    "How much liquid has come in all, since it was begun?",
    'Such as "300 ml", "1 pint", "2 cups" or "none".',
    (),
    "it is left out",
)
DAYS: Final = Question(
    "days", "How many days ago was it filled and shut?", 'Such as 9, or "two weeks".', (), "14 days are taken"
)
WARMTH: Final = Question(
    "warmth", "How warm is it where it stands?", 'Such as "18 C" or "60 F".', (), "18 °C, an ordinary room, is taken"
)
QUESTIONS: Final[Mapping[str, Question]] = MappingProxyType(
    {
        each.name: each
        for each in (TROUBLE, SMELL, WHERE, GROWTH, WET, FIZZ, TEXTURE, FED, INSECTS, LIQUID, DAYS, WARMTH)
    }
)
FIRST: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {  # what a trouble asks for before anything else; the rest goes by what tells most
        "smells": ("smell", "where", "days", "fed"),
        "mould": ("growth", "smell", "days", "fed"),
        "nothing": ("days", "warmth", "smell"),
        "liquid": ("liquid", "wet", "days", "smell"),
        "maggots": ("insects", "warmth", "smell", "days"),
        "bulging": ("smell", "days", "fed"),
        "": ("smell", "days"),
        "full": ("days", "warmth"),
        "frozen": ("warmth",),
        "planted": ("days", "warmth"),
    }
)
SO_ASKED: Final[Mapping[tuple[str, str], tuple[str, str]]] = MappingProxyType(
    {  # where the same thing is asked of something else: its words, and what is taken
        ("planted", "days"): ("How many days ago was it dug in?", "14 days are taken"),
        ("planted", "warmth"): ("How warm is the soil, a hand deep?", "18 °C is taken"),
        ("full", "days"): ("How many days ago was the oldest filled and shut?", "14 days are taken"),
        ("frozen", "warmth"): ("How warm is it where it can thaw?", "18 °C, an ordinary room, is taken"),
        ("maggots", "warmth"): ("How warm is the room?", "18 °C is taken"),
    }
)
OPEN: Final = ("smell", "growth", "wet", "fizz", "texture")
SHORT: Final = ("full", "frozen", "planted")  # two questions are enough
BAD: Final = ("rancid", "rotten", "ammonia", "cheese")  # smells of which it is asked where they are
HARMLESS: Final = ("none", "white", "")  # growths that need no cause


def so_asked(name: str, trouble: str) -> Question:
    """Return a question in the words that it has for a trouble."""
    question = QUESTIONS[name]
    words, unknown = SO_ASKED.get((trouble, name), (question.words, question.unknown))
    return replace(question, words=words, unknown=unknown)


def needless(name: str, given: Mapping[str, str]) -> bool:
    """Whether a question has no use, by what was answered before it."""
    smell, growth, insects = (given.get(each, "") for each in ("smell", "growth", "insects"))
    if name == "where":
        return smell not in BAD
    if name == "fed":
        return smell not in BAD and growth in HARMLESS and given.get("trouble") != "bulging"
    if given.get("trouble") == "maggots":
        if insects in ("flies", "worms", "many"):
            return name in ("smell", "days") or insects == "many"
        return name == "warmth"
    return False


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
    is_short: bool = False  # whether the vessel was not worked out, or is beside the point
