"""The pages with three years of entries: one keeper at a phone, and twenty at once; how large the first page is."""

import gzip
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import timedelta
from itertools import islice
from pathlib import Path
from urllib.request import Request, urlopen

from logbook import made

from sourloam.logbook.entry import plain
from sourloam.service.book import Book, Known
from sourloam.store import log

LAYERS = 1_500
ENTRIES = int(LAYERS * 20 / 14)  # of 20 entries about 14 are layers
PORT = 8799
PAGES = (
    "/",
    "/shelf",
    "/shelf/blue-1",
    "/shelf/blue-1/layer",
    "/ground",
    "/cultures",
    "/year",
    "/history",
    "/materials",
)
TIMES = 20
CLIENTS, EVERY_S, ROUNDS = 20, 2.0, 8  # twenty of them, ten requests a second together
FIRST = ("/", "/static/style.css", "/static/htmx.min.js", "/static/page.js", "/static/vollkorn.woff2")


def lines() -> Iterator[tuple[str, float, float | None]]:
    """Give what was measured, with its goal."""
    with tempfile.TemporaryDirectory() as folder:
        book = str(Path(folder) / "three_years.sourloam")
        last = _fill(book)
        with _served(book, last):
            for each in PAGES:  # what is worked out once is worked out before
                _get(each)
            alone = [_get(each) for _ in range(TIMES) for each in PAGES]
            yield f"web: a page, {LAYERS} layers in the book, one client, p95 s", _p95(alone), 0.050
            with ThreadPoolExecutor(CLIENTS) as pool:
                many = [each for found in pool.map(_client, range(CLIENTS)) for each in found]
            yield f"web: a page, {CLIENTS} clients at 10 requests a second, p95 s", _p95(many), 0.200
            yield "web: the first page with all that it loads, compressed, KB", sum(map(_size, FIRST)) / 1000.0, 100.0


def _fill(book: str) -> str:
    """Write three years of entries, and return the day after the last."""
    known = Known()
    held = list(islice(made(known, ENTRIES), ENTRIES))
    rows = [(each.id, log.text_of(plain(each))) for each in held]
    log.append(book, "quillet-yard", [], lambda _: rows)
    assert Book.of(book).site == "quillet-yard"
    return (max(each.on for each in held) + timedelta(days=1)).isoformat()


@contextmanager
def _served(book: str, on: str) -> Iterator[None]:
    sourloam = Path(sys.executable).with_name("sourloam")
    process = subprocess.Popen(
        [sourloam, "serve", "--port", str(PORT), "--book", book, "--today", on], stderr=subprocess.PIPE
    )
    assert process.stderr is not None
    process.stderr.readline()
    try:
        time.sleep(60.0)  # the forecasts are worked out
        yield
    finally:
        process.terminate()
        process.wait(20)


def _get(path: str) -> float:
    start = time.perf_counter()
    with urlopen(Request(f"http://127.0.0.1:{PORT}{path}", headers={"Host": f"localhost:{PORT}"})) as answer:
        answer.read()
    return time.perf_counter() - start


def _client(number: int) -> list[float]:
    time.sleep(EVERY_S * number / CLIENTS)
    found = []
    for each in range(ROUNDS):
        took = _get(PAGES[(number + each) % len(PAGES)])
        found.append(took)
        time.sleep(max(EVERY_S - took, 0.0))
    return found


def _size(path: str) -> int:
    with urlopen(f"http://127.0.0.1:{PORT}{path}") as answer:
        content = answer.read()
    return len(content) if path.endswith("woff2") else len(gzip.compress(content, 6))


def _p95(values: list[float]) -> float:
    return statistics.quantiles(values, n=20)[-1]


if __name__ == "__main__":
    for name, value, goal in lines():
        print(f"{name:<72} {value:8.4f} {goal}")
