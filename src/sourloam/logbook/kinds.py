"""Two kinds of value that only entries hold: a bare number, and what a layer is made of."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from sourloam.base.fields import Asking, Fault
from sourloam.base.kinds import Amount
from sourloam.base.literals import quoted, shown
from sourloam.base.quantity import write_quantity
from sourloam.base.units import Dimension

PART: Final = Amount(Dimension.MASS, "0.1 g", "500 kg", "no vessel takes that at once.")


@dataclass(frozen=True)
class Number:
    """A number without a unit, such as a pH."""

    low: float
    high: float
    why: str

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return f"a number from {self.low:g} to {self.high:g}"

    def read(self, raw: object, _asking: Asking) -> float:
        """Return the number."""
        if not isinstance(raw, int | float) or isinstance(raw, bool) or not self.low <= raw <= self.high:
            raise Fault(f"{shown(raw)} is outside {self.low:g} to {self.high:g}: {self.why}", f"Write {self.wanted}.")
        return float(raw)

    def write(self, value: object) -> str:
        """Return it as it stands in a file."""
        return repr(value)


@dataclass(frozen=True)
class Parts:
    """Materials and what each weighs."""

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return '{ vegetable-scraps = "1.5 kg" }'

    def read(self, raw: object, asking: Asking) -> tuple[tuple[str, float], ...]:
        """Return the materials with their masses in kg."""
        if not isinstance(raw, Mapping) or not raw:
            raise Fault(f"{shown(raw)} does not say what went in;", f"write {self.wanted}.")
        return tuple((str(name), PART.read(value, asking)) for name, value in raw.items())

    def write(self, value: object) -> str:
        """Return it as it stands in a file."""
        pairs: tuple[tuple[str, float], ...] = tuple(value)  # type: ignore[arg-type]
        rows = (f"{name} = {quoted(write_quantity(mass, Dimension.MASS))}" for name, mass in pairs)
        return "{ " + ", ".join(rows) + " }"
