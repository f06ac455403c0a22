"""The logbook with ten thousand entries: an entry kept, the state read and folded, a hundred thousand rows taken in."""

import json
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from itertools import chain, islice
from pathlib import Path

from sourloam.logbook.entries import DrawOff, LayerAdded, Placed, Reading, Sealed, SiteSet, Stocked, Value
from sourloam.logbook.entry import Entry, plain
from sourloam.logbook.fold import fold
from sourloam.service.book import Book, Known, entries, held_open
from sourloam.service.record import By, log_value
from sourloam.service.so_far import situation_of, state_of
from sourloam.store import log

ENTRIES = 10_000
ROWS = 100_000
IMPORT = """
import resource, sys, time
from pathlib import Path
from sourloam.service.moving import import_lines
start = time.perf_counter()
import_lines(Path(sys.argv[1]), sys.argv[2])
print(time.perf_counter() - start, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""
BEGAN = datetime(2027, 3, 1, 12, tzinfo=UTC)
SITE = Path(__file__).resolve().parent.parent / "examples" / "quillet_yard.toml"
LAYERS = 14
TIMES = 200
BED, PILE = "long-bed", "heap"


def values(vessels: tuple[str, ...], places: tuple[str, ...]) -> Iterator[tuple[int, Value]]:
    """Give days and what happened on them, for ever: a vessel is filled, drained, looked at and emptied."""
    day, filling = 0, 0
    while True:
        vessel = vessels[filling % len(vessels)]
        yield day, Stocked("bran", "bought", 2.0)
        for _ in range(LAYERS):
            yield day, LayerAdded(vessel, (("vegetable-scraps", 0.9), ("bread", 0.1)), 0.05)
            day += 1
        yield day, Sealed(vessel)
        yield day, DrawOff(vessel, 0.3, colour="amber")
        yield day, Reading(vessel, ph=3.9)
        yield day, Reading(vessel, smell="sour")
        if filling >= len(vessels) - 1:
            yield day, Placed(vessels[(filling + 1) % len(vessels)], places[filling % len(places)])
        filling += 1


def made(known: Known, count: int) -> Iterator[Entry]:
    """Give so many entries of Quillet Yard."""
    text = SITE.read_text("utf-8")
    site = known.site_of(text)
    vessels = tuple(each.id for each in site.vessels)
    places = tuple(each.id for each in (*site.beds, *site.takers))
    rows = chain([(0, SiteSet(text))], islice(values(vessels, places), count - 1))
    for at, (day, value) in enumerate(rows, start=1):
        on = BEGAN + timedelta(days=day)
        yield Entry(f"e{at}", on, on, value, sequence=at)


def written(book: Book, known: Known, count: int) -> None:
    """Write so many entries at once."""
    texts = [(each.id, log.text_of(plain(each))) for each in made(known, count)]
    log.append(book.where, book.site, [], lambda _: texts)


def lines() -> list[tuple[str, float, float | None]]:
    """Return what was timed, and the goal of each."""
    known = Known()
    with tempfile.TemporaryDirectory(dir=Path(__file__).parent) as folder:
        address = str(Path(folder) / "book.sourloam")
        with held_open(address) as engine:
            book = Book(address, "quillet-yard", engine)
            written(book, known, ENTRIES)
            found = [*_states(book, known), *_appends(book, known), *_bare(Path(folder))]
        return [*found, *_import(Path(folder), known)]


def _states(book: Book, known: Known) -> Iterator[tuple[str, float, float | None]]:
    folded = _middle(lambda: fold(entries(book), known.knows), 3)
    state_of(book, known)  # kept from here on
    known.seen.clear()
    cold = _middle(lambda: (known.seen.clear(), state_of(book, known)), 15)
    part = _middle(lambda: (known.seen.clear(), situation_of(book, known)), 50)
    warm = _middle(lambda: state_of(book, known), 50)
    yield f"state of {ENTRIES} entries, folded from their lines, s", folded, None
    yield "  all of it, read from kept tables, s", cold, None
    yield "  situation, read from kept tables, s", part, None
    yield "  all of it, held in memory and checked against the last line, s", warm, folded / 500


def _appends(book: Book, known: Known) -> Iterator[tuple[str, float, float | None]]:
    last = state_of(book, known).last
    on = last.on + timedelta(days=1) if last else None
    used = [each.vessel for each in situation_of(book, known).vessels if each.phase != "empty"]
    times, worked = [], []
    for at in range(TIMES):
        start, began = time.perf_counter(), time.process_time()
        log_value(book, Reading(used[at % len(used)], ph=3.9, says=str(at)), By(id=f"bench{at}", on=on), known=known)
        times.append(time.perf_counter() - start)
        worked.append(time.process_time() - began)
    times.sort()
    worked.sort()
    yield f"an entry kept after {ENTRIES} others, s, median of {TIMES}", statistics.median(times), None
    yield "an entry kept, processor s, 95th percentile", worked[int(0.95 * TIMES)], None
    yield "an entry kept, s, 95th percentile", times[int(0.95 * TIMES)], 0.005


def _import(folder: Path, known: Known) -> Iterator[tuple[str, float, float | None]]:
    """Take a hundred thousand lines in, in a process of its own so that its memory is seen."""
    path = folder / "lines.jsonl"
    with path.open("w", encoding="utf-8") as file:
        for line in made(known, ROWS):
            file.write(log.text_of(plain(line)) + "\n")
    peaks = {}
    for count in (ROWS // 10, ROWS):
        part = folder / f"part-{count}.jsonl"
        with path.open(encoding="utf-8") as file, part.open("w", encoding="utf-8") as out:
            out.writelines(islice(file, count))
        words = [sys.executable, "-c", IMPORT, str(part), str(folder / f"in-{count}.sourloam")]
        told = subprocess.run(words, check=True, capture_output=True, text=True).stdout.split()
        peaks[count] = float(told[1]), float(told[0])
    yield f"{ROWS} rows taken in, with chain and state, s", peaks[ROWS][1], 20.0
    yield "  memory at the most, MB", peaks[ROWS][0], None
    yield f"  the same for {ROWS // 10} rows, MB", peaks[ROWS // 10][0], None


def _bare(folder: Path) -> Iterator[tuple[str, float, float | None]]:
    """Time what the disk takes to make one page durable: an entry cannot be quicker than that."""
    import os

    times = []
    with (folder / "bare").open("wb") as file:
        for _ in range(TIMES):
            start = time.perf_counter()
            file.write(b"x" * 4096)
            file.flush()
            os.fdatasync(file.fileno())
            times.append(time.perf_counter() - start)
    times.sort()
    yield "  the disk: one page written and made durable, s, median", statistics.median(times), None
    yield "  the disk: the same, s, 95th percentile", times[int(0.95 * TIMES)], None


def _middle(run: object, times: int) -> float:
    took = []
    for _ in range(times):
        start = time.perf_counter()
        run()  # type: ignore[operator]
        took.append(time.perf_counter() - start)
    return statistics.median(took)


if __name__ == "__main__":
    print(json.dumps(lines(), indent=1))
