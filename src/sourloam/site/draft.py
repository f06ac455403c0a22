"""From a few answers to a first site: pure; what was not said stays unsaid, and what had to be taken has a note."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType
from typing import Any, Final

from sourloam.base.fields import Asking
from sourloam.base.figure import Figure
from sourloam.science.places.bed.bed import Bed
from sourloam.science.places.pile.pile import Pile
from sourloam.science.places.soil_tub.soil_tub import SoilTub
from sourloam.science.places.taker import Taker
from sourloam.science.places.worm_bin.worm_bin import WormBin
from sourloam.site.answers import Answers, Buckets, key_of
from sourloam.site.facts import Facts
from sourloam.site.people import Keeper
from sourloam.site.site import Site
from sourloam.site.stocks import Stock
from sourloam.site.streams import Flow, Stream
from sourloam.site.vessels import Vessel

FIVE_DAYS: Final = (1.0, 1.0, 1.0, 1.0, 1.0, 0.0, 0.0)
WORKDAYS: Final = ("mon", "tue", "wed", "thu", "fri")
INDOORS: Final = "indoors"

Part = tuple[str, str]  # the id of a thing, or the name of a table that stands once, and a key in it

# Where the quantity of an answer stands in the site.
STANDS: Final[Mapping[str, Part]] = MappingProxyType(
    {
        "indoors_c": ("site", "indoors"),
        "latitude_deg": ("site", "latitude"),
        "bed_m2": ("bed", "area"),
        "pile_l": ("pile", "volume"),
        "worm_m2": ("worms", "area"),
        "tub_l": ("tub", "volume"),
        "fridge_l": ("keeper", "fridge"),
        "freezer_l": ("keeper", "freezer"),
        "bran_kg": ("stock", "bran"),
    }
)


@dataclass(frozen=True)
class HouseholdParameters:
    """Filled from `parameters/household.toml`."""

    home_kg_per_person_d: Figure
    school_kg_per_person_d: Figure
    business_kg_per_person_d: Figure
    plants_vegetable_frac: Figure
    plants_fruit_frac: Figure
    plants_coffee_frac: Figure

    def rate_kg_per_d(self, premises: str) -> Figure:
        """Return the scraps of one person; members of a shared garden bring them from home."""
        rates = {"school": self.school_kg_per_person_d, "business": self.business_kg_per_person_d}
        return rates.get(premises, self.home_kg_per_person_d)

    @property
    def plants(self) -> tuple[tuple[str, float], ...]:
        """Return what a kitchen of plants only brings."""
        return (
            ("vegetable-scraps", self.plants_vegetable_frac.value),
            ("fruit-scraps", self.plants_fruit_frac.value),
            ("coffee-grounds", self.plants_coffee_frac.value),
        )


@dataclass(frozen=True)
class Draft:
    """A site with what of it was said, and a note on what was taken instead of an answer."""

    site: Site
    said: frozenset[Part]
    notes: Mapping[Part, str] = field(default_factory=dict)
    typed: Mapping[Part, str] = field(default_factory=dict)  # quantities as they were written


@dataclass(frozen=True)
class Region:
    """Where a typical climate was read: its words, and how far north."""

    words: str
    like: str
    latitude_deg: float


@dataclass(frozen=True)
class Ground:
    """What a draft rests on beside the answers."""

    id: str
    start: date
    household: HouseholdParameters
    regions: Mapping[str, Region]


@dataclass(frozen=True)
class _Piece:
    """One table of the site, with what is said of it."""

    record: Any
    said: frozenset[Part]
    notes: Mapping[Part, str]


def draft_of(answers: Answers, ground: Ground) -> Draft:
    """Return the site that follows from the answers, and how it came about."""
    facts, stock, keeper = _facts(answers, ground), _stock(answers), _keeper(answers)
    stream, vessels, places = _stream(answers, ground.household), _vessels(answers), tuple(_places(answers))
    tables = {"stream": Stream, "vessel": Vessel, "bed": Bed, "pile": Pile}
    tables |= {"worm_bin": WormBin, "soil_tub": SoilTub, "taker": Taker}
    pieces = (facts, stock, keeper, stream, *vessels, *places)
    records = [each.record for each in pieces]
    parts = {name: tuple(each for each in records if isinstance(each, kind)) for name, kind in tables.items()}
    return Draft(
        Site.of(facts.record, stock.record, keeper.record, parts),
        frozenset().union(*(each.said for each in pieces)),
        {part: note for each in pieces for part, note in each.notes.items()},
        _typed(answers, vessels),
    )


def _typed(answers: Answers, vessels: tuple[_Piece, ...]) -> dict[Part, str]:
    """Return the quantities as they were written, by where they stand in the site."""
    found = {STANDS[attribute]: text for attribute, text in answers.typed if attribute in STANDS}
    if answers.buckets is not None and answers.buckets.typed:
        found |= {(each.record.id, "volume"): answers.buckets.typed for each in vessels}
    return found


def _piece(table: type, part: str, notes: Mapping[str, str] | None = None, /, **values: object) -> _Piece:
    """Return a table in which the given attributes are said; those that are None stay out."""
    held = {name: value for name, value in values.items() if value is not None}
    said = frozenset((part, key_of(table, name).name) for name in held)
    noted = {(part, key_of(table, name).name): note for name, note in (notes or {}).items()}
    return _Piece(table(**held), said, noted)


def _facts(answers: Answers, ground: Ground) -> _Piece:
    region = ground.regions.get(answers.climate or "")
    latitude_deg = answers.latitude_deg
    notes = {}
    if latitude_deg is None and region is not None:
        latitude_deg = region.latitude_deg
        notes = {"latitude_deg": f"Taken: that of {region.like}, whose months stand for your climate."}
    return _piece(
        Facts,
        "site",
        notes,
        id=ground.id,
        start=ground.start,
        name=answers.name or None,
        latitude_deg=latitude_deg,
        climate=answers.climate,
        indoors_c=answers.indoors_c,
    )


def _stock(answers: Answers) -> _Piece:
    return _piece(Stock, "stock", bran_kg=answers.bran_kg, bran_from=answers.bran_from)


def _keeper(answers: Answers) -> _Piece:
    days, notes = answers.days, {}
    if days is None and _has_five_days(answers):
        days, notes = WORKDAYS, {"days": "Taken: the days on which somebody is there."}
    return _piece(Keeper, "keeper", notes, days=days, fridge_l=answers.fridge_l, freezer_l=answers.freezer_l)


def _has_five_days(answers: Answers) -> bool:
    return answers.taken("premises") in ("school", "business")


def _stream(answers: Answers, household: HouseholdParameters) -> _Piece:
    notes: dict[str, str] = {}
    flow = answers.flow
    if flow is None:
        flow, notes["flow"] = _reckoned(answers, household)
    plants = answers.diet == "plants"
    if plants:
        notes["shares"] = "Taken: a usual kitchen of plants. Write your own parts."
    if _has_five_days(answers):
        notes["weekdays"] = "Taken: five days a week. Holidays are written as absences."
    return _piece(
        Stream,
        "scraps",
        notes,
        id="scraps",
        name="the scraps",
        flow=flow,
        premises=answers.premises,
        shares=household.plants if plants else None,
        weekdays=FIVE_DAYS if _has_five_days(answers) else None,
    )


def _reckoned(answers: Answers, household: HouseholdParameters) -> tuple[Flow, str]:
    """Return how much comes from so many people, and the note that says so."""
    people = int(str(answers.taken("people")))
    rate = household.rate_kg_per_d(str(answers.taken("premises")))
    weekly = f"{_two_digits(7.0 * people * rate.value)} kg/week"
    flow = key_of(Stream, "flow").kind.read(weekly, Asking())
    if not isinstance(flow, Flow):
        raise TypeError("a flow is wanted")
    who = f"{people} people" if people > 1 else "one person"
    each, low, high = (_two_digits(value) for value in (rate.value, rate.low, rate.high))
    note = f"Taken: {who} at {each} kg each a day ({low} to {high}; a judgement). Weigh one week and write that."
    return flow, note


def _two_digits(value: float) -> str:
    """Return the number with no more digits than a judgement has."""
    return f"{float(f'{value:.2g}'):g}"


def _vessels(answers: Answers) -> tuple[_Piece, ...]:
    buckets = answers.taken("buckets")
    if not isinstance(buckets, Buckets):
        raise TypeError("buckets are wanted")
    notes = {"volume_l": "Taken: a usual size. Write what yours holds."} if answers.buckets is None else {}
    return tuple(
        _piece(
            Vessel,
            id_,
            notes if number == 1 else None,
            id=id_,
            name=f"Bucket {number}" if buckets.count > 1 else "the bucket",
            volume_l=buckets.volume_l,
            has_drain=answers.has_drain,
            stands=answers.stands,
        )
        for number in range(1, buckets.count + 1)
        for id_ in (f"bucket-{number}" if buckets.count > 1 else "bucket",)
    )


def _places(answers: Answers) -> Iterator[_Piece]:
    chosen = answers.chosen
    if "bed" in chosen:
        yield _place(answers, Bed, "bed", size=("area_m2", "bed_m2"), name="the bed")
    if "pile" in chosen:
        yield _place(answers, Pile, "pile", size=("volume_l", "pile_l"), name="the pile")
    if "worm-bin" in chosen:
        yield _worm_bin(answers)
    if "soil-tub" in chosen:
        yield _place(answers, SoilTub, "tub", size=("volume_l", "tub_l"), name="the soil tub")
    for kind, name in (("neighbour", "the neighbour"), ("shared-garden", "the shared garden")):
        if kind in chosen:
            yield _piece(Taker, kind, id=kind, kind=kind, name=name)
    if "collection" in chosen:
        yield _piece(Taker, "collection", id="collection", kind="collection", name="the collection")
    if not chosen:
        note = {"kind": "Taken: no other place was named. A bed, a tub of soil or a neighbour makes soil of it."}
        yield _piece(Taker, "bin", note, id="bin", kind="waste-bin", name="the waste bin")


def _place(answers: Answers, kind: type, id_: str, *, size: tuple[str, str], name: str) -> _Piece:
    """Return a place of one size; where its size was not said, a note tells what was taken."""
    attribute, asked = size
    notes = {attribute: "Taken: a small one. Measure yours."} if getattr(answers, asked) is None else {}
    values = {attribute: answers.taken(asked)}
    return _piece(kind, id_, notes, id=id_, name=name, **values)


def _worm_bin(answers: Answers) -> _Piece:
    """Return the worm bin; where there is neither bed nor pile there is hardly a shed, so it stands indoors."""
    notes = {"area_m2": "Taken: a small one. Measure yours."} if answers.worm_m2 is None else {}
    garden = {"bed", "pile"} & set(answers.chosen)
    if not garden:
        notes["stands"] = "Taken: indoors, since there is no garden."
    return _piece(
        WormBin,
        "worms",
        notes,
        id="worms",
        name="the worm bin",
        area_m2=answers.taken("worm_m2"),
        stands=None if garden else INDOORS,
    )
