"""Views as text for a terminal: 80 columns, calm, nothing that a pipe could not carry."""

import math
import textwrap
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Final

from sourloam.plan.answer import Batch
from sourloam.plan.words import days, kg, litres, when
from sourloam.views.plan import PlanView
from sourloam.views.reason import Number, Reason

WIDTH: Final = 78
SOON_D: Final = 28
MOST_STALLS: Final = 6
UNITS: Final = {
    "kg": "kg",
    "L": "L",
    "d": "days",
    "1": "",
    "{vessel}": "",
    "Cel": "°C",
    "g/kg": "g/kg",
    "kg/L": "kg/L",
    "mol/kg": "mol/kg",
}


def plan_text(view: PlanView) -> str:
    """Return the plan as a page of text."""
    blocks = (
        _head(view),
        _numbers(view.numbers),
        _stalls(view),
        _soon(view),
        _vessels(view),
        _bran(view),
        _ground(view),
        _list("It would help", view.hints),
        _list("Is this right?", view.asks),
        _list("With care", view.cautions),
        _list("Assumed, where the site file says nothing", view.assumptions),
        _foot(view),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def reason_text(reason: Reason) -> str:
    """Return a reason as a tree: formula, inputs, sources."""
    return "\n".join(_reason(reason, 0))


def _head(view: PlanView) -> Iterator[str]:
    yield f"{view.site}, {_full(view.first)} to {_full(view.last)}"
    yield ""
    yield from textwrap.wrap(" ".join(view.summary), WIDTH)


def _numbers(numbers: Iterable[Number]) -> Iterator[str]:
    yield "In numbers (in brackets: nine years in ten lie between)"
    for each in numbers:
        value, interval = spoken(each)
        yield f"  {each.words:<52.52} {value:>10}  {interval}".rstrip()


def spoken(number: Number) -> tuple[str, str]:
    """Return a number and its interval in words, no digit smaller than a tenth of the interval."""
    if number.value is None or number.low is None or number.high is None:
        return "never", "in no case that was tried"
    step = 1.0 if number.unit.startswith("{") else max((number.high - number.low) / 10.0, 10**-9)
    unit = UNITS.get(number.unit, number.unit)
    shown = [_rounded(each, step, number.value) for each in (number.value, number.low, number.high)]
    never = f", never in {round(100 * number.never_frac)} of 100" if number.never_frac >= 0.005 else ""
    if number.is_exact or shown[1] == shown[2]:
        return f"{shown[0]} {unit}".strip(), never.removeprefix(", ")
    return f"{shown[0]} {unit}".strip(), f"({shown[1]} to {shown[2]}{never})"


def _rounded(value: float, step: float, size: float) -> str:
    """Round to a power of ten not above `step`, and to three digits of the size at most."""
    digits = -math.floor(math.log10(step))
    most = 2 - math.floor(math.log10(abs(size))) if size else 0
    places = min(digits, most)
    return f"{round(value, places):.{max(places, 0)}f}"


def _stalls(view: PlanView) -> Iterator[str]:
    if not view.stalls:
        return
    yield "When scraps have nowhere to go"
    for each in view.stalls[:MOST_STALLS]:
        why = "finished batches wait for a place" if each.binding == "places" else "all vessels still ferment"
        span = when(each.first) if each.first == each.last else f"{when(each.first)} to {when(each.last)}"
        yield f"  {span:<18} {why}"
    if len(view.stalls) > MOST_STALLS:
        yield f"  and {len(view.stalls) - MOST_STALLS} times more"
    if view.cures:
        yield "What if you ..."
        for cure in view.cures:
            left = "no stalled day" if cure.stalled_days == 0 else f"{days(cure.stalled_days)} stalled"
            yield f"  {left:<18} {cure.what}?"


def _soon(view: PlanView) -> Iterator[str]:
    soon = [each for each in view.tasks if each.date < view.first + timedelta(days=SOON_D)]
    yield f"The first {days(SOON_D)}"
    if not soon:
        yield "  Nothing to do but empty the caddy."
    for each in soon:
        because = "" if each.id.startswith("draw:") else f" {each.because}"
        yield from _wrapped(f"  {_weekday(each.date)} {when(each.date):>6}  ", f"{each.what}.{because}")


def _vessels(view: PlanView) -> Iterator[str]:
    yield "The batches (ready: forecast, and between which days)"
    yield f"  {'batch':<11} {'from':<7} {'sealed':<8} {'ready':<25} {'placed':<7} where"
    for each in view.batches:
        yield _batch(each, view)


def _batch(batch: Batch, view: PlanView) -> str:
    if batch.sealed is None:
        ready = ""
    elif batch.ready is None:
        ready = "not this year"
    else:
        late = when(batch.ready_high) if batch.ready_high else "later"
        ready = f"{when(batch.ready)} ({when(batch.ready_low)} to {late})"
    sealed = when(batch.sealed) if batch.sealed else "filling"
    placed = when(batch.placed) if batch.placed else ("waits" if batch.waits_for else "")
    where = view.names.get(batch.place, batch.place) if batch.place else batch.waits_for
    more = f" +{len(batch.placings) - 1}" if len(batch.placings) > 1 else ""
    room = WIDTH - 65 - len(more)
    dates = f"{when(batch.first_layer):<7} {sealed:<8} {ready:<25} {placed:<7}"
    return f"  {batch.id:<11} {dates} {where:.{room}}{more}".rstrip()


def _bran(view: PlanView) -> Iterator[str]:
    if not view.bran:
        return
    yield "The bran"
    for lot in view.bran:
        begun = next((on for kind, on, _ in lot.steps if kind != "buy"), None)
        made = f"begun {when(begun)}, dry {when(lot.usable_on)}" if begun else f"bought by {when(lot.usable_on)}"
        yield f"  bran/{lot.number:<3} {kg(lot.bran_kg):>8}  {made}, lasts until {when(lot.lasts_until)}"
        things = ", ".join(f"{_amount(amount, unit)} {thing}" for thing, amount, unit in lot.shopping)
        yield from _wrapped("           needs ", things)


def _amount(amount: float, unit: str) -> str:
    return kg(amount) if unit == "kg" else litres(amount)


def _ground(view: PlanView) -> Iterator[str]:
    yield "Where it goes"
    for each in view.ground:
        name = view.names.get(each.place, each.place)
        got = kg(each.got_kg) if each.got_kg else "nothing"
        nitrogen = f", {each.nitrogen_g_per_m2:.1f} g nitrogen/m2" if each.nitrogen_g_per_m2 else ""
        yield f"  {name:<24} {got:>8}{nitrogen}"
        for crop, on, warning in each.plantings:
            yield from _wrapped("    ", f"{crop} on {when(on)}: {warning or 'in time'}")


def _list(title: str, lines: tuple[str, ...]) -> Iterator[str]:
    if not lines:
        return
    yield title
    for each in lines:
        yield from _wrapped("  - ", each)


def _foot(view: PlanView) -> Iterator[str]:
    yield "Why? sourloam plan SITE --why bran opens that figure; so for every other one."
    yield "All of it: sourloam plan SITE --json, or --out FOLDER."


def _reason(reason: Reason, depth: int) -> Iterator[str]:
    value, interval = spoken(reason.number)
    indent = "  " * depth
    typed = f' (you wrote "{reason.typed}")' if reason.typed else ""
    yield from _wrapped(indent, f"{reason.number.words}: {value} {interval}{typed}".rstrip(), hang=4)
    if reason.formula:
        yield from _wrapped(f"{indent}  = ", reason.formula)
    if reason.model:
        yield from _wrapped(f"{indent}  by ", reason.model)
    if reason.strongest:
        yield from _wrapped(f"{indent}  moved most by: ", "; ".join(reason.strongest))
    if reason.source:
        place = f", {reason.place}" if reason.place else ""
        yield from _wrapped(
            f"{indent}  source: ", f"{reason.source.rstrip('.')}{place}. {reason.basis[:1].upper()}{reason.basis[1:]}."
        )
    for each in reason.inputs:
        yield from _reason(each, depth + 1)


def _wrapped(first: str, text: str, *, hang: int | None = None) -> Iterator[str]:
    rest = " " * (len(first) if hang is None else len(first) + hang)
    yield from textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=rest) or [first.rstrip()]


def _full(day: date) -> str:
    return f"{when(day)} {day.year}"


def _weekday(day: date) -> str:
    return f"{day:%a}"
