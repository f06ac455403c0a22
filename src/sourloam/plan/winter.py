"""What a winter of frozen ground asks for: litres to store, and soil to put aside before the frost."""

from collections.abc import Iterator, Mapping
from datetime import timedelta
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.days import Span
from sourloam.base.figure import Figure, derive, law, leaf
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.plan.question import Question
from sourloam.plan.weather import frozen_ground
from sourloam.plan.words import days, when

LEAST_D: Final = 14  # JUDGEMENT: a shorter frost is waited out in the vessels


@law("a year's amount × days of frozen ground ÷ days of the plan", unit="kg")
def in_frost_kg(kg_per_year: ArrayLike, frozen_d: ArrayLike, year_d: ArrayLike) -> float | FloatArray:
    """Return what comes while the ground is frozen, of an amount that comes evenly."""
    share = np.asarray(frozen_d, dtype=float) / np.asarray(year_d, dtype=float)
    return keep_shape(np.asarray(kg_per_year, dtype=float) * share)


@law("scraps ÷ what a litre of a full vessel weighs", unit="L")
def packed_l(scraps_kg: ArrayLike, packed_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the room that some scraps take up once they have fermented."""
    return keep_shape(np.asarray(scraps_kg, dtype=float) / np.asarray(packed_kg_per_l, dtype=float))


@law("litres of finished batches × parts of soil to one of them", unit="L")
def soil_l(store_l: ArrayLike, soil_per_product: ArrayLike) -> float | FloatArray:
    """Return the soil that would finish some batches in tubs."""
    return keep_shape(np.asarray(store_l, dtype=float) * np.asarray(soil_per_product, dtype=float))


def winter(question: Question, known: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return the figures of the winter where beds are the only way out and their ground freezes; else none."""
    if _frost(question) is None:
        return {}
    year = dict(known["fill_days"].inputs)["year_d"]
    frozen = leaf(
        "frozen_d",
        Spread.exactly(sum(each.days for each in frozen_ground(question))),
        "d",
        words="days of frozen ground",
        source="sourloam_derivation",
        place="days on which the soil at 0.1 m is below 0 °C in the climate of the site",
        basis=Basis.DERIVED,
    )
    share = {"frozen_d": frozen, "year_d": year}
    scraps = derive(
        "frozen_scraps_kg",
        in_frost_kg,
        words="scraps while the ground is frozen",
        kg_per_year=known["scraps_kg_per_year"],
        **share,
    )
    store = derive(
        "winter_store_l",
        packed_l,
        words="room to store batches while the ground is frozen",
        scraps_kg=scraps,
        packed_kg_per_l=known["packed_kg_per_l"],
    )
    mass = derive(
        "winter_store_kg",
        in_frost_kg,
        words="what they weigh, drained",
        kg_per_year=known["product_kg_per_year"],
        **share,
    )
    soil = derive(
        "winter_soil_l",
        soil_l,
        words="soil to put aside, if tubs are to finish them",
        store_l=store,
        soil_per_product=question.knowledge.soil_tub.soil_per_product,
    )
    return {each.name: each for each in (store, mass, soil)}


def winter_hints(question: Question, known: Mapping[str, Figure]) -> Iterator[str]:
    """Say what to do with the batches of a frozen winter.

    Storing them sealed, drained and with dry paper is common practice, no source.
    """
    frost = _frost(question)
    if frost is None or "winter_store_l" not in known:
        return
    store, mass, soil = (known[name].value for name in ("winter_store_l", "winter_store_kg", "winter_soil_l"))
    least = days(max(known["ferment_days_warmest"].value, question.site.keeper.least_d))
    speech = question.speech
    barrel, again = speech.size(store, digits=0), frost.last + timedelta(days=1)
    yield (
        f"The ground is frozen from {when(frost.first)} to {when(frost.last)}; {speech.kg(mass)} of batches get ready "
        f"in the frozen days of the year. Leave each {least} indoors, let it drain well, and tip it into an airtight "
        f"barrel, {barrel} in all, in the shed, dry paper below and on top: frost does it no harm then. Dig it in from "
        f"{when(again)} on. For soil tubs instead, put {speech.litres(soil)} of soil aside before the frost."
    )


def _frost(question: Question) -> Span | None:
    """Return the longest frost of a site whose beds are its only way out."""
    parts = question.site.parts()
    others = [each for each in question.site.takers if each.kind != "waste-bin"]
    if not parts["bed"] or others or any(parts[table] for table in ("pile", "worm_bin", "soil_tub")):
        return None
    longest = max(frozen_ground(question), key=lambda each: each.days, default=None)
    return longest if longest and longest.days >= LEAST_D else None
