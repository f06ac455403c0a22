"""A small forgiving grammar: what a keeper types, read into what happened.

"blue 1.5 kg peelings, some chicken, two handfuls" is a layer; "blue sealed", "drew 300 ml off blue, amber",
"blue to long-bed", "blue ph 3.9", "bran 2 kg bought" are what they say. What cannot be read is a fault that says what
can; what was not said is taken as told here, and marked.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from sourloam.base.errors import BadInput, Problem, printable
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.logbook import entries as of
from sourloam.site.site import PLACES, Site
from sourloam.site.vessels import ROOMS

SOME_KG: Final = 0.1  # JUDGEMENT: what "some" of a thing weighs, where nothing else is said
LONGEST: Final = 400
EXAMPLES: Final = (
    "blue 1.5 kg peelings, some chicken, 2 handfuls",
    "blue sealed",
    "drew 300 ml off blue, amber",
    "blue ph 3.9",
    "blue to long-bed",
    "bran 2 kg bought",
    "blue failed putrid",
    "long-bed dug",
    "note frost last night",
)
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
    (re.compile(r"\b(?:unseal(?:ed)?|reopened)\b", re.IGNORECASE), "unsealed"),
    (re.compile(r"\b(?:seal(?:ed)?|closed|shut)\b", re.IGNORECASE), "sealed"),
    (re.compile(r"\b(?:failed|spoil(?:ed|t)|rotten)\b", re.IGNORECASE), "failed"),
    (re.compile(r"\b(?:opened|looked)\b", re.IGNORECASE), "opened"),
    (re.compile(r"\b(?:moved)\b", re.IGNORECASE), "moved"),
    (re.compile(r"\b(?:joined)\b", re.IGNORECASE), "joined"),
    (re.compile(r"\b(?:drew|drawn|drained|tapped)\b", re.IGNORECASE), "drawn"),
    (re.compile(r"\b(?:washed|rinsed|damaged|cracked|mended|taken-in)\b", re.IGNORECASE), "vessel"),
    (re.compile(r"\b(?:strained|milked|bagged|dried|mixed)\b", re.IGNORECASE), "culture"),
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
        "strained": "strain",
        "milked": "milk",
        "bagged": "bag",
        "dried": "dry",
        "mixed": "mix",
    }
)

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
    dose_kg: Callable[[tuple[tuple[str, float], ...]], float]  # the usual bran for a layer
    filling_first: tuple[str, ...] = ()  # vessels, those first that take a layer
    sealed_first: tuple[str, ...] = ()  # and those first that are drawn off, opened, emptied

    def vessel(self, text: str) -> tuple[str, str]:
        """Return the vessel that a text names first, or nothing, and the rest; "blue" of several is the likeliest."""
        found, rest = _named(text, [(each.id, each.name) for each in self.site.vessels])
        if found:
            return found, rest
        order = self.sealed_first if OF_SEALED.search(text) else self.filling_first
        known = {each.id: each.name for each in self.site.vessels}
        stems = [(each, _stem(held)) for each in order or known for held in (each, known[each])]
        return _named(text, [(each, stem) for each, stem in stems if stem])

    def place(self, text: str) -> tuple[str, str]:
        """Return the place that a text holds, or nothing, and the rest of the text."""
        parts = self.site.parts()
        return _named(text, [(each.id, each.name) for table in PLACES for each in parts[table]])


def _stem(name: str) -> str:
    """Return the name that several numbered vessels share."""
    return re.sub(r"[ -]\d+$", "", name) if re.search(r"[ -]\d+$", name) else ""


def read_phrase(text: str, words: Words) -> Understood:
    """Return what a phrase says.

    Raises
    ------
    BadInput
        If it cannot be read; all that is wrong with it is named.
    """
    told = printable(" ".join(text.split()))
    read = _read(told, words)
    vessel = getattr(read.value, "vessel", getattr(read.value, "subject", ""))
    if not vessel or isinstance(read.value, of.Note) or _named(told, [(vessel, words.site.name_of(vessel))])[0]:
        return read
    return Understood(read.value, (f"which of them was not said: {words.site.name_of(vessel)} taken", *read.taken))


def _read(told: str, words: Words) -> Understood:
    if not told or len(told) > LONGEST:
        raise _unread(told, "there is nothing in it;" if not told else f"{len(told)} characters are too long;")
    first, _, rest = told.partition(" ")
    if first.casefold().rstrip(":") == "note" and rest:
        return Understood(of.Note(rest))
    vessel, without = words.vessel(told)
    if vessel and (found := _reading(vessel, without)):
        return found
    for pattern, kind in DECIDES:
        match = pattern.search(told)
        if match and (read := READERS[kind](told, vessel, without, words=words, said=match[0].casefold())):
            return read
    if vessel:
        return _layer(vessel, without, words)
    place, without = words.place(told)
    if place and (found := _reading(place, without)):
        return found
    raise _unread(told, "no vessel, place or stock of the site is named in it;", _names(words.site))


def _layer(vessel: str, text: str, words: Words) -> Understood:
    parts: list[tuple[str, float]] = []
    bran_kg: float | None = None
    taken: list[str] = []
    problems: list[Problem] = []
    for part in filter(None, (_trimmed(each) for each in COMMA.split(text))):
        try:
            bran = _bran(part, words.site.keeper.handful_kg)
            if bran is not None:
                bran_kg = (bran_kg or 0.0) + bran
            elif some := SOME.fullmatch(part):
                parts.append((words.weigh(f"{SOME_KG} kg {some['what']}")[0], SOME_KG))
                taken.append(f'how much "{part}" is was not said: {SOME_KG * 1000:.0f} g taken')
            else:
                parts.append(words.weigh(part))
        except BadInput as bad:
            problems.extend(bad.problems)
    if problems:
        raise BadInput(f'"{vessel} {text}"', tuple(problems))
    if not parts:
        raise _unread(f"{vessel} {text}", "what went in is not said;")
    whole = _together(parts)
    if bran_kg is None:
        bran_kg = words.dose_kg(whole)
        taken.append(f"bran was not said: the usual {bran_kg * 1000:.0f} g taken")
    return Understood(of.LayerAdded(vessel, whole, bran_kg, is_top_up="top" in text.casefold().split()), tuple(taken))


def _together(parts: list[tuple[str, float]]) -> tuple[tuple[str, float], ...]:
    """Return the parts with each material once."""
    whole: dict[str, float] = {}
    for name, mass in parts:
        whole[name] = whole.get(name, 0.0) + mass
    return tuple(whole.items())


def bran_mass(amount: str, handful_kg: float) -> float:
    """Return an amount of bran in kg, as handfuls or weighed.

    Raises
    ------
    BadInput
        If it cannot be read.
    """
    return _mass(amount, handful_kg)


def _bran(part: str, handful_kg: float) -> float | None:
    """Return the bran that a part of a phrase is, or nothing where it is something else."""
    if (hands := HANDS.fullmatch(part)) and hands["what"].casefold() in BRAN:
        return _mass(f"{hands['count']} handfuls", handful_kg)
    if re.fullmatch(r"no bran", part, re.IGNORECASE):
        return 0.0
    bran = re.fullmatch(r"(?P<amount>.+?)\s+(?:of\s+)?bran", part, re.IGNORECASE)
    return _mass(bran["amount"], handful_kg) if bran else None


def _mass(text: str, handful_kg: float) -> float:
    try:
        return read_quantity(text, Dimension.MASS, handful_kg=handful_kg).value
    except BadQuantity as bad:
        raise BadInput("bran", (Problem("", bad.found, bad.remedy),)) from None


def _reading(subject: str, text: str) -> Understood | None:
    """Return what was observed, where a phrase says so."""
    if match := PH.search(text):
        return Understood(of.Reading(subject, ph=float(match["value"].replace(",", "."))))
    warm = re.fullmatch(r"\W*(?:is |at |reads )?(?P<value>-?\d+(?:[.,]\d+)? ?°?[cf])(?: inside)?", text, re.IGNORECASE)
    if warm:
        return Understood(of.Reading(subject, temperature_c=read_quantity(warm["value"], Dimension.TEMPERATURE).value))
    if match := re.match(r"\W*smells?\s+(?:of\s+)?(?P<what>.+)", text, re.IGNORECASE):
        return Understood(of.Reading(subject, smell=match["what"][:80]))
    if match := re.match(r"\W*(?:mould|growth)\s*:?\s*(?P<what>.*)", text, re.IGNORECASE):
        return Understood(of.Reading(subject, growth=match["what"][:80] or "mould"))
    if match := re.match(r"\W*weighs?\s+(?P<what>.+)", text, re.IGNORECASE):
        return Understood(of.Reading(subject, weight_kg=_mass(match["what"], 0.03)))
    return None


def _plain(kind: type[Any]) -> Callable[..., Understood | None]:
    def read(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
        return Understood(kind(vessel)) if vessel else None

    return read


def _opened(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    if not vessel:
        return None
    plain = rest.casefold()
    found = "not-yet" if re.search(r"\bnot (?:yet|ready|sour)\b", plain) else "ready" if "ready" in plain else ""
    return Understood(of.Opened(vessel, found))


def _failed(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    if not vessel:
        return None
    how = next((each for each in of.FAILINGS if each[:5] in rest.casefold()), "")
    if not how:
        if said != "rotten":
            raise _unread(told, "how it failed is not said;", f"one of {', '.join(of.FAILINGS)}.")
        how = "putrid"
    return Understood(of.Failed(vessel, how))


def _moved(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    room = next((each for each in ROOMS if each in rest.casefold()), "")
    if vessel and not room:
        raise _unread(told, "where it stands now is not said;", f"one of {', '.join(ROOMS)}.")
    return Understood(of.Moved(vessel, room)) if vessel else None


def _joined(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    into, _ = words.vessel(rest)
    if vessel and not into:
        raise _unread(told, "into which vessel is not said;", _names(words.site))
    return Understood(of.Joined(vessel, into)) if vessel else None


def _drawn(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    amount = AMOUNT.search(rest)
    if not vessel or not amount:
        raise _unread(told, "how much, and off which vessel?", 'write "drew 300 ml off blue, amber".')
    litres = _quantity(told, amount["amount"], Dimension.VOLUME)
    tail = [each for each in (_trimmed(one) for one in COMMA.split(rest)) if each and not AMOUNT.search(each)]
    colour = next((each for each in tail if "smell" not in each and not each.startswith("to ")), "")
    return Understood(of.DrawOff(vessel, litres, colour=colour[:60]))


def _placed(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    place, _ = words.place(rest)
    if not vessel or not place:
        if vessel and said not in ("to", "into"):
            raise _unread(told, "where it went is not said;", _names(words.site))
        return None
    amount = AMOUNT.search(rest)
    mass = _quantity(told, amount["amount"], Dimension.MASS) if amount else None
    return Understood(of.Placed(vessel, place, mass))


def _vessel(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    return Understood(of.VesselKept(vessel, SAID.get(said, said))) if vessel else None


def _culture(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    if vessel:
        return None
    amount = AMOUNT.search(rest)
    step = SAID[said]
    if step == "bag" and amount:
        return Understood(of.Culture(step, bran_kg=_quantity(told, amount["amount"], Dimension.MASS)))
    serum = _quantity(told, amount["amount"], Dimension.VOLUME) if amount and step in ("strain", "mix") else None
    return Understood(of.Culture(step, serum_l=serum, what=told))


def _stock(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    amount = AMOUNT.search(told)
    if vessel or not amount:
        return None
    names = re.sub(
        rf"{re.escape(amount['amount'])}|\b{re.escape(said)}\b|\b(?:of|the|is|are)\b", " ", told, flags=re.IGNORECASE
    )
    thing = re.sub(r"[^a-z0-9]+", "-", names.casefold()).strip("-")
    if not re.fullmatch(r"[a-z][a-z0-9-]{0,39}", thing):
        raise _unread(told, "of what is not said;", 'write "bran 2 kg bought".')
    read = _either(told, amount["amount"])
    return Understood(of.Stocked(thing, SAID.get(said, said), **read))


def _worked(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    place, without = words.place(told)
    return Understood(of.Worked(place, said, what=_trimmed(without.replace(said, ""))[:200])) if place else None


READERS: Final[Mapping[str, Callable[..., Understood | None]]] = MappingProxyType(
    {
        "unsealed": _plain(of.Unsealed),
        "sealed": _plain(of.Sealed),
        "failed": _failed,
        "opened": _opened,
        "moved": _moved,
        "joined": _joined,
        "drawn": _drawn,
        "placed": _placed,
        "vessel": _vessel,
        "culture": _culture,
        "stock": _stock,
        "worked": _worked,
    }
)


def _either(told: str, amount: str) -> dict[str, float]:
    try:
        read = read_quantity(amount, (Dimension.MASS, Dimension.VOLUME))
    except BadQuantity as bad:
        raise _unread(told, bad.found, bad.remedy) from None
    return {"mass_kg" if read.dimension is Dimension.MASS else "volume_l": read.value}


def _quantity(told: str, amount: str, dimension: Dimension) -> float:
    try:
        return read_quantity(amount, dimension).value
    except BadQuantity as bad:
        raise _unread(told, bad.found, bad.remedy) from None


def _named(text: str, names: list[tuple[str, str]]) -> tuple[str, str]:
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
    return id_, _trimmed(f"{text[:start]} {text[end:]}")


def _trimmed(text: str) -> str:
    return BEFORE.sub("", " ".join(text.split()).strip(" ,;:.")).strip()


def _names(site: Site) -> str:
    parts = site.parts()
    places = [each.id for table in PLACES for each in parts[table]]
    return f"Vessels: {', '.join(each.id for each in site.vessels)}. Places: {', '.join(places)}. Stock: bran, serum."


def _unread(text: str, found: str, remedy: str = "") -> BadInput:
    return BadInput(f'"{text[:80]}"', (Problem("", found, remedy or f"Write one such as: {'; '.join(EXAMPLES[:5])}."),))
