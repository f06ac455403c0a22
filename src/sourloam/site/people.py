"""The keeper: on which days there is time, what can be lifted, what there is to measure with."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final

from sourloam.base.fields import Key
from sourloam.base.kinds import WEEK, Choice, Choices, Day, amount

ANIMALS: Final = ("dog", "cat", "hens", "pigs", "ruminants", "rats", "larger-wildlife")
MEASURES: Final = ("scale", "strips", "thermometer", "ec-pen")


@dataclass(frozen=True)
class Keeper:
    """The person who does the work, their habits and their kit."""

    days: Annotated[
        tuple[str, ...],
        Key(
            "days",
            WEEK,
            "Days on which there is time to dig, mix and carry.",
            default=["sat", "sun"],
            assume="There is time to dig, mix and carry on Saturdays and Sundays.",
        ),
    ] = ("sat", "sun")
    time_d: Annotated[
        float, amount("time", "5 minutes", "12 hours", help="How much time on such a day.", default="60 minutes")
    ] = 60.0 / 1440.0
    lift_kg: Annotated[
        float,
        amount(
            "lift",
            "2 kg",
            "60 kg",
            help="What you carry without harm.",
            default="15 kg",
            assume="No more than 15 kg is lifted at once.",
        ),
    ] = 15.0
    units: Annotated[
        str, Key("units", Choice(("metric", "us")), "In which units the plan speaks.", default="metric")
    ] = "metric"
    handful_kg: Annotated[
        float,
        amount(
            "handful",
            "5 g",
            "200 g",
            help="A handful of your bran, weighed once.",
            default="30 g",
            assume="A handful of bran weighs 30 g.",
        ),
    ] = 0.03
    caddy_l: Annotated[
        float,
        amount(
            "caddy",
            "0.5 L",
            "300 L",
            help="What the caddy in the kitchen holds.",
            default="5 L",
            assume="The caddy in the kitchen holds 5 L.",
        ),
    ] = 5.0
    caddy_lid: Annotated[
        str,
        Key(
            "caddy_lid", Choice(("closed", "vented")), "Whether the caddy's lid is closed or vented.", default="closed"
        ),
    ] = "closed"
    loads_every_d: Annotated[
        float | None,
        amount(
            "loads_every",
            "1 day",
            "30 days",
            help="How often the caddy is emptied into a vessel; the plan chooses if left out.",
            default=None,
        ),
    ] = None
    fridge_l: Annotated[
        float, amount("fridge", "0 L", "500 L", help="Room in the fridge for scraps that wait.", default="0 L")
    ] = 0.0
    freezer_l: Annotated[
        float, amount("freezer", "0 L", "1000 L", help="Room in the freezer for scraps that wait.", default="0 L")
    ] = 0.0
    least_d: Annotated[
        float,
        amount(
            "least_time",
            "0 days",
            "180 days",
            help="The shortest time that you leave a sealed vessel.",
            default="14 days",
            assume="A sealed vessel is left for 14 days at least.",
        ),
    ] = 14.0
    animals: Annotated[tuple[str, ...], Key("animals", Choices(ANIMALS), "Animals that are about.", default=[])] = ()
    measures: Annotated[
        tuple[str, ...],
        Key(
            "measures_with",
            Choices(MEASURES),
            "What there is to measure with.",
            default=[],
            assume="There is nothing to measure with but nose and eyes.",
        ),
    ] = ()
    strips_opened_on: Annotated[
        date | None, Key("strips_opened", Day(), "When the box of pH strips was opened.", default=None)
    ] = None

    @property
    def cold_l(self) -> float:
        """Return the room for scraps in the cold."""
        return self.fridge_l + self.freezer_l
