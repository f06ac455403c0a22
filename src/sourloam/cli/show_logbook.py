"""The logbook as text for a terminal: what was written, what was said, what to do today."""

from collections.abc import Iterable, Iterator
from datetime import date, datetime

from sourloam.cli.lines import listed, wrapped
from sourloam.plan.words import days, when
from sourloam.views.forecast import KeptForecast, aged
from sourloam.views.logbook import LineView
from sourloam.views.past import PastView
from sourloam.views.status import StatusView
from sourloam.views.today import Job, TodayView

MOST_REFUSED = 12  # rows that are told one by one
QUIET_D = 7  # days without an entry that are told of
NAME = 14  # columns for what something is called


def history_text(lines: Iterable[LineView]) -> str:
    """Return the lines of the logbook."""
    return "\n".join(each for line in lines for each in _line(line))


def _line(line: LineView) -> Iterator[str]:
    state = " (taken back)" if line.is_gone else ""
    yield from wrapped(f"{line.on.isoformat()}  {line.id:<12}  ", f"{line.says}{state}")
    if line.mark and not line.is_gone:
        yield from wrapped(f"{'':<26}? ", line.mark)
    if line.clash and not line.is_gone:
        yield from wrapped(f"{'':<26}! ", f"does not fit, and counts for nothing: {line.clash}")


def today_text(view: TodayView) -> str:
    """Return today as a page of text: what to do first, then how things stand."""
    blocks = (
        _head(view),
        _jobs(view.now),
        _next(view),
        _stands(view),
        _forecasts(view),
        _stocks(view),
        listed("This does not fit in the record, and counts for nothing until it is put right", view.clashes),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def _head(view: TodayView) -> Iterator[str]:
    count = len(view.now)
    what = "nothing to do but empty the caddy" if not count else f"{count} thing{'' if count == 1 else 's'} to do"
    yield from wrapped("", f"{view.site}, {view.on:%a} {when(view.on)} {view.on.year}: {what}.")
    yield from _silence(view.on, view.last_on)


def _silence(on: date, last_on: date | None) -> Iterator[str]:
    if last_on and (silent := (on - last_on).days) > QUIET_D:
        yield from wrapped("", f"Nothing was written down for {days(silent)}: all below is reckoned from before that.")


def _jobs(jobs: Iterable[Job]) -> Iterator[str]:
    for number, each in enumerate(jobs, start=1):
        late = " (overdue)" if each.is_overdue else ""
        yield from wrapped(f"  {number}. ", f"{each.what}{late}. {each.because}".strip())


def _next(view: TodayView) -> Iterator[str]:
    if not view.next:
        return
    yield "In the next week"
    before = None
    for each in view.next:
        day = f"  {each.on:%a} {when(each.on):>6}  " if each.on != before else " " * 14
        yield from wrapped(day, f"{each.what}.", hang=0)
        before = each.on


def _stands(view: TodayView) -> Iterator[str]:
    yield "How it stands, by the record"
    width = max((min(len(each.name), NAME) for each in view.vessels), default=0)
    for each in view.vessels:
        yield from wrapped(f"  {each.name:<{width}}  ", each.says)


def _forecasts(view: TodayView) -> Iterator[str]:
    if not view.forecasts:
        return
    yield "Forecast"
    for each in view.forecasts:
        stale = "" if each.is_current else "; something was written down since: sourloam forecast"
        yield from wrapped(f"  {each.name}  ", f"{each.says} ({each.age}{stale})")


def _stocks(view: TodayView) -> Iterator[str]:
    yield "In the cupboard"
    for thing, amount in view.stocks:
        yield f"  {thing:<{NAME}}  {amount}"


def forecasts_text(
    kept: Iterable[KeptForecast], new: tuple[str, ...], failed: tuple[tuple[str, str], ...], now: datetime
) -> str:
    """Return the kept forecasts, with their age."""
    told = [f"{each.batch}: {each.says} ({aged(each.made, now)})" for each in kept]
    lines = [line for each in told for line in wrapped("", each, hang=2)]
    lines += [line for batch, why in failed for line in wrapped("  ! ", f"{batch} cannot be forecast: {why}")]
    if not lines:
        return "Nothing is in a vessel that could be forecast."
    if not new:
        lines.append("Nothing was written down since; these hold.")
    return "\n".join(lines)


def status_text(view: StatusView) -> str:
    """Return how everything stands as a page of text."""
    return "\n".join(_status(view))


def _status(view: StatusView) -> Iterator[str]:
    used, count = sum(bool(each.batch) for each in view.shelf), len(view.shelf)
    day = f"{view.on:%a} {when(view.on)} {view.on.year}"
    yield from wrapped("", f"{view.site}, {day}: {used} of {count} vessels in use.")
    yield from _silence(view.on, view.last_on)
    shelf = ((each.name, f"{each.says} ({each.batch})" if each.batch else each.says) for each in view.shelf)
    for head, rows in (
        ("The shelf", shelf),
        ("The cupboard", view.stocks),
        ("The ground", ((each.name, each.says) for each in view.ground)),
    ):
        yield from ("", head)
        yield from _table(tuple(rows))
    ended, failed = view.batches
    if ended:
        yield f"\n{ended} batch{'' if ended == 1 else 'es'} seen to the end, {failed or 'none'} of them failed."


def _table(rows: tuple[tuple[str, str], ...]) -> Iterator[str]:
    width = max((len(name) for name, _ in rows), default=0)
    for name, says in rows:
        yield from wrapped(f"  {name:<{width}}  ", says)


def past_text(view: PastView) -> str:
    """Return what a table would become, or became."""
    return "\n".join(_kept_past(view) if view.is_kept else _shown_past(view))


def _shown_past(view: PastView) -> Iterator[str]:
    yield f"{view.file}: {view.rows} rows. Each column is taken for"
    yield from _table(tuple((name, _taken_for(field, unit)) for name, field, unit in view.columns))
    yield "So the first rows read"
    yield from _table(tuple((on, words or "nothing: this row says nothing") for on, words in view.first))
    yield "Nothing is kept yet. As it should be? Add --yes; else say it: --map COLUMN=FIELD."


def _taken_for(field: str, unit: str) -> str:
    if not field:
        return "nothing; it is left out"
    return f"{field}, in {unit}" if unit else field


def _kept_past(view: PastView) -> Iterator[str]:
    if view.refused and not view.new:
        yield "Nothing was kept: mend these rows, or keep the rest with --rest."
    else:
        there = f" {view.known} stood there already." if view.known else ""
        yield f"{view.new} of {view.rows} rows kept.{there}"
    for number, why in view.refused[:MOST_REFUSED]:
        yield from wrapped(f"  row {number}: ", why, hang=0)
    if len(view.refused) > MOST_REFUSED:
        yield f"  and {len(view.refused) - MOST_REFUSED} more"
    if view.aside:
        yield f"All of them, each with its reason: {view.aside}"
