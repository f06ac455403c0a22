"""What is so of the whole site: where it lies, when its plan begins, how warm it is."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from sourloam.base.days import Span
from sourloam.base.fields import Key
from sourloam.base.kinds import Amount, Amounts, Day, Ident, Spans, Text, amount
from sourloam.base.units import Dimension

_OUTDOOR = Amount(Dimension.TEMPERATURE, "-60 C", "50 C", "no garden has such a month.")


@dataclass(frozen=True)
class Facts:
    """The table [site]."""

    id: Annotated[str, Key("id", Ident(), "A short name that never changes.")]
    start: Annotated[date, Key("start", Day(), "The first day of the plan.")]
    name: Annotated[str, Key("name", Text(80), "What you call it.", default="")] = ""
    time_zone: Annotated[
        str, Key("time_zone", Text(60), "Its time zone, by the usual name of the region.", default="UTC")
    ] = "UTC"
    latitude_deg: Annotated[
        float,
        amount(
            "latitude",
            "-66 deg",
            "72 deg",
            help="Degrees north; south is negative.",
            default="50 deg",
            assume="The site lies at 50 degrees north.",
        ),
    ] = 50.0
    jurisdiction: Annotated[
        str, Key("jurisdiction", Text(12), "The code of the place whose rules apply.", default="OTHER")
    ] = "OTHER"
    climate: Annotated[
        str | None, Key("climate", Text(40), "A typical climate by name, if months are not known.", default=None)
    ] = None
    outdoor_c: Annotated[
        tuple[float, ...] | None,
        Key("outdoor", Amounts(12, _OUTDOOR, "January"), "Mean outdoor temperature of each month.", default=None),
    ] = None
    weather: Annotated[
        str | None,
        Key("weather", Text(), "A climate file beside this one: CSV of date, min, max, or EPW.", default=None),
    ] = None
    indoors_c: Annotated[
        float,
        amount(
            "indoors",
            "-5 C",
            "40 C",
            help="How warm the kitchen is.",
            default="20 C",
            assume="The kitchen is at 20 °C all year.",
        ),
    ] = 20.0
    closed: Annotated[
        tuple[Span, ...], Key("closed", Spans(), "Times in which no ground can be dug: snow, leave, rules.", default=[])
    ] = ()
