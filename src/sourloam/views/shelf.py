"""What a drawing of the shelf may show: of a plan on its fullest day, or of the record as it stands now."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from sourloam.plan.answer import Batch
from sourloam.plan.shelf import Shelf
from sourloam.plan.words import Speech


class Shelved(Protocol):
    """A shelf with what is said below its vessels; a plan is one."""

    @property
    def shelf(self) -> Shelf:
        """Return the vessels."""
        ...

    @property
    def names(self) -> Mapping[str, str]:
        """Return what vessels are called, by id."""
        ...

    @property
    def batches(self) -> tuple[Batch, ...]:
        """Return the batches that are planned, with when they are ready."""
        ...

    @property
    def speech(self) -> Speech:
        """Return in which units to speak."""
        ...


@dataclass(frozen=True)
class ShelfView:
    """The shelf as it stands."""

    shelf: Shelf
    names: Mapping[str, str]
    batches: tuple[Batch, ...]
    speech: Speech
    ph: Mapping[str, tuple[float | None, ...]]  # of the layers of a vessel, as far as it was followed
