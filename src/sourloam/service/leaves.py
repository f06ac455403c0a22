"""Use case: leaves that become leaf mould, and green matter that is saved up for a pile."""

from dataclasses import dataclass
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.exchange.amounts import read_amounts
from sourloam.plan.words import Speech
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.slow import TOUGH, SlowParameters, leaf_figures, saving_figures
from sourloam.service.weighing import weighed
from sourloam.views.leaves import leaves_view, saving_view
from sourloam.views.place import PlaceView

MEMBERS: Final = 500
MOST: Final = 20_000.0  # L
YEAR_MO: Final = 12.0


@dataclass(frozen=True)
class AskedLeaves:
    """What is asked of leaves, or of green matter that comes in week by week."""

    amount: str
    is_shredded: bool = False
    is_dry: bool = False
    months: float = YEAR_MO
    is_weekly: bool = False
    vessel: str = "60 L"
    units: str = "metric"


def keep_leaves(asked: AskedLeaves) -> PlaceView:
    """Return what becomes of leaves, or how green matter is saved up for a pile.

    Raises
    ------
    BadInput
        If what was written cannot be used.
    """
    amount = read_amounts([asked.amount], load_materials().find, where="AMOUNT", most=MOST)[0]
    handful = load_parameters(LoadParameters, "load", members=MEMBERS).handful_l
    litres = weighed(amount, "mass", handful, MEMBERS).value / amount.material.loose_kg_per_l
    p = load_parameters(SlowParameters, "slow_pile", members=MEMBERS)
    speech = Speech(asked.units)
    if asked.is_weekly:
        heats_l = load_parameters(PileParameters, "pile").heats_l.value
        figures = saving_figures(litres, heats_l, _vessel(asked.vessel), p)
        return saving_view(figures, amount.material.name, speech, sources=load_sources(), heats_l=heats_l)
    is_tough = amount.material.id in TOUGH
    figures = leaf_figures(
        litres, p, is_tough=is_tough, is_shredded=asked.is_shredded, is_dry=asked.is_dry, months=asked.months
    )
    return leaves_view(
        figures, amount.material.name, speech, sources=load_sources(), is_tough=is_tough, is_shredded=asked.is_shredded
    )


def _vessel(text: str) -> float:
    try:
        litres = read_quantity(text, Dimension.VOLUME).value
    except BadQuantity as bad:
        raise BadInput("--vessel", (Problem("", bad.found, bad.remedy),)) from None
    if litres < 1.0:
        raise BadInput("--vessel", (Problem("", f'"{text}" is no vessel;', 'write one such as "60 L".'),))
    return litres
