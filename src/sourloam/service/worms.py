"""Use case: a batch is fed to worms."""

from dataclasses import dataclass, replace

from sourloam.base.errors import BadInput, Problem
from sourloam.base.figure import Figure, written
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.science.climate.rooms import room_c
from sourloam.science.places.worm_bin.feed import Bin, feed_figures
from sourloam.science.places.worm_bin.feed_parameters import WormFeedParameters
from sourloam.science.places.worm_bin.parameters import WormBinParameters
from sourloam.science.places.worm_bin.worm_bin import WormBin
from sourloam.service.ferment import Compiler
from sourloam.service.product import AskedProduct, Given, product_of
from sourloam.views.place import PlaceView
from sourloam.views.worms import WormsTold, worms_view

WORMS_KG, AREA_M2 = 0.5, 0.25  # a bin of a household


@dataclass(frozen=True)
class AskedWorms:
    """What worms are asked with."""

    product: AskedProduct
    worms: str | None = None
    area: str | None = None
    at: str | None = None  # °C of the bed
    is_accustomed: bool | None = None
    aired_d: float = 0.0
    is_conditioned: bool = False  # a week 1:1 with paper and castings
    shell: str = "ground"
    ph: float | None = None
    is_eaten: bool = True  # whether the last feed is gone


def feed_worms(asked: AskedWorms, compiler: Compiler | None = None) -> PlaceView:
    """Return whether worms get some of a batch, how much, and with what.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    given = product_of(asked.product, compiler)
    members = asked.product.members
    p = load_parameters(WormBinParameters, "worm_bin", members=members)
    f = load_parameters(WormFeedParameters, "worm_feed", members=members)
    own = _bin_of(given, asked.product.place)
    bin_, told = _bin(asked, own, given, members)
    figures = feed_figures(given.content, bin_, p, f)
    return worms_view(
        given.content,
        figures,
        WormsTold(
            given.speech,
            own.name or own.id if own else "the worm bin",
            bin_,
            is_eaten=asked.is_eaten,
            is_anyway=asked.product.is_anyway,
            is_conditioned=asked.is_conditioned,
            on=given.on,
            least_c=p.least_c.value,
            most_c=p.most_c.value,
            dies_c=f.dies_c.value,
            acid_gone_per_d=f.acid_gone_per_d.value,
        ),
        sources=load_sources(),
        cautions={each.id: each for each in load_cautions()},
        assumptions=(*given.assumptions, *told),
    )


def _bin_of(given: Given, place: str | None) -> WormBin | None:
    """Return the worm bin of the site that was named, or its only one."""
    bins = given.site.worm_bins if given.site else ()
    if place is None:
        return bins[0] if bins else None
    found = next((each for each in bins if each.id == place), None)
    if found is None:
        there = ", ".join(each.id for each in bins) or "none"
        raise BadInput("--place", (Problem("", f'"{place}" is no worm bin of this site;', f"there is: {there}."),))
    return found


def _bin(asked: AskedWorms, own: WormBin | None, given: Given, members: int) -> tuple[Bin, list[str]]:
    """Return the bin on that day, and what was taken as given of it."""
    told: list[str] = []
    problems: list[Problem] = []
    worms_kg = _read(asked.worms, Dimension.MASS, (0.005, 200.0), where="--worms", problems=problems)
    area_m2 = _read(asked.area, Dimension.AREA, (0.01, 50.0), where="--area", problems=problems)
    warm_c = _read(asked.at, Dimension.TEMPERATURE, (-40.0, 60.0), where="--at", problems=problems)
    if problems:
        raise BadInput("command line", tuple(problems))
    if worms_kg is None:
        worms_kg = own.worms_kg if own else WORMS_KG
        told += [] if own else [f"It holds {given.speech.kg(WORMS_KG)} of worms, about 1000 of them (--worms)."]
    if area_m2 is None:
        area_m2 = own.area_m2 if own else AREA_M2
        told += [] if own else [f"Its bed is {AREA_M2:g} m2, 50 by 50 cm (--area)."]
    accustomed = asked.is_accustomed
    if accustomed is None:
        accustomed = own.is_accustomed if own else False
        told += [] if own else ["The worms have never had fermented scraps (--accustomed)."]
    aired = asked.aired_d + (7.0 if asked.is_conditioned else 0.0)
    bin_ = Bin(
        written("worms_kg", worms_kg, "kg", words="worms", typed=asked.worms or "", members=members),
        written("area_m2", area_m2, "m2", words="surface of the bed", typed=asked.area or "", members=members),
        _warm(warm_c, own, given, told, members=members, typed=asked.at or ""),
        aired,
        accustomed,
        asked.shell,
        asked.ph,
    )
    return bin_, told


def _warm(
    warm_c: float | None, own: WormBin | None, given: Given, told: list[str], *, members: int, typed: str
) -> Figure:
    """Return how warm the bed is: as it was read, or as the room is at that time of the year."""
    if warm_c is not None:
        return written("bed_c", warm_c, "Cel", words="warmth of the bed, as read", typed=typed, members=members)
    stands = own.stands if own else "shed"
    room = room_c(stands, given.on, given.climate)
    told.append(f"Its bed is as warm as the {stands} on that day, {given.speech.celsius(room)} (--at).")
    figure = written("bed_c", room, "Cel", words=f"warmth of the bed, as of the {stands}", members=members)
    return replace(figure, source="judgement", place="the room at that time of the year")


def _read(
    text: str | None, dimension: Dimension, ends: tuple[float, float], *, where: str, problems: list[Problem]
) -> float | None:
    if text is None:
        return None
    try:
        value = read_quantity(text, dimension).value
    except BadQuantity as bad:
        problems.append(Problem(where, bad.found, bad.remedy))
        return None
    if not ends[0] <= value <= ends[1]:
        problems.append(Problem(where, f'"{text}" cannot be;', f"from {ends[0]:g} to {ends[1]:g} is known."))
        return None
    return value
