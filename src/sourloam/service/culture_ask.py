"""What the bench of cultures is asked with, read into the project's units; every fault of it is named at once."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from sourloam.base.figure import Figure, derive, written
from sourloam.base.units import Dimension
from sourloam.evidence.culture import load_bench, load_carriers
from sourloam.evidence.lookup import Lookup
from sourloam.evidence.parameters import load_parameters
from sourloam.plan.words import Speech
from sourloam.science.inoculum.bench import Bench, Milk, Start, Sugar
from sourloam.science.inoculum.carrier import Carrier
from sourloam.science.inoculum.culture_parameters import CultureParameters
from sourloam.science.inoculum.making import MILK_KG_PER_L, Kitchen, Known, loose_kg, sheets
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.service.culture_reading import AskedCulture, Reading
from sourloam.service.culture_room import kitchen as kitchen_of
from sourloam.service.culture_room import prices as prices_of
from sourloam.service.culture_room import share
from sourloam.service.cupboard import AMOUNT, PIECES, find, lookup, ratio, split_name
from sourloam.service.named import site_named
from sourloam.site.site import Site

USUAL_CARRIER: Final = "wheat-bran"
WEEKS: Final = 12


@dataclass(frozen=True)
class Read:
    """The same in the project's units, with what the bench knows."""

    known: Known
    bench: Bench
    carriers: Lookup[Carrier]
    speech: Speech
    today: date
    by: date | None
    parts: tuple[tuple[Carrier, float | None], ...]
    sugar: Sugar
    milk: Milk
    held: Mapping[str, float]
    typed: Mapping[str, str]
    wanted_kg: float | None
    scraps: Figure | None  # in a week
    weeks: int
    kitchen: Kitchen
    target: Figure | None
    carrier_moisture: Figure | None
    dried: Figure | None
    sheets: Figure | None
    ratio: tuple[float, float, float] | None
    start: Start
    prices: Mapping[str, float]
    site: Site | None
    assumptions: tuple[str, ...]
    asked: AskedCulture

    @property
    def members(self) -> int:
        """Return in how many cases it is tried."""
        return self.asked.members

    def told(self, name: str, value: float, unit: str, *, words: str, typed: str = "") -> Figure:
        """Return what the keeper wrote or decided as a figure."""
        return written(name, value, unit, words=words, typed=typed, members=self.members)


def read_asked(asked: AskedCulture, today: date) -> Read:
    """Return what was asked.

    Raises
    ------
    BadInput
        If something cannot be read; all of it is named.
    """
    members = asked.members
    known = Known(
        load_parameters(InoculumParameters, "inoculum", members=members),
        load_parameters(CultureParameters, "culture", members=members),
    )
    reading = Reading(asked, load_bench(members=members), load_carriers(members=members), known)
    site = site_named(asked.site).site if asked.site else None
    units = asked.units or (site.keeper.units if site else "metric")
    speech = Speech(units)
    parts, sugar, milk = _carriers(reading), _sugar(reading), _milk(reading)
    _serum(reading)
    _heel(reading)
    wanted = _wanted(reading)
    scraps = _scraps(reading)
    kitchen = kitchen_of(reading, site, speech)
    start = _start(reading)
    target = share(reading, asked.moisture, "--moisture", name="target_wb_frac", words="moisture that is aimed at")
    own = share(
        reading,
        asked.carrier_moisture,
        "--carrier-moisture",
        name="carrier_moisture_wb_frac",
        words="water in the carrier",
    )
    _in_time(reading, today)
    _of_what(reading)
    made = ratio(asked.recipe, reading.faults)
    prices = prices_of(reading, site)
    dried = share(reading, asked.dried, "--dried", name="dried_wb_frac", words="water in the dried bran")
    reading.faults.raise_any()
    return Read(
        known=known,
        bench=reading.bench,
        carriers=reading.carriers,
        speech=speech,
        today=today,
        by=asked.by,
        parts=parts,
        sugar=sugar,
        milk=milk,
        held=reading.held,
        typed=reading.typed,
        wanted_kg=wanted,
        scraps=scraps,
        weeks=asked.weeks or WEEKS,
        kitchen=kitchen,
        target=target,
        carrier_moisture=own,
        dried=dried,
        sheets=reading.sheets,
        ratio=made,
        start=start,
        prices=prices,
        site=site,
        assumptions=tuple(reading.said),
        asked=asked,
    )


def _carriers(r: Reading) -> tuple[tuple[Carrier, float | None], ...]:
    """Return each carrier with its mass, where one was written."""
    usual = r.carriers[USUAL_CARRIER]
    found = [part for each in r.asked.carriers if (part := _carrier(each, r, usual)) is not None]
    masses = [mass for _, mass in found if mass is not None]
    if masses:
        r.held["carrier_kg"] = sum(masses)
        r.typed["carrier_kg"] = " and ".join(r.asked.carriers)
    if len(found) > 1 and len(masses) != len(found):
        r.faults.add(
            "--carrier", "several carriers are named, and not how much of each;", 'write "2 kg coffee grounds".'
        )
    return tuple(found) or ((usual, None),)


def _carrier(typed: str, r: Reading, usual: Carrier) -> tuple[Carrier, float | None] | None:
    pieces = PIECES.fullmatch(typed.strip())
    amount, name = split_name(typed) if pieces is None else (pieces["count"], pieces["name"] or "newspaper")
    carrier = find(name, r.carriers, "--carrier", r.faults) if name else usual
    if carrier is None:
        return None
    if pieces is not None:
        if carrier.piece_kg is None:
            r.faults.add(
                "--carrier", f"what a piece of {carrier.name} weighs is not known;", "write a mass or a volume."
            )
            return None
        return carrier, int(amount) * carrier.piece_kg
    if not amount and carrier.piece_kg is not None and r.asked.vessel is not None:
        return carrier, _sheets(r, carrier)
    if not amount:
        return carrier, None
    read = r.faults.quantity(amount, "--carrier", AMOUNT)
    if read is None:
        return None
    loose = carrier["loose_kg_per_l"].value if read.dimension is Dimension.VOLUME else 1.0
    return carrier, read.value * loose


def _sheets(r: Reading, carrier: Carrier) -> float | None:
    """Return the mass of the sheets that go into a vessel of that height."""
    height = r.faults.measured(r.asked.vessel, "--vessel", Dimension.LENGTH, (0.05, 2.0))
    if height is None:
        return None
    c, members = r.known.culture, r.asked.members
    tall = written("height_m", height, "m", words="height of the vessel", typed=r.asked.vessel or "", members=members)
    r.sheets = derive(
        "sheets",
        sheets,
        words="sheets for one vessel",
        height_m=tall,
        sheet_bed_m=c.sheet_bed_m,
        sheet_layer_m=c.sheet_layer_m,
    )
    return r.sheets.value * (carrier.piece_kg or 0.0)


def _sugar(r: Reading) -> Sugar:
    table = lookup("sugar", r.bench.sugars)
    usual = r.bench.sugars[0]
    if r.asked.sugar is None:
        return usual
    amount, name = split_name(r.asked.sugar)
    sugar = (find(name, table, "--sugar", r.faults) if name else usual) or usual
    if amount and (read := r.faults.quantity(amount, "--sugar", AMOUNT)):
        loose = sugar.loose_kg_per_l if read.dimension is Dimension.VOLUME else 1.0
        r.held["sugar_kg"], r.typed["sugar_kg"] = read.value * loose, r.asked.sugar
    return sugar


def _milk(r: Reading) -> Milk:
    table = lookup("milk", r.bench.milks)
    usual = r.bench.milks[0]
    if r.asked.milk is None:
        return usual
    amount, name = split_name(r.asked.milk)
    milk = (find(name, table, "--milk", r.faults) if name else usual) or usual
    if not milk.curds:
        r.faults.add(
            "--milk",
            f"{milk.name} does not part into curd and serum: {milk.note[0].lower()}{milk.note[1:]}",
            "Any milk of an animal does; without one: --without milk.",
        )
    if amount and (read := r.faults.quantity(amount, "--milk", AMOUNT)):
        litres = read.value / MILK_KG_PER_L if read.dimension is Dimension.MASS else read.value
        r.held["milk_l"], r.typed["milk_l"] = litres, r.asked.milk
    return milk


def _serum(r: Reading) -> None:
    for typed, option, name in ((r.asked.serum, "--serum", "serum_l"), (r.asked.rice, "--rice-water", "rice_wash_l")):
        if typed is None:
            continue
        read = r.faults.quantity(typed, option, (Dimension.VOLUME,))
        if read is not None:
            r.held[name], r.typed[name] = read.value, typed


def _heel(r: Reading) -> None:
    """Read the live bran that is on hand, as a heel."""
    if r.asked.heel is None:
        return
    amount, _ = split_name(r.asked.heel)
    read = r.faults.quantity(amount or r.asked.heel, "--heel", AMOUNT)
    if read is not None:
        dense = r.carriers[USUAL_CARRIER]["loose_kg_per_l"].value if read.dimension is Dimension.VOLUME else 1.0
        r.held["heel_kg"], r.typed["heel_kg"] = read.value * dense, r.asked.heel


def _wanted(r: Reading) -> float | None:
    if r.asked.bran is None:
        return None
    amount, _ = split_name(r.asked.bran)
    read = r.faults.quantity(amount or r.asked.bran, "--bran", AMOUNT)
    if read is None:
        return None
    dense = r.carriers[USUAL_CARRIER]["loose_kg_per_l"].value if read.dimension is Dimension.VOLUME else 1.0
    return read.value * dense


def _scraps(r: Reading) -> Figure | None:
    """Return the scraps of a week; an amount without a time is taken as that of a week."""
    typed = r.asked.scraps
    if typed is None:
        return None
    amount, _ = split_name(typed)
    wanted = (Dimension.MASS_RATE, Dimension.VOLUME_RATE, *AMOUNT)
    read = r.faults.quantity(
        typed if "/" in typed or " a " in typed or " per " in typed else amount or typed, "--scraps", wanted
    )
    if read is None:
        return None
    is_rate = read.dimension in (Dimension.MASS_RATE, Dimension.VOLUME_RATE)
    week = read.value * (7.0 if is_rate else 1.0)
    is_volume = read.dimension in (Dimension.VOLUME, Dimension.VOLUME_RATE)
    name, unit = ("scraps_l", "L") if is_volume else ("scraps_kg", "kg")
    members = r.asked.members
    scraps = written(name, week, unit, words="scraps of a week", typed=typed, members=members)
    if not is_volume:
        return scraps
    from_loose = {"volume_l": scraps, "loose_kg_per_l": r.known.culture.scraps_kg_per_l}
    return derive("scraps_kg", loose_kg, words="scraps of a week", **from_loose)


def _start(r: Reading) -> Start:
    """Return where the chain starts: as asked, else with what is on hand, else with rice."""
    starts = {each.id: each for each in r.bench.starts}
    has_no_milk = any("milk" in each.casefold() for each in r.asked.without)
    for each in r.asked.without:
        if each.casefold().strip() not in ("milk", "rice", "serum", "dairy"):
            r.faults.add("--without", f'"{each}" is nothing that can be left out;', "milk and rice can.")
    if r.asked.start is None and "heel_kg" in r.held:
        return starts["heel"]
    if r.asked.start is None:
        return starts["rice-sugar"] if has_no_milk else starts["rice"]
    named = r.asked.start.casefold().strip()
    aliases = {
        "yoghurt": "milk",
        "yogurt": "milk",
        "kefir": "milk",
        "whey": "brine",
        "sauerkraut": "brine",
        "starter": "heel",
        "bran": "heel",
    }
    key = aliases.get(named, named)
    if key not in starts:
        r.faults.add("--start", f'"{r.asked.start}" is no start that is known;', f"There are: {', '.join(starts)}.")
        return starts["rice"]
    if has_no_milk and starts[key].from_link in ("rice_wash", "milk"):
        r.faults.add(
            "--start",
            f"{starts[key].name} wants milk, and --without says that there is none;",
            "take rice-sugar, brine, heel or culture.",
        )
    return starts[key]


def _of_what(r: Reading) -> None:
    """Note options that are about something which was not named."""
    asked = r.asked
    for option, typed in (("--age", asked.age), ("--kept", asked.kept), ("--jar", asked.jar), ("--dried", asked.dried)):
        if typed is not None and asked.alive is None:
            r.faults.add(option, "of what it is, is not said;", "name it, such as --alive bran.")
    if asked.milk is not None and any("milk" in each.casefold() for each in asked.without):
        r.faults.add("--without", "there is no milk, and --milk says that there is;", "leave one of the two out.")


def _in_time(r: Reading, today: date) -> None:
    by = r.asked.by
    if by is not None and by < today:
        r.faults.add(
            "--by",
            f"{by.isoformat()} is past; today is {today.isoformat()};",
            "name a day to come, or another --today.",
        )
