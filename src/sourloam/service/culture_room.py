"""The room of the bench and its prices, as they are written after options."""

import re
from types import MappingProxyType
from typing import Final

from sourloam.base.figure import Figure, derive, written
from sourloam.base.units import Dimension
from sourloam.plan.words import Speech
from sourloam.science.climate.psychrometrics import indoor_humidity_frac
from sourloam.science.inoculum.making import Kitchen
from sourloam.service.culture_reading import Reading
from sourloam.site.site import Site

ROOM_C: Final = 20.0  # of a kitchen, where nobody says
TEMPERATURES: Final = (-40.0, 60.0)
SHARES: Final = (0.01, 0.99)
PRICE: Final = re.compile(
    r"(?P<thing>[a-z ]+?)\s+(?P<price>\d+(?:[.,]\d+)?)\s*(?:[^\d\s/]*)\s*(?:/\s*(?P<unit>\w+))?", re.IGNORECASE
)
PRICED: Final = MappingProxyType({"bran": "kg", "carrier": "kg", "sugar": "kg", "milk": "L", "rice": "kg"})
TO_KG: Final = MappingProxyType({"kg": 1.0, "lb": 1 / 0.45359237, "g": 1000.0})
TO_L: Final = MappingProxyType({"l": 1.0, "qt": 1 / 0.946352946, "gal": 1 / 3.785411784, "ml": 1000.0})


def kitchen(r: Reading, site: Site | None, speech: Speech) -> Kitchen:
    """Return where it is made: as asked, else as the site says, else a kitchen at 20 °C."""
    asked, members = r.asked, r.asked.members
    usual = site.facts.indoors_c if site else ROOM_C
    room = r.faults.measured(asked.at, "--at", Dimension.TEMPERATURE, TEMPERATURES)
    if asked.at is None:
        r.said.append(f"The kitchen is at {speech.celsius(usual)} (--at).")
    room_c = written(
        "room_c",
        usual if room is None else room,
        "Cel",
        words="temperature of the room",
        typed=asked.at or "",
        members=members,
    )
    humidity = _humidity(r, room_c)
    depth = r.faults.measured(asked.layer, "--layer", Dimension.LENGTH, (0.002, 0.2))
    layer = r.known.culture.layer_m
    if depth is not None:
        layer = written(
            "layer_m", depth, "m", words="depth in which bran is spread", typed=asked.layer or "", members=members
        )
    return Kitchen(room_c, humidity or r.known.culture.room_humidity_frac, layer, humidity is not None)


def _humidity(r: Reading, room_c: Figure) -> Figure | None:
    """Return the humidity of the room: measured there, or from the air outdoors; nothing where nobody says."""
    asked, members = r.asked, r.asked.members
    if asked.air is not None:
        share = _percent(r, asked.air, "--air")
        return (
            None
            if share is None
            else written("humidity_frac", share, "1", words="humidity of the room", typed=asked.air, members=members)
        )
    if asked.outdoors is None:
        return None
    share = _percent(r, asked.outdoors, "--outdoors")
    warmth = re.sub(r"[\d.,]+\s*(?:%|per ?cent).*", "", asked.outdoors).strip()
    outdoor = r.faults.measured(warmth or asked.outdoors, "--outdoors", Dimension.TEMPERATURE, TEMPERATURES)
    if share is None or outdoor is None:
        return None
    told = {"typed": asked.outdoors, "members": members}
    return derive(
        "humidity_frac",
        indoor_humidity_frac,
        words="humidity of the room, from the air outdoors",
        outdoor_c=written("outdoor_c", outdoor, "Cel", words="outdoors", **told),  # type: ignore[arg-type]
        outdoor_humidity_frac=written("outdoor_humidity_frac", share, "1", words="humidity outdoors", **told),  # type: ignore[arg-type]
        room_c=room_c,
        added_water_kg_per_kg=r.known.culture.added_water_kg_per_kg,
    )


def _percent(r: Reading, typed: str, option: str) -> float | None:
    found = re.search(r"-?[\d.,]+\s*(?:%|per ?cent)", typed)
    if found is None:
        example = "55 %" if option == "--air" else "5 C 80 %"
        r.faults.add(option, f'"{typed}" holds no humidity;', f'write one such as "{example}".')
        return None
    return r.faults.measured(found[0], option, Dimension.SHARE, SHARES)


def share(r: Reading, typed: str | None, option: str, *, name: str, words: str) -> Figure | None:
    """Return a share as it was written after an option, or nothing where it was not."""
    value = r.faults.measured(typed, option, Dimension.SHARE, SHARES)
    if value is None:
        return None
    return written(name, value, "1", words=words, typed=typed or "", members=r.asked.members)


def prices(r: Reading, site: Site | None) -> dict[str, float]:
    """Return what things cost to a kilogram or litre: as written, else as the site file says."""
    found: dict[str, float] = {}
    if site is not None:
        stock = site.stock
        held = {
            "bran": stock.bran_price_per_kg,
            "carrier": stock.carrier_price_per_kg,
            "sugar": stock.sugar_price_per_kg,
        }
        found |= {thing: price for thing, price in held.items() if price is not None}
    for typed in r.asked.prices:
        match = PRICE.fullmatch(typed.strip())
        thing = match["thing"].casefold() if match else ""
        if match is None or thing not in PRICED:
            r.faults.add(
                "--price",
                f'"{typed}" is no price that is used;',
                f'write one such as "bran 9 /kg"; priced are {", ".join(PRICED)}.',
            )
            continue
        unit = (match["unit"] or PRICED[thing]).casefold()
        times = (TO_KG if PRICED[thing] == "kg" else TO_L).get(unit)
        if times is None:
            r.faults.add(
                "--price",
                f'"{typed}": {thing} is priced to a {PRICED[thing]}, not to a {unit};',
                f'write "{thing} 2 /{PRICED[thing]}".',
            )
            continue
        found[thing] = float(match["price"].replace(",", ".")) * times
    return found
