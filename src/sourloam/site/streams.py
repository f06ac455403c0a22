"""Recurring sources of scraps: what kind, how much, when."""

import re
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final

from sourloam.base.days import Span
from sourloam.base.fields import Asking, Fault, Key
from sourloam.base.kinds import Choice, Factors, Ident, Shares, Spans, Text
from sourloam.base.literals import quoted
from sourloam.base.quantity import BadQuantity, read_quantity, write_quantity
from sourloam.base.units import EXAMPLES, Dimension

PREMISES: Final = ("home", "other-household", "school", "shared-garden", "business")
EVEN_WEEK: Final = (1.0,) * 7
EVEN_YEAR: Final = (1.0,) * 12


@dataclass(frozen=True)
class Flow:
    """How much comes in a day, by mass or by loose volume as a caddy holds it."""

    per_day: float
    by: Dimension  # MASS_RATE in kg/d, VOLUME_RATE in L/d
    typed: str = ""

    @property
    def is_by_volume(self) -> bool:
        """Whether a density is needed to weigh it."""
        return self.by is Dimension.VOLUME_RATE


@dataclass(frozen=True)
class Flows:
    """The kind of a flow: mass or volume per time."""

    most_per_day: float = 500.0  # kg or L: a large canteen; more is another trade

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return f"{EXAMPLES[Dimension.MASS_RATE]} or {EXAMPLES[Dimension.VOLUME_RATE]}"

    def read(self, raw: object, asking: Asking) -> Flow:
        """Return the flow."""
        if not isinstance(raw, str):
            raise Fault(f"{raw!r} has no unit;", f"write {self.wanted}.")
        try:
            read = read_quantity(raw, (Dimension.MASS_RATE, Dimension.VOLUME_RATE), handful_kg=asking.handful_kg)
        except BadQuantity as bad:
            raise Fault(bad.found, bad.remedy) from None
        if not 0.001 <= read.value <= self.most_per_day:
            unit = "kg" if read.dimension is Dimension.MASS_RATE else "L"
            raise Fault(
                f'"{raw}" is {read.value:g} {unit} a day;',
                f"from 0.001 to {self.most_per_day:g} {unit} a day can be planned.",
            )
        return Flow(read.value, read.dimension, raw)

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        if not isinstance(value, Flow):
            raise TypeError("a flow is wanted")
        return quoted(value.typed or write_quantity(value.per_day, value.by))


@dataclass(frozen=True)
class Glut:
    """A time in which a stream brings several times its usual amount."""

    span: Span
    times: float


@dataclass(frozen=True)
class Gluts:
    """The kind of a list of gluts."""

    _form = re.compile(r"(.+?)\s+x\s*(\d+(?:\.\d+)?)")

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return '["2027-09-01 to 2027-09-21 x 2.5"]'

    def read(self, raw: object, asking: Asking) -> tuple[Glut, ...]:
        """Return the gluts, earliest first."""
        if not isinstance(raw, list | tuple):
            raise Fault(f"{raw!r} is not a list;", f"write {self.wanted}.")
        found = []
        for each in raw:
            match = self._form.fullmatch(str(each).strip())
            if not match or not 1.0 < float(match[2]) <= 50.0:
                raise Fault(f'"{each}" is not a time and how many times the usual, up to 50;', f"write {self.wanted}.")
            found.append(Glut(Spans().read([match[1]], asking)[0], float(match[2])))
        return tuple(sorted(found, key=lambda glut: glut.span))

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        gluts: tuple[Glut, ...] = tuple(value)  # type: ignore[arg-type]
        return "[" + ", ".join(quoted(f"{each.span} x {each.times!r}") for each in gluts) + "]"


@dataclass(frozen=True)
class Stream:
    """A recurring source of scraps."""

    id: Annotated[str, Key("id", Ident(), "A short name that never changes.")]
    flow: Annotated[Flow, Key("amount", Flows(), "How much comes, weighed, or as litres of a caddy before pressing.")]
    name: Annotated[str, Key("name", Text(80), "What you call it.", default="")] = ""
    premises: Annotated[
        str,
        Key(
            "premises",
            Choice(PREMISES),
            "Where the scraps arise; rules differ where they cross to other premises.",
            default="home",
            assume="The scraps come from the keeper's own home.",
        ),
    ] = "home"
    shares: Annotated[
        tuple[tuple[str, float], ...],
        Key(
            "materials",
            Shares("material"),
            "What it is made of, and what part each is.",
            default={"mixed-household-scraps": "100 %"},
            assume="The scraps are the usual mixture of a household.",
        ),
    ] = (("mixed-household-scraps", 1.0),)
    shares_by: Annotated[
        str, Key("shares_by", Choice(("mass", "volume")), "Whether the parts are by mass or by volume.", default="mass")
    ] = "mass"
    weekdays: Annotated[
        tuple[float, ...],
        Key("weekdays", Factors(7, "Monday"), "How busy each weekday is, 1 being the usual.", default=list(EVEN_WEEK)),
    ] = EVEN_WEEK
    season: Annotated[
        tuple[float, ...],
        Key("season", Factors(12, "January"), "How busy each month is, 1 being the usual.", default=list(EVEN_YEAR)),
    ] = EVEN_YEAR
    absences: Annotated[tuple[Span, ...], Key("absences", Spans(), "Times in which nothing comes.", default=[])] = ()
    gluts: Annotated[tuple[Glut, ...], Key("gluts", Gluts(), "Times in which much more comes.", default=[])] = ()

    def usual_times(self, on: date) -> float:
        """Return how many times its usual amount comes on a day.

        The weekday and season factors are taken about their own mean, so that
        the amount that was written stays the mean of the year.
        """
        if any(on in span for span in self.absences):
            return 0.0
        week = self.weekdays[on.weekday()] * 7.0 / sum(self.weekdays)
        year = self.season[on.month - 1] * 12.0 / sum(self.season)
        glut = max((each.times for each in self.gluts if on in each.span), default=1.0)
        return week * year * glut
