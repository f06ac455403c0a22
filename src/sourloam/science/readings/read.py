"""Reads what a person writes of a vessel: "day 9 strip 4.5 leachate", "day 9 smell vinegar".

What cannot be is refused, with all its faults at once; what is unlikely is kept with a mark.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.science.readings.kinds import Bran, Caddy, Fizz, Liquid, Reading, Seen, Strip, Thermometer, Weight, Where
from sourloam.science.readings.signs import Signs

LONGEST: Final = 120
LATEST_D: Final = 730
DAY: Final = re.compile(r"day\s*(?P<day>-?\d+(?:\.\d+)?)\s*[:,]?\s*", re.IGNORECASE)
ON: Final = re.compile(r"(?P<date>\d{4}-\d{2}-\d{2})\s*[:,]?\s*")
CLOSED: Final = re.compile(  # "a week after I closed it", "day 9 after sealing", "10 days after the last layer"
    r"(?:day\s*(?P<day>\d+(?:\.\d+)?)|(?P<span>[^:;]{1,30}?))\s+(?:after|since)\s+(?:(?:i|we|it)\s+)?(?:was\s+|had\s+)?"
    r"(?:clos(?:ed|ing)|seal(?:ed|ing)|shut(?:ting)?|the\s+last\s+layer|last\s+layer|it\s+was\s+full)"
    r"(?:\s+(?:it|the\s+(?:lid|bucket|vessel)))?\s*[:,]?\s+",
    re.IGNORECASE,
)
NUMBER: Final = re.compile(r"(?P<low>-?\d+(?:[.,]\d+)?)(?:\s*(?:-|–|to)\s*(?P<high>\d+(?:[.,]\d+)?))?(?P<rest>.*)")
BEFORE: Final = re.compile(r"^(?:about|around|under|below|over|ph|<|>|=|~|≈|≤|≥)\s*", re.IGNORECASE)
BOX: Final = re.compile(r"\bbox\s+(?P<box>\w+)", re.IGNORECASE)
PLACES: Final = MappingProxyType(
    {
        **dict.fromkeys(("leachate", "liquid", "juice", "runoff", "tea"), Where.LEACHATE),
        **dict.fromkeys(("top", "surface", "lid"), Where.TOP),
        **dict.fromkeys(("core", "squeezed", "inside", "middle", "scraps", "centre", "center"), Where.CORE),
        **dict.fromkeys(("room", "air", "outside", "shelf", "beside"), Where.ROOM),
    }
)
YES: Final = ("yes", "fizzes", "fizz", "foams", "bubbles", "strong", "weak", "under", "below")
NO: Final = ("no", "none", "not", "nothing", "over", "above", "still")
BRAN: Final = (*NO, "old", "stale", "dead", "mouldy", "little", "few")
BAD: Final = ("cheese", "rancid", "putrid", "ammonia")
SMELLED: Final = (
    "liquid",
    "leachate",
    "juice",
    "runoff",
    "core",
    "squeezed",
    "inside",
    "middle",
    "scraps",
    "top",
    "lid",
)
LEAST_PH, MOST_PH = 0.0, 14.0
SELDOM_PH: Final = (3.2, 8.0)
SELDOM_C: Final = (-10.0, 45.0)
POSSIBLE_C: Final = (-40.0, 90.0)


@dataclass(frozen=True)
class Setting:
    """What a reading is read against."""

    signs: Signs
    first: date | None = None  # the day of the first layer
    otherwise_d: float | None = None  # the day of a reading that names none
    volume_l: float | None = None
    laid_kg: float | None = None
    closed_d: float = 0.0  # the day of the last layer, on which it was shut


class _Fault(Exception):
    def __init__(self, found: str, remedy: str) -> None:
        super().__init__(found, remedy)
        self.found, self.remedy = found, remedy


def read_readings(texts: Iterable[str], setting: Setting) -> tuple[Reading, ...]:
    """Return what was observed, by day; several may stand in one text, parted by semicolons.

    Raises
    ------
    BadInput
        If one of them cannot be read or cannot be; all faults are named.
    """
    found, problems = [], []
    for text in (part.strip() for each in texts for part in each.split(";")):
        if not text:
            continue
        try:
            found.append(_marked(_read(text, setting), setting))
        except _Fault as fault:
            problems.append(Problem(f'"{text[:LONGEST]}"', fault.found, fault.remedy))
    if problems:
        raise BadInput("--reading", tuple(problems))
    return tuple(sorted(found, key=lambda each: (each.day, each.typed)))


def _read(text: str, setting: Setting) -> Reading:
    if len(text) > LONGEST:
        raise _Fault(f"{len(text)} characters are too long;", 'write one reading, such as "day 9 smell vinegar".')
    day, rest = _day(" ".join(text.split()), setting)
    word, _, value = rest.partition(" ")
    reader = READERS.get(word.casefold().rstrip(":"))
    if reader is None:
        raise _Fault(f'"{word}" is nothing that is read here;', f"begin with one of: {', '.join(SHOWN)}.")
    return replace(reader(word.casefold().rstrip(":"), value.strip(), setting), day=day, typed=text)


def _day(text: str, setting: Setting) -> tuple[float, str]:
    """Return the day after the first layer and what stands after it."""
    if match := CLOSED.match(text):
        day, rest = setting.closed_d + _span(match), text[match.end() :]
    elif match := DAY.match(text):
        day, rest = float(match["day"]), text[match.end() :]
    elif match := ON.match(text):
        day, rest = _since(match["date"], setting), text[match.end() :]
    elif setting.otherwise_d is not None:
        day, rest = setting.otherwise_d, text
    else:
        raise _Fault(
            "it has no day;", 'begin with the day after the first layer, such as "day 9", or "a week after sealing".'
        )
    if day < 0.0:
        raise _Fault(f"day {day:g} is before the first layer;", "the first layer lies on day 0.")
    if day > LATEST_D:
        raise _Fault(f"day {day:g} is too far on;", f"up to day {LATEST_D} can be followed.")
    return day, rest


def _span(match: re.Match[str]) -> float:
    """Return the days after it was shut."""
    return float(match["day"]) if match["day"] else _quantity(match["span"], Dimension.TIME)


def _since(text: str, setting: Setting) -> float:
    if setting.first is None:
        raise _Fault(f"{text} is a date, and the batch has none;", 'write "day 9", counted from the first layer.')
    try:
        return float((date.fromisoformat(text) - setting.first).days)
    except ValueError:
        raise _Fault(f'"{text}" is no date;', "write one such as 2027-03-10.") from None


def _number(value: str, what: str, example: str) -> tuple[float, str]:
    """Return a number, or the middle of a range, and what stands after it."""
    match = NUMBER.match(BEFORE.sub("", value))
    if match is None:
        raise _Fault(f"it has no {what};", f'write "{example}".')
    low = float(match["low"].replace(",", "."))
    high = float((match["high"] or match["low"]).replace(",", "."))
    return (low + high) / 2.0, match["rest"].strip()


def _where(rest: str, otherwise: Where) -> Where:
    words = re.findall(r"[a-z]+", rest.casefold())
    return next((PLACES[each] for each in words if each in PLACES), otherwise)


def _strip(word: str, value: str, setting: Setting) -> Reading:
    ph, rest = _number(value, "pH", "strip 4.5 leachate")
    if not LEAST_PH <= ph <= MOST_PH:
        raise _Fault(f"pH {ph:g} cannot be;", "strips go from 0 to 14; read it again.")
    where = _where(rest, Where.LEACHATE)
    if where is Where.ROOM:
        raise _Fault("a strip touches no room;", "say leachate, top or core.")
    box = BOX.search(rest)
    return Strip(day=0.0, ph=ph, where=where, box=box["box"] if box else "", is_meter=word == "meter")


def _fizz(_word: str, value: str, setting: Setting) -> Reading:
    first = value.casefold().split()[0] if value else "yes"
    if first not in YES and first not in NO:
        raise _Fault(f'"{value}" does not say whether it fizzes;', 'write "fizz yes" or "fizz no".')
    return Fizz(day=0.0, fizzes=first in YES, where=_where(value, Where.CORE))


def _temperature(_word: str, value: str, setting: Setting) -> Reading:
    match = re.match(r"(-?\d+(?:[.,]\d+)?)\s*(°?\s*[CF]\b|celsius|fahrenheit)?(.*)", value, re.IGNORECASE)
    if match is None:
        raise _Fault("it has no temperature;", 'write "temperature 21 C core".')
    if not match[2]:
        raise _Fault(f"{match[1]} has no unit;", f'write "temperature {match[1]} C" or "{match[1]} F".')
    celsius = _quantity(f"{match[1]} {match[2].replace('°', '').strip()}", Dimension.TEMPERATURE)
    if not POSSIBLE_C[0] <= celsius <= POSSIBLE_C[1]:
        raise _Fault(f"{value} cannot be in a vessel;", "read it again.")
    return Thermometer(day=0.0, celsius=celsius, where=_where(match[3], Where.CORE))


def _quantity(text: str, dimension: Dimension) -> float:
    try:
        return read_quantity(text, dimension).value
    except BadQuantity as bad:
        raise _Fault(bad.found, bad.remedy) from None


def _smell(word: str, value: str, setting: Setting) -> Reading:
    """Read a smell, and where it is: what stinks in the liquid alone says little of the scraps."""
    seen = _sign("smell")(word, value, setting)
    where = next((PLACES[each] for each in re.findall(r"[a-z]+", value.casefold()) if each in SMELLED), None)
    if not isinstance(seen, Seen) or where is None:
        return seen
    if where is Where.LEACHATE and seen.sign in BAD:
        return Seen(day=0.0, sign="foul", kind="leachate", where=where)
    return replace(seen, where=where)


def _bran(_word: str, value: str, setting: Setting) -> Reading:
    first = value.casefold().split()[0] if value else ""
    if first not in BRAN:
        raise _Fault(f'"{value}" does not say what was amiss with the bran;', 'write "bran none" or "bran old".')
    return Bran(day=0.0, was_none=first in NO)


def _sign(kind: str) -> Callable[[str, str, Setting], Reading]:
    def _named(word: str, value: str, setting: Setting) -> Reading:
        words = value or word
        sign = setting.signs.find(kind, words)
        if sign is None:
            known = ", ".join(each.also[0] if each.also else each.id for each in setting.signs.of(kind))
            raise _Fault(f'"{words}" is no {kind} that is known;', f"take the nearest of: {known}.")
        return Seen(day=0.0, sign=sign.id, kind=kind)

    return _named


def _liquid(word: str, value: str, setting: Setting) -> Reading:
    """Read an amount of liquid, or else how it looks."""
    if value.casefold() in ("none", "no", "nothing", "0"):
        return Liquid(day=0.0, litres=0.0)
    if not re.match(r"-?\d|about|half|a |an |one |two |three ", value, re.IGNORECASE):
        return _sign("leachate")(word, value, setting)
    litres = _quantity(re.sub(r"\s+(?:of\b.*|in all|leachate|liquid|drawn)$", "", value), Dimension.VOLUME)
    if litres < 0.0:
        raise _Fault("less than nothing cannot be drawn off;", 'write "leachate 300 ml" or "leachate none".')
    if setting.volume_l is not None and litres > setting.volume_l:
        raise _Fault(f"{value} is more than the vessel holds;", "write what was drawn off at once.")
    return Liquid(day=0.0, litres=litres)


def _weight(_word: str, value: str, setting: Setting) -> Reading:
    mass = _quantity(value, Dimension.MASS)
    if mass <= 0.0:
        raise _Fault("a weight is above 0 kg;", "leave it out if you did not weigh it.")
    return Weight(day=0.0, mass_kg=mass)


def _caddy(_word: str, value: str, setting: Setting) -> Reading:
    days = _quantity(value, Dimension.TIME)
    if days < 0.0:
        raise _Fault("less than no time cannot be;", 'write "caddy 3 days".')
    return Caddy(day=0.0, caddy_d=days)


READERS: Final[Mapping[str, Callable[[str, str, Setting], Reading]]] = MappingProxyType(
    {
        **dict.fromkeys(("strip", "ph", "meter"), _strip),
        **dict.fromkeys(("fizz", "soda"), _fizz),
        **dict.fromkeys(("temperature", "temp", "thermometer"), _temperature),
        **dict.fromkeys(("smell", "smells", "smelled", "odour", "odor"), _smell),
        **dict.fromkeys(("growth", "mould", "mold", "fur", "fuzz", "fluff", "surface"), _sign("growth")),
        **dict.fromkeys(("lid", "droplets"), _sign("lid")),
        **dict.fromkeys(("leachate", "liquid", "juice", "drained", "drew"), _liquid),
        **dict.fromkeys(("larvae", "maggots", "flies", "grubs"), _sign("larvae")),
        **dict.fromkeys(("texture", "scraps"), _sign("texture")),
        "warm": _sign("warmth"),
        "weight": _weight,
        "caddy": _caddy,
        "bran": _bran,
    }
)
SHOWN: Final = (
    *("strip", "fizz", "temperature", "smell", "growth", "lid"),
    *("leachate", "larvae", "texture", "weight", "caddy", "bran"),
)


def _marked(reading: Reading, setting: Setting) -> Reading:
    """Return a reading with a mark where it is unlikely; it is kept as it was written."""
    mark = ""
    if isinstance(reading, Strip):
        low, high = SELDOM_PH
        if reading.ph < low or reading.ph > high:
            mark = f"pH {reading.ph:g} is seldom seen in a vessel"
        elif reading.ph < 3.6 and reading.day < 3.0:
            mark = f"pH {reading.ph:g} is very sour for day {reading.day:g}"
    elif isinstance(reading, Thermometer) and not SELDOM_C[0] <= reading.celsius <= SELDOM_C[1]:
        mark = "that is seldom so in a vessel"
    elif isinstance(reading, Liquid) and setting.volume_l is not None and reading.litres > 0.35 * setting.volume_l:
        mark = "that is very much for a vessel of its size"
    elif isinstance(reading, Weight) and setting.laid_kg is not None:
        part = reading.mass_kg / setting.laid_kg
        mark = "that is far from what was laid in" if not 0.5 < part < 1.3 else ""
    return replace(reading, mark=mark) if mark else reading
