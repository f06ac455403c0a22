"""Use case: from a site file to a year's plan, and where it is kept."""

import json
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any

from sourloam.base.errors import Surroundings
from sourloam.plan.year import plan_year
from sourloam.service.assemble import question_of, site_file
from sourloam.views.as_json import plan_object
from sourloam.views.plan import PlanView, view_of


def plan_site(path: Path, *, today: date | None = None) -> PlanView:
    """Plan the year of the site whose file lies at `path`.

    Raises
    ------
    BadInput
        If the file holds faults.
    """
    read = site_file(path)
    question = question_of(read, path.parent, today=today)
    names = {each.id: read.site.name_of(each.id) for part in read.site.parts().values() for each in part}
    return view_of(plan_year(question), names, question.sources)


def keep_plan(view: PlanView, folder: Path) -> tuple[Path, ...]:
    """Write the plan into a folder; a write that fails leaves what was there.

    Raises
    ------
    Surroundings
        If the folder cannot be written.
    """
    return (_write_whole(folder / "plan.json", _json(plan_object(view))),)


def _json(held: Mapping[str, Any]) -> str:
    return json.dumps(held, ensure_ascii=False, allow_nan=False, indent=1) + "\n"


def _write_whole(path: Path, text: str) -> Path:
    """Write a file beside its place and move it there, so that no half of it is ever seen."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with NamedTemporaryFile("w", encoding="utf-8", dir=path.parent, delete=False) as file:
            file.write(text)
        Path(file.name).replace(path)
    except OSError as error:
        raise Surroundings(f"{path} cannot be written: {error.strerror}.", "Name another folder with --out.") from error
    return path
