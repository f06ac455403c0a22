"""Use case: what a heap takes that is to sour under a sheet."""

from dataclasses import dataclass
from typing import Final

from sourloam.base.figure import Figure
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.exchange.amounts import Amount, By, read_amounts
from sourloam.plan.words import Speech
from sourloam.science.load.assess import Portion
from sourloam.science.load.heap import HeapParameters, heap_figures, is_for_a_heap, volume_of
from sourloam.science.load.parameters import LoadParameters
from sourloam.service.weighing import weighed
from sourloam.views.heap import HeapView, heap_view

MEMBERS: Final = 1000
STRAW: Final = "straw"  # what dries a wet heap
MOST: Final = 100_000.0  # kg or L; beyond that it is a farm's clamp


@dataclass(frozen=True)
class AskedHeap:
    """What a heap is asked with."""

    amounts: tuple[str, ...] = ()
    units: str = "metric"
    members: int = MEMBERS


def build_heap(asked: AskedHeap) -> HeapView:
    """Return what a heap takes, and how it is built.

    Raises
    ------
    BadInput
        If an amount cannot be read or a name is unknown; all faults are named.
    """
    members = asked.members
    read = read_amounts(asked.amounts, load_materials().find, most=MOST)
    handful = load_parameters(LoadParameters, "load", members=members).handful_l
    portions = [
        Portion(each.material, weighed(each, f"mass.{number}", handful, members), each.typed)
        for number, each in enumerate(read)
    ]
    volumes = {
        f"volume_{number}": _volume(amount, portion, members)
        for number, (amount, portion) in enumerate(zip(read, portions, strict=True))
        if is_for_a_heap(portion.material)
    }
    going = [each for each in portions if is_for_a_heap(each.material)]
    given = load_parameters(HeapParameters, "heap", members=members)
    straw = load_materials()[STRAW]
    figures = heap_figures(going, volumes, given, straw=straw, members=members) if going else {}
    return heap_view(portions, figures, given, straw=straw, sources=load_sources(), speech=Speech(asked.units))


def _volume(amount: Amount, portion: Portion, members: int) -> Figure:
    """Return the room of a portion as it lies: as it was written, else by its density."""
    return dict(portion.mass.inputs)["volume_l"] if amount.by is By.VOLUME else volume_of(portion, members)
