"""Smaller questions of the bench: what came of a mix, other uses, and whether a culture is sour enough."""

import re
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.figure import derive
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.evidence.sources import load_sources
from sourloam.science.inoculum.carrier import blend, in_air, with_moisture
from sourloam.science.inoculum.making import per_cent
from sourloam.science.inoculum.starts import activation_left_d, is_stalled
from sourloam.science.inoculum.wetting import wetted_moisture_wb_frac
from sourloam.service.culture_ask import Read
from sourloam.service.culture_kept import disagreements_of
from sourloam.service.cupboard import AMOUNT, Faults, split_name
from sourloam.views.culture import CultureView
from sourloam.views.culture_other import Squeezed, activation_view, poured_view, uses_view

WATER_KG_PER_L: Final = 0.998
SQUEEZES: Final = ("drips", "holds", "crumbles")
READING: Final = re.compile(
    r"(?:day\s*)?(?P<day>\d+(?:[.,]\d+)?)\s*(?:d|days?)?\s*[:=]\s*(?:ph\s*)?(?P<ph>\d+(?:[.,]\d+)?)", re.IGNORECASE
)


def poured(read: Read) -> CultureView:
    """Return what a mix came to: its moisture, whether that is right, and what to add.

    Raises
    ------
    BadInput
        If the amounts cannot be read.
    """
    asked, faults = read.asked, Faults()
    if asked.squeeze is not None and asked.squeeze not in SQUEEZES:
        faults.add("--squeeze", f'"{asked.squeeze}" is no outcome of a squeeze;', f"write {', '.join(SQUEEZES)}.")
    liquid_kg = None
    if asked.poured is not None:
        amount, _ = split_name(asked.poured)
        held = faults.quantity(amount or asked.poured, "--poured", AMOUNT)
        if held is not None:
            liquid_kg = held.value * (WATER_KG_PER_L if held.dimension is Dimension.VOLUME else 1.0)
    carrier_kg = read.held.get("carrier_kg")
    if liquid_kg is not None and carrier_kg is None:
        faults.add("--carrier", "how much carrier it was poured on is not said;", 'write --carrier "10 kg wheat bran".')
    faults.raise_any()
    humidity = read.kitchen.humidity_frac if read.kitchen.is_air_known else None
    parts = [(in_air(each, humidity, read.known.gab), mass) for each, mass in read.parts]
    if read.carrier_moisture is not None:
        parts = [(with_moisture(each, read.carrier_moisture), mass) for each, mass in parts]
    carrier = blend([(each, read.told("mass", mass or 1.0, "kg", words=each.name)) for each, mass in parts])
    figures = {}
    if liquid_kg is not None and carrier_kg is not None:
        on_each = read.told(
            "poured_kg_per_kg", liquid_kg / carrier_kg, "kg/kg", words="liquid on a kilogram of carrier"
        )
        frac = derive(
            "wetted_wb_frac",
            wetted_moisture_wb_frac,
            words="moisture of that mix",
            liquid_kg_per_kg=on_each,
            carrier_moisture_wb_frac=carrier["moisture_wb_frac"],
        )
        figures["moisture_pct"] = derive("moisture_pct", per_cent, words="moisture of that mix", frac=frac)
    squeezed = Squeezed(carrier, carrier_kg, liquid_kg, asked.squeeze, read.target)
    return poured_view(
        squeezed,
        figures,
        disagreements=disagreements_of(read, ()),
        sources=load_sources(),
        speech=read.speech,
    )


def other_uses(read: Read) -> CultureView:
    """Return other uses of bran, or of serum.

    Raises
    ------
    BadInput
        If a use or a mixture cannot be read.
    """
    which = (read.asked.uses or "bran").casefold().strip()
    if which not in ("bran", "serum"):
        raise BadInput("culture", (Problem("--uses", f'"{which}" has no other uses here;', "write bran or serum."),))
    parts = _parts(read.asked.dilute) if read.asked.dilute else None
    uses = read.bench.uses if which == "bran" else read.bench.serum_uses
    return uses_view(which, uses, parts, typed=read.asked.dilute or "", sources=load_sources(), speech=read.speech)


def _parts(typed: str) -> float:
    """Return the parts of water to one of serum, of "1:64" or of "1 tsp per 4 L"."""
    found = re.fullmatch(r"1\s*(?::|to|in)\s*(\d+(?:\.\d+)?)", typed.strip())
    if found:
        return float(found[1])
    one, slash, other = (
        each.strip() for each in re.sub(r"\s+(?:per|in|to)\s+(?:an?\s+)?", " / ", typed).partition("/")
    )
    refused = BadInput(
        "culture", (Problem("--dilute", f'"{typed}" is no mixture;', 'write "1:1000" or "1 tsp per 4 L".'),)
    )
    if not slash:
        raise refused
    try:
        serum = read_quantity(one, Dimension.VOLUME).value
        water = read_quantity(other if other[:1].isdigit() else f"1 {other}", Dimension.VOLUME).value
    except BadQuantity:
        raise refused from None
    if serum <= 0.0:
        raise refused
    return water / serum


def activation(read: Read) -> CultureView:
    """Return whether a culture that is being woken is sour enough, and how long it still takes.

    Raises
    ------
    BadInput
        If a reading cannot be read, or is impossible.
    """
    faults, found = Faults(), []
    for typed in read.asked.ph:
        match = READING.fullmatch(typed.strip())
        ph = float(match["ph"].replace(",", ".")) if match else 0.0
        if match is None or not 2.0 <= ph <= 9.0:
            faults.add("--ph", f'"{typed}" is no reading of such a culture;', 'write the day and the pH, as "6: 3.9".')
            continue
        found.append((float(match["day"].replace(",", ".")), ph))
    faults.raise_any()
    readings = tuple(sorted(found))
    c = read.known.culture
    day, ph = readings[-1]
    left = derive(
        "days_left",
        activation_left_d,
        words="days until it is sour enough",
        now_ph=read.told("now_ph", ph, "[pH]", words="pH as read"),
        day_d=read.told("day_d", max(day, 0.1), "d", words="days since it was stirred up"),
        start_ph=c.start_ph,
        end_ph=c.end_ph,
        ready_ph=c.ready_ph,
    )
    return activation_view(
        readings,
        {"days_left": left, "ready_ph": c.ready_ph},
        is_stalled=is_stalled(readings, ready_ph=c.ready_ph.value),
        room_c=read.kitchen.room_c.value,
        sources=load_sources(),
        speech=read.speech,
    )
