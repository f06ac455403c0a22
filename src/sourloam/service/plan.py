"""Use case: from a site file to a year's plan."""

from datetime import date
from pathlib import Path

from sourloam.plan.year import plan_year
from sourloam.service.named import site_named
from sourloam.views.plan import PlanView, view_of


def plan_site(path: Path, *, today: date | None = None) -> PlanView:
    """Plan the year of a site: of the file at `path`, or of what is so by the logbook, where `path` is an id of it.

    Raises
    ------
    BadInput
        If the file holds faults.
    """
    named = site_named(path)
    site, question = named.site, named.question(today)
    names = {each.id: site.name_of(each.id) for part in site.parts().values() for each in part}
    return view_of(plan_year(question), names, question.sources)
