"""The figures of a plan: each is derived, so that each can be opened down to its sources."""

import numpy as np

from sourloam.base.days import daily
from sourloam.base.figure import Figure, derive, derived, leaf, written
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.fleet.arrivals import dry_figure, loose_density_figure, usual_kg
from sourloam.fleet.setting import temperatures_c
from sourloam.plan.laws import (
    bran_kg,
    bran_ratio,
    days_within_a_year,
    fill_days,
    layer_bran_g,
    layer_kg,
    leachate_l,
    pressed_kg_per_l,
    product_kg,
    total_kg,
    weekly_bran_g,
    weighed_kg_per_d,
    yearly_kg,
)
from sourloam.plan.question import Question
from sourloam.science.vessel.geometry import floor_m2
from sourloam.science.vessel.leachate import leachate_l_per_kg
from sourloam.science.vessel.settling import holds_kg
from sourloam.site.streams import Stream
from sourloam.site.vessels import Vessel


def figures(question: Question) -> dict[str, Figure]:
    """Return the figures of the plan that no rotation is needed for, by name, in the order in which matter flows."""
    known = question.knowledge
    parts = {_slug(each): _stream_kg(each, question) for each in question.site.streams}
    scraps = derived("scraps_kg_per_year", total_kg, parts, words="scraps in the year")
    usual = usual_kg(question.site.streams, known.materials)
    bran = derive(
        "bran_kg_per_year",
        bran_kg,
        words="bran in the year",
        scraps_kg=scraps,
        animal_frac=_from_table("animal_frac", usual.animal_frac, "1", "part of the scraps that came of an animal"),
        plain_dose_g_per_kg=known.inoculum.plain_dose_g_per_kg,
        animal_dose_g_per_kg=known.inoculum.animal_dose_g_per_kg,
    )
    dry = dry_figure(question.site.streams, known.materials)
    ratio = derive("bran_ratio", bran_ratio, words="bran with a kilogram of scraps", bran_kg=bran, scraps_kg=scraps)
    liquid = _leachate(question, scraps, ratio, dry)
    product = derive(
        "product_kg_per_year",
        product_kg,
        words="finished batches to be placed in the year",
        scraps_kg=scraps,
        bran_kg=bran,
        leachate_l=liquid,
        dry_frac=dry,
        dry_loss_frac=known.ferment.dry_loss_frac,
    )
    found = (scraps, bran, *_doses(question, bran, ratio), liquid, product, *_pace(question, scraps))
    return {each.name: each for each in found}


def _slug(stream: Stream) -> str:
    return stream.id.replace("-", "_")


def _stream_kg(stream: Stream, question: Question) -> Figure:
    """Return what one stream brings in the year."""
    name = stream.name or stream.id
    days = sum(stream.usual_times(on) for on in daily(question.first, question.days))
    usual_days = written(
        f"{stream.id}.usual_days",
        days,
        "d",
        words=f"days of the usual amount, {name}: absences, seasons and gluts counted",
    )
    if not stream.flow.is_by_volume:
        each_day = written(
            f"{stream.id}.kg_per_d", stream.flow.per_day, "kg/d", words=f"scraps a day, {name}", typed=stream.flow.typed
        )
    else:
        litres = written(
            f"{stream.id}.l_per_d", stream.flow.per_day, "L/d", words=f"scraps a day, {name}", typed=stream.flow.typed
        )
        density = loose_density_figure(stream, question.knowledge.materials)
        each_day = derive(
            f"{stream.id}.kg_per_d",
            weighed_kg_per_d,
            words=f"scraps a day, {name}",
            l_per_d=litres,
            loose_kg_per_l=density,
        )
    return derive(
        f"{stream.id}.kg", yearly_kg, words=f"scraps in the year, {name}", kg_per_d=each_day, usual_days=usual_days
    )


def _leachate(question: Question, scraps: Figure, ratio: Figure, dry: Figure) -> Figure:
    vessel = question.knowledge.vessel
    per_kg = derive(
        "leachate_l_per_kg",
        leachate_l_per_kg,
        words="liquid from a kilogram of scraps",
        dry_wb_frac=dry,
        softness=vessel.softness,
        bran_kg_per_kg=ratio,
        bran_holds_kg_per_kg=vessel.bran_holds_kg_per_kg,
    )
    return derive(
        "leachate_l_per_year",
        leachate_l,
        words="liquid drawn off in the year",
        scraps_kg=scraps,
        leachate_l_per_kg=per_kg,
    )


def _doses(question: Question, bran: Figure, ratio: Figure) -> tuple[Figure, ...]:
    """Return the bran for a week, and for a layer of the largest vessel."""
    known = question.knowledge.vessel
    vessel = _largest(question)
    floor = derive(
        "floor_m2",
        floor_m2,
        words=f"floor of {vessel.name or vessel.id}",
        volume_l=written("volume_l", vessel.volume_l, "L", words=f"volume of {vessel.name or vessel.id}"),
        height_to_width=known.height_to_width,
    )
    layer = derive(
        "layer_kg",
        layer_kg,
        words=f"scraps in a layer of {vessel.name or vessel.id}",
        floor_m2=floor,
        layer_m=known.layer_m,
        pressed_kg_per_l=_pressed(question),
    )
    return (
        derive(
            "layer_bran_g",
            layer_bran_g,
            words=f"bran on each layer of {vessel.name or vessel.id}",
            layer_kg=layer,
            bran_kg_per_kg=ratio,
        ),
        derive("weekly_bran_g", weekly_bran_g, words="bran in a usual week", bran_kg=bran, year_d=_year(question)),
    )


def _largest(question: Question) -> Vessel:
    return max(question.site.vessels, key=lambda each: (each.volume_l, each.id))


def _year(question: Question) -> Figure:
    return written("year_d", question.days, "d", words="days of the plan")


def _pressed(question: Question) -> Figure:
    known = question.knowledge
    usual = usual_kg(question.site.streams, known.materials)
    table = _from_table("table_kg_per_l", 1.0 / usual.pressed_l, "kg/L", "pressed density of these scraps by the table")
    return derive(
        "pressed_kg_per_l",
        pressed_kg_per_l,
        words="pressed density of these scraps",
        table_kg_per_l=table,
        density_times=known.vessel.density_times,
    )


def _pace(question: Question, scraps: Figure) -> tuple[Figure, ...]:
    """Return how fast a vessel fills and how long it ferments, at the warmest and the coldest of the year."""
    known = question.knowledge
    vessel = _largest(question)
    holds = _holds(vessel, question)
    fill = derive(
        "fill_days",
        fill_days,
        words=f"days to fill {vessel.name or vessel.id}",
        holds_kg=holds,
        scraps_kg_per_year=scraps,
        year_d=_year(question),
    )
    coolest = min(question.site.vessels, key=lambda each: (_extremes(question, each)[1].value, each.id))
    warmest, coldest = _extremes(question, coolest)
    waits = [
        derive(
            name,
            days_within_a_year,
            words=f"days from sealing until {coolest.name or coolest.id} is ready, {when}",
            ready_at_20c_d=known.ferment.ready_at_20c_d,
            temperature_c=warmth,
            least_c=known.ferment.least_c,
            best_c=known.ferment.best_c,
            most_c=known.ferment.most_c,
        )
        for name, when, warmth in (
            ("ferment_days_warmest", "in the warmest month", warmest),
            ("ferment_days_coldest", "in the coldest month", coldest),
        )
    ]
    return (fill, *waits)


def _holds(vessel: Vessel, question: Question) -> Figure:
    known = question.knowledge
    return derive(
        "holds_kg",
        holds_kg,
        words=f"what {vessel.name or vessel.id} holds when it is full",
        usable_l=written(
            f"{vessel.id}.usable_l", vessel.usable_l, "L", words=f"room for scraps in {vessel.name or vessel.id}"
        ),
        pressed_kg_per_l=_pressed(question),
        settles_frac=known.vessel.settles_frac,
        settling_d=known.vessel.settling_d,
        filling_d=known.vessel.filling_d,
    )


def _from_table(name: str, value: float, unit: str, words: str) -> Figure:
    """Return a leaf that the materials table gives for this mix of scraps."""
    return leaf(
        name,
        Spread.exactly(value),
        unit,
        words=words,
        source="materials_table",
        place="materials.csv",
        basis=Basis.DERIVED,
    )


def _extremes(question: Question, vessel: Vessel) -> tuple[Figure, Figure]:
    """Return the temperature of a vessel in its warmest and its coldest month."""
    series = np.asarray(temperatures_c(vessel, question.first, question.days, question.climate))
    months = np.asarray([on.month for on in daily(question.first, question.days)])
    means = [float(series[months == month].mean()) for month in sorted(set(months.tolist()))]
    where = f"where {vessel.name or vessel.id} stands"
    return (
        written("warmest_c", max(means), "Cel", words=f"temperature {where}, warmest month"),
        written("coldest_c", min(means), "Cel", words=f"temperature {where}, coldest month"),
    )
