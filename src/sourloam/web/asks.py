"""What can be asked without a site: each question with its fields."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

from sourloam.web import asked
from sourloam.web.answers import Answer
from sourloam.web.asked import Sent


@dataclass(frozen=True)
class Field:
    """One thing that is asked: its name, its words, how it is written, what can be chosen, whether lines are taken."""

    name: str
    words: str
    hint: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    is_long: bool = False


@dataclass(frozen=True)
class Ask:
    """One question that a page answers."""

    name: str
    words: str
    about: str
    fields: tuple[Field, ...]
    answer: Callable[[Sent, date], Answer]

    def known(self, sent: Sent) -> dict[str, str]:
        """Return what was sent in the fields of this question; of choices only what can be chosen."""
        return {
            each.name: sent[each.name]
            for each in self.fields
            if each.name in sent and (not each.choices or sent[each.name] in dict(each.choices))
        }


YES_NO: Final = (("yes", "yes"), ("no", "no"))
PRODUCT: Final = Field("product", "How much of a finished batch", 'Such as "10 kg" or "12 L".')
STATE: Final = Field(
    "state",
    "How it stands",
    choices=(("ready", "ready"), ("unfinished", "not finished"), ("failed", "failed"), ("unknown", "I cannot tell")),
)
ANIMAL: Final = Field("animal", "Meat, fish, egg or dairy went in", choices=YES_NO)
DRAIN: Final = Field("drain", "Liquid can run off below", choices=YES_NO)
AMOUNTS: Final = Field(
    "amounts",
    "What goes in",
    'One to a line, as your kitchen measures: "2 kg peelings", "1 cup cooked rice".',
    is_long=True,
)
VESSEL: Final = Field("vessel", "How large the vessel is", 'Such as "20 L".')
WARMTH: Final = Field("at", "How warm it stands", 'Such as "16 C" or "60 F".')
SOILS: Final = (
    ("moist", "moist"),
    ("dry", "dry"),
    ("wet", "wet"),
    ("waterlogged", "waterlogged"),
    ("frozen", "frozen"),
)

ASKS: Final[Mapping[str, Ask]] = MappingProxyType(
    {
        each.name: each
        for each in (
            Ask(
                "mix",
                "Will this load sour?",
                "Before the lid goes on: what to add, how much bran, what stays out.",
                (
                    AMOUNTS,
                    VESSEL,
                    DRAIN,
                    Field("over", "In what time it comes in", 'Such as "2 weeks".'),
                    Field("at_hand", "Dry things at hand", "One to a line: cardboard, sawdust.", is_long=True),
                ),
                asked.mix,
            ),
            Ask(
                "batch",
                "When will it be ready?",
                "A vessel filled with this and shut, followed day by day.",
                (AMOUNTS, WARMTH, VESSEL, DRAIN),
                asked.batch,
            ),
            Ask(
                "bran",
                "How do I make the bran?",
                "From what is wanted or from what is there: amounts, days, the day to begin.",
                (
                    Field("bran", "How much finished bran", 'Such as "3 kg".'),
                    Field("by", "By which day", "A date such as 2027-03-01."),
                    Field("at", "How warm the kitchen is", 'Such as "17 C".'),
                    Field("carriers", "What carries it", 'One to a line: "5 kg wheat bran".', is_long=True),
                    Field("serum", "Serum that you have", 'Such as "250 ml".'),
                    Field("milk", "Milk that you have", 'Such as "2 L UHT milk".'),
                ),
                asked.bran,
            ),
            Ask(
                "alive",
                "Is it still alive?",
                "Bran, serum or a culture that stood for a while, by its age and where it stood.",
                (
                    Field(
                        "alive",
                        "What it is",
                        choices=(
                            ("bran", "dry bran"),
                            ("wet bran", "wet bran"),
                            ("serum", "serum"),
                            ("sugared serum", "serum with sugar"),
                            ("culture", "a culture that was bought"),
                        ),
                    ),
                    Field("age", "How old it is", 'Such as "11 months".'),
                    Field("kept", "Where it stood", "shed, fridge, kitchen, or a warmth."),
                    Field(
                        "jar",
                        "What its jar of milk did",
                        choices=(("curd", "it curdled"), ("none", "nothing"), ("both", "the plain one curdled too")),
                    ),
                ),
                asked.alive,
            ),
            Ask(
                "bed",
                "May it go into a bed?",
                "How much, how deep, when to plant, what it feeds.",
                (
                    PRODUCT,
                    Field("area", "How large the bed is", 'Such as "4 m2".'),
                    Field("crop", "What comes next", "Such as tomato or lettuce."),
                    Field("soil", "How the soil is today", choices=SOILS),
                    Field("soil_temp", "How warm the soil is", 'A hand deep, such as "9 C".'),
                    Field("seedlings", "A seedling test", 'Those up in it and in plain soil: "8/10".'),
                    ANIMAL,
                    STATE,
                ),
                asked.bed,
            ),
            Ask(
                "pile",
                "What does a pile make of it?",
                "With what, how warm, when to turn and water.",
                (
                    PRODUCT,
                    Field("at_hand", "What lies ready", 'One to a line: "300 L dry leaves".', is_long=True),
                    Field("volume", "The room there is", 'Such as "1 m3".'),
                    Field("turn_every", "Turned every so many days", "A number; empty if not."),
                    STATE,
                ),
                asked.pile,
            ),
            Ask(
                "worms",
                "How much do the worms get?",
                "A first small ration, the shell for it, when again.",
                (
                    PRODUCT,
                    Field("worms", "What the worms weigh", 'Such as "500 g".'),
                    Field("area", "Surface of the bin", 'Such as "50 cm x 50 cm".'),
                    Field("at", "How warm the bed is", 'Such as "18 C".'),
                    Field("accustomed", "They live on such scraps already", choices=YES_NO),
                    Field(
                        "shell",
                        "Against the acid",
                        choices=(
                            ("ground", "ground eggshell"),
                            ("coarse", "coarse eggshell"),
                            ("lime", "lime"),
                            ("none", "nothing"),
                        ),
                    ),
                    Field("eaten", "The last feed is gone", choices=YES_NO),
                    STATE,
                ),
                asked.worms,
            ),
            Ask(
                "tub",
                "How does a tub of soil finish it?",
                "Where there is no garden: how much soil, how many days, how many tubs.",
                (
                    PRODUCT,
                    Field("volume", "How large the tub is", 'Such as "40 L".'),
                    Field("temp", "How warm it stands", 'Such as "17 C".'),
                    Field("every", "A batch every", 'Such as "3 weeks".'),
                    STATE,
                ),
                asked.tub,
            ),
            Ask(
                "leachate",
                "Where may the liquid go?",
                "How strong it is, what to thin it to. It is never drunk.",
                (
                    Field("liquid", "How much there is", 'Such as "500 ml".'),
                    Field(
                        "for_what",
                        "Where it should go",
                        choices=tuple(
                            (each, words)
                            for each, words in (
                                ("bed", "a bed"),
                                ("seedlings", "seedlings"),
                                ("pots", "pots"),
                                ("fruiting", "plants in fruit"),
                                ("trees", "trees"),
                                ("fallow", "bare soil"),
                                ("pile", "the pile"),
                                ("drain", "the drain"),
                                ("pond", "a pond"),
                            )
                        ),
                    ),
                    Field("dilute", "How you mean to thin it", 'Such as "1:100", or "undiluted".'),
                    Field("drawn", "How long ago it was drawn", 'Such as "6 hours".'),
                    Field(
                        "soil",
                        "How the ground is",
                        choices=(("moist", "moist"), ("frozen", "frozen"), ("waterlogged", "waterlogged")),
                    ),
                ),
                asked.leachate,
            ),
            Ask(
                "charcoal",
                "Does charcoal help?",
                "How much beside a batch, what it takes up, what to mind.",
                (
                    PRODUCT,
                    Field(
                        "kind",
                        "Of what it was made",
                        choices=(("wood", "wood"), ("bamboo", "bamboo"), ("rice-husk", "rice husk")),
                    ),
                ),
                asked.charcoal,
            ),
            Ask(
                "leaves",
                "When are leaves leaf mould?",
                "How long, how much is left.",
                (
                    Field("amount", "How many leaves", 'Such as "400 L dry leaves".'),
                    Field("shredded", "They are shredded", choices=YES_NO),
                    Field("dry", "They are to stay dry, for a pile", choices=YES_NO),
                ),
                asked.leaves,
            ),
            Ask(
                "heap",
                "Can garden matter sour under a sheet?",
                "What a heap takes: bran, sheet, weight, time.",
                (Field("amounts", "What is there", 'One to a line: "100 kg grass clippings".', is_long=True),),
                asked.heap,
            ),
        )
    }
)
