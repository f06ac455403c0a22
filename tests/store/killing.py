"""Kills a process of the logbook at random moments, and looks each time whether every acknowledged entry is there.

A process of its own: it loads everything once and forks, so that some hundred kills take seconds.
"""

import os
import random
import signal
import sqlite3
import sys
import time
from datetime import date
from pathlib import Path

import sqlalchemy as sa

from sourloam.logbook import entries as of
from sourloam.logbook.entry import plain
from sourloam.logbook.fold import fold
from sourloam.service.archive import backup, restore
from sourloam.service.book import Book, entries
from sourloam.service.moving import import_lines
from sourloam.service.record import By, log_value, verify
from sourloam.service.so_far import is_kept_right, state_of
from sourloam.store import log
from sourloam.store.engine import opened
from sourloam.store.migrate import migrate
from tests.logbook.days import book as entries_of
from tests.logbook.days import known, layer

LATER = date(2027, 12, 1)
LATEST_S = {"write": 0.06, "import": 0.05, "backup": 0.012, "restore": 0.04, "migrate": 0.03}


def many(count):
    days = [(each // 3, of.Stocked("sugar", "bought", 0.1)) for each in range(count)]
    return entries_of((0, layer()), *days)


def fill(book, held):
    log.append(book.where, book.site, [], lambda _: [(each.id, log.text_of(plain(each))) for each in held])


def step(op):
    op.create_table("more", sa.Column("id", sa.Integer, primary_key=True))
    op.execute("INSERT INTO more SELECT sequence FROM entry")


def write(folder, tell):
    book = Book(str(folder / "book.sourloam"), "yard")
    for at in range(10_000):
        id_ = f"k{os.getpid()}-{at}"
        log_value(book, of.Stocked("sugar", "bought", 0.1), By(id=id_, on=LATER), known=known())
        tell(id_)


def bring_in(folder, tell):
    import_lines(folder / "lines.jsonl", str(folder / f"in-{os.getpid()}.sourloam"))
    tell("all")


def copy(folder, tell):
    backup(str(folder / "book.sourloam"), folder / f"copy-{os.getpid()}.zip")
    tell("all")


def take_back(folder, tell):
    restore(folder / "copy.zip", str(folder / f"in-{os.getpid()}.sourloam"))
    tell("all")


def change_form(folder, tell):
    address = str(folder / f"old-{os.getpid()}.sourloam")
    with opened(address) as engine:
        migrate(engine, address, 1, to=2, steps={2: step})
    tell("all")


def look_at_book(address, told):
    book = Book(address, "yard")
    held = entries(book)
    assert set(told) - {"all"} <= {each.id for each in held}, "an acknowledged entry is lost"
    assert verify(book) == (len(held), ()), verify(book)
    known().seen.clear()
    assert is_kept_right(book, known(), held), "what is kept is not the fold"
    return held


def look_write(folder, pid, told):
    look_at_book(str(folder / "book.sourloam"), told)


def look_new(folder, pid, told):
    address = folder / f"in-{pid}.sourloam"
    if address.exists():
        held = look_at_book(str(address), told)
        assert len(held) in (0, COUNT + 2), "a part of an import was kept"
        assert "all" not in told or held
        if held:
            assert state_of(Book(str(address), "yard"), known()) == fold(held, known().knows)


def look_copy(folder, pid, told):
    copied = folder / f"copy-{pid}.zip"
    assert "all" not in told or copied.exists()
    if copied.exists():  # under its own name it is whole
        assert restore(copied, str(folder / f"from-{pid}.sourloam")) == {"yard": COUNT + 2}


def look_form(folder, pid, told):
    address = str(folder / f"old-{pid}.sourloam")
    connection = sqlite3.connect(address)
    form = connection.execute("SELECT value FROM book WHERE key = 'form'").fetchone()[0]
    tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
    connection.close()
    assert (form == "2") == ("more" in tables), "half of a migration was kept"
    assert "all" not in told or form == "2"
    with sqlite3.connect(address) as connection:
        connection.execute("UPDATE book SET value = '1' WHERE key = 'form'")
    connection.close()
    look_at_book(address, ())


COUNT = 300
WAYS = {
    "write": (write, look_write),
    "import": (bring_in, look_new),
    "backup": (copy, look_copy),
    "restore": (take_back, look_new),
    "migrate": (change_form, look_form),
}


def prepared(folder):
    book = Book(str(folder / "book.sourloam"), "yard")
    fill(book, many(COUNT))
    lines = log.lines(book.where, "yard")
    (folder / "lines.jsonl").write_text("".join(f"{each.text}\n" for each in lines), "utf-8")
    backup(book.address, folder / "copy.zip")
    state_of(book, known())
    return book


def killed(folder, way, after_s, template):
    """Fork, do it in the child, kill that after so long, and return its id and what it acknowledged."""
    reader, writer = os.pipe()
    pid = os.fork()
    if pid == 0:
        os.close(reader)
        if way == "migrate":
            (folder / f"old-{os.getpid()}.sourloam").write_bytes(template)
        os.write(writer, b"begun\n")
        try:
            WAYS[way][0](folder, lambda words: os.write(writer, f"{words}\n".encode()))
        except BaseException as error:  # noqa: BLE001 - told to the parent
            os.write(writer, f"failed {error!r}\n".encode())
        os._exit(0)
    os.close(writer)
    with os.fdopen(reader) as told:
        assert told.readline() == "begun\n"
        time.sleep(after_s)
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        words = told.read().split("\n")[:-1]
    assert not [each for each in words if each.startswith("failed")], words
    return pid, words


def main(way, rounds, seed, folder):
    chance = random.Random(seed)
    prepared(folder)
    template = (folder / "book.sourloam").read_bytes()
    whole = 0
    for _ in range(rounds):
        pid, told = killed(folder, way, chance.uniform(0.0, LATEST_S[way]), template)
        WAYS[way][1](folder, pid, told)
        whole += bool(told)
    print(f"{way}: {rounds} kills, {whole} of them after something was acknowledged")


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), Path(sys.argv[4]))
