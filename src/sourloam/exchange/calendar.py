"""The tasks of a plan as iCalendar (RFC 5545): a whole day each, under an id that stays when its day moves."""

import unicodedata
from datetime import datetime
from types import MappingProxyType
from typing import Final

from icalendar import Calendar, Event, vText

from sourloam.plan.answer import Task
from sourloam.views.plan import PlanView

PRODUCT: Final = "-//Sourloam//Plan 1//EN"

# What a calendar may colour by; the kinds of task are those of `plan/tasks.py`.
CATEGORIES: Final = MappingProxyType(
    {
        "buy": "Shopping",
        "fill": "Vessels",
        "seal": "Vessels",
        "draw": "Vessels",
        "hold": "Vessels",
        "rice": "Bran",
        "milk": "Bran",
        "strain": "Bran",
        "mix": "Bran",
        "dry": "Bran",
        "bag": "Bran",
        "place": "Ground",
        "plant": "Ground",
    }
)


def plan_calendar(view: PlanView, *, stamp: datetime) -> bytes:
    """Return the plan's tasks as the bytes of a calendar file; `stamp` is when they were worked out, in UTC."""
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", vText(_plain(view.site)))  # no standard name is read as widely
    for task in view.tasks:
        calendar.add_component(_event(task, view.site_id, stamp))
    return bytes(calendar.to_ical())


def uid_of(task: Task, site_id: str) -> str:
    """Return the id under which a calendar keeps a task."""
    return f"{task.id}@{site_id}.sourloam"


def _event(task: Task, site_id: str, stamp: datetime) -> Event:
    kind = task.id.partition(":")[0]
    event = Event()
    event.add("uid", uid_of(task, site_id))
    event.add("dtstamp", stamp)
    event.add("dtstart", task.date)
    event.add("summary", _plain(task.what))
    event.add("description", _plain(task.because))
    event.add("categories", [CATEGORIES[kind]])
    event.add("transp", "TRANSPARENT")  # a job for the day blocks no appointment
    return event


def _plain(text: str) -> str:
    """Return the text without control characters, which the format forbids; a line break stays one."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(" " if unicodedata.category(each) == "Cc" and each != "\n" else each for each in lines)
