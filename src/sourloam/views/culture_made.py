"""A making in words: what to do when, how much of it, what to buy, what binds, other ways to begin."""

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from sourloam.base.days import after
from sourloam.base.figure import Figure, derive
from sourloam.base.source import Source
from sourloam.plan.words import Speech, when
from sourloam.science.inoculum.made import EXAMPLE_KG, Made
from sourloam.science.inoculum.starts import saved_d
from sourloam.views.culture import AmountLine, Bought, CultureView, Disagreement, StartLine
from sourloam.views.culture_notes import cautions, emergency, notes
from sourloam.views.culture_steps import LEAST_MILK_L, chain_links, instead_of_serum, jar_times, step_lines
from sourloam.views.culture_words import area, capital, measure, numbers_of, reasons_of
from sourloam.views.reason import number_of

SHOWN: Final = (
    "bran_kg",
    "carrier_kg",
    "liquid_l",
    "water_l",
    "serum_l",
    "sugar_g",
    "milk_l",
    "rice_water_l",
    "moisture_pct",
    "log10_cfu_per_g",
    "hold_back_l",
    "rice_kg",
    "wet_kg",
    "packed_l",
    "drying_m2",
    "drying_d",
    "mould_pct",
    "dry_pct",
    "dry_activity",
    "curd_kg",
    "mixed_log10",
    "wet_log10",
    "serum_log10",
    "least_log10",
    "keeps_d",
    "heel_kg",
    "generations",
    "days_ahead",
    "sheets",
    "needed_kg",
    "scraps_kg",
    "dose_g_per_kg",
    "made_per_kg",
    "bought_per_kg",
    "made_scraps_per_kg",
    "bought_scraps_per_kg",
    "break_even_kg",
    "made_month",
    "bought_month",
)
CALLED: Final = MappingProxyType(
    {
        "carrier_kg": "carrier",
        "sugar_kg": "sugar",
        "serum_l": "serum",
        "milk_l": "milk",
        "rice_wash_l": "rice water",
        "heel_kg": "heel",
    }
)
HARDLY: Final = 1e-6
LITTLE: Final = 0.02  # of what is needed, which nobody buys
IN_JARS: Final = ("rice_water_l", "milk_l")


def made_view(
    made: Made,
    *,
    speech: Speech,
    disagreements: Sequence[Disagreement],
    assumptions: Sequence[str],
    sources: Mapping[str, Source],
) -> CultureView:
    """Return what of a making is shown."""
    shown = {name: made.figures[name] for name in SHOWN if name in made.figures}
    return CultureView(
        says=_says(made, speech),
        speech=speech,
        is_yes=not made.is_late,
        because=tuple(_because(made, speech)),
        do=tuple(emergency(made, speech)) if not made.has_bran else (),
        amounts=tuple(_amounts(made, speech)),
        binds=CALLED.get(made.binds, ""),
        steps=tuple(step_lines(made, speech)),
        start_on=made.calendar.start,
        safe_start=made.calendar.safe_start,
        ready_on=made.calendar.ready,
        starts=tuple(_starts(made)),
        shopping=tuple(_shopping(made, speech)),
        numbers=numbers_of(shown),
        reasons=reasons_of(shown, sources),
        disagreements=tuple(disagreements),
        notes=tuple(notes(made, speech)),
        cautions=cautions(made),
        assumptions=tuple(assumptions),
        chain=tuple(chain_links(made, speech)),
        works_log10=number_of(made.figures["least_log10"]),
        layer_m=made.kitchen.layer_m.value,
        name=f"{speech.kg(made.figures['bran_kg'].value)} of bran",
    )


def _first(made: Made) -> str:
    """Return the first thing that is begun."""
    return {"rice": "the rice water", "milk": "the milk", "ferment": "the wetting"}[made.calendar.steps[0].id]


def _says(made: Made, speech: Speech) -> str:
    bran = speech.kg(made.figures["bran_kg"].value)
    begin, start, ready = _first(made), when(made.calendar.start), when(made.calendar.ready)
    if not made.has_bran:
        return f"No bran today: plants can still sour. Begin {begin} today, and your own bran is dry about {ready}."
    if made.is_forward:
        short = CALLED[made.binds]
        rest = f"; the {short} gives out first" if len(made.reaches) > 1 else ""
        if made.binds == "milk_l":
            serum = speech.litres(made.held["milk_l"] * made.recipe.serum_yield_l_per_l.value)
            return f"That milk gives about {serum} of serum, enough for {bran} of bran."
        return f"What you have makes {bran} of bran{rest}."
    if made.is_late:
        wanted = when(made.by)
        return f"Too late for {wanted}: begun today, {bran} of bran are dry about {ready}."
    if made.by is not None:
        return f"{bran} of bran by {when(made.by)}: begin {begin} on {start}."
    count = _days(made.figures["days_ahead"])
    return f"{bran} of bran: dry about {ready}, {count} days after you begin {begin}."


def _days(figure: Figure) -> str:
    return f"{figure.value:.0f} ({figure.low:.0f} to {figure.high:.0f})"


def _because(made: Made, speech: Speech) -> Iterator[str]:
    calendar, room = made.calendar, speech.celsius(made.kitchen.room_c.value)
    ahead = _days(made.figures["days_ahead"])
    if made.by is not None and not made.is_late:
        safe = when(calendar.safe_start)
        if calendar.safe_start < made.today:
            safe = f"today, {when(made.today)}"
        yield f"At {room} that takes {ahead} days by usual times. To be in time in 9 cases of 10, begin by {safe}."
    elif made.is_late:
        yield f"At {room} it takes {ahead} days. Buy bran for the time between, or begin from a live start (below)."
    elif made.is_forward:
        low, high = when(calendar.ready_low), when(calendar.ready_high)
        yield f"Begun today at {room} it is dry about {when(calendar.ready)} ({low} to {high})."
        yield from _forward(made, speech)
    makings = made.figures["generations"].value if "generations" in made.figures else 1.0
    if makings > 1.0:
        whole = when(after(made.today, makings * made.figures["days_ahead"].value))
        yield f"That little heel takes {makings:.0f} makings, one after the other: all of it is dry about {whole}."
    if made.start.id == "rice-sugar":
        yield "Without milk rice water and sugar do, less surely. Surer: kept serum, live brine, or a heel (below)."
    if "needed_kg" in made.figures:
        need, low, high = (speech.kg(getattr(made.figures["needed_kg"], each)) for each in ("value", "low", "high"))
        yield f"The scraps need about {need} of bran in that time ({low} to {high}, as strewn)."
    if made.binds and not made.is_forward:
        reach = speech.kg(made.reaches[made.binds])
        yield f"Of what you have, the {CALLED[made.binds]} gives out first: it does for {reach}."


def _forward(made: Made, speech: Speech) -> Iterator[str]:
    """Say how far each thing goes, and what a usual batch takes where it is far more than a household needs."""
    bran = made.figures["bran_kg"].value
    for name, reach in sorted(made.reaches.items(), key=lambda each: each[1]):
        if name != made.binds and reach > bran * 1.01:
            yield f"The {CALLED[name]} would do for {speech.kg(reach)}."
    part = made.batch_frac
    if part < 1.0:
        things = [
            speech.litres(part * made.figures[name].value) + f" of {CALLED[name]}"
            for name in ("milk_l", "serum_l")
            if made.figures[name].value > 0.0
        ]
        take = " or ".join(things)
        many = speech.kg(EXAMPLE_KG)
        yield f"That is more than a household uses in a year. {many} of bran take {take}: this sheet makes those first."
        if made.binds == "milk_l":
            yield (
                f"So sour {speech.litres(LEAST_MILK_L)} of the milk, keep in the cold the serum that is over, and "
                "leave the rest of the milk for its own use."
            )


def _amounts(made: Made, speech: Speech) -> Iterator[AmountLine]:
    """Give the amounts in the order in which they are used."""
    f = {name: each.value for name, each in made.figures.items()}
    lines = (
        ("rice_water_l", "rice water", "L"),
        ("milk_l", made.milk.name, "L"),
        ("serum_l", instead_of_serum(made), "L"),
        ("sugar_g", made.sugar.name, "g"),
        ("water_l", "water", "L"),
        ("hold_back_l", "of all that liquid, held back", "L"),
        ("carrier_kg", made.carrier.name, "kg"),
        ("wet_kg", "wetted, packed", "kg"),
        ("drying_m2", "to dry it on", "m2"),
        ("bran_kg", "dry bran", "kg"),
    )
    times = jar_times(made)
    for name, what, unit in lines:
        value = f[name] * (times if name in IN_JARS else made.batch_frac)
        if value > HARDLY and not (name == "rice_water_l" and made.start.from_link == "rice_only"):
            yield AmountLine(
                name, what, _amount(value, unit, speech), measure(value, speech) if name.endswith("_l") else ""
            )


def _amount(value: float, unit: str, speech: Speech) -> str:
    if unit == "m2":
        return area(value, speech)
    if unit == "L":
        return speech.litres(value)
    return speech.kg(value / 1000.0 if unit == "g" else value)


def _starts(made: Made) -> Iterator[StartLine]:
    """Give every other way to begin: the days that it takes and spares, what is done, when to begin afresh."""
    whole = made.ways["rice"]
    for each in made.bench.starts:
        if each.id == made.start.id:
            continue
        takes = made.ways[each.id]
        spared = derive("spares_d", saved_d, words="days fewer than from rice", whole_d=whole, from_here_d=takes)
        yield StartLine(
            each.id,
            capital(each.name),
            number_of(takes),
            max(spared.value, 0.0),
            each.does,
            each.amount,
            each.when_afresh,
        )


def _shopping(made: Made, speech: Speech) -> Iterator[Bought]:
    """Give what must be bought: what a making takes less what is on hand."""
    f = {name: each.value for name, each in made.figures.items()}
    held, times = made.held, jar_times(made)
    f = {name: each * (1.0 if name in IN_JARS or name == "rice_kg" else made.batch_frac) for name, each in f.items()}
    for each in made.parts:
        missing = f["carrier_kg"] * each.share - each.held_kg
        if missing > LITTLE * f["carrier_kg"]:
            yield _bought(each.carrier.name, missing, "kg", speech)
    sugar = f["sugar_g"] / 1000.0 - held.get("sugar_kg", 0.0)
    if sugar > LITTLE * f["sugar_g"] / 1000.0:
        yield _bought(made.sugar.name, sugar, "kg", speech)
    milk = f["milk_l"] * times - held.get("milk_l", 0.0)
    if milk > LITTLE * f["milk_l"] * times:
        yield _bought(made.milk.name, milk, "L", speech)
    if f["rice_kg"] > HARDLY and "rice_wash_l" not in held:
        yield _bought("rice, for its wash water", f["rice_kg"] * times, "kg", speech)
    if made.start.id in ("brine", "culture", "milk", "bought") and f["serum_l"] + f["milk_l"] > HARDLY:
        litres = f["serum_l"] if made.start.id != "milk" else f["milk_l"] * times / 20.0
        if made.start.id != "bought":
            yield _bought(made.start.name, litres, "L", speech)


def _bought(thing: str, amount: float, unit: str, speech: Speech) -> Bought:
    return Bought(thing, amount, unit, f"{speech.amount(amount, unit)} of {thing}")
