"""Views as text for a terminal: 80 columns, calm, nothing that a pipe could not carry."""

import textwrap
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from itertools import groupby
from typing import Final

from sourloam.cli.lines import WIDTH, listed, wrapped
from sourloam.plan.answer import Batch, Task
from sourloam.plan.words import Speech, days, money, when
from sourloam.views.plan import PlanView
from sourloam.views.reason import Number, Reason
from sourloam.views.spoken import said, said_range

SOON_D: Final = 28
MOST_STALLS: Final = 6
WORDS: Final = 51  # columns for what a number is about
LONGEST_BATCH: Final = 14  # letters of a batch that stands in the table; longer ones get a line of their own


def plan_text(view: PlanView) -> str:
    """Return the plan as a page of text."""
    blocks = (  # what to know and do first; what to look up after that
        _head(view),
        listed("Is this right?", view.asks),
        _stalls(view),
        _soon(view),
        listed("It would help", view.hints),
        listed("With care", view.cautions),
        _numbers(view),
        _vessels(view),
        _bran(view),
        _ground(view),
        listed("Assumed, where the site file says nothing", view.assumptions),
        _foot(view),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def reason_text(reason: Reason, speech: Speech) -> str:
    """Return a reason as a tree: formula, inputs, sources."""
    return "\n".join(_reason(reason, 0, set(), speech))


def _head(view: PlanView) -> Iterator[str]:
    yield from textwrap.wrap(f"{view.site}, {_full(view.first)} to {_full(view.last)}", WIDTH)
    yield ""
    yield from textwrap.wrap(" ".join(view.summary), WIDTH)


def _numbers(view: PlanView) -> Iterator[str]:
    speech = view.speech
    year = "In numbers, as if nothing stalled" if view.stalls else "In numbers"
    yield f"{year} (in brackets: nine years in ten lie between)"
    for each in view.numbers:
        value, interval = spoken(each, speech)
        first, *rest = textwrap.wrap(speech.warmths(each.words), WORDS) or [""]
        line = f"  {first:<{WORDS}} {value:>10}"
        fits = len(line) + len(interval) <= WIDTH
        yield f"{line}  {interval}".rstrip() if fits else line
        yield from (f"    {each}" for each in (rest if fits else [*rest, interval]))


def spoken(number: Number, speech: Speech) -> tuple[str, str]:
    """Return a number and, in brackets, its interval."""
    between = said_range(number, speech)
    return said(number, speech), f"({between})" if between else ""


def _stalls(view: PlanView) -> Iterator[str]:
    if not view.stalls:
        return
    yield "When scraps have nowhere to go, and why"
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
            yield from wrapped(f"  {left:<18} ", f"{cure.what}?")


def _soon(view: PlanView) -> Iterator[str]:
    until = _soon_until(view)
    soon = [each for each in view.tasks if each.date < until]
    yield f"The first {days((until - view.first).days)}"
    if not soon:
        yield "  Nothing to do but empty the caddy."
    before = None
    for on, what in _merged(soon):
        day = f"  {_weekday(on)} {when(on):>6}  " if on != before else " " * 14
        yield from wrapped(day, what, hang=0)
        before = on


def _soon_until(view: PlanView) -> date:
    """Return the day up to which jobs are shown: four weeks, or on until the first batch has been placed."""
    four_weeks, eight_weeks = (view.first + timedelta(days=each) for each in (SOON_D, 2 * SOON_D))
    placed = (each.date + timedelta(days=1) for each in view.tasks if each.id.startswith("place:"))
    return min(max(next(placed, four_weeks), four_weeks), eight_weeks)


def _merged(tasks: Iterable[Task]) -> Iterator[tuple[date, str]]:
    """Give each task as a sentence with its reason; those that follow each other and share it say it once."""
    for (on, because), group in groupby(tasks, key=lambda each: (each.date, _because(each))):
        whats = [each.what for each in group]
        yield on, " ".join([*(f"{each}." for each in whats), because]).rstrip()


def _because(task: Task) -> str:
    return "" if task.id.startswith("draw:") else task.because


def _vessels(view: PlanView) -> Iterator[str]:
    width = min(max(len(each.id) for each in view.batches), LONGEST_BATCH) if view.batches else 0
    yield "The batches (ready: about when, and between which days; +1: and one more place)"
    yield f"  {'batch':<{width}} {'from':>6} {'sealed':>7} {'ready':>6} {'':<16} {'placed':>6}  where"
    for each in view.batches:
        yield from _batch(each, view, width)


def _batch(batch: Batch, view: PlanView, width: int) -> Iterator[str]:
    ready, between = "", ""
    if batch.sealed is not None:
        ready = when(batch.ready) if batch.ready else "not"
        late = when(batch.ready_high) if batch.ready_high else "later"
        between = f"{when(batch.ready_low)} to {late}" if batch.ready_low else "this year"
    sealed = when(batch.sealed) if batch.sealed else "filling"
    placed = when(batch.placed) if batch.placed else ("waits" if batch.waits_for else "")
    dates = f"{when(batch.first_layer):>6} {sealed:>7} {ready:>6} {between:<16} {placed:>6}"
    id_ = batch.id
    if len(id_) > width:  # a long one has its own line
        yield f"  {id_}"
        id_ = ""
    yield from wrapped(f"  {id_:<{width}} {dates}  ", _where(batch, view))


def _where(batch: Batch, view: PlanView) -> str:
    """Name the place that takes the most, and how many more there are."""
    if batch.place is None:
        return batch.waits_for
    more = len({each.place for each in batch.placings}) - 1
    return view.names.get(batch.place, batch.place) + (f" +{more}" if more else "")


def _bran(view: PlanView) -> Iterator[str]:
    if not view.bran:
        return
    yield "The bran"
    for lot in view.bran:
        begun = next((on for kind, on, _ in lot.steps if kind != "buy"), None)
        made = f"begun {when(begun)}, dry {when(lot.usable_on)}" if begun else f"bought by {when(lot.usable_on)}"
        yield f"  bran/{lot.number:<3} {view.speech.kg(lot.bran_kg):>8}  {made}, lasts until {when(lot.lasts_until)}"
        things = ", ".join(f"{view.speech.amount(mass, unit)} {thing}" for thing, mass, unit in lot.shopping)
        if begun is not None:
            yield from wrapped("           needs ", things)
        if lot.cost is not None:
            yield f"           costs {money(lot.cost, view.currency)}, as far as prices are known"


def _ground(view: PlanView) -> Iterator[str]:
    yield "Where it goes"
    for each in view.ground:
        name = view.names.get(each.place, each.place)
        got = view.speech.kg(each.got_kg) if each.got_kg else "nothing"
        nitrogen = f", {each.nitrogen_g_per_m2:.1f} g nitrogen/m2" if each.nitrogen_g_per_m2 else ""
        first, *rest = textwrap.wrap(name, WORDS)
        yield f"  {first:<24} {got:>8}{nitrogen}"
        yield from (f"    {line}" for line in rest)
        for (crop, on, warning), harvest in zip(each.plantings, each.harvests, strict=True):
            later = f"; {harvest}" if harvest else ""
            yield from wrapped("    ", f"{crop} on {when(on)}: {warning or 'in time'}{later}")


def _foot(view: PlanView) -> Iterator[str]:
    yield "Why? sourloam plan SITE --why bran opens that figure; so for every other one."
    yield "All of it: sourloam plan SITE --json, or --out FOLDER."


def _reason(reason: Reason, depth: int, told: set[str], speech: Speech) -> Iterator[str]:
    """Tell a reason; what was told above is not told again."""
    value, interval = spoken(reason.number, speech)
    indent = "  " * depth
    again = " (as above)" if reason.inputs and reason.number.name in told else ""
    words = speech.warmths(reason.number.words)
    yield from wrapped(indent, f"{words}: {f'{value} {interval}'.rstrip()}{again}", hang=4)
    if again:
        return
    told.add(reason.number.name)
    if reason.formula:
        yield from wrapped(f"{indent}  = ", speech.warmths(reason.formula))
    if reason.model:
        yield from wrapped(f"{indent}  by ", reason.model)
    if reason.strongest:
        yield from wrapped(f"{indent}  moved most by: ", speech.warmths("; ".join(reason.strongest)))
    if reason.origin:
        yield from wrapped(f"{indent}  from: ", f"{reason.origin.removeprefix('from ')}.")
    for each in reason.inputs:
        yield from _reason(each, depth + 1, told, speech)


def _full(day: date) -> str:
    return f"{when(day)} {day.year}"


def _weekday(day: date) -> str:
    return f"{day:%a}"
