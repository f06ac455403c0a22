"""What is said where no sign tells anything: everything is full, it is frozen, roots came too early."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.base.figure import Figure
from sourloam.plan.words import Speech, days
from sourloam.views.ferment_verdict import chance_words
from sourloam.views.mix import ToDo
from sourloam.views.watch import WatchView


@dataclass(frozen=True)
class Said:
    """An answer in words."""

    heading: str
    rest: str
    is_well: bool
    do: tuple[ToDo, ...]
    look_next: tuple[str, ...] = ()
    worry_if: tuple[str, ...] = ()
    hints: tuple[str, ...] = ()


FED: Final[Mapping[str, str]] = MappingProxyType(
    {"meat": "much meat, fish, cheese or fat went in", "wet": "it went in wet"}
)
INSIDE: Final = ("putrid", "stuck", "drowned")
LEARNED: Final[Mapping[str, str]] = MappingProxyType(
    {
        "meat": "Next time begin a vessel with plant scraps, hold meat and fish back in the cold for two days, strew "
        "an extra dose of bran on them, and press the air out with a weight. mix tells the dose.",
        "wet": "Next time drain wet scraps in a sieve, tear dry cardboard in with them, and draw off every one to "
        "three days.",
        "old": "Next time empty the caddy every day or two, or keep it in the fridge: what has begun to rot goes on.",
        "nobran": "Next time strew bran on each layer, and more on meat, fish and dairy; draw the liquid off before "
        "it reaches the grid.",
    }
)


def learned(given: Mapping[str, str]) -> Iterator[str]:
    """Give what the next filling does otherwise, by what was told of this one."""
    if given.get("fed") in LEARNED:
        yield LEARNED[given["fed"]]


def filled_so(given: Mapping[str, str], view: WatchView, usual: WatchView | None) -> Iterator[str]:
    """Say what the filling itself has to do with it: how often it rots, drowns or never sours, and how often others."""
    told = FED.get(given.get("fed", ""))
    if told is None or usual is None:
        return
    so, otherwise = (_inside(each) for each in (view, usual))
    if so > otherwise:
        yield f"{told}: {chance_words(so)} filled so rot, drown or never sour, of usual ones {chance_words(otherwise)}"


def _inside(view: WatchView) -> float:
    """Return the share of cases that go wrong inside, before anything was read."""
    return sum(each.share for each in view.before.failing if each.kind in INSIDE)


def full(view: WatchView, day: int) -> Said:
    """Say when the oldest vessel makes room, and where scraps go until then."""
    due = view.forecast.number("ready_day")
    if due is None or due.value is None or due.low is None or due.high is None:
        heading, waits = "The oldest vessel may not get ready as it stands.", 14
        is_well = False
    else:
        low, middle, high = (max(round(each) - day, 0) for each in (due.low, due.value, due.high))
        waits, is_well = high, middle == 0
        between = f" ({low} to {high})" if low < high else ""
        heading = (
            "The oldest vessel is probably ready: empty it now."
            if middle == 0
            else f"The oldest vessel is ready in about {days(middle)}{between}."
        )
    empties = (
        "Empty the oldest into a trench, a pile or a tub of soil today" if is_well else "Bury part of the oldest now"
    )
    why = (
        "by its days and warmth it keeps; smell it first, it should be sour"
        if is_well
        else "what is sour and not ready may go deep into soil or into a pile that heats, but not to worms or pots"
    )
    return Said(
        heading,
        "Smell decides: sour means ready to go.",
        is_well,
        (
            ToDo(empties, 1.0, "1", why),
            ToDo(
                "Freeze what comes in meanwhile, or keep it in a shut tub in the fridge",
                float(waits),
                "d",
                f"it is for {days(max(waits, 1))} at most; what is cold does not rot, and thawed scraps sour faster",
            ),
            ToDo(
                "Press the newest down hard before the lid goes on", 1.0, "1", "a filled vessel sinks in the first week"
            ),
            ToDo(
                "If nothing has room, give it to a neighbour's pile or to the collection",
                1.0,
                "1",
                "no scrap is worth a stinking kitchen",
            ),
        ),
        ("Smell the oldest: is it sour, like pickles?",),
        ("A vessel that was to make room smells of rot: it has failed, and wants another way out.",),
    )


def frozen(view: WatchView, warm: str) -> Said:
    """Say what frost does, and when a vessel is ready once it has thawed."""
    ready = view.forecast.number("ready_day")
    when = ""
    if ready is not None and ready.value is not None and ready.low is not None and ready.high is not None:
        low, middle, high = (round(each) for each in (ready.low, ready.value, ready.high))
        when = f"At {warm} it is ready about {days(middle)} after it has thawed ({low} to {high})."
    return Said(
        "Frost spoils nothing: what is frozen waits.",
        when,
        True,
        (
            ToDo(
                "Carry it where it thaws, and count the days from then",
                1.0,
                "1",
                "bacteria live through frost, and burst cells let their sugar go: it sours faster then",
            ),
            ToDo(
                "Leave a hand's breadth free in what is still to freeze, and empty the tap",
                1.0,
                "1",
                "ice takes a tenth more room and cracks a full vessel",
            ),
            ToDo(
                "Where the ground is frozen, keep shut vessels in the cold, or mix them into a tub of soil indoors",
                1.0,
                "1",
                "sour and sealed it keeps for months, at no loss",
            ),
        ),
        ("When it has thawed, smell it: sour, or nothing yet?",),
        ("It smells of rot after it has thawed, or the wall is cracked and leaks.",),
    )


def planted(rest: Figure, day: int, *, soil_c: float, stops_c: float, speech: Speech) -> Said:
    """Say how long roots should have waited in soil as warm as this, and what to do with those that are in."""
    warm = speech.celsius(soil_c)
    if soil_c <= stops_c:
        heading = f"At {warm} the soil does hardly anything: the rest begins when it warms."
        left = round(rest.value)
    else:
        low, middle, high = (max(round(each) - day, 0) for each in (rest.low, rest.value, rest.high))
        left = middle
        heading = (
            f"By now the soil has had its rest: {days(day)} at {warm}."
            if middle == 0
            else f"Too early by about {days(middle)} ({low} to {high}), in soil of {warm}."
        )
    return Said(
        heading,
        "Young roots yellow or rot where the acid is; most outgrow it once the soil has used it up.",
        left == 0,
        (
            ToDo(
                "Lift what wilts with its ball of soil, and set it aside in plain soil",
                float(left),
                "d",
                f"for {days(max(left, 1))}, until the acid is gone",
            ),
            ToDo(
                "Water well once, and then only when the soil is dry",
                1.0,
                "1",
                "it thins acid and salt around the roots",
            ),
            ToDo(
                "Leave what stands well where it is, and sow nothing new there",
                float(left),
                "d",
                f"for {days(max(left, 1))}",
            ),
        ),
        ("Put a pinch of baking soda on moist soil from the trench: fizz means still too sour for roots.",),
        ("The soil smells of rot when it is opened: wait until it smells of earth.",),
        ("5 to 10 cm of soil between it and the roots spare them next time.",),
    )
