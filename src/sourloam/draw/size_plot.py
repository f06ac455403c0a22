"""A sizing on one sheet: the answer, the weeks that stall, a usual and a bad year, what would help against its cost."""

from sourloam.draw.lived_rows import rows_part
from sourloam.draw.stall_cost import Offer, cost_part
from sourloam.draw.stall_weeks import weeks_part
from sourloam.draw.two_sizes import Part, heading, sheet
from sourloam.plan.sizing import Tried
from sourloam.plan.words import money, share
from sourloam.views.size import SizeView


def size_sheet(view: SizeView) -> str:
    """Return the sheet as a file of its own."""
    lived = view.sizing.lived
    name = f"{view.site}, {lived.years} years lived by chance"
    parts: list[Part] = [
        heading(name, view.says, view.stopped),
        weeks_part(lived),
        rows_part(lived, view.names, key="lived"),
    ]
    if view.sizing.options:
        parts.append(cost_part(now(view), offers(view)))
    desc = "How often each week stalls, a usual year and a bad one as rows of vessels, and what would help."
    return sheet(tuple(parts), title=view.says, desc=desc)


def now(view: SizeView) -> tuple[float, str]:
    """Return the chance without a change, and its words."""
    chance = view.sizing.figures["stall_chance_per_week"].value
    return chance, f"{share(chance)} of the weeks"


def offers(view: SizeView) -> tuple[Offer, ...]:
    """Return the options as they are drawn: those that help, else all."""
    return tuple(_offer(each, view.currency) for each in view.helping or view.sizing.options)


def _offer(option: Tried, currency: str) -> Offer:
    costs = money(option.cost, currency) if option.cost else ""
    return Offer(option.what, option.effort, option.chance, share(option.chance), costs)
