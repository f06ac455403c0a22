"""The words by which a phrase of a keeper is read: what an amount looks like, and which word decides what happened."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.base.units import Dimension
from sourloam.logbook import entries as of
from sourloam.site.site import PLACES, Site

PH: Final = re.compile(r"\bph\s*(?:of|is|=|:)?\s*(?P<value>\d+(?:[.,]\d+)?)", re.IGNORECASE)
AMOUNT: Final = re.compile(
    r"(?P<amount>\d+(?:[.,]\d+)?(?:\s+\d+/\d+|/\d+)?\s*(?:kg|g|l|ml|litres?|liters?|lb|oz|gal|qt|cups?|°?c|°?f)\b)",
    re.IGNORECASE,
)
NOT_AMOUNT: Final = (  # after a name that ends in a number: "blue 1.5 kg" names no vessel "blue 1"
    r"(?![.,/]\d)(?!\s*(?:kg|g|l|ml|litres?|liters?|lb|oz|gal|qt|cups?|handfuls?|hands?|°|[cf])\b)"
)
COMMA: Final = re.compile(r"\s*(?:,(?!\d)|;|\+|\band\b|\bwith\b)\s*", re.IGNORECASE)
BEFORE: Final = re.compile(r"^(?:(?:the|into|in|to|from|off|of|on|bucket|drum|tub)\b[\s:]*)+", re.IGNORECASE)
HANDS: Final = re.compile(r"(?P<count>.+?)\s+hand(?:ful)?s?\b\s*(?:of\s+)?(?P<what>.*)", re.IGNORECASE)
SOME: Final = re.compile(r"(?:some|a bit of|a few|a little|bits of)\s+(?P<what>.+)", re.IGNORECASE)
OF_SEALED: Final = re.compile(
    r"\b(?:drew|drawn|drained|tapped|opened|looked|unsealed|placed|failed|spoil(?:ed|t)|rotten|buried|emptied|went|to|ph|smells?|ready)\b",
    re.IGNORECASE,
)
BRAN: Final = ("", "bran", "of bran")

# The word that decides, and what is then read. The first that stands in the text is taken.
DECIDES: Final = (
    (re.compile(r"\b[a-z]+:[a-z][a-z0-9-]*(?:/\d+)*(?!\S)", re.IGNORECASE), "task"),
    (re.compile(r"\b(?:remedied|remedy|treated|helped)\b", re.IGNORECASE), "remedy"),
    (re.compile(r"\b(?:unseal(?:ed)?|reopened)\b", re.IGNORECASE), "unsealed"),
    (re.compile(r"\b(?:seal(?:ed)?|closed|shut)\b", re.IGNORECASE), "sealed"),
    (re.compile(r"\b(?:failed|spoil(?:ed|t)|rotten)\b", re.IGNORECASE), "failed"),
    (re.compile(r"\b(?:opened|looked)\b", re.IGNORECASE), "opened"),
    (re.compile(r"\b(?:moved)\b", re.IGNORECASE), "moved"),
    (re.compile(r"\b(?:joined)\b", re.IGNORECASE), "joined"),
    (re.compile(r"\b(?:drew|drawn|drained|tapped)\b", re.IGNORECASE), "drawn"),
    (re.compile(r"\b(?:washed|rinsed|damaged|cracked|mended|taken[ -]in)\b", re.IGNORECASE), "vessel"),
    (re.compile(r"\b(?:strained|milked|milk added|bagged|dried|mixed|rice)\b", re.IGNORECASE), "culture"),
    (re.compile(r"\b(?:bought|made|used|gave|given|received|got|thrown|threw|counted|left)\b", re.IGNORECASE), "stock"),
    (re.compile(r"\b(?:placed|buried|emptied|went|to|into)\b", re.IGNORECASE), "placed"),
    (re.compile(r"\b(?:dug|turned|watered|planted|harvested|tested|fed)\b", re.IGNORECASE), "worked"),
)
SAID: Final[Mapping[str, str]] = MappingProxyType(
    {
        "gave": "given",
        "got": "received",
        "threw": "thrown",
        "left": "counted",
        "rinsed": "washed",
        "cracked": "damaged",
        "taken in": "taken-in",
        "milk added": "milk",
        "rice": "rice",
        "strained": "strain",
        "milked": "milk",
        "bagged": "bag",
        "dried": "dry",
        "mixed": "mix",
    }
)

SMELLS: Final = re.compile(r"smell(?:s|ed|ing)?\s*(?:of\s+)?", re.IGNORECASE)
GOES: Final = re.compile(r"(?:to|into|on|onto|down)\b", re.IGNORECASE)

# What of a culture's step an amount is of, by the word beside it; and what it is where no word says so.
CULTURE: Final = (
    ("serum_l", Dimension.VOLUME, re.compile(r"\bserum\b", re.IGNORECASE)),
    ("milk_l", Dimension.VOLUME, re.compile(r"\bmilk\b", re.IGNORECASE)),
    ("sugar_kg", Dimension.MASS, re.compile(r"\b(?:sugar|molasses)\b", re.IGNORECASE)),
    ("rice_kg", Dimension.MASS, re.compile(r"\brice\b(?!-?\s?wash)", re.IGNORECASE)),
    ("bran_kg", Dimension.MASS, re.compile(r"\bbran\b", re.IGNORECASE)),
    ("water_l", Dimension.VOLUME, re.compile(r"\bwater\b", re.IGNORECASE)),
)
NO_CULTURE: Final = frozenset({("mix", "milk_l"), ("strain", "water_l")})
USUAL: Final = MappingProxyType(
    {
        "bag": ("bran_kg", Dimension.MASS),
        "strain": ("serum_l", Dimension.VOLUME),
        "mix": ("serum_l", Dimension.VOLUME),
        "milk": ("milk_l", Dimension.VOLUME),
        "rice": ("water_l", Dimension.VOLUME),
    }
)

Dose = Callable[[tuple[tuple[str, float], ...]], float]  # the usual bran for a layer, kg
Weigh = Callable[[str], tuple[str, float]]  # "1.5 kg peelings" as a material and its mass; raises BadInput


@dataclass(frozen=True)
class Understood:
    """What a phrase says, and what of it was not said but taken."""

    value: of.Value
    taken: tuple[str, ...] = ()


@dataclass(frozen=True)
class Words:
    """What names mean at a site, and how things are weighed there."""

    site: Site
    weigh: Weigh
    some_kg: float  # what "some" of a thing weighs
    dose_kg: Dose
    filling_first: tuple[str, ...] = ()  # vessels, those first that take a layer
    sealed_first: tuple[str, ...] = ()  # and those first that are drawn off, opened, emptied

    def vessel(self, text: str) -> tuple[str, str]:
        """Return the vessel that a text names first, or nothing, and the rest; "blue" of several is the likeliest."""
        found, rest = named(text, [(each.id, each.name) for each in self.site.vessels])
        if found:
            return found, rest
        order = self.sealed_first if OF_SEALED.search(text) else self.filling_first
        known = {each.id: each.name for each in self.site.vessels}
        stems = [(each, _stem(held)) for each in order or known for held in (each, known[each])]
        return named(text, [(each, stem) for each, stem in stems if stem])

    def place(self, text: str) -> tuple[str, str]:
        """Return the place that a text holds, or nothing, and the rest of the text."""
        parts = self.site.parts()
        return named(text, [(each.id, each.name) for table in PLACES for each in parts[table]])


def _stem(name: str) -> str:
    """Return the name that several numbered vessels share."""
    return re.sub(r"[ -]\d+$", "", name) if re.search(r"[ -]\d+$", name) else ""


def named(text: str, names: list[tuple[str, str]]) -> tuple[str, str]:
    """Return the id of the thing that a text names first, the longest name of equals, and the text without it."""
    found: list[tuple[int, int, int, str, int]] = []
    for rank, (id_, name) in enumerate(names):
        plain = re.sub(r"^the\s+", "", name, flags=re.IGNORECASE)
        for each in filter(None, (id_, id_.replace("-", " "), plain)):
            amount = NOT_AMOUNT if each[-1].isdigit() else ""
            match = re.search(rf"(?<![\w-]){re.escape(each)}(?![\w-]){amount}", text, re.IGNORECASE)
            if match:
                found.append((match.start(), -len(each), rank, id_, match.end()))
    if not found:
        return "", text
    start, _, _, id_, end = min(found)
    return id_, trimmed(f"{text[:start]} {text[end:]}")


def trimmed(text: str) -> str:
    """Return a part of a phrase without what only joins it to the rest."""
    return BEFORE.sub("", " ".join(text.split()).strip(" ,;:.")).strip()
