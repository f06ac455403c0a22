"""Use case: what a bed does with a batch, and which bed of a site should have it."""

import re
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from types import MappingProxyType
from typing import Any, Final

import numpy as np

from sourloam.base.errors import BadInput, NotFound, Problem
from sourloam.base.units import Dimension
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.crops import crop_lookup, load_crops
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.science.places.bed.bed import Bed
from sourloam.science.places.bed.calendar import closed_until, crop_standing
from sourloam.science.places.bed.course import course_of, harvest_figure
from sourloam.science.places.bed.dig import Dug, dig
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.bed.season_parameters import SeasonParameters
from sourloam.science.places.bed.spot import Known, Spot, soil_c_of
from sourloam.science.places.ground.crops import Crop
from sourloam.science.places.ground.salt import GroundParameters
from sourloam.service.asking import Quantities, read_quantities, refuse
from sourloam.service.ferment import Compiler
from sourloam.service.product import AskedProduct, Given, product_of
from sourloam.views.bed import Told, bed_view
from sourloam.views.bed_season import BedSeason, RestMark
from sourloam.views.bed_verdict import Ground
from sourloam.views.place import Decision, PlaceView

FOLLOWED_D: Final = 1096  # three years: where the search for a rest ends
DIGS: Final = ("dog", "rats", "larger-wildlife")
LEAST_M2: Final = 0.05
ENDS: Final = ("low", "value", "high")
_SEEDLINGS: Final = re.compile(r"(\d+)\s*(?:/|of)\s*(\d+)(?:\s+([\d.]+)\s*/\s*([\d.]+))?")


@dataclass(frozen=True)
class AskedBed:
    """What a bed is asked with, beside the product; what is left open is that of the site, or a default."""

    product: AskedProduct
    area: str | None = None
    depth: str | None = None
    cover: str | None = None
    texture: str | None = None
    crop: str | None = None
    soil: str | None = None
    soil_temp: str | None = None
    ph: float | None = None
    fizz: bool = False
    given: str | None = None
    dug: date | None = None
    seedlings: str | None = None
    tree: str | None = None
    well: str | None = None
    stream: str | None = None
    slope: str | None = None
    animals_dig: bool | None = None
    is_food: bool | None = None
    local_wait: str | None = None


@dataclass(frozen=True)
class Measures:
    """The same, read: in the project's units."""

    values: MappingProxyType[str, float] = field(default_factory=lambda: MappingProxyType({}))
    crop: Crop | None = None
    seedlings_frac: float | None = None

    def get(self, name: str) -> float | None:
        """Return one that was written, or nothing."""
        return self.values.get(name)


@dataclass(frozen=True)
class Answered:
    """A bed with all that its answer, or a drawing of it, rests on."""

    given: Given
    dug: Dug
    ground: Ground
    known: Known
    view: PlaceView


def judge_bed(asked: AskedBed, compiler: Compiler | None = None) -> Answered:
    """Return the answer of a bed: the one that was named, or of a site the one that should have the batch.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    read = _read(asked)
    given = product_of(asked.product, compiler)
    known = known_of(given.members)
    beds = beds_of(given, asked.product.place)
    answers = answers_of(beds, asked, given, read=read, known=known)
    best = min(answers, key=lambda each: _order(each.view))
    if len(answers) == 1:
        return best
    others = "; ".join(f"{each.ground.name}: {_short(each.view)}" for each in answers if each is not best)
    told = f"The next batch goes into {best.ground.name}: {_short(best.view)}. Of the others, {others}."
    return _answer(_bed_of(beds, best.ground.place), asked, read, given=given, known=known, next_bed=told)


def answers_of(
    beds: tuple[Bed | None, ...],
    asked: AskedBed,
    given: Given,
    *,
    read: Measures | None = None,
    known: Known | None = None,
) -> list[Answered]:
    """Return the answer of each of several beds for one product.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    measures, numbers = read or _read(asked), known or known_of(given.members)
    return [_answer(bed, asked, measures, given=given, known=numbers) for bed in beds]


def known_of(members: int) -> Known:
    """Return what is known of beds."""
    return Known(
        load_parameters(BedParameters, "bed", members=members),
        load_parameters(SeasonParameters, "bed_season", members=members),
        load_parameters(GroundParameters, "ground", members=members),
    )


def beds_of(given: Given, place: str | None) -> tuple[Bed | None, ...]:
    """Return the beds that are asked about; one of which nothing is known where there is no site.

    Raises
    ------
    BadInput
        If the site has no such bed.
    """
    if given.site is None:
        return (None,)
    found = tuple(each for each in given.site.beds if place in (None, each.id))
    if not found:
        there = ", ".join(each.id for each in given.site.beds) or "none"
        named = f'"{place}" is no bed of the site;' if place else "the site has no bed;"
        raise BadInput("--place", (Problem("", named, f"its beds are: {there}."),))
    return found


def _answer(
    bed: Bed | None, asked: AskedBed, read: Measures, *, given: Given, known: Known, next_bed: str = ""
) -> Answered:
    """Return the answer of one bed."""
    dug_on = asked.dug or given.on
    next_crop = _next_crop(bed, given.on)
    crop = read.crop or (crop_lookup().find(next_crop[0]) if next_crop else None)
    spot = _spot(bed, asked, read, given=given, known=known, crop=crop)
    dug = dig(given.content, spot, known)
    wait = harvest_figure(given.content, crop, known, read.get("local_wait"))
    is_food = _first(asked.is_food, bed.food if bed else None, default=True)
    if wait is not None and is_food:
        dug = replace(dug, figures=MappingProxyType({**dug.figures, wait.name: wait}))
    closed = (*(given.site.facts.closed if given.site else ()), *(bed.closed if bed else ()))
    standing = crop_standing(bed.plantings, given.on, known.bed.crop_stands_d.value) if bed else None
    ground = Ground(
        bed.id if bed else "bed",
        given.site.name_of(bed.id) if bed and given.site else "the bed",
        given.on,
        dug_on,
        is_food=bool(is_food),
        is_frozen=asked.soil == "frozen" or (asked.soil is None and _is_frozen(read, given)),
        closed_until=closed_until(closed, given.on),
        standing=(standing[0].crop, standing[1]) if standing else None,
        next_crop=next_crop,
        crop=crop,
        animals=_animals(given),
        ph=asked.ph,
        tree_m=read.get("tree"),
        well_m=read.get("well"),
        stream_m=read.get("stream"),
        slope_frac=read.get("slope"),
        seedlings_frac=read.seedlings_frac,
        local_wait_d=read.get("local_wait"),
        is_anyway=asked.product.is_anyway,
    )
    told = Told(
        load_sources(),
        {each.id: each for each in load_cautions()},
        load_crops(),
        (*given.assumptions, *_assumed(bed, asked, spot)),
        given.speech,
        next_bed,
    )
    return Answered(given, dug, ground, known, bed_view(given.content, dug, ground, known=known, told=told))


def _spot(bed: Bed | None, asked: AskedBed, read: Measures, *, given: Given, known: Known, crop: Crop | None) -> Spot:
    depth = read.get("depth")
    lies_m = depth if depth is not None else known.bed.rest_depth_m.value
    dug_on = asked.dug or given.on
    soil = np.array([given.climate.soil_c(dug_on + timedelta(days=each), lies_m) for each in range(FOLLOWED_D)])
    reading, at = read.get("soil_temp"), (given.on - dug_on).days
    return Spot(
        soil,
        texture=_first(asked.texture, bed.texture if bed else None, default="loam"),
        crop=crop,
        area_m2=_first(read.get("area"), bed.area_m2 if bed else None, default=None),
        given_g_per_m2=_first(read.get("given"), bed.nitrogen_given_g_per_m2 if bed else None, default=0.0),
        moisture=asked.soil if asked.soil not in (None, "frozen") else "moist",
        has_free_lime=asked.fizz,
        depth_m=depth,
        cover_m=read.get("cover"),
        animals_dig=_first(asked.animals_dig, bool(set(_animals(given)) & set(DIGS)), default=False),
        is_deep=given.content.state in ("failed", "unknown"),
        reading_k=None if reading is None else reading - float(soil[min(at, FOLLOWED_D - 1)]),
        reading_d=at,
    )


def _is_frozen(read: Measures, given: Given) -> bool:
    reading = read.get("soil_temp")
    return given.climate.is_frozen(given.on) if reading is None else reading < 0.0


def _next_crop(bed: Bed | None, on: date) -> tuple[str, date] | None:
    """Return what goes into a bed next, and when."""
    coming = sorted((each.on, each.crop) for each in (bed.plantings if bed else ()) if each.on >= on)
    return (coming[0][1], coming[0][0]) if coming else None


def _animals(given: Given) -> tuple[str, ...]:
    return given.site.keeper.animals if given.site else ()


def _first(*found: Any, default: Any) -> Any:  # noqa: ANN401 - any of the kinds that a bed is described by
    return next((each for each in found if each is not None), default)


def _order(view: PlaceView) -> tuple[int, float, float]:
    """Return where a bed stands among others: those that take it first, then by how much, then by salt."""
    order = (Decision.YES, Decision.ASK, Decision.NOT_YET, Decision.NO)
    salt = next((each.value or 0.0 for each in view.numbers if each.name == "salt_g_per_m2"), 0.0)
    return order.index(view.decision), -float(view.tables["takes_kg"]), salt


def _short(view: PlaceView) -> str:
    if view.decision is Decision.YES:
        return f"takes {view.speech.kg(float(view.tables['takes_kg']))}"
    return view.says.rstrip(".")


def _bed_of(beds: tuple[Bed | None, ...], place: str) -> Bed | None:
    return next((each for each in beds if each is not None and each.id == place), None)


def _assumed(bed: Bed | None, asked: AskedBed, spot: Spot) -> tuple[str, ...]:
    """Say what was taken as given of the ground."""
    told = []
    if bed is None and asked.area is None:
        told.append("There is as much ground as it wants (--area).")
    if bed is None and asked.texture is None:
        told.append("The soil is loam (--texture).")
    if spot.crop is None:
        told.append("What comes next is not said; the salt is held to what tender crops bear (--crop).")
    if asked.soil is None:
        told.append("The soil is moist, neither dry nor wet (--soil).")
    if asked.given is None and spot.given_g_per_m2 == 0.0:
        told.append("The ground got no manure or compost this year (--given).")
    if not asked.fizz:
        told.append("It does not fizz with vinegar (--fizz).")
    return tuple(told)


# What a drawing shows


def season_of(found: Answered) -> BedSeason:
    """Return the bed through a season, day by day: soil and acid; as low, middle and high."""
    count = round(found.known.season.season_d.value)
    passed = found.dug.passed_d[:, : count + 1]
    course = course_of(found.given.content, found.dug.figures, found.known, passed)
    more = found.known.season
    moves = (np.reshape(each.members, (-1, 1)) for each in (more.weather_k, more.reading_fades_d))
    soil = soil_c_of(found.dug.spot, *moves)[:, : count + 1]
    ends = (0.05, 0.5, 0.95)
    return BedSeason(
        found.ground.dug_on,
        np.quantile(soil, ends, axis=0),
        np.quantile(np.broadcast_to(course.sourer_ph, passed.shape), ends, axis=0),
    )


def bed_marks(found: Answered) -> tuple[RestMark, ...]:
    """Return the rests of a bed as days: from when plants, seed and root crops may come, and what is planned."""
    names = (("rest_days_transplant", "plants"), ("rest_days_sowing", "seed"), ("rest_days_root_crop", "root crops"))
    marks = [RestMark(words, *(getattr(found.dug.figures[name], end) for end in ENDS)) for name, words in names]
    wait = found.dug.figures.get("earliest_harvest_days")
    return (*marks, *((RestMark("harvest", wait.low, wait.value, wait.high),) if wait is not None else ()))


# What was written after options

QUANTITIES: Final[Quantities] = MappingProxyType(
    {
        "area": ("--area", Dimension.AREA, (LEAST_M2, 1e5), 'write a tenth of a square metre or more, such as "4 m2".'),
        "depth": ("--depth", Dimension.LENGTH, (0.02, 1.5), 'write 2 cm to 1.5 m, such as "30 cm".'),
        "cover": ("--cover", Dimension.LENGTH, (0.0, 1.0), 'write 0 cm to 1 m, such as "20 cm".'),
        "soil_temp": ("--soil-temp", Dimension.TEMPERATURE, (-25.0, 45.0), 'write -25 C to 45 C, such as "9 C".'),
        "given": ("--given", Dimension.AREAL_MASS, (0.0, 200.0), 'write 0 g/m2 to 200 g/m2, such as "4 g/m2".'),
        "tree": ("--tree", Dimension.LENGTH, (0.0, 100.0), 'write how far the stem is, such as "1.2 m".'),
        "well": ("--well", Dimension.LENGTH, (0.0, 10_000.0), 'write how far it is, such as "30 m".'),
        "stream": ("--stream", Dimension.LENGTH, (0.0, 10_000.0), 'write how far it is, such as "12 m".'),
        "slope": ("--slope", Dimension.SHARE, (0.0, 2.0), 'write its fall, such as "10 %".'),
        "local_wait": ("--local-wait", Dimension.TIME, (0.0, 3650.0), 'write a time, such as "12 months".'),
    }
)
NATURAL: Final = (2.5, 11.0)  # pH of soils; beyond that a meter is broken


def _read(asked: AskedBed) -> Measures:
    """Return what was written, in the project's units.

    Raises
    ------
    BadInput
        If something of it cannot be used; all faults are named.
    """
    problems: list[Problem] = []
    values = read_quantities(asked, QUANTITIES, problems)
    if asked.ph is not None and not NATURAL[0] <= asked.ph <= NATURAL[1]:
        problems.append(Problem("--ph", f"{asked.ph:g} is no pH of a soil;", "write 2.5 to 11, such as 6.5."))
    crop = None
    if asked.crop is not None:
        try:
            crop = crop_lookup().find(asked.crop)
        except NotFound as missing:
            problems.append(missing.problem("--crop", otherwise="Write another word for it."))
    seedlings = _seedlings(asked.seedlings, problems) if asked.seedlings is not None else None
    if asked.dug is not None and asked.product.on is not None and asked.dug > asked.product.on:
        problems.append(Problem("--dug", "it was dug in after the day of the question;", "write --on for a later day."))
    refuse(problems)
    return Measures(MappingProxyType(values), crop, seedlings)


def _seedlings(typed: str, problems: list[Problem]) -> float | None:
    """Return the growth of a seedling test: those that came up against plain soil, times the length of their roots."""
    found = _SEEDLINGS.fullmatch(typed.strip())
    if found is None or int(found[2]) == 0:
        remedy = 'write those that came up in it and in plain soil, such as "8/10", and root lengths too: "8/10 22/30".'
        problems.append(Problem("--seedlings", f'"{typed}" is no test;', remedy))
        return None
    up = int(found[1]) / int(found[2])
    return up * (float(found[3]) / float(found[4]) if found[3] and float(found[4]) > 0.0 else 1.0)
