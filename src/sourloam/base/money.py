"""The kind of an amount of money."""

import re
from dataclasses import dataclass

from sourloam.base.fields import Asking, Fault
from sourloam.base.literals import shown


@dataclass(frozen=True)
class Money:
    """An amount of money, in the currency of the file."""

    most: float = 1e6

    _form = re.compile(r"[^\d.,-]{0,8}(\d{1,9}(?:[.,]\d{1,2})?)[^\d.,-]{0,8}")  # with or without the sign of a currency

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return "an amount such as 12.50"

    def read(self, raw: object, _asking: Asking) -> float:
        """Return the amount."""
        match = self._form.fullmatch(raw.strip()) if isinstance(raw, str) else None
        value = float(match[1].replace(",", ".")) if match else raw
        if isinstance(value, int | float) and not isinstance(value, bool) and 0.0 <= value <= self.most:
            return float(value)
        raise Fault(f"{shown(raw)} is no amount of money;", f"write {self.wanted}.")

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return repr(value)
