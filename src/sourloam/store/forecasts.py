"""What was forecast of the batches of a site, kept beside the lines: the last one of each."""

from collections.abc import Iterable
from typing import NamedTuple

import sqlalchemy as sa

from sourloam.store import kept
from sourloam.store.engine import Where, at, lock
from sourloam.store.tables import FORECAST


class Row(NamedTuple):
    """One forecast, and what it was made from."""

    batch: str
    entry: str  # what stood in the book about the batch
    model: str
    seed: int
    made: str  # UTC
    text: str


def forecasts(where: Where, site: str) -> tuple[Row, ...]:
    """Return the forecasts of a site, whatever their age."""
    with kept.looking(where) as connection:
        if not kept.is_there(connection):
            return ()
        columns = [FORECAST.c[each] for each in Row._fields]
        chosen = sa.select(*columns).where(FORECAST.c.site == site).order_by(FORECAST.c.batch)
        return tuple(Row(*each) for each in connection.execute(chosen))


def put(where: Where, site: str, row: Row) -> None:
    """Keep a forecast in place of the one before it."""
    with at(where) as engine, engine.execution_options(writes=True).begin() as connection:
        lock(connection, site)
        kept.made(connection)
        same = (FORECAST.c.site == site, FORECAST.c.batch == row.batch)
        connection.execute(sa.delete(FORECAST).where(*same))
        connection.execute(sa.insert(FORECAST).values(site=site, **row._asdict()))


def drop_others(where: Where, site: str, batches: Iterable[str]) -> None:
    """Drop the forecasts of batches that are no longer in a vessel."""
    with at(where) as engine, engine.execution_options(writes=True).begin() as connection:
        lock(connection, site)
        if kept.is_there(connection):
            gone = FORECAST.c.batch.not_in(tuple(batches))
            connection.execute(sa.delete(FORECAST).where(FORECAST.c.site == site, gone))
