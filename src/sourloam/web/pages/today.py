"""Today: what to do, in order, each marked from the list itself; what comes next; where the next layer goes."""

from collections.abc import Mapping
from datetime import timedelta
from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from sourloam.draw.standing import standing
from sourloam.plan.words import when
from sourloam.service.tasks import task_done, task_not_needed, task_put_off
from sourloam.views.today import Job, TodayView
from sourloam.web.forms import by_of, taking
from sourloam.web.furniture import back_to, desk_of, page

PX_PER_M: Final = 260.0
PUT_OFF_D: Final = 1
COUNTS: Final = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten")


def show(request: Request) -> Response:
    """Show the page; where the logbook holds no site yet, begin one."""
    desk = desk_of(request)
    if desk.book is None:
        return back_to("/first")
    view = desk.today()
    return page(
        request,
        "today.html",
        here="today",
        view=view,
        heading=heading(view),
        changed=_changed(view),
        next_layer=_next_layer(view),
        drawn={each.id: _drawn(request, each) for each in view.now},
    )


def heading(view: TodayView) -> str:
    """Return the sentence that is true today."""
    count = len(view.now)
    if not count:
        first = view.next[0] if view.next else None
        return f"Nothing to do. Next: {first.what[:1].lower()}{first.what[1:]}" if first else "Nothing to do"
    number = COUNTS[count] if count < len(COUNTS) else str(count)
    return f"{number} thing{'' if count == 1 else 's'} to do"


def _changed(view: TodayView) -> tuple[str, ...]:
    """Return what the forecasts say now, with what they said before where that was another day."""
    told = []
    for each in view.forecasts:
        ready, before = each.kept.ready.middle, each.kept.before.middle if each.kept.before else None
        if ready and before and ready != before:
            told.append(f"{each.name}: ready about {when(ready)}, before that {when(before)}")
    return tuple(told)


def _next_layer(view: TodayView) -> tuple[str, str] | None:
    """Return the vessel that takes the next layer: one that is being filled, else one that is empty."""
    for phase in ("filling", "empty"):
        found = next((each for each in view.vessels if each.phase == phase), None)
        if found is not None:
            return found.vessel, found.name
    return None


def _drawn(request: Request, job: Job) -> str:
    """Return the vessel that a job is about, cut open; nothing where it is about none."""
    id_ = job.id.partition(":")[2].partition("/")[0]
    shelf = desk_of(request).shelf()
    vessel = next((each for each in shelf.shelf.vessels if each.vessel == id_), None)
    if vessel is None:
        return ""
    key = f"job-{job.id.replace(':', '-').replace('/', '-')}"
    return standing(
        vessel, px_per_m=PX_PER_M, key=key, says=f"{shelf.names[id_]}, {vessel.phase}", ph=shelf.ph.get(id_, ())
    )


@taking
def mark(request: Request, fields: Mapping[str, str]) -> Response:
    """Keep what became of a task: done, put off, not needed."""
    desk = desk_of(request)
    book, by, task = desk.must_book(), by_of(request, fields), fields.get("task", "")[:80]
    match fields.get("act", ""):
        case "put-off":
            task_put_off(book, task, desk.day + timedelta(days=PUT_OFF_D), by, known=desk.known)
        case "not-needed":
            task_not_needed(book, task, by, known=desk.known)
        case _:
            task_done(book, task, by, known=desk.known)
    return back_to("/")
