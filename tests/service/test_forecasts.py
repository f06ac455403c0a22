"""Kept forecasts: made from the record, valid until something about the batch changes, and what today goes by."""

from datetime import UTC, date, datetime, timedelta

import pytest

from sourloam.logbook import entries as of
from sourloam.logbook.entry import plain
from sourloam.science.ferment.kernel import live_all
from sourloam.service.assemble import known_of
from sourloam.service.batch_of_book import batch_of_record, readings_of
from sourloam.service.book import Book
from sourloam.service.forecast_kept import kept_forecasts
from sourloam.service.forecasts import refresh
from sourloam.service.named import of_book
from sourloam.service.record import By, log_value
from sourloam.service.today import today
from sourloam.store import log
from tests.logbook.days import book as entries_of
from tests.logbook.days import known, layer

KNOWN = known()
ON = date(2027, 3, 20)
MEMBERS = 100


@pytest.fixture
def book(tmp_path):
    made = Book(str(tmp_path / "book.sourloam"), "yard")
    days = ((0, layer()), (2, layer(kg=2.0)), (4, of.Remedy("blue-1", "more bran", 0.1)), (5, of.Sealed("blue-1")))
    held = entries_of(*days, (9, of.Reading("blue-1", ph=4.0)), (9, of.Reading("blue-1", smell="purple")))
    log.append(made.where, made.site, [], lambda _: [(each.id, log.text_of(plain(each))) for each in held])
    return made


def refreshed(book):
    return refresh(book, KNOWN, compiler=live_all, members=MEMBERS, on=ON)


def test_a_batch_is_followed_as_it_was_laid_and_read(book):
    named = of_book(book, KNOWN)
    record = named.batches["blue-1/1"]
    batch = batch_of_record(named, record, known_of(50), members=50)
    assert [each.laid_d for each in batch.filling.layers] == [0.0, 2.0]
    assert [each.bran.mass.value for each in batch.filling.layers] == pytest.approx([0.06, 0.16])
    assert readings_of(record, batch.first) == (("day 9 strip 4",), ("day 9 smell purple",))


def test_a_forecast_is_kept_until_something_about_the_batch_changes(book):
    assert refreshed(book).new == ("blue-1/1",)
    assert refreshed(book).new == ()
    log_value(book, of.Stocked("bran", "bought", 1.0), By(on=ON), known=KNOWN)
    assert refreshed(book).new == ()
    right = of.Corrected("e3", {"vessel": "blue-1", "parts": [["vegetable-scraps", 4.0]], "bran_kg": 0.06})
    log_value(book, right, By(on=ON), known=KNOWN)
    assert not kept_forecasts(book, KNOWN)["blue-1/1"].is_current
    assert refreshed(book).new == ("blue-1/1",)
    assert kept_forecasts(book, KNOWN)["blue-1/1"].is_current


def test_the_forecast_of_a_batch_that_went_is_dropped_and_another_moves_its_task(book):
    kept = refreshed(book).kept[0]
    due = kept.due.middle
    assert kept.due.low <= due <= kept.due.high
    assert datetime.now(UTC) - kept.made < timedelta(hours=1)
    jobs = today(book, due - timedelta(days=2), known=KNOWN).next
    placing = next(each for each in jobs if each.id.startswith("place:"))
    assert placing.id == "place:blue-1/1"
    assert placing.on >= due
    log_value(book, of.Placed("blue-1", "long-bed"), By(on=due), known=KNOWN)
    assert refreshed(book).kept == ()


def test_a_batch_that_failed_is_not_forecast(book):
    log_value(book, of.Failed("blue-1", "putrid"), By(on=ON), known=KNOWN)
    assert refreshed(book).new == ()
