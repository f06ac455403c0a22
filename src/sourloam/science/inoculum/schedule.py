"""The dates of the chain, backwards from the day on which bran is needed, or forwards from a start."""

from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Final, Literal, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.days import after, before
from sourloam.base.figure import Figure, derive, law, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.inoculum.serum import days_at

Link = Literal["rice_wash", "milk", "serum"]
LINKS: Final[tuple[Link, ...]] = ("rice_wash", "milk", "serum")

ROOM: Final = Range(10.0, 38.0, "°C")
QUANTILE: Final = Range(0.0, 1.0)


class StepDays(NamedTuple):
    """Whole days of each step, in the order of making; a step that is not needed takes none."""

    rice_wash: int
    milk: int
    straining: int
    bran: int
    drying: int


@dataclass(frozen=True)
class BranSchedule:
    """The day on which each step begins. A link that starts from what is on hand has no earlier days."""

    rice_wash_on: date | None
    milk_on: date | None
    serum_on: date | None  # the curd is strained
    mix_on: date
    dry_on: date
    usable_on: date

    @property
    def first_on(self) -> date:
        """Return the day on which the keeper must begin."""
        return self.rice_wash_on or self.milk_on or self.mix_on


@law("rice water + milk + straining + fermenting + drying, as far as each is needed", unit="d")
def days_in_all(**steps: ArrayLike) -> float | FloatArray:
    """Return the days of all steps together."""
    return keep_shape(np.asarray(sum(np.asarray(each, dtype=float) for each in steps.values()), dtype=float))


def days_ahead(room_c: float, parameters: InoculumParameters, *, from_link: Link = "rice_wash") -> Figure:
    """Return how long before bran is needed the chain must begin in a room of that temperature.

    Raises
    ------
    OutOfRange
        If the room is colder than 10 °C or warmer than 38 °C.
    """
    steps = step_figures(room_c, parameters)
    words = "days from the start to dry bran"
    make = partial(derive, "days_ahead", days_in_all, words=words, bran=steps.bran, drying=steps.drying)
    match from_link:
        case "rice_wash":
            return make(rice_wash=steps.rice_wash, milk=steps.milk, straining=steps.straining)
        case "milk":
            return make(milk=steps.milk, straining=steps.straining)
        case "serum":
            return make()


def step_days(
    room_c: float, parameters: InoculumParameters, *, from_link: Link = "rice_wash", quantile: float = 0.5
) -> StepDays:
    """Return the days of each step, rounded to whole ones; no step takes less than one.

    With a `quantile` of 0.95 every step is given the time that only one keeper in twenty would overrun.

    Raises
    ------
    OutOfRange
        If the room is colder than 10 °C or warmer than 38 °C, or the quantile is no share.
    """
    share = float(within(quantile, QUANTILE, name="quantile", why="it is a share of all cases."))
    begun = LINKS.index(from_link)
    needed_from = (0, 1, 1, 2, 2)  # the last link that still needs the step, in the order of the steps
    days = (_whole(each, share) for each in step_figures(room_c, parameters))
    return StepDays(*(each if begun <= last else 0 for each, last in zip(days, needed_from, strict=True)))


def schedule_backwards(
    usable_by: date,
    room_c: float,
    parameters: InoculumParameters,
    *,
    from_link: Link = "rice_wash",
    quantile: float = 0.5,
) -> BranSchedule:
    """Return the latest dates that still give dry bran on the day it is needed.

    Raises
    ------
    OutOfRange
        If the room is colder than 10 °C or warmer than 38 °C, or the quantile is no share.
    """
    days = step_days(room_c, parameters, from_link=from_link, quantile=quantile)
    return _dated(before(usable_by, sum(days)), days, from_link)


def schedule_forwards(
    first_on: date,
    room_c: float,
    parameters: InoculumParameters,
    *,
    from_link: Link = "rice_wash",
    quantile: float = 0.5,
) -> BranSchedule:
    """Return the dates that follow from beginning on a day.

    Raises
    ------
    OutOfRange
        If the room is colder than 10 °C or warmer than 38 °C, or the quantile is no share.
    """
    return _dated(first_on, step_days(room_c, parameters, from_link=from_link, quantile=quantile), from_link)


class Steps(NamedTuple):
    """The days of each step as figures, in the order of making."""

    rice_wash: Figure
    milk: Figure
    straining: Figure
    bran: Figure
    drying: Figure


def step_figures(room_c: float, parameters: InoculumParameters) -> Steps:
    """Return the days of each step in a room of that temperature.

    Raises
    ------
    OutOfRange
        If the room is colder than 10 °C or warmer than 38 °C.
    """
    within(room_c, ROOM, name="room_c", why="the culture hardly moves there; find it a place of 18 to 25 °C.")
    p = parameters
    return Steps(
        rice_wash=_paced("rice_wash_d", p.rice_wash_at_20c_d, room_c, p),
        milk=_paced("milk_d", p.milk_at_20c_d, room_c, p),
        straining=p.straining_d,
        bran=_paced("bran_d", p.bran_at_20c_d, room_c, p),
        drying=p.drying_d,
    )


def _paced(name: str, at_20c_d: Figure, room_c: float, parameters: InoculumParameters) -> Figure:
    return derive(
        name,
        days_at,
        words=at_20c_d.words.replace(" at 20 °C", " in that room"),
        at_20c_d=at_20c_d,
        temperature_c=written("room_c", room_c, "Cel", words="temperature of the room", members=at_20c_d.members.size),
        least_c=parameters.least_c,
        best_c=parameters.best_c,
        most_c=parameters.most_c,
    )


def _whole(days: Figure, quantile: float) -> int:
    return max(1, int(np.floor(np.quantile(days.members, quantile) + 0.5)))


def _dated(first_on: date, days: StepDays, from_link: Link) -> BranSchedule:
    milk_on = after(first_on, days.rice_wash)
    serum_on = after(milk_on, days.milk)
    mix_on = after(serum_on, days.straining)
    dry_on = after(mix_on, days.bran)
    return BranSchedule(
        rice_wash_on=first_on if from_link == "rice_wash" else None,
        milk_on=milk_on if from_link != "serum" else None,
        serum_on=serum_on if from_link != "serum" else None,
        mix_on=mix_on,
        dry_on=dry_on,
        usable_on=after(dry_on, days.drying),
    )
