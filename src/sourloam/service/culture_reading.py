"""What the bench of cultures is asked with, as it was written, and what is found while it is read."""

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Final

from sourloam.base.figure import Figure
from sourloam.evidence.lookup import Lookup
from sourloam.science.inoculum.bench import Bench
from sourloam.science.inoculum.carrier import Carrier
from sourloam.science.inoculum.making import Known
from sourloam.service.cupboard import Faults

MEMBERS: Final = 1000


@dataclass(frozen=True)
class AskedCulture:
    """What the bench is asked with; what is left open has a default, which is said."""

    bran: str | None = None  # wanted
    carriers: tuple[str, ...] = ()
    serum: str | None = None
    heel: str | None = None
    sugar: str | None = None
    milk: str | None = None
    rice: str | None = None
    site: Path | None = None
    scraps: str | None = None
    weeks: int | None = None
    at: str | None = None
    by: date | None = None
    today: date | None = None
    air: str | None = None
    outdoors: str | None = None
    layer: str | None = None
    moisture: str | None = None
    carrier_moisture: str | None = None
    recipe: str | None = None
    start: str | None = None
    without: tuple[str, ...] = ()
    has_bran: bool = True
    poured: str | None = None
    squeeze: str | None = None
    alive: str | None = None
    age: str | None = None
    kept: str | None = None
    dried: str | None = None
    jar: str | None = None
    prices: tuple[str, ...] = ()
    uses: str | None = None
    dilute: str | None = None
    ph: tuple[str, ...] = ()
    vessel: str | None = None
    units: str | None = None
    members: int = MEMBERS


@dataclass
class Reading:
    """What is known while the words are read, and what is gathered: faults, assumptions, amounts on hand."""

    asked: AskedCulture
    bench: Bench
    carriers: Lookup[Carrier]
    known: Known
    faults: Faults = field(default_factory=Faults)
    said: list[str] = field(default_factory=list)
    held: dict[str, float] = field(default_factory=dict)
    typed: dict[str, str] = field(default_factory=dict)
    sheets: Figure | None = None
