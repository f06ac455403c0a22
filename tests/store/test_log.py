"""The lines of a book: durable, once each, in one chain; on SQLite and, where it is there, on PostgreSQL."""

import signal
import sqlite3
import time

import pytest
import sqlalchemy as sa

from sourloam.base.errors import Surroundings
from sourloam.store import log
from sourloam.store.chain import broken
from sourloam.store.copy import copied
from sourloam.store.engine import opened
from sourloam.store.migrate import migrate
from tests.store.writing import put, writer


@pytest.fixture
def address(tmp_path):
    return str(tmp_path / "book.sourloam")


def test_lines_come_back_as_they_were_written(address):
    put(address, "one", "zwei \N{SNOWMAN}")
    lines = log.lines(address, "yard")
    assert [each.text for each in lines] == ["one", "zwei \N{SNOWMAN}"]
    assert list(broken(lines)) == []
    assert log.end(address, "yard") == (2, lines[-1].hash)


def test_an_id_that_comes_twice_is_kept_once(address):
    first, again = put(address, "one", "one")
    assert (first.is_new, again.is_new) == (True, False)
    assert again.lines == first.lines
    assert len(log.lines(address, "yard")) == 1


def test_what_is_refused_leaves_nothing(address):
    def refuse(_lines):
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        log.append(address, "yard", ["x"], refuse)
    assert log.lines(address, "yard") == ()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ("UPDATE entry SET text = 'tw0' WHERE sequence = 2", "line 2 is not as it was first written"),
        ("DELETE FROM entry WHERE sequence = 2", "line 2 is missing"),
        ("UPDATE entry SET hash = 'ff' WHERE sequence = 3", "line 3 is not as it was first written"),
    ],
)
def test_a_changed_or_missing_line_is_found(address, change, says):
    put(address, "one", "two", "three")
    with sqlite3.connect(address) as connection:
        connection.execute(change)
    connection.close()
    assert next(iter(broken(log.lines(address, "yard"))))[1] == says


def test_two_writers_lose_nothing_and_use_nothing_twice(address):
    put(address, "first")
    both = [writer(address, name, 25) for name in "ab"]
    for each in both:
        each.communicate()
        assert each.returncode == 0
    lines = log.lines(address, "yard")
    assert [each.sequence for each in lines] == list(range(1, 52))
    assert all(each.text.endswith(f"after {each.sequence - 1}") for each in lines[1:])
    assert list(broken(lines)) == []


def test_a_writer_that_is_killed_leaves_every_line_that_it_acknowledged(address):
    put(address, "first")
    acknowledged = []
    for round_ in range(8):
        process = writer(address, f"r{round_}-", 10_000)
        acknowledged.append(process.stdout.readline().strip())
        time.sleep(0.013 * round_)
        process.send_signal(signal.SIGKILL)
        acknowledged += process.stdout.read().split()
        process.wait()
        process.stdout.close()
    lines = log.lines(address, "yard")
    assert set(acknowledged) <= {each.id for each in lines}
    assert list(broken(lines)) == []
    assert log.end(address, "yard") == (lines[-1].sequence, lines[-1].hash)


def test_a_newer_file_is_refused_in_words_and_left_alone(address):
    put(address, "one")
    with sqlite3.connect(address) as connection:
        connection.execute("UPDATE book SET value = '99' WHERE key = 'form'")
    connection.close()
    with pytest.raises(Surroundings, match=r"written by a newer release of Sourloam \(form 99"):
        log.lines(address, "yard")


def test_a_file_that_is_none_is_refused_in_words(tmp_path):
    path = tmp_path / "letter.txt"
    path.write_text("Dear yard, " * 200)
    with pytest.raises(Surroundings, match="is not a logbook, or is damaged"):
        log.lines(str(path), "yard")
    assert path.read_text().startswith("Dear yard")


def test_a_migration_makes_a_copy_first_and_runs_once(address, tmp_path):
    put(address, "one")
    steps = {2: lambda op: op.create_table("more", sa.Column("id", sa.Integer, primary_key=True))}
    with opened(address) as engine:
        for _ in range(2):
            migrate(engine, address, 1, to=2, steps=steps)
        assert sa.inspect(engine).has_table("more")
    copy = tmp_path / "book.sourloam.form-1"
    assert [each.text for each in log.lines(str(copy), "yard")] == ["one"]


def test_a_step_that_fails_leaves_the_book_in_its_old_form(address):
    def half(op):
        op.create_table("more", sa.Column("id", sa.Integer, primary_key=True))
        raise ValueError("stopped")

    put(address, "one")
    with opened(address) as engine:
        with pytest.raises(ValueError, match="stopped"):
            migrate(engine, address, 1, to=2, steps={2: half})
        assert not sa.inspect(engine).has_table("more")
    assert len(log.lines(address, "yard")) == 1


def test_without_room_for_a_copy_nothing_is_changed(address, tmp_path):
    put(address, "one")
    from pathlib import Path

    with pytest.raises(Surroundings, match="No copy"):
        copied(Path(address), tmp_path / "no" / "folder" / "copy")
