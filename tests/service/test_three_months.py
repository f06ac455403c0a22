"""Three months of Quillet Yard replayed day by day with slips and corrections: every view agrees with what was so.

What was so is kept by `quarter.Yard` on its own, as plain numbers that know nothing of entries.
"""

import json
import random
import uuid
from datetime import timedelta

import psycopg
import pytest

from sourloam.logbook.fold import fold
from sourloam.service.book import Book, Known, entries, held_open
from sourloam.service.moving import export_lines, import_lines
from sourloam.service.record import By, correct, history, import_site, log_phrase, undo, verify
from sourloam.service.so_far import is_kept_right, state_of
from sourloam.service.today import status, today
from sourloam.store import log
from tests.architecture.tree import ROOT
from tests.service.quarter import FIRST, VESSELS, Yard, days

SITE = ROOT / "examples" / "quillet_yard.toml"
KNOWN = Known()
GRAM = 1e-3


class Keepers:
    """Two households at one logbook."""

    def __init__(self, folder, seed):
        address = str(folder / "book.sourloam")
        import_site(SITE, address, By("Ada", on=FIRST))
        self.stack = held_open(address)
        self.book = Book(address, "quillet-yard", self.stack.__enter__())
        bran = state_of(self.book, KNOWN).situation.bran_kg
        self.yard = Yard(random.Random(seed), bran)
        self.lines, self.late, self.seen = 1, [], {}

    def live(self, on):
        for words, day, then in self.yard.day(on):
            if then == "late":
                self.late.append((words, day))
                continue
            self.write(words, day, then)
        while self.late and self.late[0][1] < on:
            self.write(*self.late.pop(0), "keep")

    def write(self, words, on, then):
        by = By(("Ada", "Ben")[self.lines % 2], on=on, id=f"q{self.lines}")
        view = log_phrase(self.book, words, by, known=KNOWN)
        assert view.is_new
        assert not view.clashes
        self.lines += 1
        if then == "twice":
            assert not log_phrase(self.book, words, by, known=KNOWN).is_new
        if then == "undo":
            undo(self.book, By("Ada", on=on), by.id, "wrong vessel")
            self.lines += 1
        if then.startswith("correct:"):
            correct(self.book, then.partition(":")[2], by.id, By("Ada", on=on))
            self.lines += 1

    def close(self):
        self.stack.__exit__(None, None, None)


def agree(keepers, on):
    """Hold every view to what is so in truth."""
    book, yard = keepers.book, keepers.yard
    shown = status(book, on, known=KNOWN)
    for name in VESSELS:
        vessel = yard.vessels[name]
        stand = next(each for each in shown.shelf if each.vessel == name)
        phases = {"empty": ("empty",), "filling": ("filling",), "sealed": ("fermenting", "failed")}
        assert stand.phase in phases[vessel.phase], (on, name)
        assert stand.mass_kg == pytest.approx(vessel.kg, abs=GRAM)
    assert {each.place: each.mass_kg for each in shown.ground if each.mass_kg} == pytest.approx(
        yard.placed_kg, abs=GRAM
    )
    assert shown.batches == (yard.ended, yard.failed)
    state = state_of(book, KNOWN)
    assert state.situation.bran_kg == pytest.approx(yard.bran_kg, abs=GRAM)
    assert sum(each.drawn_l for each in state.batches.values()) == pytest.approx(yard.drawn_l, abs=GRAM)
    held = sum(each.mass_kg for each in state.situation.vessels)
    assert held + yard.drawn_l + sum(yard.placed_kg.values()) == pytest.approx(yard.laid_kg, abs=GRAM)
    assert not state.clashes
    assert len(entries(book)) == keepers.lines


def listed(keepers, on):
    """Hold today's list to what is so: nothing is to be placed, drawn or filled that cannot be."""
    view = today(keepers.book, on, known=KNOWN)
    stands = {each.vessel: each.phase for each in view.vessels}
    for job in view.now:
        kind, _, subject = job.id.partition(":")
        vessel = subject.partition("/")[0]
        if kind == "fill":
            assert stands[vessel] == "empty"
        if kind == "seal":
            assert stands[vessel] == "filling"
        if kind in ("place", "draw"):
            assert stands[vessel] != "empty"
    assert view.clashes == ()
    assert dict(view.stocks)["bran"] == dict(status(keepers.book, on, known=KNOWN).stocks)["bran"]


@pytest.fixture(scope="module", params=[20261, 7])
def quarter(request, tmp_path_factory):
    keepers = Keepers(tmp_path_factory.mktemp("quarter"), request.param)
    for on in days():
        keepers.live(on)
        if on.weekday() == 6 and not keepers.late:
            agree(keepers, on)
            keepers.seen[on] = state_of(keepers.book, KNOWN).situation
        if on.day in (1, 15):
            listed(keepers, on)
    end = days()[-1] + timedelta(days=1)
    keepers.live(end)
    agree(keepers, end)
    yield keepers
    keepers.close()


def test_there_were_slips_of_every_kind_and_the_chain_holds(quarter):
    held = entries(quarter.book)
    kinds = {each.kind for each in held}
    assert {"layer_added", "sealed", "draw_off", "reading", "placed", "failed", "vessel", "stock", "note"} <= kinds
    assert {"withdrawn", "corrected"} <= kinds
    happened = [each.happened for each in held]
    assert happened != sorted(happened)  # some were written late
    assert quarter.yard.ended >= 3
    assert verify(quarter.book) == (len(held), ())


def test_what_is_kept_is_the_fold(quarter):
    assert is_kept_right(quarter.book, KNOWN, entries(quarter.book))


def test_each_past_week_is_seen_as_it_was(quarter):
    for on, situation in quarter.seen.items():
        assert state_of(quarter.book, KNOWN, until=on).situation == situation


def test_history_shows_every_line_and_which_no_longer_count(quarter):
    lines = history(quarter.book)
    assert len(lines) == quarter.lines
    undone = [each for each in lines if each.says.startswith("taken back")]
    assert sum(each.is_gone for each in lines) == len(undone)
    vessel = history(quarter.book, "blue-1")
    assert vessel
    assert all("blue-1" in each.about for each in vessel)


def of_its_own(server):
    """Return the address of a new database of the server."""
    name = f"quarter_{uuid.uuid4().hex[:8]}"
    with psycopg.connect(server, autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}")
    return f"{server.rpartition('/')[0]}/{name}"


def through(book, address, folder, name):
    path = folder / f"{name}.jsonl"
    path.write_text("".join(f"{each}\n" for each in export_lines(book)), "utf-8")
    return import_lines(path, address)[0]


@pytest.mark.needs_system("pg_ctlcluster")
def test_the_same_logbook_moved_to_a_server_and_back_is_identical(quarter, server, tmp_path):
    there = through(quarter.book, of_its_own(server), tmp_path, "there")
    back = through(there, str(tmp_path / "back.sourloam"), tmp_path, "back")
    lines = log.lines(quarter.book.where, "quillet-yard")
    for each in (there, back):
        assert log.lines(each.where, "quillet-yard") == lines
        assert verify(each) == (len(lines), ())
        assert state_of(each, KNOWN) == fold(entries(quarter.book), KNOWN.knows)
    plain = [json.loads(each.text) for each in lines]
    assert [each["sequence"] for each in plain] == list(range(1, len(lines) + 1))
