"""A served book of the demo site, a browser's client without a server, and a real browser."""

import shutil
import socket
import subprocess
import sys
import time
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from starlette.testclient import TestClient

from sourloam.web.app import make_app
from tests.chromium import QUIET
from tools.demo_book import make

PROGRAM = Path(sys.executable).parent / "sourloam"
HOST = "http://localhost:8765"


def demo_book(folder):
    """Return the address of a book of the demo site, and its last day."""
    book = folder / "demo.sourloam"
    return str(book), make(str(book))


def client_of(book, on=None):
    """Return a client that speaks with the pages as a browser on this machine does."""
    return TestClient(make_app(book, on=on), base_url=HOST, follow_redirects=True)


def token_of(client, path="/wrong"):
    """Return the token that the pages carry."""
    client.get(path)
    return client.cookies["sourloam-token"]


def send(client, path, **fields):
    """Send a form as the pages do."""
    return client.post(path, data={"token": token_of(client), **fields})


@contextmanager
def served(book, on: date | None = None, port: int | None = None):
    """Serve a book as its own process; gives the address."""
    port = port or free_port()
    command = [PROGRAM, "serve", "--port", str(port), "--book", book, *(["--today", on.isoformat()] if on else [])]
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    try:
        wait_for(port, process)
        yield f"http://localhost:{port}"
    finally:
        process.terminate()
        process.wait(10)
        process.stderr.close()


def free_port():
    with socket.socket() as held:
        held.bind(("127.0.0.1", 0))
        return held.getsockname()[1]


def wait_for(port, process):
    for _ in range(600):
        assert process.poll() is None, process.stderr.read().decode()
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.1)
    raise AssertionError("it never listened")


@contextmanager
def browser():
    """Return Debian's own browser."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as held:
        opened = held.chromium.launch(executable_path=shutil.which("chromium"), args=list(QUIET))
        yield opened
        opened.close()
