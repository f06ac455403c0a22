"""What a run of days leaves behind: batches, days, and the situation at the end."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Literal, NamedTuple

from sourloam.base.errors import BalanceError
from sourloam.science.vessel.contents import Contents
from sourloam.site.situation import Situation

Binding = Literal["", "vessels", "places"]


@dataclass(frozen=True)
class Placing:
    """A part of a batch that went to a place."""

    place: str
    on: date
    mass_kg: float
    nitrogen_g: float
    usable_on: date
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class DrawOff:
    """One emptying of the space below the grid."""

    batch: str
    on: date
    litres: float


@dataclass(frozen=True)
class Load:
    """Scraps that went into a vessel on a day, with their bran."""

    batch: str
    on: date
    contents: Contents
    level_frac: float  # of the vessel's room, after it


@dataclass(frozen=True)
class BatchLife:
    """One filling of one vessel, as far as it came."""

    id: str
    vessel: str
    first_layer_on: date
    contents: Contents
    sealed_on: date | None = None
    ready_on: date | None = None
    placings: tuple[Placing, ...] = ()
    waits_for: str = ""  # the limit that kept it from a place, where one did
    failed_on: date | None = None  # found to have gone wrong, and thrown away

    @property
    def placed_on(self) -> date | None:
        """Return the day on which the last of it was placed."""
        return self.placings[-1].on if self.placings else None

    @property
    def is_placed(self) -> bool:
        """Whether all of it has been placed."""
        return bool(self.placings) and not self.waits_for


class DayLine(NamedTuple):
    """The ledger of one day."""

    on: date
    scraps_kg: float = 0.0
    bran_kg: float = 0.0
    turned_away_kg: float = 0.0
    drawn_kg: float = 0.0
    gas_kg: float = 0.0
    placed_kg: float = 0.0
    held_kg: float = 0.0  # in vessels, caddy and cold at the end of the day
    failed_kg: float = 0.0  # batches that went wrong, thrown away
    scraps_l: float = 0.0  # this and the next four: litres as the scraps came in the caddy
    turned_away_l: float = 0.0
    placed_l: float = 0.0
    failed_l: float = 0.0
    held_l: float = 0.0
    waiting_l: float = 0.0  # in caddy and cold at the end of the day
    queue: int = 0  # finished batches that wait for a place at the end of the day
    is_stalled: bool = False
    binding: Binding = ""


@dataclass(frozen=True)
class Life:
    """A run of days."""

    batches: tuple[BatchLife, ...]
    days: tuple[DayLine, ...]
    loads: tuple[Load, ...]
    draw_offs: tuple[DrawOff, ...]
    end: Situation

    @property
    def stalled_days(self) -> int:
        """Return the days on which scraps had nowhere to go."""
        return sum(each.is_stalled for each in self.days)

    @property
    def turned_away_kg(self) -> float:
        """Return the scraps that had nowhere to go."""
        return sum(each.turned_away_kg for each in self.days)

    @property
    def turned_away_l(self) -> float:
        """Return the litres that had nowhere to go, as they came in the caddy."""
        return sum(each.turned_away_l for each in self.days)

    def stalls(self) -> tuple[tuple[date, date, Binding], ...]:
        """Return the stalls as first day, last day and what bound on most of their days.

        Days less than a week apart are one stall.
        """
        runs: list[list[DayLine]] = []
        for line in (each for each in self.days if each.is_stalled):
            if runs and (line.on - runs[-1][-1].on).days <= 7:
                runs[-1].append(line)
            else:
                runs.append([line])
        return tuple((run[0].on, run[-1].on, _commonest(run)) for run in runs)


def _commonest(run: list[DayLine]) -> Binding:
    """Return what bound on most days of a stall; of equals, the first."""
    bindings = [each.binding for each in run]
    return max(bindings, key=bindings.count)


def check_balance(days: Iterable[DayLine], held_at_start_kg: float, held_at_start_l: float = 0.0) -> None:
    """Check that what went in came out or is still there, day by day.

    Raises
    ------
    BalanceError
        If a day leaves more than a thousandth of a gram over for each kilogram that it holds.
    """
    held, held_l = held_at_start_kg, held_at_start_l
    for line in days:
        terms = (
            ("held in the morning", held),
            ("scraps", line.scraps_kg),
            ("bran", line.bran_kg),
            ("turned away", -line.turned_away_kg),
            ("drawn off", -line.drawn_kg),
            ("gas", -line.gas_kg),
            ("placed", -line.placed_kg),
            ("failed", -line.failed_kg),
            ("held in the evening", -line.held_kg),
        )
        if abs(sum(value for _, value in terms)) > 1e-6 * max(1.0, held):
            raise BalanceError(f"the mass of {line.on}", terms, "kg")
        litres = (
            ("in stock in the morning", held_l),
            ("scraps", line.scraps_l),
            ("turned away", -line.turned_away_l),
            ("failed", -line.failed_l),
            ("placed", -line.placed_l),
            ("in stock in the evening", -line.held_l),
        )
        if abs(sum(value for _, value in litres)) > 1e-6 * max(1.0, held_l):
            raise BalanceError(f"the litres of {line.on}", litres, "L")
        held, held_l = line.held_kg, line.held_l
