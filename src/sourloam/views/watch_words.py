"""What is said of a vessel that is watched: what to do now, what to look at, when to worry, where it may go."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.plan.words import Speech, converted, days, enumerated
from sourloam.science.ferment.ensemble.changes import Change
from sourloam.science.readings.kinds import Fizz, Liquid, Reading, Seen, Strip, Thermometer, Weight, Where
from sourloam.science.readings.signs import Signs
from sourloam.science.watch.conditions import Condition
from sourloam.views.batch import Batch
from sourloam.views.ferment import FermentView, gives
from sourloam.views.mix import ToDo

HALF: Final = 0.5
MAYBE_WET: Final = 0.15  # chance of being drowned from which the core is smelled before it is given up; judgement
BAD_SMELLS: Final = ("rancid", "putrid", "ammonia")
WET_FROM: Final = 0.3  # chance of being drowned from which it is handled as wet; judgement
ROUTE: Final = (
    "Bury it 30 cm deep or deeper, off beds of food, or put it into the core of a pile that heats, under plenty of dry "
    "browns. Never to worms, into pots or into an indoor tub. Local rules go before this."
)
LOOKS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "smell": "Smell it: the lid first, then a squeezed handful from the core.",
        "growth": "Look at the top in daylight: is anything growing, of what colour, and how much of it is covered?",
        "lid": "Look under the lid: is it dry, or do droplets hang there?",
        "texture": "Squeeze some scraps in a glove: firm, or slimy?",
        "leachate": "Draw a little liquid into a glass: clear and amber, milky, or dark and foul?",
        "strip leachate": "Hold a pH strip into the liquid that runs off.",
        "strip core": "Hold a pH strip to a squeezed handful from the core.",
        "fizz": "Put a pinch of baking soda on a spoonful from the core: fizz means sour, below about 5.",
        "liquid": "Draw all the liquid off, and measure how much it is.",
        "thermometer": "Push a thermometer into the core, and hold it beside the vessel for ten minutes.",
    }
)
WHAT: Final[Mapping[str, str]] = MappingProxyType(
    {
        "warmer": "Stand it where it is {warmth} from now on",
        "draw": "Draw the liquid off now, all of it, and then every {days}",
        "keep shut": "Leave it shut; look in only when you must",
        "dry stuff": "Next time, mix {dose} of torn cardboard into each {one}",
        "more bran": "Next time, strew {dose} more bran on each {one}",
        "tamp and seal": "Press it down with a weight, and make the lid tight to air",
    }
)


LITTLE: Final[Mapping[str, str]] = MappingProxyType(
    {
        "draw": "it spoils first, and reaches the scraps; what has turned does not turn back",
        "tamp and seal": "mould lives on air; what has grown it does not undo",
    }
)


@dataclass(frozen=True)
class Situation:
    """What the words depend on."""

    batch: Batch
    chances: Mapping[Condition, float]
    top: Condition
    readings: tuple[Reading, ...]
    is_red: bool
    now: Mapping[str, Change]
    next_time: Mapping[str, Change]
    is_late: bool = False  # past the day from which it may be placed
    look: str = ""  # what would tell most, of what needs nothing bought

    @property
    def has_failed(self) -> bool:
        """Whether it is to be handled as failed: by a single red flag, or bad in most cases that read so."""
        if self.is_red:
            return True
        if self.is_only_liquid:
            return False
        bad = self.chances[Condition.PUTRID] + (self.chances[Condition.MOULDY] if self.is_wide_mould else 0.0)
        if self.has_seen("rancid"):  # whichever way it came to it
            bad = sum(self.chances[each] for each in (Condition.PUTRID, Condition.MOULDY, Condition.DROWNED))
        return bad >= HALF

    @property
    def is_amiss(self) -> bool:
        """Whether something is to be done before it is called sound."""
        return self.has_failed or self.is_only_liquid or self.is_patchy

    @property
    def may_be_liquid(self) -> bool:
        """Whether what failed by its smell may be sound but for its liquid."""
        seen = [each for each in self.readings if isinstance(each, Seen) and each.sign in BAD_SMELLS]
        is_elsewhere = any(each.where in (Where.CORE, Where.TOP) for each in seen)
        told = bool(seen) and not is_elsewhere and not self.has_seen("black", "red")
        return told and self.has_failed and self.chances[Condition.DROWNED] >= MAYBE_WET

    @property
    def is_only_liquid(self) -> bool:
        """Whether the liquid is foul, and nothing else is known to smell bad."""
        return self.has_seen("foul") and not self.has_seen(*BAD_SMELLS)

    @property
    def is_sour(self) -> bool:
        """Whether it smells as it should, and of nothing bad."""
        return self.has_seen("pickle", "vinegar") and not self.has_seen(*BAD_SMELLS)

    @property
    def is_patchy(self) -> bool:
        """Whether coloured mould sits in places of what smells sour."""
        return self.has_seen("blue", "specks") and self.is_sour and not self.has_failed

    @property
    def is_wide_mould(self) -> bool:
        """Whether coloured fur was seen, and not only specks; in patches it counts where it does not smell sour."""
        fur = self.has_seen("blue", "black", "red") and not self.has_seen("specks") and not self.is_sour
        return fur or self.has_seen("wide")

    @property
    def top_chance(self) -> float:
        """Return the chance of the likeliest state."""
        return max(self.chances.values())

    @property
    def is_wet(self) -> bool:
        """Whether it is to be handled as too wet."""
        return self.has_seen("droplets") or self.chances[Condition.DROWNED] >= WET_FROM

    def has_seen(self, *signs: str) -> bool:
        """Whether one of these signs was seen."""
        return any(isinstance(each, Seen) and each.sign in signs for each in self.readings)


def to_do(it: Situation) -> Iterator[ToDo]:
    """Give what to do now, in order, each with what it gives."""
    if it.may_be_liquid:
        yield from _wet(it)
        yield ToDo(
            "Then smell a squeezed handful from the core, outdoors, with gloves",
            1.0,
            "1",
            "if it is sour, only the liquid had gone off, and it may go on; if it smells of rot, it has failed",
        )
        return
    if it.has_failed:
        yield from _given_up(it)
        return
    if it.is_only_liquid:
        yield from _rinsed()
        return
    if it.is_late and it.top is Condition.SOUND and not it.is_patchy and it.readings:
        yield ToDo(
            "It is ready: smell it once more, and dig it in or place it as planned",
            1.0,
            "1",
            "sour and past its days; it may wait as well, shut and drained",
        )
    if it.look and it.top_chance < HALF:
        yield ToDo(f"Find out first. {it.look.rstrip('.')}", 1.0, "1", "what was read fits more than one thing")
    if it.is_wet:
        yield from _wet(it)
    if (it.top is Condition.MOULDY and not it.has_seen("larvae")) or it.has_seen("blue", "specks"):
        yield from _mouldy(it)
    if it.has_seen("larvae"):
        yield ToDo(
            "Pick out what crawls, close every gap of the lid, and cover the top with a finger of bran or a film",
            1.0,
            "1",
            "flies lay their eggs where they get in; what grubs have eaten is no ferment any more: bury it, or let "
            "them finish with leaves",
        )
    if it.has_seen("bulging"):
        yield ToDo(
            "Let gas out once a day, with the lid turned away from you",
            1.0,
            "1",
            "it works; what a lid cannot let go bursts it",
        )
    if "warmer" in it.now and (
        it.top is Condition.STUCK or it.chances[Condition.STUCK] >= 0.1 or _helps(it.now["warmer"])
    ):
        yield _tried(it, it.now["warmer"])
    yield (
        _tried(it, it.now["keep shut"])
        if "keep shut" in it.now
        else ToDo("Leave it shut", 1.0, "1", "air is what spoils it")
    )


def _given_up(it: Situation) -> Iterator[ToDo]:
    is_mould = it.is_wide_mould and not it.has_seen(*BAD_SMELLS)
    why = (
        "air got in and mould has the top; its dust is nothing to breathe, with asthma or a weak defence least of all"
        if is_mould
        else "it is not sour enough to hold rot back; no bran cures that"
    )
    yield ToDo("Treat it as failed. Open it outdoors, with gloves, away from your face", 1.0, "1", why)
    yield ToDo(
        "Take it all out, wash the vessel with hot water, dry it, and begin anew with plant scraps",
        1.0,
        "1",
        "what clings to the wall seeds the next filling",
    )


def _rinsed() -> Iterator[ToDo]:
    yield ToDo(
        "Empty all the liquid, however little it is, rinse the room below with water, and close it again",
        1.0,
        "1",
        "liquid that has met air spoils within days; the scraps above it need not",
    )
    yield ToDo(
        "Smell a squeezed handful from the core, now and after three days",
        3.0,
        "d",
        "sour both times: the ferment itself is whole. Of rot: it has failed",
    )


def _wet(it: Situation) -> Iterator[ToDo]:
    speech = it.batch.speech
    if "draw" in it.now:
        yield _tried(it, it.now["draw"])
    else:
        yield ToDo("Pour or ladle off what stands in it", 1.0, "1", "what stands in its own liquid rots from below")
    laid_kg = sum(each.mass.value for layer in it.batch.filling.layers for each in layer.portions)
    soaks = speech.kg(0.02 * laid_kg)
    change = it.next_time.get("dry stuff")
    dose, one = _to_one(change.amount / 1000.0 if change else 0.0, speech)
    then = f"; mixed in from the start, {dose} to a {one}, {gives(change)}" if change else ""
    yield ToDo(
        f"Lay about {soaks} of newspaper, egg carton or cardboard on it, swap it when it is soggy, and press down",
        0.02 * laid_kg,
        "kg",
        f"it holds two to three times its weight of water{then}",
    )
    bran = it.next_time.get("more bran")
    told = f"; more of it from the start: {gives(bran)}" if bran and _helps(bran) else ""
    yield ToDo("Strew no more bran against the wet", 0.0, "1", f"bran does not dry a vessel{told}")


def _mouldy(it: Situation) -> Iterator[ToDo]:
    bran = "two handfuls of bran on each place" if it.has_seen("blue") else "a handful of bran on the place"
    yield ToDo(
        f"Lift the mould out with a finger's breadth around it, do not breathe over it, strew {bran}, press down and "
        "close",
        1.0,
        "1",
        "mould lives on the air at the top; nobody with asthma or a weak defence should handle it",
    )
    if "tamp and seal" in it.next_time:
        yield _tried(it, it.next_time["tamp and seal"])


def _helps(change: Change) -> bool:
    return change.failing_before_frac - change.failing_frac >= 0.05 or change.ready_before_d - change.ready_d >= 1.0


def _to_one(part: float, speech: Speech) -> tuple[str, str]:
    """Return what goes into a kilogram or a pound, as a part of it, and which of the two."""
    one = converted(1.0, "lb", "kg") if speech.is_us else 1.0
    return speech.kg(part * one), "pound" if speech.is_us else "kilogram"


def _tried(it: Situation, change: Change) -> ToDo:
    speech = it.batch.speech
    dose, one = _to_one(change.amount / 1000.0, speech)
    warmth = speech.celsius(change.amount) if change.unit == "Cel" else ""
    do = WHAT[change.do].format(dose=dose, one=one, warmth=warmth, days=days(change.amount))
    said = gives(change) if _helps(change) else LITTLE.get(change.do, "by the model it changes little now")
    if change.do == "keep shut":
        fewer = round(20.0 * (change.failing_before_frac - change.failing_frac))
        said = f"opened every day, {fewer} of 20 cases more go wrong" if fewer > 0 else "air is what spoils it"
    return ToDo(do, change.amount, change.unit, said)


def next_time(it: Situation) -> Iterator[ToDo]:
    """Give what would have helped from the start, where it does."""
    for name in ("dry stuff", "more bran", "tamp and seal"):
        change = it.next_time.get(name)
        if change is not None and _helps(change) and not (name == "more bran" and it.is_wet):
            told = _tried(it, change)
            yield (
                told
                if name != "tamp and seal"
                else ToDo(f"Next time, {told.do[0].lower()}{told.do[1:]}", 1.0, "1", told.because)
            )


def worry_if(it: Situation, forecast: FermentView, day: int) -> Iterator[str]:
    """Give the signs on which to give it up, the gravest first, as the key of senses counts them."""
    yield "It smells of rot, sewage or ammonia: that alone is enough. It has failed then."
    yield "Black, red or orange fur grows on it, or blue-green fur over more than a hand's breadth."
    sour = forecast.number("soured_day")
    if sour is not None and sour.value is not None and sour.high is not None and it.top is not Condition.PUTRID:
        by = max(round(it.batch.last_d + sour.high), day + 3)
        yield f"It does not smell sour by day {by}."
    yield "The scraps turn slimy or fall apart, with a smell to it."


def hints(it: Situation) -> Iterator[str]:
    """Give what a keeper should know of what was seen."""
    if it.is_late and not it.has_failed:
        yield (
            "After weeks shut it is sourer and wetter, and often has white fuzz: open it outdoors, in gloves, and draw "
            "the liquid off first."
        )
    if it.has_seen("white"):
        yield "White film or fluff says little either way: it needs a little air. Smell decides."
    if it.has_seen("clean"):
        yield "No white growth is needed: under a tight lid none comes. Go by smell, days and acid."
    if it.has_seen("firm", "fresh") or it.top is Condition.SOUND:
        yield "Scraps look much as they went in: they fall apart later, in the soil. Shape tells nothing."
    if it.has_seen("specks", "blue", "black", "red"):
        yield "Bread, coffee and cardboard are where coloured mould sits most. Do not breathe its dust."
    if it.batch.has_drain:
        yield "Whenever the room below the grid is opened, empty and rinse it: liquid that has met air spoils."
    if it.has_seen("foul") or it.is_wet:
        yield "The colour of the liquid is that of what went in; only its smell counts."


def heard_words(reading: Reading, signs: Signs, speech: Speech) -> str:
    """Return a reading as it was understood."""
    where = {Where.LEACHATE: "in the liquid", Where.TOP: "on top", Where.CORE: "in the core", Where.ROOM: "beside it"}
    if isinstance(reading, Strip):
        return f"pH {reading.ph:g} {where[reading.where]}"
    if isinstance(reading, Fizz):
        return f"soda {'fizzes' if reading.fizzes else 'does not fizz'}"
    if isinstance(reading, Thermometer):
        return f"{speech.celsius(reading.celsius)} {where[reading.where]}"
    if isinstance(reading, Seen):
        return signs.by_id[reading.sign].words
    if isinstance(reading, Liquid):
        return f"{speech.litres(reading.litres)} drawn off" if reading.litres else "no liquid"
    if isinstance(reading, Weight):
        return f"it weighs {speech.kg(reading.mass_kg)}"
    return reading.typed


def ask_more(unread: Sequence[str]) -> str:
    """Say what to tell where readings fit nothing that is known."""
    asked = enumerated([LOOKS[each].split(":")[0].lower().rstrip(".") for each in unread if each in LOOKS][:3])
    return f"First read again what was read. Then {asked}." if asked else "Read again what was read."
