"""Use case: from a site file to a year's plan."""

from datetime import date
from pathlib import Path

from sourloam.logbook.state import State
from sourloam.plan.question import Question
from sourloam.plan.year import plan_year
from sourloam.service.named import question_of_state, site_named
from sourloam.site.site import Site
from sourloam.views.plan import PlanView, view_of


def plan_site(path: Path, *, today: date | None = None) -> PlanView:
    """Plan the year of a site: of the file at `path`, or of what is so by the logbook, where `path` is an id of it.

    Raises
    ------
    BadInput
        If the file holds faults.
    """
    named = site_named(path)
    return _planned(named.site, named.question(today))


def plan_of_state(state: State, on: date) -> PlanView:
    """Plan the year from what is so by a logbook on a day."""
    return _planned(state.must()[0], question_of_state(state, on))


def _planned(site: Site, question: Question) -> PlanView:
    names = {each.id: site.name_of(each.id) for part in site.parts().values() for each in part}
    return view_of(plan_year(question), names, question.sources)
