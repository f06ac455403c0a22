"""Serves the pages on the loopback of this machine, and nowhere else."""

import socket
from collections.abc import Callable
from datetime import date
from ipaddress import ip_address
from threading import Thread

import uvicorn

from sourloam.base.errors import Surroundings
from sourloam.service.desk import Desk
from sourloam.web.app import make_app


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
        Thread(target=_warm, args=(app.state.desk,), daemon=True).start()
        config = uvicorn.Config(app, log_level="error", access_log=False, server_header=False, lifespan="off")
        uvicorn.Server(config).run(sockets=[listener])


def _warm(desk: Desk) -> None:
    """Work the first pages out before they are asked for."""
    if desk.book is not None:
        desk.today()
        desk.plan()
