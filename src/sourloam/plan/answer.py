"""The plan as a value: what the year will be, and what to do when."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sourloam.base.days import Span
from sourloam.base.figure import Figure
from sourloam.fleet.cures import Cure
from sourloam.fleet.life import Binding, Placing
from sourloam.plan.lived import LivedYears
from sourloam.plan.matter import Matter
from sourloam.plan.shelf import Shelf
from sourloam.plan.words import Speech


@dataclass(frozen=True)
class Batch:
    """One filling of one vessel, planned; `ready` is a forecast and so has an interval."""

    id: str
    vessel: str
    first_layer: date
    sealed: date | None
    ready: date | None
    ready_low: date | None
    ready_high: date | None
    scraps_kg: float
    bran_kg: float
    placings: tuple[Placing, ...]
    waits_for: str

    @property
    def placed(self) -> date | None:
        """Return the day on which the last of it is placed; nothing while a part still waits."""
        return self.placings[-1].on if self.placings and not self.waits_for else None

    @property
    def place(self) -> str | None:
        """Return the place that takes the most of it."""
        return max(self.placings, key=lambda each: each.mass_kg).place if self.placings else None


@dataclass(frozen=True)
class Task:
    """Something to do on a day. KIND:SUBJECT is its id, and stays so when its day moves."""

    id: str
    subject: str
    date: date
    what: str
    because: str


@dataclass(frozen=True)
class BranLot:
    """One batch of bran in the plan: how much, when it is begun, what it covers."""

    number: int
    bran_kg: float
    usable_on: date
    lasts_until: date
    bought_kg: float  # what must be bought because it was begun too late
    steps: tuple[tuple[str, date, str], ...]  # kind, day, what
    shopping: tuple[tuple[str, float, str], ...]  # thing, amount, unit
    cost: float | None = None  # of what has a price, in the keeper's money; nothing where no price is known


@dataclass(frozen=True)
class Ground:
    """What one place gets in the year, and when it may be planted or used."""

    place: str
    kind: str
    got_kg: float
    nitrogen_g: float
    nitrogen_g_per_m2: float | None
    free_on: date | None
    plantings: tuple[tuple[str, date, str], ...]  # crop, day, warning
    harvests: tuple[str, ...] = ()  # of each planting: from when it may be eaten, where that must be said


@dataclass(frozen=True)
class YearPlan:
    """The answer to a question."""

    site: str
    site_id: str
    speech: Speech
    first: date
    last: date
    enough: bool
    summary: tuple[str, ...]
    figures: Mapping[str, Figure]
    batches: tuple[Batch, ...]
    tasks: tuple[Task, ...]
    bran: tuple[BranLot, ...]
    currency: str  # the sign for money, as the keeper writes it
    ground: tuple[Ground, ...]
    shelf: Shelf
    matter: Matter
    closed: tuple[Span, ...]  # no ground can be dug: by rule
    frozen: tuple[Span, ...]  # and by frost
    bran_on_hand: tuple[tuple[date, float], ...]  # kg in the bag at the end of each day
    levels: Mapping[
        str, tuple[tuple[date, float], ...]
    ]  # of each batch: part of its vessel's room that is taken after each load
    stalls: tuple[tuple[date, date, Binding], ...]
    cures: tuple[Cure, ...]
    lived: LivedYears  # by chance, for how often each week stalls
    cautions: tuple[str, ...]
    assumptions: tuple[str, ...]
    hints: tuple[str, ...]
    asks: tuple[str, ...]
