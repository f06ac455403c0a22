"""What an entry may say: one frozen record for each kind, its fields declared once.

A kind that changes gets a new version and a step in `OLDER`; what an old release wrote is read for ever.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Annotated, Any, Final

from sourloam.base.fields import Key
from sourloam.base.kinds import Choice, Day, Flag, Ident, Text, amount
from sourloam.logbook.kinds import Number, Parts
from sourloam.site.vessels import ROOMS

FAILINGS: Final = ("putrid", "yeasty", "mouldy", "stuck", "drowned")
FOUND: Final = ("", "ready", "not-yet")
STEPS: Final = ("rice", "milk", "strain", "mix", "dry", "bag")
STOCK_ACTS: Final = ("bought", "made", "used", "given", "received", "thrown", "counted")
WORKS: Final = ("dug", "turned", "fed", "watered", "planted", "harvested", "tested")
VESSEL_ACTS: Final = ("washed", "damaged", "mended", "taken-in")
TASK_ACTS: Final = ("done", "put-off", "not-needed")
LONGEST_FILE: Final = 1_000_000  # characters of a site file; the reader of files draws the same line

VESSEL: Final = Key("vessel", Ident(), "Which vessel.")
PLACE: Final = Key("place", Ident(), "Which place.")
ENTRY: Final = Key("entry", Text(60), "The id of the entry that is meant.")
PH: Final = Key(
    "ph", Number(0.0, 14.0, "a reading there is a fault of the strip or the meter."), "Its pH.", default=None
)
WHY: Final = Key("why", Text(), "Why.", default="")
WHAT: Final = Key("what", Text(), "What, in words.", default="")


def _litres(name: str, help_: str, most: str = "250 L") -> Key:
    return amount(name, "0 L", most, help=help_, default=None)


def _mass(name: str, help_: str, most: str = "500 kg") -> Key:
    return amount(name, "0 kg", most, help=help_, default=None)


@dataclass(frozen=True)
class SiteSet:
    """The whole site, as the text of its file: from here on it is so."""

    text: Annotated[str, Key("text", Text(LONGEST_FILE), "The site file.")]


@dataclass(frozen=True)
class LayerAdded:
    """A layer went into a vessel."""

    vessel: Annotated[str, VESSEL]
    parts: Annotated[tuple[tuple[str, float], ...], Key("parts", Parts(), "What went in, and what it weighs.")]
    bran_kg: Annotated[float, amount("bran", "0 kg", "50 kg", help="Bran on it.", default="0 kg")] = 0.0
    is_top_up: Annotated[bool, Key("top_up", Flag(), "Whether it filled up what had settled.", default=False)] = False


@dataclass(frozen=True)
class Sealed:
    """A vessel was closed for good."""

    vessel: Annotated[str, VESSEL]


@dataclass(frozen=True)
class Unsealed:
    """A sealed vessel was opened again to be filled further."""

    vessel: Annotated[str, VESSEL]
    why: Annotated[str, WHY] = ""


@dataclass(frozen=True)
class Opened:
    """A sealed vessel was looked into and shut."""

    vessel: Annotated[str, VESSEL]
    found: Annotated[str, Key("found", Choice(FOUND), "What the nose said.", default="")] = ""


@dataclass(frozen=True)
class Moved:
    """A vessel stands somewhere else from now on."""

    vessel: Annotated[str, VESSEL]
    stands: Annotated[str, Key("stands", Choice(ROOMS), "Where it stands now.")]


@dataclass(frozen=True)
class Joined:
    """What was in one vessel went into another."""

    vessel: Annotated[str, VESSEL]
    into: Annotated[str, Key("into", Ident(), "The vessel that now holds both.")]


@dataclass(frozen=True)
class DrawOff:
    """The liquid below the grid was drawn off."""

    vessel: Annotated[str, VESSEL]
    litres_l: Annotated[float, amount("litres", "0 L", "60 L", help="How much.")]
    colour: Annotated[str, Key("colour", Text(60), "Its colour.", default="")] = ""
    smell: Annotated[str, Key("smell", Text(60), "Its smell.", default="")] = ""
    went: Annotated[str, Key("went", Text(60), "Where it went.", default="")] = ""


@dataclass(frozen=True)
class Reading:
    """Something was observed of a vessel or a place."""

    subject: Annotated[str, Key("subject", Ident(), "Which vessel or place.")]
    ph: Annotated[float | None, PH] = None
    temperature_c: Annotated[
        float | None, amount("temperature", "-30 C", "95 C", help="How warm it is inside.", default=None)
    ] = None
    weight_kg: Annotated[float | None, _mass("weight", "What it weighs.")] = None
    smell: Annotated[str, Key("smell", Text(80), "How it smells.", default="")] = ""
    growth: Annotated[str, Key("growth", Text(80), "What grows on it.", default="")] = ""
    says: Annotated[str, Key("says", Text(), "Anything else.", default="")] = ""


@dataclass(frozen=True)
class Placed:
    """A batch, or a part of it, went to a place; without a mass all that is left."""

    vessel: Annotated[str, VESSEL]
    place: Annotated[str, PLACE]
    mass_kg: Annotated[float | None, _mass("mass", "How much of it; all if left out.")] = None


@dataclass(frozen=True)
class Failed:
    """A batch spoiled."""

    vessel: Annotated[str, VESSEL]
    how: Annotated[str, Key("how", Choice(FAILINGS), "How it spoiled.")]


@dataclass(frozen=True)
class Remedy:
    """Something was done to help a batch."""

    vessel: Annotated[str, VESSEL]
    what: Annotated[str, Key("what", Text(), "What was done.")]
    bran_kg: Annotated[float, amount("bran", "0 kg", "50 kg", help="Bran that went in.", default="0 kg")] = 0.0


@dataclass(frozen=True)
class Culture:
    """A step from rice-wash water to dry bran was done."""

    step: Annotated[str, Key("step", Choice(STEPS), "Which step.")]
    serum_l: Annotated[float | None, _litres("serum", "Serum that was strained, or that went in.")] = None
    bran_kg: Annotated[float | None, _mass("bran", "Bran that was mixed, or is now dry.")] = None
    what: Annotated[str, WHAT] = ""
    rice_kg: Annotated[float | None, _mass("rice", "Rice that was washed.")] = None
    water_l: Annotated[float | None, _litres("water", "Water that went in.")] = None
    milk_l: Annotated[float | None, _litres("milk", "Milk that went in.")] = None
    sugar_kg: Annotated[float | None, _mass("sugar", "Sugar or molasses that went in.")] = None
    ph: Annotated[float | None, PH] = None
    smell: Annotated[str, Key("smell", Text(80), "How it smells.", default="")] = ""
    passed: Annotated[bool | None, Key("passed", Flag(), "Whether a test of it was passed.", default=None)] = None


@dataclass(frozen=True)
class Stocked:
    """Something came into the cupboard or went out of it."""

    thing: Annotated[str, Key("thing", Ident(), "What.")]
    act: Annotated[str, Key("act", Choice(STOCK_ACTS), "How it came or went.")]
    mass_kg: Annotated[float | None, _mass("mass", "How much, by mass.", "5000 kg")] = None
    volume_l: Annotated[float | None, _litres("volume", "How much, by volume.", "5000 L")] = None


@dataclass(frozen=True)
class Worked:
    """A place was worked."""

    place: Annotated[str, PLACE]
    act: Annotated[str, Key("act", Choice(WORKS), "What was done there.")]
    what: Annotated[str, WHAT] = ""
    ph: Annotated[float | None, PH] = None
    mass_kg: Annotated[float | None, _mass("mass", "How much was fed or harvested, by mass.")] = None
    volume_l: Annotated[float | None, _litres("volume", "How much was watered, by volume.", "5000 L")] = None
    passed: Annotated[bool | None, Key("passed", Flag(), "Whether a test was passed.", default=None)] = None


@dataclass(frozen=True)
class VesselKept:
    """A vessel was washed, damaged, mended or taken in with an unknown history."""

    vessel: Annotated[str, VESSEL]
    act: Annotated[str, Key("act", Choice(VESSEL_ACTS), "What became of it.")]
    mass_kg: Annotated[float | None, _mass("mass", "What lies in it, where it was taken in full.")] = None


@dataclass(frozen=True)
class TaskKept:
    """A task of the list was done, put off, or is not needed."""

    task: Annotated[str, Key("task", Text(80), "The id of the task.")]
    act: Annotated[str, Key("act", Choice(TASK_ACTS), "What became of it.")]
    until: Annotated[date | None, Key("until", Day(), "Until when it was put off.", default=None)] = None


@dataclass(frozen=True)
class Note:
    """Words that nothing is reckoned from."""

    words: Annotated[str, Key("words", Text(), "The words.")]
    subject: Annotated[str, Key("subject", Text(60), "What they are about.", default="")] = ""


@dataclass(frozen=True)
class Withdrawn:
    """An earlier entry is taken back: from here on it is as if it had not been."""

    entry: Annotated[str, ENTRY]
    why: Annotated[str, WHY] = ""


@dataclass(frozen=True)
class Corrected:
    """An earlier entry is put right: its value is this instead, of the same kind."""

    entry: Annotated[str, ENTRY]
    value: Mapping[str, Any]


Value = (
    SiteSet
    | LayerAdded
    | Sealed
    | Unsealed
    | Opened
    | Moved
    | Joined
    | DrawOff
    | Reading
    | Placed
    | Failed
    | Remedy
    | Culture
    | Stocked
    | Worked
    | VesselKept
    | TaskKept
    | Note
    | Withdrawn
    | Corrected
)

# Each kind by the name and the version that an entry carries.
KINDS: Final[Mapping[str, tuple[type[Any], int]]] = MappingProxyType(
    {
        "site_set": (SiteSet, 1),
        "layer_added": (LayerAdded, 1),
        "sealed": (Sealed, 1),
        "unsealed": (Unsealed, 1),
        "opened": (Opened, 1),
        "moved": (Moved, 1),
        "joined": (Joined, 1),
        "draw_off": (DrawOff, 1),
        "reading": (Reading, 1),
        "placed": (Placed, 1),
        "failed": (Failed, 1),
        "remedy": (Remedy, 1),
        "culture": (Culture, 2),
        "stock": (Stocked, 1),
        "worked": (Worked, 2),
        "vessel": (VesselKept, 2),
        "task": (TaskKept, 1),
        "note": (Note, 1),
        "withdrawn": (Withdrawn, 1),
        "corrected": (Corrected, 1),
    }
)
NAMES: Final[Mapping[type[Any], str]] = MappingProxyType({each: name for name, (each, _) in KINDS.items()})


def _same(held: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return the fields of a version that the next one only adds to."""
    return held


# (kind, version) -> the fields of that version as those of the next one.
OLDER: Final[Mapping[tuple[str, int], Callable[[Mapping[str, Any]], Mapping[str, Any]]]] = MappingProxyType(
    {
        ("culture", 1): _same,  # 2 adds what went in, and tests
        ("worked", 1): _same,  # 2 adds amounts and tests
        ("vessel", 1): _same,  # 2 adds what lies in one that was taken in
    }
)
