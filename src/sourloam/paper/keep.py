"""Use case: a plan kept as files. Loaded only where something is kept, since the makers of files take their time."""

import json
from datetime import datetime
from pathlib import Path

from sourloam.exchange.calendar import plan_calendar
from sourloam.paper.plan_page import plan_page
from sourloam.service.files import write_whole
from sourloam.views.as_json import plan_object
from sourloam.views.plan import PlanView


def keep_plan(view: PlanView, folder: Path, *, stamp: datetime) -> tuple[Path, ...]:
    """Write the plan into a folder, as worked out at `stamp`; a write that fails leaves what was there.

    Raises
    ------
    Surroundings
        If the folder cannot be written.
    """
    held = json.dumps(plan_object(view), ensure_ascii=False, allow_nan=False, indent=1) + "\n"
    files = {"plan.json": held.encode(), "plan.html": plan_page(view).encode()}
    if view.tasks:  # a calendar without anything in it is no calendar file
        files["plan.ics"] = plan_calendar(view, stamp=stamp)
    return tuple(
        write_whole(folder / name, content, otherwise="Name another folder with --out.")
        for name, content in files.items()
    )
