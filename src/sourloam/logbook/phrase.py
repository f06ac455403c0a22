"""A small forgiving grammar: what a keeper types, read into what happened.

"blue 1.5 kg peelings, some chicken, two handfuls" is a layer; "blue sealed", "drew 300 ml off blue, amber",
"blue to long-bed", "blue ph 3.9", "bran 2 kg bought" are what they say. What cannot be read is a fault that says what
can; what was not said is taken as told here, and marked.
"""

import re
from collections.abc import Callable, Mapping
from datetime import date
from types import MappingProxyType
from typing import Any, Final

from sourloam.base.errors import BadInput, Problem, printable
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.logbook import entries as of
from sourloam.logbook.phrase_words import (
    AMOUNT,
    BRAN,
    COMMA,
    CULTURE,
    DECIDES,
    GOES,
    HANDS,
    NO_CULTURE,
    PH,
    SAID,
    SMELLS,
    SOME,
    USUAL,
    Understood,
    Words,
    named,
    trimmed,
)
from sourloam.site.site import PLACES, Site
from sourloam.site.vessels import ROOMS

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
    if not vessel or isinstance(read.value, of.Note) or named(told, [(vessel, words.site.name_of(vessel))])[0]:
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
    for part in filter(None, (trimmed(each) for each in COMMA.split(text))):
        try:
            bran = _bran(part, words.site.keeper.handful_kg)
            if bran is not None:
                bran_kg = (bran_kg or 0.0) + bran
            elif some := SOME.fullmatch(part):
                parts.append((words.weigh(f"{words.some_kg} kg {some['what']}")[0], words.some_kg))
                taken.append(f'how much "{part}" is was not said: {words.some_kg * 1000:.0f} g taken')
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
    parts = [each.strip() for each in COMMA.split(rest) if trimmed(each) and not AMOUNT.search(each)]
    smell = next((SMELLS.sub("", each) for each in parts if SMELLS.match(each)), "")
    went = next((trimmed(each) for each in parts if GOES.match(each)), "")
    colour = next((trimmed(each) for each in parts if not SMELLS.match(each) and not GOES.match(each)), "")
    return Understood(of.DrawOff(vessel, litres, colour=colour[:60], smell=smell[:60], went=went[:60]))


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
    act = SAID.get(said, said)
    amount = AMOUNT.search(rest) if act == "taken-in" else None
    mass = _quantity(told, amount["amount"], Dimension.MASS) if amount else None
    return Understood(of.VesselKept(vessel, act, mass)) if vessel else None


def _remedy(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    if not vessel:
        return None
    parts = [trimmed(re.sub(rf"\b{re.escape(said)}\b:?", "", each, flags=re.IGNORECASE)) for each in COMMA.split(rest)]
    strewn = [_bran(each, words.site.keeper.handful_kg) for each in parts if each]
    what = ", ".join(each for each in parts if each)[:200]
    if not what:
        raise _unread(told, "what was done is not said;", 'write "blue remedied: 100 g bran, stirred".')
    return Understood(of.Remedy(vessel, what, sum(each for each in strewn if each)))


def _task(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    plain = told.casefold().replace(said, " ")
    until = re.search(r"\d{4}-\d{2}-\d{2}", plain)
    if re.search(r"\bnot needed\b", plain):
        return Understood(of.TaskKept(said, "not-needed"))
    if re.search(r"\bput off\b", plain):
        return Understood(of.TaskKept(said, "put-off", _day(told, until[0]) if until else None))
    if re.search(r"\bdone\b", plain):
        return Understood(of.TaskKept(said, "done"))
    raise _unread(told, "what became of the task is not said;", 'write "done", "not needed", or "put off until" a day.')


def _day(told: str, text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise _unread(told, f"{text} is no day;", "write one such as 2027-03-01.") from None


def _culture(told: str, vessel: str, rest: str, *, words: Words, said: str) -> Understood | None:
    if vessel or (SAID[said] == "rice" and not re.search(r"\b(?:wash|water|washed|set up)\b", told, re.IGNORECASE)):
        return None
    step = SAID[said]
    given: dict[str, Any] = {}
    for part in COMMA.split(told):
        for field_, dimension, pattern in CULTURE:
            amount = AMOUNT.search(part)
            if amount and pattern.search(part) and (step, field_) not in NO_CULTURE:
                given.setdefault(field_, _quantity(told, amount["amount"], dimension))
                break
    amount = AMOUNT.search(rest)
    if not given and amount and step in USUAL:
        field_, dimension = USUAL[step]
        given[field_] = _quantity(told, amount["amount"], dimension)
    if match := PH.search(told):
        given["ph"] = float(match["value"].replace(",", "."))
    return Understood(of.Culture(step, what="" if step == "bag" else told, **given))


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
    if not place:
        return None
    what = trimmed(without.replace(said, ""))[:200]
    ph = PH.search(told)
    amount = AMOUNT.search(told)
    given = _either(told, amount["amount"]) if amount and said in ("fed", "watered", "harvested") else {}
    value = of.Worked(
        place,
        said,
        what,
        ph=float(ph["value"].replace(",", ".")) if ph else None,
        mass_kg=given.get("mass_kg"),
        volume_l=given.get("volume_l"),
    )
    return Understood(value)


READERS: Final[Mapping[str, Callable[..., Understood | None]]] = MappingProxyType(
    {
        "task": _task,
        "remedy": _remedy,
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


def _names(site: Site) -> str:
    parts = site.parts()
    places = [each.id for table in PLACES for each in parts[table]]
    return f"Vessels: {', '.join(each.id for each in site.vessels)}. Places: {', '.join(places)}. Stock: bran, serum."


def _unread(text: str, found: str, remedy: str = "") -> BadInput:
    return BadInput(f'"{text[:80]}"', (Problem("", found, remedy or f"Write one such as: {'; '.join(EXAMPLES[:5])}."),))
