"""Use case: what a flock of hens would have room for, so that what is left for the vessels is known."""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.base.errors import Problem
from sourloam.base.figure import Figure, written
from sourloam.base.units import Dimension
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.plan.words import Speech
from sourloam.science.places.hens import HenParameters, hen_figures
from sourloam.service.asking import Quantities, read_quantities, refuse
from sourloam.views.hens import hens_view
from sourloam.views.place import PlaceView

MOST_HENS: Final = 10_000
MEMBERS: Final = 500
QUANTITIES: Final[Quantities] = MappingProxyType(
    {
        "ration": ("--ration", Dimension.MASS, (0.02, 0.5), 'write what one eats in a day, such as "130 g".'),
        "share": ("--share", Dimension.SHARE, (0.001, 1.0), 'write the part that may be scraps, such as "15 %".'),
        "scraps": ("--scraps", Dimension.MASS_RATE, (0.0, 1000.0), 'write what comes, such as "4 kg/week".'),
    }
)


@dataclass(frozen=True)
class AskedHens:
    """What is asked of a flock."""

    count: int
    ration: str | None = None
    share: str | None = None
    scraps: str | None = None
    units: str = "metric"


def share_with_hens(asked: AskedHens) -> PlaceView:
    """Return what a flock has room for, whom to ask first, and what is left.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    problems: list[Problem] = []
    read = read_quantities(asked, QUANTITIES, problems)
    if not 1 <= asked.count <= MOST_HENS:
        problems.append(Problem("COUNT", f"{asked.count} hens cannot be meant;", f"write 1 to {MOST_HENS}."))
    refuse(problems)
    p = load_parameters(HenParameters, "hens", members=MEMBERS)
    hens = written("hens", float(asked.count), "1", words="hens", members=MEMBERS)

    def own(name: str, unit: str, words: str) -> Figure | None:
        return (
            written(name, read[name], unit, words=words, typed=getattr(asked, name), members=MEMBERS)
            if name in read
            else None
        )

    ration, share = own("ration", "kg/d", "what one eats in a day"), own("share", "1", "part that may be scraps")
    scraps = own("scraps", "kg/d", "scraps that come in a day")
    assumptions = (
        *(("A laying hen eats 110 to 160 g a day (--ration).",) if ration is None else ()),
        *(("A tenth to a fifth of that may be scraps (--share).",) if share is None else ()),
    )
    return hens_view(
        hen_figures(hens, ration or p.ration_kg, share or p.most_frac, scraps),
        Speech(asked.units),
        sources=load_sources(),
        cautions={each.id: each for each in load_cautions()},
        assumptions=assumptions,
    )
