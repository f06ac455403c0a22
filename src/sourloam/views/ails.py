"""What may be shown of something that went wrong at a place."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.plan.words import Speech

QUESTIONS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "dry": "Squeeze a handful from the middle: does it fall apart, too dry to hold together?",
        "wet": "Squeeze a handful from the middle: does more than a drop or two run out?",
        "clumps": "Are there thick, slimy lumps in it when you fork it open?",
        "small": "Is it smaller than about 750 L, a cube of 90 cm?",
        "leaves": "Is it mostly leaves, straw, paper or wood?",
        "smell": "Does it smell of rot?",
        "ammonia": "Does it smell sharp, so that it stings the nose?",
        "fresh": "Did fresh scraps, grass or a batch go in during the last two weeks?",
        "old": "Was it hot before, and is it older than three weeks?",
        "winter": "Has it been near freezing outdoors for a week?",
        "sour": "Baking soda on a wet handful: does it fizz?",
        "hot": "A thermometer in the feed: is it over 30 °C?",
        "leaving": "Do worms climb the walls or leave?",
        "pot_worms": "Are there many tiny white worms?",
        "mites": "Are there many white or red dots that crawl?",
        "fizz": "Baking soda on it: does it fizz?",
        "salty": "Did salted leftovers or a salty batch go in?",
        "new": "Have the worms been there for less than two weeks?",
        "uneaten": "Is food older than a week still there?",
        "fresh_ferment": "Did a sour batch go in during the last week?",
        "cold": "Is the soil in it under 12 °C?",
        "sealed": "Was its lid shut tight?",
        "shells": "Is what is left only shells, skins, stones and paper?",
        "thick": "Was there less than twice as much soil as batch?",
        "recent": "Was the batch dug in less than six weeks ago?",
        "edges": "Are the edges of the leaves brown?",
        "lower": "Are the lower leaves yellow first?",
        "roots_touch": "Dig beside the plant: do its roots touch the batch?",
    }
)
OF: Final = 20  # a chance is told as so many of twenty
LEAST: Final = 0.025  # rarer causes are not told


@dataclass(frozen=True)
class Guess:
    """A cause with its chance, and what to do about it."""

    id: str
    words: str
    chance: float
    do: str
    look: str

    @property
    def counted(self) -> str:
        """Return the chance in words."""
        count = round(OF * self.chance)
        return f"{count} in {OF}" if count else f"less than 1 in {OF}"


@dataclass(frozen=True)
class AilsView:
    """What it probably is, what to do now, what to look at next."""

    place: str
    sign: str
    says: str
    guesses: tuple[Guess, ...]
    do: tuple[str, ...]
    look: str
    thing: str  # by which --seen or --not-seen answers it
    assumptions: tuple[str, ...]
    speech: Speech


def ails_view(
    place: str,
    sign: str,
    guesses: Sequence[Guess],
    *,
    look: str,
    assumptions: Sequence[str],
    speech: Speech,
) -> AilsView:
    """Return what is shown: the likeliest first, and what to do for each that counts."""
    best = guesses[0]
    sure = "Probably" if best.chance >= 0.5 else "Most likely, but not surely,"
    shown = tuple(each for each in guesses if each.chance >= LEAST)
    do = tuple(each.do[0].upper() + each.do[1:] for each in shown[:2])
    return AilsView(
        place,
        sign,
        f"{sure} {best.words}: {best.counted}.",
        shown,
        do,
        QUESTIONS.get(look, look),
        look,
        tuple(assumptions),
        speech,
    )
