"""Whether a batch is dug into a bed on a day: everything that speaks against it, the weightiest first."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from types import MappingProxyType
from typing import Final

from sourloam.plan.words import Speech, days, when
from sourloam.science.batch.content import Content
from sourloam.science.places.bed.dig import Dug, cover_of
from sourloam.science.places.bed.spot import Known
from sourloam.science.places.ground.crops import Crop, Edible, Start
from sourloam.science.places.offer import UNSOUND, rough
from sourloam.views.place import Decision

LEAST_DOSE: Final = 0.05  # kg/m2; nobody digs for less. judgement
LONG_D: Final = 300.0  # a date so far off is said with its year


@dataclass(frozen=True)
class Ground:
    """What is so of a bed on the day of the question."""

    place: str
    name: str
    on: date
    dug_on: date  # the same day, or one before it
    is_food: bool = True
    is_frozen: bool = False
    closed_until: date | None = None
    standing: tuple[str, date] | None = None  # what grows there, and until when
    next_crop: tuple[str, date] | None = None
    crop: Crop | None = None  # what comes next, by the table
    animals: tuple[str, ...] = ()
    ph: float | None = None
    tree_m: float | None = None
    well_m: float | None = None
    stream_m: float | None = None
    slope_frac: float | None = None
    seedlings_frac: float | None = None  # growth in a test, against plain soil
    local_wait_d: float | None = None  # before a harvest, by a local rule
    is_anyway: bool = False

    @property
    def is_dug(self) -> bool:
        """Whether it lies in the ground already, so that planting is asked about."""
        return self.dug_on < self.on

    @property
    def is_tested(self) -> bool:
        """Whether a seedling test was made."""
        return self.seedlings_frac is not None


@dataclass(frozen=True)
class Objection:
    """One thing that speaks against it."""

    decision: Decision
    limit: str
    words: str


LIMIT_WORDS: Final = MappingProxyType(
    {
        "nitrogen": "nitrogen of the year: {cap:g} g/m2 from all that it gets",
        "phosphorus": "phosphorus: no more than harvests take, {p:g} g/m2 a year",
        "salt": "the salt that {crop} ({bears:g} dS/m)",
        "room": "room under its cover of soil",
        "need": "nitrogen that {crop} can use",
        "acid": "acid: more would turn {texture} half a pH sourer at first",
    }
)


def objections(content: Content, dug: Dug, ground: Ground, known: Known) -> Iterator[Objection]:
    """Give everything that speaks against digging in, the weightiest first."""
    yield from _unsound(content, ground)
    yield from _misplaced(ground, known)
    yield from _not_now(dug, ground)
    yield from _not_here(dug, ground, known)
    yield from _too_soon(dug, ground)


def binding(dug: Dug, ground: Ground, known: Known) -> str:
    """Return in words what sets the dose."""
    crop = ground.crop.name if ground.crop else "what grows there"
    bears = ground.crop.salt_threshold_ds_per_m if ground.crop else None
    return LIMIT_WORDS[dug.binding].format(
        cap=known.bed.nitrogen_cap_g_per_m2.value,
        p=known.season.phosphorus_most_g_per_m2.value,
        crop=crop if dug.binding != "salt" else f"{crop} bears" if ground.crop else "tender crops bear",
        bears=bears or known.ground.tender_ds_per_m.value,
        texture=dug.spot.texture.replace("-", " "),
    )


def passed(ground: Ground, known: Known) -> bool:
    """Whether a seedling test says that the ground is fit for plants."""
    return ground.seedlings_frac is not None and ground.seedlings_frac >= known.season.seedlings_pass_frac.value


def rest_of(crop: Crop | None) -> str:
    """Return which rest a crop waits for."""
    if crop is None:
        return "rest_days_sowing"
    if crop.edible is Edible.ROOT:
        return "rest_days_root_crop"
    return "rest_days_transplant" if crop.start is Start.PLANTED else "rest_days_sowing"


def date_after(ground: Ground, count: float) -> str:
    """Return the date so many days after digging in, as it is said."""
    day = ground.dug_on + timedelta(days=round(count))
    return f"{when(day)}{f' {day.year}' if abs((day - ground.on).days) > LONG_D else ''}"


def _unsound(content: Content, ground: Ground) -> Iterator[Objection]:
    if content.state in ("failed", "unknown") and ground.is_food:
        why = f"{UNSOUND[content.state]}, and food grows here"
        instead = "bury it deep where none does, or put it into the core of a pile that heats"
        yield Objection(Decision.NO, "sound", f"{why}: {instead}")
    if content.state == "unfinished" and not ground.is_anyway:
        until = f" before {when(content.ready_on)}" if content.ready_on else ""
        yield Objection(
            Decision.NOT_YET, "ready", f"it is not ready{until}: shut it again (--anyway says what happens)"
        )


def _misplaced(ground: Ground, known: Known) -> Iterator[Objection]:
    more = known.season
    near = (
        (ground.well_m, more.well_m.value, "a spring, a well or a borehole"),
        (ground.stream_m, more.stream_m.value, "a stream, a ditch or a pond"),
    )
    for found, least, what in near:
        if found is not None and found < least:
            yield Objection(
                Decision.NO, "water", f"{what} is {found:g} m off, and {least:g} m are kept (local rules go first)"
            )
    if ground.slope_frac is not None and ground.slope_frac > more.slope_most_frac.value:
        yield Objection(
            Decision.NO,
            "slope",
            f"a slope of {100.0 * ground.slope_frac:.0f} % sheds it with the rain: dig on the flat",
        )
    if ground.tree_m is not None and ground.tree_m < 0.9 * more.stem_m.value:
        yield Objection(
            Decision.NO,
            "stem",
            f"{ground.tree_m:g} m from a stem lie its thick roots: keep {more.stem_m.value:g} m off",
        )


def _not_now(dug: Dug, ground: Ground) -> Iterator[Objection]:
    if ground.is_dug:
        return
    if ground.is_frozen:
        yield Objection(
            Decision.NOT_YET, "frozen", "the ground is frozen: keep it shut, it keeps for months in the cold"
        )
    if dug.spot.moisture == "waterlogged":
        yield Objection(
            Decision.NOT_YET, "waterlogged", "the ground stands in water: without air it rots and stinks there"
        )
    if ground.closed_until:
        yield Objection(Decision.NOT_YET, "closed", f"it is closed until {when(ground.closed_until)}")
    if ground.standing:
        crop, until = ground.standing
        yield Objection(
            Decision.NOT_YET,
            crop,
            f"{crop} stands here until {when(until)}, and digging there cuts and burns its roots",
        )


def _not_here(dug: Dug, ground: Ground, known: Known) -> Iterator[Objection]:
    if ground.is_dug:
        return
    cover = cover_of(dug.spot, known).value
    if dug.spot.depth_m is not None and dug.spot.depth_m <= cover:
        yield Objection(
            Decision.NO, "depth", f"{100 * dug.spot.depth_m:.0f} cm leave no room under {100 * cover:.0f} cm of soil"
        )
    elif dug.figures["dose_kg_per_m2"].value < LEAST_DOSE:
        yield Objection(Decision.NOT_YET, dug.binding, f"the bed takes nothing more: {binding(dug, ground, known)}")


def _too_soon(dug: Dug, ground: Ground) -> Iterator[Objection]:
    """Object where a crop would go in before the rest is over."""
    if not ground.next_crop or ground.is_dug:
        return
    name, goes_in = ground.next_crop
    rest = dug.figures[rest_of(ground.crop)]
    if ground.dug_on + timedelta(days=round(rest.value)) > goes_in:
        yield Objection(
            Decision.NOT_YET,
            name,
            f"{name} goes in on {when(goes_in)}, and the ground rests until {date_after(ground, rest.value)}",
        )


def planting(dug: Dug, ground: Ground, known: Known) -> tuple[Decision, str, str]:
    """Return whether ground in which a batch lies may be planted: the decision, the sentence, and the limit."""
    if passed(ground, known):
        root = " Root crops wait all the same." if ground.crop and ground.crop.edible is Edible.ROOT else ""
        return Decision.YES, f"the seedling test is passed: plant and sow.{root}", "seedlings"
    lain = (ground.on - ground.dug_on).days
    rest = dug.figures[rest_of(ground.crop)]
    what = {"rest_days_transplant": "plants", "rest_days_sowing": "seed", "rest_days_root_crop": "root crops"}
    named = what[rest_of(ground.crop)]
    if ground.is_tested:
        test = f"seedlings grow {100 * (ground.seedlings_frac or 0.0):.0f} % as well in it as in plain soil"
        return Decision.NOT_YET, f"{test}: wait two weeks, and test again.", "seedlings"
    if lain >= rest.value:
        return Decision.YES, f"it has lain {days(lain)}, and {days(rest.value)} of rest do for {named}.", "rest"
    until = date_after(ground, rest.value)
    return Decision.NOT_YET, f"it has lain {days(lain)} of {days(rest.value)}: {named} from {until}.", "rest"


def amount(kg: float, speech: Speech) -> str:
    """Return a mass as a keeper says it."""
    return speech.kg(kg) if kg < 100.0 else f"{rough(kg)} kg" if not speech.is_us else speech.kg(kg)
