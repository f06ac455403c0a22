"""The plan as one self-contained page: no network, no script; for a phone, a table, a printer and a screen reader."""

from collections import defaultdict
from collections.abc import Iterator
from datetime import date
from functools import partial
from html import escape
from typing import Any, Final

from sourloam.base.days import LONG_MONTHS
from sourloam.draw.flow import flow, flow_table
from sourloam.draw.lived_rows import lived_rows, rows_table
from sourloam.draw.shelf import shelf, shelf_table
from sourloam.draw.stall_cost import Offer, stall_cost
from sourloam.draw.stall_weeks import stall_weeks, weeks_table
from sourloam.draw.year_table import year_table
from sourloam.draw.year_tall import year_tall
from sourloam.draw.year_wide import year_wide
from sourloam.paper.page import sources_of, style, template
from sourloam.plan.answer import Task
from sourloam.plan.words import days, money, when
from sourloam.views.plan import PlanView
from sourloam.views.spoken import said

WIDE_PX, TALL_PX = 1100.0, 354.0
HEADLINE: Final = ("scraps_kg_per_year", "bran_kg_per_year", "vessels_needed", "stall_days_per_year")


def plan_page(view: PlanView) -> str:
    """Return the page as HTML."""
    speech = view.speech
    made = template(
        "plan.html",
        speech,
        weekday=_weekday,
        kg=speech.kg,
        amount=speech.amount,
        slug=_slug,
        opening=partial(_opening, view),
        money=money,
    )
    page: str = made.render(**_shown(view))
    return page


def _shown(view: PlanView) -> dict[str, Any]:
    """Return what the template may use."""
    return {
        "view": view,
        "heading": view.summary[0],
        "rest": " ".join(view.summary[1:]),
        "style": style("plan.css"),
        "headline": HEADLINE,
        "others": tuple(each.name for each in view.numbers if each.name not in HEADLINE),
        "stalled": said(view.reasons["stall_days_per_year"].number, view.speech),
        "year_wide": year_wide(view),
        "year_tall": year_tall(view),
        "year_rows": year_table(view),
        "shelf_wide": shelf(view, per_board=10),
        "shelf_tall": shelf(view, per_board=3),
        "shelf_rows": shelf_table(view),
        **_chances(view),
        "flow_wide": flow(view, width_px=WIDE_PX),
        "flow_tall": flow(view, width_px=TALL_PX),
        "flow_rows": flow_table(view),
        "months": tuple(_months(view)),
        "remarks": (
            ("It would help", view.hints),
            ("Is this right?", view.asks),
            ("With care", view.cautions),
            ("Assumed, where the site file says nothing", view.assumptions),
        ),
        "sources_of": sources_of,
    }


def _chances(view: PlanView) -> dict[str, Any]:
    """Return the drawings of the years that were lived by chance, for a table and for a phone."""
    offers = tuple(Offer(each.what, each.effort, each.stalled_days, _left(each.stalled_days)) for each in view.cures)
    stalled = view.reasons["stall_days_per_year"].number.value or 0.0
    now = (stalled, days(stalled))
    return {
        "weeks_wide": stall_weeks(view.lived, width_px=WIDE_PX, key="weeks-wide"),
        "weeks_tall": stall_weeks(view.lived, width_px=TALL_PX, key="weeks-tall"),
        "weeks_rows": weeks_table(view.lived),
        "lived_wide": lived_rows(view.lived, view.names, width_px=WIDE_PX, key="lived-wide"),
        "lived_tall": lived_rows(view.lived, view.names, width_px=TALL_PX, key="lived-tall"),
        "lived_rows": rows_table(view.lived),
        "cost_wide": stall_cost(now, offers, width_px=WIDE_PX, key="cost-wide") if offers else "",
        "cost_tall": stall_cost(now, offers, width_px=TALL_PX, key="cost-tall") if offers else "",
    }


def _left(stalled_days: int) -> str:
    return days(stalled_days) if stalled_days else "none"


def _months(view: PlanView) -> Iterator[tuple[str, tuple[Task, ...], str]]:
    """Give each month with its jobs, and the days on which liquid is drawn off in one line."""
    by_month: dict[tuple[int, int], list[Task]] = defaultdict(list)
    for task in view.tasks:
        by_month[task.date.year, task.date.month].append(task)
    for (year, month), tasks in by_month.items():
        jobs = tuple(each for each in tasks if not each.id.startswith("draw:"))
        draws = tuple(each for each in tasks if each.id.startswith("draw:"))
        yield f"{LONG_MONTHS[month - 1]} {year}", jobs, _draws(draws, view)


def _draws(tasks: tuple[Task, ...], view: PlanView) -> str:
    days: dict[str, list[str]] = defaultdict(list)
    for task in tasks:
        vessel = task.subject.partition("/")[0]
        days[view.names.get(vessel, vessel)].append(str(task.date.day))
    return "; ".join(f"{name} on {', '.join(numbers)}" for name, numbers in days.items())


def _opening(view: PlanView, sentence: str) -> str:
    """Return a sentence as HTML in which the numbers of the stall lead to their reasons."""
    text = escape(sentence)
    for name, say in (("stall_days_per_year", days), ("turned_away_kg_per_year", view.speech.kg)):
        value = view.reasons[name].number.value
        if value:
            shown = escape(say(value))
            text = text.replace(shown, f'<a class="opens" href="#why-{name}">{shown}</a>', 1)
    return text


def _weekday(day: date) -> str:
    return f"{day:%a} {when(day)}"


def _slug(task: str) -> str:
    return "job-" + task.replace(":", "-").replace("/", "-")
