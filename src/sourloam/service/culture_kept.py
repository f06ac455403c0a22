"""Whether what is kept is still alive, and where custom and reckoning disagree."""

import re
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.figure import Figure, leaf
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.base.units import Dimension
from sourloam.evidence.sources import load_sources
from sourloam.science.inoculum.belief import BRAN, Lot, belief_figures, keeps_figure
from sourloam.science.inoculum.carrier import activity_figure
from sourloam.service.culture_ask import Read
from sourloam.service.cupboard import Faults
from sourloam.views.culture import CultureView, Disagreement
from sourloam.views.culture_alive import alive_view
from sourloam.views.culture_kept import disagreement, recipe_moistures

PLACES: Final = {  # temperatures of places, with what a year and a house may make of them; judgement
    "freezer": (-18.0, -22.0, -14.0),
    "fridge": (4.0, 2.0, 7.0),
    "cellar": (12.0, 8.0, 16.0),
    "shed": (11.0, 4.0, 18.0),
    "garage": (12.0, 5.0, 19.0),
    "kitchen": (20.0, 17.0, 24.0),
    "cupboard": (19.0, 16.0, 23.0),
    "attic": (18.0, 9.0, 28.0),
}
MATTERS: Final = {
    "bran": "dried-room",
    "wet bran": "wet-sealed",
    "serum": "serum-cold",
    "sugared serum": "serum-sugared",
    "culture": "culture",
}
USUAL_PLACE: Final = {"serum": "fridge"}
JARS: Final = {"curd": True, "none": False, "both": None}
OLDEST_MONTHS: Final = 1200.0


def alive(read: Read) -> CultureView:
    """Return what is believed of something that is kept.

    Raises
    ------
    BadInput
        If it is not known, or its age or place cannot be read.
    """
    asked, faults = read.asked, Faults()
    matter = (asked.alive or "").casefold().replace("-", " ").strip()
    if matter not in MATTERS:
        faults.add("--alive", f'"{asked.alive}" is nothing that is kept here;', f"there are: {', '.join(MATTERS)}.")
    place = (asked.kept or USUAL_PLACE.get(matter, "kitchen")).strip()
    if asked.jar is not None and asked.jar not in JARS:
        remedy = "write curd (only with it), none, or both (the jar without it curded as well)."
        faults.add("--jar", f'"{asked.jar}" is no outcome of a jar test;', remedy)
    months = _months(read, faults)
    store_c = _store_c(place, read, faults)
    faults.raise_any()
    store = next(each for each in read.bench.stores if each.id == MATTERS[matter])
    if store_c is None or months is None or not store.low_c <= store_c.value <= store.high_c:
        where = f"{store.low_c:g} to {store.high_c:g} °C"
        found = f'"{place}": how {store.name} keeps there is not known;'
        raise BadInput("culture", (Problem("--kept", found, f"it is known from {where}."),))
    lot = Lot(store, store_c, months, JARS[asked.jar] if asked.jar else None, _activity(read, matter))
    figures = belief_figures(lot, read.known)
    told = disagreement(store, figures["keeps_d"], store_c.value, read.speech)
    return alive_view(
        lot,
        figures,
        matter=matter,
        place=place,
        is_spoilt_test=asked.jar == "both",
        disagreements=(told,),
        custom_dose=read.known.inoculum.plain_dose_g_per_kg.value,
        is_bran=matter in BRAN,
        assumptions=_assumed(read, place),
        sources=load_sources(),
        speech=read.speech,
    )


def disagreements_of(read: Read, stores: tuple[str, ...]) -> tuple[Disagreement, ...]:
    """Return what custom and reckoning say of some stores, and of recipes in circulation."""
    found = []
    for each in read.bench.stores:
        if each.id in stores:
            usual = read.told("store_c", each.known_c, "Cel", words="temperature of the store")
            found.append(disagreement(each, keeps_figure(each, usual, read.known), each.known_c, read.speech))
    carriers = {each.id: each for each in read.carriers}
    return (*found, *recipe_moistures(read.bench.recipes, carriers))


def _activity(read: Read, matter: str) -> Figure | None:
    """Return the water activity of dry bran: of how dry it was made, as usual where nobody says."""
    if matter != "bran":
        return None
    carrier, moisture = read.parts[0][0], read.dried or read.known.inoculum.dried_moisture_wb_frac
    return activity_figure("water_activity", carrier, moisture, read.known.gab, words="water activity of that bran")


def _months(read: Read, faults: Faults) -> Figure | None:
    if read.asked.age is None:
        return read.told("months", 0.0, "mo", words="months since it was made")
    typed = read.asked.age
    age = faults.measured(typed, "--age", Dimension.TIME, (0.0, OLDEST_MONTHS * 365.25 / 12.0))
    if age is None:
        return None
    return read.told("months", age * 12.0 / 365.25, "mo", words="months since it was made", typed=typed)


def _store_c(place: str, read: Read, faults: Faults) -> Figure | None:
    plain = re.sub(r"^(in|at|the|a)\s+", "", place.casefold()).strip()
    if plain in PLACES:
        middle, low, high = PLACES[plain]
        return leaf(
            f"store_c.{plain}",
            Spread(middle, low, high, "normal"),
            "Cel",
            words=f"temperature of a {plain}",
            source="judgement",
            place=f"{low:g} to {high:g} °C over the year",
            basis=Basis.JUDGEMENT,
            members=read.members,
        )
    value = faults.measured(place, "--kept", Dimension.TEMPERATURE, (-30.0, 60.0))
    if value is None:
        faults.problems[-1] = Problem(
            "--kept",
            f'"{place}" is no place that is known and no temperature;',
            f'write "12 C", or {", ".join(PLACES)}.',
        )
        return None
    return read.told("store_c", value, "Cel", words="temperature of the store", typed=place)


def _assumed(read: Read, place: str) -> tuple[str, ...]:
    told = []
    if read.asked.kept is None:
        told.append(f"It stands in a {place} (--kept).")
    if read.asked.age is None:
        told.append("It was made today (--age).")
    if read.asked.jar is None:
        told.append("Nobody has tried it in a jar of milk (--jar).")
    return tuple(told)
