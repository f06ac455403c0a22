"""Where a vessel stands too cold or too warm, and what that costs in days."""

from collections.abc import Iterator
from typing import Final

import numpy as np

from sourloam.base.days import daily
from sourloam.fleet.setting import temperatures_c
from sourloam.plan.question import Question
from sourloam.plan.words import enumerated
from sourloam.science.ferment.clock import days_to_ready
from sourloam.site.vessels import Vessel

# Common practice, no source: 60 to 100 °F while a vessel fills and sours; cool at rest, and no frost before it is done.
LEAST_C: Final = 15.5
MOST_C: Final = 38.0
RANGES: Final = "16 to 38 °C by one custom; 20 to 25, 15 to 30 or 14 to 35 °C by others"
FREEZES_C: Final = 0.0  # where water freezes, by which the scale is made
FROSTY_C: Final = 5.0  # JUDGEMENT: where single nights freeze
LADDER_C: Final = (5.0, 10.0, 15.0, 20.0, 25.0)


def warmth_hints(question: Question) -> Iterator[str]:
    """Say of each spot outside the customary range what it costs and what to do."""
    speech = question.speech
    spots = {(each.stands, each.temperature_c): each for each in reversed(question.site.vessels)}
    for vessel in spots.values():
        coldest, warmest = _extremes_c(question, vessel)
        if coldest < LEAST_C:
            yield from _cold(question, vessel, coldest)
        if warmest > MOST_C:
            yield (
                f"{_where(question, vessel)} it is {speech.celsius(warmest)} in the warmest month: too hot to fill and "
                f"sour in ({speech.told(RANGES)}). Move it out of the sun and to a cooler place."
            )


def _cold(question: Question, vessel: Vessel, coldest_c: float) -> Iterator[str]:
    p = question.knowledge.ferment
    limits = {"least_c": p.least_c.value, "best_c": p.best_c.value, "most_c": p.most_c.value}
    waits = np.asarray(days_to_ready(p.ready_at_20c_d.value, np.asarray(LADDER_C), **limits))
    told = [f"{each:.0f}" if np.isfinite(each) else "no number of" for each in waits]
    speech = question.speech
    warmths = speech.told(f"{enumerated([f'{each:g}' for each in LADDER_C])} °C")
    yield (
        f"{_where(question, vessel)} it is {speech.celsius(coldest_c)} in the coldest month: too cold to fill and sour "
        f"in ({speech.told(RANGES)}). At {warmths} a vessel is ready in {enumerated(told)} days. Fill and ferment it "
        "indoors then; only once it is ready may it stand cool, and freeze."
    )
    if coldest_c < FROSTY_C:
        yield (
            "Some hold that frost kills what the bran brought, others that it only sleeps; either way nothing sours "
            f"meanwhile. Keep the bag of bran above {speech.celsius(FREEZES_C)}."
        )


def _where(question: Question, vessel: Vessel) -> str:
    return f"Where {question.site.name_of(vessel.id)} stands"


def _extremes_c(question: Question, vessel: Vessel) -> tuple[float, float]:
    """Return the means of the coldest and the warmest month where a vessel stands."""
    series = np.asarray(temperatures_c(vessel, question.first, question.days, question.climate))
    months = np.asarray([on.month for on in daily(question.first, question.days)])
    means = [float(series[months == month].mean()) for month in np.unique(months)]
    return min(means), max(means)
