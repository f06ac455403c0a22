"""Trouble from outside: kills, a full disk, no right to write, somebody else's lock, clocks, two processes, nights."""

import resource
import sqlite3
import subprocess
import sys
import threading
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from sourloam.base.errors import BadInput, Surroundings
from sourloam.logbook import entries as of
from sourloam.logbook.entry import plain
from sourloam.logbook.fold import fold
from sourloam.service import record
from sourloam.service.book import Book, entries
from sourloam.service.record import By, log_value, verify
from sourloam.service.so_far import state_of
from sourloam.store import engine, log
from tests.architecture.tree import ROOT
from tests.logbook.days import SITE, entry, known, layer
from tests.logbook.days import book as entries_of

KNOWN = known()


@pytest.fixture
def book(tmp_path):
    made = Book(str(tmp_path / "book.sourloam"), "yard")
    fill(made, entries_of((0, layer())))
    return made


def fill(book, held):
    log.append(book.where, book.site, [], lambda _: [(each.id, log.text_of(plain(each))) for each in held])


@pytest.mark.parametrize(
    ("way", "rounds"), [("write", 80), ("import", 40), ("backup", 25), ("restore", 30), ("migrate", 25)]
)
def test_whatever_is_killed_every_acknowledged_entry_is_there_and_the_chain_holds(way, rounds, tmp_path):
    words = [sys.executable, "-m", "tests.store.killing", way, str(rounds), str(rounds), str(tmp_path)]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-2000:]
    assert f"{rounds} kills" in done.stdout


FULL = """
import sys
from sourloam.service.record import By, log_value
from sourloam.service.book import Book
from sourloam.logbook import entries as of
from sourloam.base.errors import Surroundings
from tests.logbook.days import known
from datetime import date
book = Book(sys.argv[1], "yard")
for at in range(2000):
    try:
        log_value(book, of.Note("x" * 300), By(id=f"n{at}", on=date(2027, 12, 1)), known=known())
    except Surroundings as full:
        print(full)
        sys.exit(7)
    print(f"n{at}", flush=True)
"""


def test_on_a_full_disk_it_is_said_and_nothing_acknowledged_is_lost(book):
    limit = Path(book.address).stat().st_size + 200_000

    def small():
        import signal

        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    words = [sys.executable, "-c", FULL, book.address]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False, preexec_fn=small)
    assert done.returncode == 7, done.stderr[-2000:]
    *told, said = done.stdout.splitlines()
    assert "Nothing was kept" in said
    assert {each.id for each in entries(book)} == {"e1", "e2", *told}
    assert verify(book) == (2 + len(told), ())


READ_ONLY = """
import os, sys
from sourloam.service.record import By, log_value
from sourloam.service.book import Book, entries
from sourloam.service.so_far import state_of
from sourloam.logbook import entries as of
from sourloam.base.errors import Surroundings
from tests.logbook.days import known
book = Book(sys.argv[1], "yard")
book_day = state_of(book, known()).last.on  # all is loaded
known().seen.clear()
if os.geteuid() == 0:
    os.setuid(65534)  # root may write whatever it is told not to
try:
    print(len(entries(book)), state_of(book, known()).counted)
except Surroundings as no:
    print("not read:", no)
try:
    log_value(book, of.Note("x"), By(on=book_day), known=known())
except Surroundings as no:
    print(no)
"""


def test_a_logbook_that_may_not_be_written_says_so_and_stays_as_it_is(book, tmp_path):
    state_of(book, KNOWN)
    Path(book.address).chmod(0o444)
    closed = [each for each in (tmp_path, *tmp_path.parents) if each.stat().st_mode & 0o005 != 0o005]
    for each in closed:
        each.chmod(0o755)
    words = [sys.executable, "-c", READ_ONLY, book.address]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    for each in closed:
        each.chmod(0o700)
    assert done.returncode == 0, done.stderr[-2000:]
    read, said = done.stdout.splitlines()
    assert read == "2 2"
    assert "may not be written. Nothing was kept" in said
    assert len(entries(book)) == 2


def test_somebody_elses_lock_is_waited_for_and_then_told(book, monkeypatch):
    monkeypatch.setattr(engine, "WAIT_S", 0.1)
    holder = sqlite3.connect(book.address, isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    with pytest.raises(Surroundings, match=r"is being written by something else\. Nothing was kept"):
        log_value(book, layer(), By(), known=KNOWN)
    holder.execute("ROLLBACK")
    holder.close()
    assert log_value(book, layer(), By(on=date(2027, 3, 9)), known=KNOWN).is_new


def test_a_clock_that_goes_backwards_loses_no_entry_and_breaks_no_order(book, monkeypatch):
    now = datetime(2027, 3, 20, 8, tzinfo=UTC)
    for hours in (0, -3, -2, 5, -1):
        monkeypatch.setattr(record, "now_utc", lambda at=hours: now + timedelta(hours=at))
        assert log_value(book, layer(kg=0.5), By(), known=KNOWN).is_new
    held = entries(book)
    assert [each.sequence for each in held] == list(range(1, 8))
    assert verify(book) == (7, ())
    assert state_of(book, KNOWN) == fold(held, KNOWN.knows)
    assert state_of(book, KNOWN).batches["blue-1/1"].layers == 6


USER = """
import sys
from sourloam.service.record import By, log_value
from sourloam.service.book import Book
from sourloam.logbook import entries as of
from sourloam.base.errors import BadInput
from tests.logbook.days import known
from datetime import date
kept = 0
for at in range(40):
    try:
        value = of.Stocked("bran", "used", 0.1)
        kept += log_value(Book(sys.argv[1], "yard"), value, By(on=date(2027, 3, 9)), known=known()).is_new
    except BadInput:
        pass
print(kept)
"""


def test_two_processes_use_no_bran_twice(book):
    words = [sys.executable, "-c", USER, book.address]
    both = [subprocess.Popen(words, cwd=ROOT, stdout=subprocess.PIPE, text=True) for _ in range(2)]
    kept = sum(int(each.communicate()[0]) for each in both)
    assert kept == 49  # of 4.94 kg, 100 g at a time
    state = state_of(book, KNOWN)
    assert state.situation.bran_kg == pytest.approx(0.04)
    assert state == fold(entries(book), KNOWN.knows)


def test_many_hands_of_one_server_lose_nothing(book):
    from sourloam.service.book import held_open

    def hand(engine_, name):
        for at in range(10):
            log_value(
                Book(book.address, "yard", engine_),
                of.Note(name),
                By(id=f"{name}{at}", on=date(2027, 12, 1)),
                known=KNOWN,
            )

    with held_open(book.address) as engine_:
        hands = [threading.Thread(target=hand, args=(engine_, each)) for each in "abcd"]
        for each in hands:
            each.start()
        for each in hands:
            each.join()
    assert verify(book) == (42, ())
    assert state_of(book, KNOWN) == fold(entries(book), KNOWN.knows)


PARIS = SITE.replace("start = 2027-03-01", 'start = 2027-03-01\ntime_zone = "Europe/Paris"')


@pytest.mark.parametrize(
    ("moments", "says"),
    [
        # The clock goes back at 01:00 UTC: half past two comes twice. European Union, Directive 2000/84/EC.
        (["2027-10-31T00:30", "2027-10-31T01:30"], ["2027-10-31T02:30:00+02:00", "2027-10-31T02:30:00+01:00"]),
        # It goes forward: half past two does not come at all.
        (["2027-03-28T00:30", "2027-03-28T01:30"], ["2027-03-28T01:30:00+01:00", "2027-03-28T03:30:00+02:00"]),
    ],
)
def test_a_night_on_which_clocks_change_keeps_the_order_of_what_happened(tmp_path, monkeypatch, moments, says):
    book = Book(str(tmp_path / "book.sourloam"), "yard")
    fill(book, [entry(of.SiteSet(PARIS), 0, sequence=1)])
    for moment, value in zip(moments, (layer(), of.Sealed("blue-1")), strict=True):
        at = datetime.fromisoformat(moment).replace(tzinfo=UTC)
        monkeypatch.setattr(record, "now_utc", lambda now=at: now)
        log_value(book, value, By(), known=KNOWN)
    held = entries(book)
    assert [each.happened.isoformat() for each in held[1:]] == says
    assert state_of(book, KNOWN).vessel("blue-1").phase == "fermenting"
    assert state_of(book, KNOWN) == fold(held, KNOWN.knows)


def test_a_time_zone_that_is_not_known_is_refused_in_words(tmp_path):
    path = tmp_path / "yard.toml"
    path.write_text(PARIS.replace("Europe/Paris", "Europe/Pairs"), "utf-8")
    with pytest.raises(BadInput, match=r'time_zone = "Europe/Pairs" is not known\. Did you mean Europe/Paris'):
        record.import_site(path, str(tmp_path / "book.sourloam"), By())
