"""Kinds of value that only the file of a batch holds: days counted or by date, measured ranges, warmth over time."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from sourloam.base.fields import Asking, Fault, Kind
from sourloam.base.kinds import Amount, Day
from sourloam.base.literals import listed, quoted, shown
from sourloam.base.spread import Spread
from sourloam.base.units import Dimension

LAST_DAY: Final = 400  # after the first layer; nothing is followed longer
MOST_LINES: Final = 60
OnDay = int | date
Steps = tuple[tuple[OnDay, float], ...]  # from that day on so warm
ROOM: Final = Amount(Dimension.TEMPERATURE, "-30 C", "60 C", "no vessel is kept there.")


@dataclass(frozen=True)
class Number:
    """A number without a unit."""

    low: float
    high: float
    like: str

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return self.like

    def read(self, raw: object, _asking: Asking) -> float:
        """Return the number; one in quotes will do, since TOML wants a point in 1.0e8."""
        try:
            value = float(raw) if isinstance(raw, str | int | float) and not isinstance(raw, bool) else None
        except ValueError:
            value = None
        if value is None:
            raise Fault(f"{shown(raw)} is not a number;", f"write one such as {self.like}.")
        if not self.low <= value <= self.high:
            raise Fault(f"{shown(raw)} is outside {self.low:g} to {self.high:g};", f"write one such as {self.like}.")
        return value

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return str(value)


@dataclass(frozen=True)
class Between:
    """Something measured: one value, or the two ends of the range in which nine in ten of its values lie."""

    each: Kind

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return f"{self.each.wanted}, or a list of two for a range"

    def read(self, raw: object, asking: Asking) -> Spread:
        """Return it with its spread; one value is taken as it was given."""
        ends = raw if isinstance(raw, list | tuple) else (raw, raw)
        if len(ends) != 2:
            raise Fault(f"a list of {len(ends)} is no range;", "write its two ends.")
        low, high = sorted(float(str(self.each.read(each, asking))) for each in ends)
        return Spread((low + high) / 2.0, low, high, "fixed" if low == high else "normal")

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        if not isinstance(value, Spread):
            raise TypeError(f"{value!r} was not measured")
        if value.low == value.high:
            return self.each.write(value.median)
        return listed((self.each.write(value.low), self.each.write(value.high)))


@dataclass(frozen=True)
class Lines:
    """Several texts, as a list; what they mean is found out elsewhere."""

    like: str

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return f"[{quoted(self.like)}]"

    def read(self, raw: object, _asking: Asking) -> tuple[str, ...]:
        """Return the texts."""
        if not isinstance(raw, list | tuple) or any(not isinstance(each, str) for each in raw):
            raise Fault(f"{shown(raw)} is not a list of texts;", f"write {self.wanted}.")
        if len(raw) > MOST_LINES:
            raise Fault(f"it holds {len(raw)} texts;", f"{MOST_LINES} will do.")
        return tuple(str(each) for each in raw)

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return listed(quoted(str(each)) for each in value) if isinstance(value, tuple) else "[]"


@dataclass(frozen=True)
class When:
    """A day: counted from the first layer, which lies on day 0, or by its date."""

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return "0, or 2027-03-01"

    def read(self, raw: object, asking: Asking) -> OnDay:
        """Return the count or the date."""
        if isinstance(raw, int) and not isinstance(raw, bool):
            if 0 <= raw <= LAST_DAY:
                return raw
            raise Fault(f"{raw} is outside 0 to {LAST_DAY};", "count the days from the first layer, which lies on 0.")
        return Day().read(raw, asking)

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return str(value)


@dataclass(frozen=True)
class Whens:
    """Several days."""

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return "[5, 9]"

    def read(self, raw: object, asking: Asking) -> tuple[OnDay, ...]:
        """Return the days."""
        if not isinstance(raw, list | tuple):
            raise Fault(f"{shown(raw)} is not a list;", f"write {self.wanted}.")
        return tuple(When().read(each, asking) for each in raw)

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return listed(str(each) for each in value) if isinstance(value, tuple) else "[]"


@dataclass(frozen=True)
class Warmth:
    """How warm it is where the vessel stands: always, or day by day, or from one day on to the next."""

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return '"18 C"'

    def read(self, raw: object, asking: Asking) -> Steps:
        """Return from which day on it is how warm; the last holds on."""
        if not isinstance(raw, list | tuple):
            return ((0, ROOM.read(raw, asking)),)
        if not raw or len(raw) > LAST_DAY:
            raise Fault(f"it holds {len(raw)} temperatures;", f"write one for each day, {LAST_DAY} at most.")
        if all(isinstance(each, Mapping) for each in raw):
            return tuple(_step(each, asking) for each in raw)
        return tuple((day, ROOM.read(each, asking)) for day, each in enumerate(raw))

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        steps: Steps = tuple(value)  # type: ignore[arg-type]
        if len(steps) == 1:
            return ROOM.write(steps[0][1])
        return listed(f"{{ day = {day}, is = {ROOM.write(celsius)} }}" for day, celsius in steps)


def _step(row: Mapping[str, object], asking: Asking) -> tuple[OnDay, float]:
    unknown = [name for name in row if name not in ("day", "is")]
    if unknown or len(row) != 2:
        raise Fault(f"{shown(row)} is no step;", 'write day = 3 and is = "18 C" under [[temperature]].')
    return When().read(row["day"], asking), ROOM.read(row["is"], asking)
