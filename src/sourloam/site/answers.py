"""What somebody new says of their site, each answer with its default; questions and options are made from here."""

import re
from dataclasses import dataclass
from typing import Annotated, Final

from sourloam.base.fields import Asking, Fault, Key, declared
from sourloam.base.kinds import Choice, Choices, Text, Whole
from sourloam.base.literals import quoted
from sourloam.science.places.bed.bed import Bed
from sourloam.science.places.pile.pile import Pile
from sourloam.science.places.soil_tub.soil_tub import SoilTub
from sourloam.science.places.worm_bin.worm_bin import WormBin
from sourloam.site.facts import Facts
from sourloam.site.people import Keeper
from sourloam.site.stocks import Stock
from sourloam.site.streams import Flow, Flows
from sourloam.site.vessels import Vessel

MOST_BUCKETS: Final = 60
PREMISES: Final = ("home", "school", "shared-garden", "business")
DIETS: Final = ("all", "plants")
PLACES: Final = ("bed", "pile", "worm-bin", "soil-tub", "neighbour", "shared-garden", "collection")


def key_of(kind: type, attribute: str) -> Key:
    """Return how a field is declared.

    Raises
    ------
    KeyError
        If it is not declared as a key.
    """
    mark = dict(declared(kind))[attribute]
    if not isinstance(mark, Key):
        raise KeyError(attribute)
    return mark


@dataclass(frozen=True)
class Buckets:
    """So many buckets of one size."""

    count: int
    volume_l: float
    typed: str = ""


@dataclass(frozen=True)
class SomeBuckets:
    """The kind of buckets: how many, and what one holds."""

    _form = re.compile(r"(?:(?P<count>\d+)\s*(?:x|×|\*|of|buckets? of|vessels? of)\s*)?(?P<volume>.+)", re.IGNORECASE)

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return '"18 L", or "2 x 18 L" for two of them'

    def read(self, raw: object, asking: Asking) -> Buckets:
        """Return them."""
        match = self._form.fullmatch(raw.strip()) if isinstance(raw, str) else None
        if match is None:
            raise Fault(f"{quoted(str(raw))} says nothing of buckets;", f"write {self.wanted}.")
        count = int(match["count"] or 1)
        if not 1 <= count <= MOST_BUCKETS:
            raise Fault(f"{count} buckets will not do;", f"write a number from 1 to {MOST_BUCKETS}.")
        volume_l = key_of(Vessel, "volume_l").kind.read(match["volume"], asking)
        return Buckets(count, float(str(volume_l)), match["volume"])

    def write(self, value: object) -> str:
        """Return them as they are written."""
        if not isinstance(value, Buckets):
            raise TypeError("buckets are wanted")
        return quoted(f"{value.count} x {value.typed or f'{value.volume_l!r} L'}")


def _sized(name: str, of: type, attribute: str, *, default: str, words: str) -> Key:
    """Return a key for the size of a place: the field's own bounds, with a default for who cannot say."""
    return Key(name, key_of(of, attribute).kind, words, default)


@dataclass(frozen=True)
class Answers:
    """The answers; None is "I don't know", for which the default of the key is taken."""

    name: Annotated[str | None, Key("name", Text(80), "What you call it.", "")] = None
    premises: Annotated[str | None, Key("premises", Choice(PREMISES), "Where the scraps arise.", "home")] = None
    people: Annotated[int | None, Key("people", Whole(1, 1000), "How many people eat there.", 2)] = None
    flow: Annotated[
        Flow | None,
        Key("amount", Flows(), "How much comes, weighed, or as litres of a caddy; reckoned from the people.", None),
    ] = None
    diet: Annotated[
        str | None, Key("diet", Choice(DIETS), "Whether meat, fish and dairy come too, or plants only.", "all")
    ] = None
    buckets: Annotated[Buckets | None, Key("bucket", SomeBuckets(), "Which buckets there are.", "2 x 20 L")] = None
    has_drain: Annotated[bool | None, key_of(Vessel, "has_drain")] = None
    stands: Annotated[str | None, key_of(Vessel, "stands")] = None
    indoors_c: Annotated[float | None, key_of(Facts, "indoors_c")] = None
    climate: Annotated[str | None, key_of(Facts, "climate")] = None
    latitude_deg: Annotated[float | None, key_of(Facts, "latitude_deg")] = None
    places: Annotated[tuple[str, ...] | None, Key("places", Choices(PLACES), "Where a finished batch can go.", [])] = (
        None
    )
    bed_m2: Annotated[
        float | None, _sized("bed", Bed, "area_m2", default="4 m2", words="A bed: length times width.")
    ] = None
    pile_l: Annotated[
        float | None, _sized("pile", Pile, "volume_l", default="300 L", words="A pile: what it holds.")
    ] = None
    worm_m2: Annotated[
        float | None, _sized("worm_bin", WormBin, "area_m2", default="0.25 m2", words="A worm bin: length times width.")
    ] = None
    tub_l: Annotated[
        float | None, _sized("soil_tub", SoilTub, "volume_l", default="60 L", words="A tub of soil: what it holds.")
    ] = None
    fridge_l: Annotated[float | None, key_of(Keeper, "fridge_l")] = None
    freezer_l: Annotated[float | None, key_of(Keeper, "freezer_l")] = None
    bran_from: Annotated[str | None, key_of(Stock, "bran_from")] = None
    bran_kg: Annotated[float | None, key_of(Stock, "bran_kg")] = None
    days: Annotated[tuple[str, ...] | None, key_of(Keeper, "days")] = None
    typed: tuple[tuple[str, str], ...] = ()  # quantities as they were written, by the attribute that holds them

    def taken(self, attribute: str) -> object:
        """Return the answer, or the default where none was given."""
        value = getattr(self, attribute)
        key = key_of(Answers, attribute)
        return key.kind.read(key.default, Asking()) if value is None and key.default is not None else value

    @property
    def chosen(self) -> tuple[str, ...]:
        """Return the places that there are: those that were named, and those whose size was."""
        sizes = {"bed": self.bed_m2, "pile": self.pile_l, "worm-bin": self.worm_m2, "soil-tub": self.tub_l}
        return tuple(each for each in PLACES if each in (self.places or ()) or sizes.get(each) is not None)
