"""Use case: a batch in a tub of soil."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np

from sourloam.base.errors import BadInput, Problem
from sourloam.base.units import Dimension
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.science.climate.rooms import room_c
from sourloam.science.places.ground.salt import GroundParameters
from sourloam.science.places.soil_tub.finish_parameters import FinishParameters
from sourloam.science.places.soil_tub.finishing import Known, Tub, finish
from sourloam.science.places.soil_tub.parameters import SoilTubParameters
from sourloam.science.places.soil_tub.soil_tub import SoilTub
from sourloam.service.asking import Quantities, read_quantities, refuse
from sourloam.service.ferment import Compiler
from sourloam.service.product import AskedProduct, Given, product_of
from sourloam.views.place import PlaceView
from sourloam.views.tub import TubCase, tub_view

FOLLOWED_D: Final = 1096
MOST_CYCLES: Final = 50
QUANTITIES: Final[Quantities] = {
    "volume": ("--volume", Dimension.VOLUME, (2.0, 5000.0), 'write 2 L or more, such as "60 L".'),
    "temp": ("--temp", Dimension.TEMPERATURE, (-20.0, 45.0), 'write how warm it stands, such as "15 C".'),
    "every": ("--every", Dimension.TIME, (1.0, 366.0), 'write a day or more, such as "2 weeks".'),
}


@dataclass(frozen=True)
class AskedTub:
    """What a tub is asked with, beside the product."""

    product: AskedProduct
    volume: str | None = None
    stands: str | None = None
    temp: str | None = None
    every: str | None = None
    ratio: float | None = None
    cycles: int = 1
    filled: date | None = None


def judge_tub(asked: AskedTub, compiler: Compiler | None = None) -> PlaceView:
    """Return the answer of a soil tub.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    read = read_tub(asked)
    given = product_of(asked.product, compiler)
    return tub_answer(asked, read, given, _tub_of(given, asked.product.place))


def tub_answer(asked: AskedTub, read: Mapping[str, float], given: Given, found: SoilTub | None) -> PlaceView:
    """Return the answer of one tub for a product; `read` holds what was written of it."""
    filled = asked.filled or given.on
    stands = asked.stands or (found.stands if found else "indoors")
    celsius = read.get("temp")
    days = [filled + timedelta(days=each) for each in range(FOLLOWED_D)]
    room = np.array([celsius if celsius is not None else room_c(stands, each, given.climate) for each in days])
    volume = read.get("volume", found.volume_l if found else None)
    known = _known(given.members)
    tub = Tub(room, volume, read.get("every"), asked.ratio, asked.cycles)
    case = TubCase(
        place=found.id if found else "tub",
        name=given.site.name_of(found.id) if found and given.site else "the soil tub",
        on=given.on,
        filled=filled,
        room_c=float(room[(given.on - filled).days]),
        is_anyway=asked.product.is_anyway,
        assumptions=(*given.assumptions, *_assumed(asked, found, stands)),
        speech=given.speech,
        sources=load_sources(),
        cautions={each.id: each for each in load_cautions()},
    )
    return tub_view(given.content, finish(given.content, tub, known), tub, case, known=known)


def _known(members: int) -> Known:
    return Known(
        load_parameters(SoilTubParameters, "soil_tub", members=members),
        load_parameters(FinishParameters, "tub_finish", members=members),
        load_parameters(GroundParameters, "ground", members=members),
    )


def read_tub(asked: AskedTub) -> Mapping[str, float]:
    """Return what was written of a tub, in the project's units.

    Raises
    ------
    BadInput
        If something of it cannot be used; all faults are named.
    """
    problems: list[Problem] = []
    read = read_quantities(asked, QUANTITIES, problems)
    if asked.ratio is not None and not 0.5 <= asked.ratio <= 20.0:
        told = f"{asked.ratio:g} parts of soil cannot be meant;"
        problems.append(Problem("--ratio", told, "write 1 to 5, such as 2."))
    if not 1 <= asked.cycles <= MOST_CYCLES:
        problems.append(Problem("--cycles", f"{asked.cycles} batches cannot be meant;", f"write 1 to {MOST_CYCLES}."))
    if asked.filled is not None and asked.product.on is not None and asked.filled > asked.product.on:
        found = "it was filled after the day of the question;"
        problems.append(Problem("--filled", found, "write --on for a later day."))
    refuse(problems)
    return read


def _tub_of(given: Given, place: str | None) -> SoilTub | None:
    """Return the tub of a site, or nothing where there is no site."""
    if given.site is None:
        return None
    found = next((each for each in given.site.soil_tubs if place in (None, each.id)), None)
    if found is None and place is not None:
        there = ", ".join(each.id for each in given.site.soil_tubs) or "none"
        raise BadInput("--place", (Problem("", f'"{place}" is no soil tub of the site;', f"they are: {there}."),))
    return found


def _assumed(asked: AskedTub, found: SoilTub | None, stands: str) -> tuple[str, ...]:
    told = []
    if asked.temp is None:
        where = stands if stands in ("indoors", "outdoors") else f"in the {stands}"
        told.append(f"It stands {where} (--stands, --temp).")
    if asked.ratio is None:
        told.append("Two to three parts of soil are mixed with one (--ratio).")
    if found is None and asked.volume is None:
        told.append("The tub is as large as it wants (--volume).")
    return tuple(told)
