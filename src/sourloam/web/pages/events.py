"""What happens while a page is open, told as it happens: a batch is worked out again, a fresh forecast is there."""

import asyncio
import json
from collections.abc import AsyncIterator, Mapping
from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from sourloam.service.desk import Desk, NoSiteYet
from sourloam.web.forms import taking
from sourloam.web.furniture import back_to, desk_of

EVERY_S: Final = 1.0


async def stream(request: Request) -> Response:
    """Tell until the page is closed."""
    headers = {"Cache-Control": "no-store", "X-Accel-Buffering": "no"}
    return StreamingResponse(_told(request), media_type="text/event-stream", headers=headers)


@taking
def stop(request: Request, fields: Mapping[str, str]) -> Response:
    """Stop working out forecasts until the next line is written."""
    desk_of(request).stop()
    return back_to("/")


async def _told(request: Request) -> AsyncIterator[str]:
    desk, before = desk_of(request), ""
    while not await request.is_disconnected():
        now = await run_in_threadpool(_now, desk)
        yield f"data: {now}\n\n" if now != before else ": still here\n\n"
        before = now
        await asyncio.sleep(EVERY_S)


def _now(desk: Desk) -> str:
    """Return what is being worked out, and a mark that changes with each fresh forecast."""
    try:
        fresh = max((each.made.isoformat() for each in desk.forecasts().values()), default="")
    except NoSiteYet:
        fresh = ""
    return json.dumps({"working": desk.working, "fresh": fresh})
