"""What is said beside a making: the squeeze, the water, the air, what went too wet, and a day without any bran."""

from collections.abc import Iterator
from typing import Final

import numpy as np

from sourloam.base.days import after
from sourloam.plan.words import Speech, when
from sourloam.science.inoculum.drying import LIFE_C
from sourloam.science.inoculum.made import Made
from sourloam.views.culture_steps import jar_times
from sourloam.views.culture_words import capital, depth

CHLORINE: Final = (
    "Tap water: chlorine leaves when it stands open for a day. Chloramine does not: boil it gently for twenty "
    "minutes, pour it through active carbon, or take rain water. Your water company says which it is."
)
PRESSURE: Final = (
    "Shut jars of rice water, serum or culture build pressure: a cloth, or a lid that is loosened every day, and no "
    "tight glass."
)
NOT_FOOD: Final = "Serum, curd and bran of this chain are for scraps: nothing says that they may be eaten or fed."
MOULD: Final = (
    "Throw out bran with green, black or pink mould, without smelling at it: into a hot pile or a trench, never onto "
    "scraps."
)
WORTH_SAYING: Final = 5.0


def notes(made: Made, speech: Speech) -> Iterator[str]:
    """Give what helps at the bench."""
    yield from _squeeze(made, speech)
    if made.milk.note and made.figures["milk_l"].value > 0.0:
        yield speech.told(made.milk.note)
    for part in made.parts:
        if part.carrier.note:
            yield f"{capital(part.carrier.name)}. {speech.told(part.carrier.note)}"
    if made.blended_by is not None:
        wet, dry = made.parts[0].carrier, made.parts[1]
        own = 100.0 * wet["moisture_wb_frac"].value
        yield (
            f"{capital(wet.name)}: as thrown away that holds {own:.0f} % of water, more than it is packed with, and "
            f"takes less than no water by itself. {100.0 * dry.share:.0f} % of {dry.carrier.name} by weight make room "
            "for the liquid."
        )
    yield from _drying(made, speech)
    if made.figures["milk_l"].value > 0.0:
        curd = speech.kg(made.figures["curd_kg"].value * jar_times(made))
        yield f"The curd ({curd} for this much) is scraps: count it as dairy, a little at a time, with twice the bran."
    yield from _multiplied(made, speech)
    yield _use_by(made, speech)
    yield CHLORINE


def _use_by(made: Made, speech: Speech) -> str:
    """Say until when the dry bran is good, as a range."""
    keeps, ready = made.figures["keeps_d"], made.calendar.ready
    low, middle, high = (when(after(ready, each)) for each in (keeps.low, keeps.value, keeps.high))
    room = speech.celsius(made.kitchen.room_c.value)
    return (
        f"Use it by about {middle} ({low} to {high}) where it stands at {room}; colder and drier keeps it longer. "
        "After three months try a spoon in a jar of milk: sourloam culture --alive bran."
    )


def _multiplied(made: Made, speech: Speech) -> Iterator[str]:
    """Say how much heel a making takes, how often it can be done, and what drifts."""
    if made.start.from_link != "heel":
        return
    heel = made.figures["heel_kg"]
    most = made.known.culture.generations
    told = f"The heel: {speech.kg(heel.value)} ({speech.kg(heel.low)} to {speech.kg(heel.high)}) for this much."
    if "generations" in made.figures:
        count = made.figures["generations"].value
        makings = "one making" if count <= 1.0 else f"{count:.0f} makings, one after the other"
        told += f" From what you have that takes {makings}."
    yield (
        f"{told} From heel to heel what grows best on bran, and what fell in, gains on the rest: begin afresh after "
        f"about {most.value:.0f} makings ({most.low:.0f} to {most.high:.0f}), or when one smells otherwise than the "
        "last. No heel of a batch that is not called sound."
    )


def _squeeze(made: Made, speech: Speech) -> Iterator[str]:
    least, most, drips = (
        100.0 * made.carrier[each].value for each in ("least_wb_frac", "most_wb_frac", "drips_wb_frac")
    )
    aim = 100.0 * made.recipe.wetted_moisture_wb_frac.value
    moisture = made.figures["moisture_pct"]
    outside = "" if least <= aim <= most else f", and {aim:.0f} % is outside that"
    yield (
        f"Moisture: {moisture.value:.0f} % ({moisture.low:.0f} to {moisture.high:.0f}, as the carrier was dry or "
        f"damp); {least:.0f} to {most:.0f} % is the window{outside}, and from about {drips:.0f} % it drips. Squeeze a "
        "handful: it holds together and falls apart at a touch, and no drop comes. If it crumbles, pour some of what "
        f"was held back. If it drips, work in dry {made.parts[-1].carrier.name}: {speech.kg(_too_wet(made))} to each "
        f"{speech.kg(1.0)} of the mix."
    )


def _too_wet(made: Made) -> float:
    """Return the dry carrier that brings a kilogram of a dripping mix back to what is aimed at."""
    drips, aim = made.carrier["drips_wb_frac"].value, made.recipe.wetted_moisture_wb_frac.value
    dry = made.parts[-1].carrier["moisture_wb_frac"].value
    return max((drips - aim) / max(aim - dry, 0.01), 0.0)


def _drying(made: Made, speech: Speech) -> Iterator[str]:
    f, deep = made.figures, depth(made.kitchen.layer_m.value, speech)
    damp = 100.0 * made.kitchen.humidity_frac.value
    if not made.kitchen.is_air_known:
        yield (
            f"Drying: to {f['dry_pct'].value:.0f} % of water or less, when a weighed handful no longer loses weight "
            f"from one day to the next. In half-dry air at {deep} that takes days; tell --air for yours."
        )
        return
    never = float(np.mean(~np.isfinite(f["drying_d"].members)))
    if never > 0.5:
        yield (
            f"That air ({damp:.0f} % humid) is too damp to dry bran in: it would rest above the "
            f"{f['dry_pct'].value:.0f} % of water at which it keeps. Warm the room or the tray, no hotter than "
            f"{speech.celsius(LIFE_C)}, or keep the bran wet and shut, and use it so."
        )
        return
    takes = f"{f['drying_d'].value:.0f} days ({f['drying_d'].low:.0f} to {f['drying_d'].high:.0f})"
    mould = f["mould_pct"].value
    risk = f" In {mould:.0f} cases of 100 mould is faster: spread it thinner." if mould > WORTH_SAYING else ""
    yield (
        f"Drying at {deep} in that air ({damp:.0f} % humid): about {takes}, to {f['dry_pct'].value:.0f} % of "
        f"water.{risk} No hotter than {speech.celsius(LIFE_C)}: more kills what it is made for."
    )


def emergency(made: Made, speech: Speech) -> Iterator[str]:
    """Say what a full caddy gets today where there is no bran."""
    yield "Leave out meat, fish, egg and dairy until bran is back, or freeze them. Plants sour by themselves, slower."
    spray = made.known.culture.spray_l_per_kg.value
    pounds_kg = 0.907
    each = speech.litres(spray * pounds_kg) if speech.is_us else f"{1000.0 * spray:.0f} ml"
    scraps = made.figures.get("scraps_kg")
    whole = f"; {speech.litres(spray * scraps.value)} for a week of yours" if scraps is not None else ""
    per = "2 pounds" if speech.is_us else "a kilogram"
    yield (
        "Sprinkle something live on each layer: kept serum or live whey, 1 part in 10 of water, or brine of raw "
        f"sauerkraut, or the sour liquid of a good batch; about {each} to {per}{whole}, with a spoon of sugar."
    )
    yield "Lay torn paper or dry leaves between the layers, press it down hard, and shut it. It takes weeks longer."
    days = made.figures["days_ahead"].value
    if "needed_kg" in made.figures and scraps is not None:
        week = made.figures["dose_g_per_kg"].value * scraps.value / 1000.0
        yield f"Buy about {speech.kg(week * days / 7.0)} of bran, which lasts until your own is dry."
    else:
        yield "Buy a little bran, or beg a handful of a neighbour: a heel starts your own without rice and milk."
    heel = made.ways["heel"].value
    yield f"With such a heel it is dry {heel:.0f} days from today, not {days:.0f}: see the other ways to begin."
    if scraps is None:
        planned = speech.kg(made.figures["bran_kg"].value)
        yield f'How much you need: --scraps "6 kg/week". Until then this plans {planned}.'


def cautions(made: Made) -> tuple[str, ...]:
    """Return the cautions of a making."""
    wet = () if made.start.from_link == "heel" else (PRESSURE,)
    return (*wet, MOULD, NOT_FOOD)


def begun(made: Made) -> str:
    """Return the day on which it is begun."""
    return when(made.calendar.start)
