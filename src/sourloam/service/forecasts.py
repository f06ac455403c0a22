"""Use case: the forecasts of the batches that are in vessels now, kept with what they were made from and when.

`refresh` is what a worker calls, on the command line or beside a server; readers take what is there, with its age.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Final

from sourloam.base.errors import BadInput
from sourloam.base.figure import SEED
from sourloam.logbook.state import BatchRecord
from sourloam.service.batches import AskedBatch
from sourloam.service.book import Book, Known, now_utc
from sourloam.service.ferment import Compiler
from sourloam.service.forecast_kept import kept_forecasts, key_of, model_of
from sourloam.service.named import Named, of_book
from sourloam.service.watch import AskedWatch, watched
from sourloam.store import forecasts as rows
from sourloam.store.forecasts import Row
from sourloam.views.forecast import KeptForecast, kept_object
from sourloam.views.watch import WatchView

MEMBERS: Final = 300  # enough for a date to the day and a chance to 1 in 20

Says = Callable[[str], None]


@dataclass(frozen=True)
class Refreshed:
    """What a worker did: the forecasts as they now are, which of them are new, and what could not be forecast."""

    kept: tuple[KeptForecast, ...]
    new: tuple[str, ...]
    failed: tuple[tuple[str, str], ...] = ()


def refresh(
    book: Book,
    known: Known,
    *,
    compiler: Compiler | None = None,
    says: Says | None = None,
    members: int = MEMBERS,
    on: date | None = None,
) -> Refreshed:
    """Work out the forecasts that are missing or were made from something else, and keep them.

    Each is kept as soon as it is known, so that a worker that is stopped loses one at the most. A batch of which
    nothing can be forecast is named with the reason, and the others go on.

    Raises
    ------
    Surroundings
        If the book cannot be written.
    """
    named = of_book(book, known)
    wanted = _wanted(named)
    held = {each.batch: each for each in rows.forecasts(book.where, book.site)}
    new, failed = [], []
    for record in wanted:
        key = key_of(record, named.state, known)
        before = held.get(record.id)
        if before is not None and (before.entry, before.model, before.seed) == (key, model_of(known, members), SEED):
            continue
        if says:
            says(f"Forecasting {record.id}")
        try:
            view = _forecast(named, record, members=members, compiler=compiler, on=on)
        except BadInput as bad:
            failed.append((record.id, str(bad)))
            continue
        text = json.dumps(kept_object(view) | before_of(before), ensure_ascii=False)
        row = Row(record.id, key, model_of(known, members), SEED, now_utc().isoformat(), text)
        rows.put(book.where, book.site, row)
        new.append(record.id)
    rows.drop_others(book.where, book.site, [each.id for each in wanted])
    return Refreshed(tuple(kept_forecasts(book, known).values()), tuple(new), tuple(failed))


def before_of(row: Row | None) -> dict[str, Any]:
    """Return when the forecast before this one was made and what it said, so that a change can be told."""
    if row is None:
        return {}
    held = json.loads(row.text)
    return {"before": {"made": row.made, "says": held["says"], "dates": held["dates"]}}


def _wanted(named: Named) -> tuple[BatchRecord, ...]:
    """Return the batches that are in vessels and have not failed."""
    state = named.state
    if state is None:
        return ()
    used = (each for each in state.must()[1].vessels if each.phase != "empty")
    return tuple(record for record in map(state.batch, used) if not record.failed)


def _forecast(
    named: Named, record: BatchRecord, *, members: int, compiler: Compiler | None, on: date | None
) -> WatchView:
    today = on or named.today()
    first = record.began_on
    asked = AskedBatch((record.id,), members=members, named=named)
    day = max((today - first) // timedelta(days=1), 0)
    return watched(AskedWatch(asked, day=day, is_advised=False), compiler=compiler)
