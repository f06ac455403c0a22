"""Serves the pages on the loopback of this machine, and nowhere else."""

import socket
import sys
from collections.abc import Callable
from datetime import date
from ipaddress import ip_address
from threading import Thread
from typing import Final

import uvicorn

from sourloam.base.errors import SourloamError, Surroundings
from sourloam.service.compiled import compiled
from sourloam.service.desk import Desk
from sourloam.web.app import make_app

EVERY_S: Final = 5.0  # a line may be written beside the pages too, on the command line


def serve(
    host: str, port: int, *, book: str | None, site: str | None, on: date | None, says: Callable[[str], None]
) -> None:
    """Serve until it is stopped.

    Raises
    ------
    Surroundings
        If the address is not this machine's own, or the port is taken.
    """
    if not ip_address(host).is_loopback:
        raise Surroundings(f"{host} could be reached by others.", "Pages are served on 127.0.0.1 alone.")
    app = make_app(book, site, on)
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as listener:
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((host, port))
        except OSError as error:
            raise Surroundings(f"port {port} is taken: {error.strerror}.", "Name another one with --port.") from error
        says(f"Open http://localhost:{port} in a browser on this machine. Ctrl-C ends it.")
        Thread(target=work, args=(app.state.desk,), daemon=True).start()
        config = uvicorn.Config(app, log_level="error", access_log=False, server_header=False, lifespan="off")
        uvicorn.Server(config).run(sockets=[listener])


def work(desk: Desk) -> None:
    """Work out the forecasts whenever a line was added, and the first pages before they are asked for; never ends."""
    done: object = None
    now: object = None
    while True:
        try:
            now = (desk.mark(), desk.day) if desk.book is not None else done
            if now != done:
                desk.today()
                desk.forecast(compiled)
                done = now
                desk.plan()
        except SourloamError as error:  # such as a full disk: it is tried again with the next line
            sys.stderr.write(f"{error}\n")
            done = now
        desk.changed.wait(EVERY_S)
        desk.changed.clear()
