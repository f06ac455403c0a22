"""The inoculum chain of the year: when each batch of bran is begun, so that the bag is never empty."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from sourloam.base.days import after, last_on
from sourloam.fleet.life import Life
from sourloam.plan.answer import BranLot
from sourloam.plan.question import Question
from sourloam.plan.words import Speech
from sourloam.science.inoculum.chain import BranBatch, bran_batch
from sourloam.science.inoculum.keeping import BranLot as Lot
from sourloam.science.inoculum.keeping import bran_keeps_d, bran_keeps_until, serum_keeps_until
from sourloam.science.inoculum.schedule import BranSchedule, Link, days_ahead, schedule_backwards
from sourloam.site.stocks import Stock

LEAST_BRAN_KG: Final = 0.5  # JUDGEMENT: less is not worth five weeks; what is over does no harm on the layers
LEAST_MILK_L: Final = 0.5  # common practice, no source: less is not worth a jar, and the serum keeps in the cold
FRIDGE_C: Final = 4.0  # what a fridge is set to; MEMORY
CULTURE_LEAST_C: Final = 18.0  # common practice, no source: cultures want a warm corner
CULTURE_MOST_C: Final = 35.0
MARGIN_D: Final = 7  # so that a lot which dries slowly is still in time; JUDGEMENT


@dataclass(frozen=True)
class Need:
    """A stretch of days that one lot of bran covers."""

    first: date
    last: date
    bran_kg: float


@dataclass(frozen=True)
class Serum:
    """Serum in the cold, and until when it is good for another batch."""

    litres: float
    good_until: date


def bran_lots(question: Question, life: Life) -> tuple[BranLot, ...]:
    """Return the lots of bran that the year needs, beginning when what is on hand runs out."""
    used = _used_by_day(question, life)
    serum = Serum(question.site.stock.serum_l, _serum_good_until(question, question.first))
    lots: list[BranLot] = []
    for need in _needs(used, question):
        if question.site.stock.bran_from == "bought":
            lots.append(_bought(len(lots) + 1, need, question.speech))
            continue
        lot, serum = _made(question, len(lots) + 1, need, used, serum=serum)
        lots.append(lot)
    return tuple(replace(each, cost=_cost(each, question.site.stock)) for each in lots)


def _cost(lot: BranLot, stock: Stock) -> float | None:
    """Return what a lot costs, as far as the site file says what things cost."""
    prices = {
        "bran": stock.bran_price_per_kg,
        "ready bran": stock.bran_price_per_kg,
        "wheat bran": stock.carrier_price_per_kg,
        "sugar": stock.sugar_price_per_kg,
    }
    known = [amount * price for thing, amount, _ in lot.shopping if (price := prices.get(thing)) is not None]
    return sum(known) if known else None


def bran_on_hand(question: Question, life: Life, lots: tuple[BranLot, ...]) -> tuple[tuple[date, float], ...]:
    """Return the bran in the bag at the end of each day, lots that are bought included."""
    comes: dict[date, float] = {}
    for lot in lots:
        made = lot.bran_kg if any(kind == "bag" for kind, _, _ in lot.steps) else 0.0
        comes[lot.usable_on] = comes.get(lot.usable_on, 0.0) + made
        bought_on = next((on for kind, on, _ in lot.steps if kind == "buy"), lot.usable_on)
        comes[bought_on] = comes.get(bought_on, 0.0) + lot.bought_kg
    held = question.site.stock.bran_kg
    found = []
    for on, used in _used_by_day(question, life):
        held = max(held + comes.get(on, 0.0) - used, 0.0)
        found.append((on, held))
    return tuple(found)


def _used_by_day(question: Question, life: Life) -> list[tuple[date, float]]:
    used = {question.first + timedelta(days=each): 0.0 for each in range(question.days)}
    for load in life.loads:
        used[load.on] += load.contents.bran_kg
    return sorted(used.items())


def _needs(used: list[tuple[date, float]], question: Question) -> Iterator[Need]:
    """Give one need after another, from the day on which the bran on hand is used up or too old."""
    known = question.knowledge.inoculum
    stock = question.site.stock
    on_hand = Lot(stock.bran_made_on or question.first, max(stock.bran_kg, 0.0))
    good_until = bran_keeps_until(on_hand, question.climate.indoors_c, known).middle
    lot_d = bran_keeps_d(question.climate.indoors_c, known).value
    left = stock.bran_kg
    first: date | None = None
    gathered = 0.0
    for on, mass_kg in used:
        if first is None:
            left = left if on <= good_until else 0.0
            left -= mass_kg
            if left >= 0.0:
                continue
            first, gathered = on, -left
        else:
            gathered += mass_kg
        if (on - first).days + 1 >= lot_d:
            yield Need(first, on, gathered)
            first, gathered, left = None, 0.0, 0.0
    if first is not None and gathered > 1e-9:
        yield Need(first, used[-1][0], gathered)


def _bought(number: int, need: Need, speech: Speech) -> BranLot:
    steps = (("buy", need.first, f"Buy {speech.kg(need.bran_kg)} of bran"),)
    return BranLot(number, need.bran_kg, need.first, need.last, need.bran_kg, steps, (("bran", need.bran_kg, "kg"),))


def _made(
    question: Question, number: int, need: Need, used: list[tuple[date, float]], *, serum: Serum
) -> tuple[BranLot, Serum]:
    """Return a lot that is made at home, and the serum left after it; what comes too late is bought."""
    known = question.knowledge.inoculum
    room_c = culture_c(question)
    need = replace(need, bran_kg=max(need.bran_kg, LEAST_BRAN_KG))
    wanted_l = bran_batch(need.bran_kg, known).serum_l
    link: Link = "serum" if serum.litres >= wanted_l and serum.good_until >= need.first else "rice_wash"
    earliest = after(question.first, days_ahead(room_c, known, from_link=link).value)
    usable = max(need.first - timedelta(days=MARGIN_D), earliest)
    late_kg = sum(mass_kg for on, mass_kg in used if need.first <= on < usable and on <= need.last)
    if late_kg >= need.bran_kg - 1e-9:
        return _bought(number, need, question.speech), serum
    batch = bran_batch(need.bran_kg - late_kg, known)
    dates = schedule_backwards(usable, room_c, known, from_link=link)
    made = _milk(batch, question) if link == "rice_wash" else None
    lot = BranLot(
        number,
        batch.bran_kg,
        usable,
        need.last,
        late_kg,
        tuple(_steps(question, batch, dates, made=made, late_kg=late_kg)),
        _shopping(batch, made, late_kg),
    )
    if made and dates.serum_on:
        serum = Serum(made.serum_l, _serum_good_until(question, dates.serum_on))
    return lot, replace(serum, litres=serum.litres - batch.serum_l)


@dataclass(frozen=True)
class Milk:
    """One souring of milk: a jar that is worth the work, not the spoonful that a small batch of bran needs."""

    milk_l: float
    rice_wash_l: float
    rice_kg: float
    serum_l: float


def _milk(batch: BranBatch, question: Question) -> Milk:
    times = max(1.0, LEAST_MILK_L / batch.milk_l)
    yield_l_per_l = question.knowledge.inoculum.serum_yield_l_per_l.value
    milk_l = batch.milk_l * times
    return Milk(milk_l, batch.rice_wash_l * times, batch.rice_kg * times, milk_l * yield_l_per_l)


def _serum_good_until(question: Question, strained_on: date) -> date:
    return serum_keeps_until(strained_on, FRIDGE_C, question.knowledge.inoculum).middle


def culture_c(question: Question) -> float:
    """Return the temperature at which the cultures are kept: the kitchen's, or a warm corner where that is too cold."""
    return min(max(question.climate.indoors_c, CULTURE_LEAST_C), CULTURE_MOST_C)


def _steps(
    question: Question, batch: BranBatch, dates: BranSchedule, *, made: Milk | None, late_kg: float
) -> Iterator[tuple[str, date, str]]:
    """Give the steps of a lot; the one that takes a work day is moved to the one before."""
    kg, litres = question.speech.kg, question.speech.litres
    if late_kg > 0.0:
        yield "buy", question.first, f"Buy {kg(late_kg)} of ready bran, to last until the first batch is dry"
    if made and dates.rice_wash_on and dates.milk_on and dates.serum_on:
        yield "rice", dates.rice_wash_on, f"Set {litres(made.rice_wash_l)} of rice-wash water to sour"
        yield "milk", dates.milk_on, f"Stir the rice-wash water into {litres(made.milk_l)} of milk"
        kept = f", keep what is left of it cold ({litres(made.serum_l)} in all)"
        yield "strain", dates.serum_on, f"Lift the curd and strain off the serum{kept}"
    liquid = f"{litres(batch.serum_l)} of serum and {kg(batch.sugar_kg)} of sugar into {litres(batch.water_l)} of water"
    what = f"Stir {liquid}, wet {kg(batch.carrier_kg)} of wheat bran with it and pack it airtight"
    yield "mix", max(last_on(dates.mix_on, question.site.keeper.days), dates.serum_on or question.first), what
    yield "dry", dates.dry_on, f"Spread the bran thinly to dry: {kg(batch.bran_kg)} when dry"
    yield "bag", dates.usable_on, f"Bag {kg(batch.bran_kg)} of dry bran and write the date on it"


def _shopping(batch: BranBatch, made: Milk | None, late_kg: float) -> tuple[tuple[str, float, str], ...]:
    bought = (("ready bran", late_kg, "kg"),) if late_kg > 0.0 else ()
    milk = (("milk", made.milk_l, "L"), ("rice, for its wash water", made.rice_kg, "kg")) if made else ()
    return (*bought, ("wheat bran", batch.carrier_kg, "kg"), ("sugar", batch.sugar_kg, "kg"), *milk)
