"""Use case: from a site file to a year's plan."""

from datetime import date
from pathlib import Path

from sourloam.plan.year import plan_year
from sourloam.service.assemble import question_of, site_file
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
