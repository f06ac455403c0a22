"""The web pages as one application over one logbook."""

from datetime import date

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware

from sourloam.service.desk import Desk
from sourloam.web.faults import HANDLERS
from sourloam.web.guard import Guard
from sourloam.web.routes import ROUTES


def make_app(address: str | None = None, site: str | None = None, on: date | None = None) -> Starlette:
    """Return the application for a logbook; seen as on a day, where one is named."""
    app = Starlette(
        routes=ROUTES,
        middleware=[Middleware(Guard), Middleware(GZipMiddleware, minimum_size=600, compresslevel=5)],
        exception_handlers=HANDLERS,
    )
    app.state.desk = Desk(address, site, on)
    return app
