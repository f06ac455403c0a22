"""A PostgreSQL server that the tests start, once for all of them; `tests/conftest.py` makes it known to all."""

import os
import shutil
import socket
import subprocess
import tempfile
from pathlib import Path

import pytest


def as_postgres(*words, cwd):
    """Run a program of the server; it refuses to be run by root."""
    me = ["runuser", "-u", "postgres", "--"] if os.geteuid() == 0 else []
    subprocess.run([*me, *map(str, words)], check=True, capture_output=True, cwd=cwd)


@pytest.fixture(scope="session")
def server():
    programs = max(Path("/usr/lib/postgresql").glob("*/bin"))
    folder = Path(tempfile.mkdtemp(prefix="sourloam-pg-"))
    if os.geteuid() == 0:
        shutil.chown(folder, "postgres")
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port = found.getsockname()[1]
    data = folder / "data"
    as_postgres(programs / "initdb", "-A", "trust", "-U", "postgres", "--no-sync", "-D", data, cwd=folder)
    settings = f"-c listen_addresses=127.0.0.1 -c port={port} -c unix_socket_directories={folder} -c fsync=off"
    as_postgres(programs / "pg_ctl", "-w", "-D", data, "-l", folder / "said", "-o", settings, "start", cwd=folder)
    yield f"postgresql://postgres@127.0.0.1:{port}/postgres"
    as_postgres(programs / "pg_ctl", "-D", data, "-m", "immediate", "stop", cwd=folder)
    shutil.rmtree(folder, ignore_errors=True)
