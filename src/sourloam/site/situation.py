"""All that is so on a date: vessels, scraps that wait, stocks, places.

Named tuples, since a year of many vessels changes them some thousand times.
"""

from datetime import date
from typing import Literal, NamedTuple

from sourloam.science.places.offer import PlaceState
from sourloam.science.vessel.contents import Contents

Phase = Literal["empty", "filling", "fermenting", "ready"]


class VesselState(NamedTuple):
    """One vessel on a date."""

    vessel: str
    phase: Phase = "empty"
    fillings: int = 0  # how many times it has been filled, this one included
    contents: Contents = Contents()  # what went in and is still there
    excess_l: float = 0.0  # of the room that it takes up: what settling will still give back
    clock_d: float = 0.0  # days at 20 °C since it was sealed
    first_layer_on: date | None = None
    sealed_on: date | None = None
    ready_on: date | None = None
    liquid_to_come_l: float = 0.0
    below_grid_l: float = 0.0
    drawn_on: date | None = None  # when the space below the grid was last emptied
    lost_kg: float = 0.0  # drawn off or gone as gas, of what went in
    takes_times: float = 1.0  # how many times the usual this batch takes
    is_failing: bool = False  # it goes wrong, which is seen when it is opened
    is_weighed: bool = False  # its contents are layers that were written down, not room that was taken up

    @property
    def batch(self) -> str:
        """Return the id of the batch that is in it."""
        return f"{self.vessel}/{self.fillings}"

    @property
    def mass_kg(self) -> float:
        """Return what is in it now, liquid below the grid included."""
        return self.contents.mass_kg - self.lost_kg

    def emptied(self) -> "VesselState":
        """Return it empty and rinsed, its count of fillings kept."""
        return VesselState(self.vessel, fillings=self.fillings)


class Situation(NamedTuple):
    """What everything plans and simulates from."""

    on: date
    vessels: tuple[VesselState, ...]
    places: tuple[PlaceState, ...]
    waiting: Contents = Contents()  # in the caddy and in the cold
    bran_kg: float = 0.0
    serum_l: float = 0.0

    def with_vessel(self, state: VesselState) -> "Situation":
        """Return the situation with one vessel changed."""
        return self._replace(vessels=tuple(state if each.vessel == state.vessel else each for each in self.vessels))

    def with_place(self, state: PlaceState) -> "Situation":
        """Return the situation with one place changed."""
        return self._replace(places=tuple(state if each.place == state.place else each for each in self.places))
