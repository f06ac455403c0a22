"""Use case: charcoal beside a batch."""

from dataclasses import dataclass

from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.science.places.charcoal import CharcoalParameters, Kind, charcoal_figures
from sourloam.service.ferment import Compiler
from sourloam.service.product import AskedProduct, product_of
from sourloam.views.charcoal import charcoal_view
from sourloam.views.place import PlaceView


@dataclass(frozen=True)
class AskedCharcoal:
    """What is asked of charcoal."""

    product: AskedProduct
    kind: str = Kind.WOOD.value
    is_for_pile: bool = False


def add_charcoal(asked: AskedCharcoal, compiler: Compiler | None = None) -> PlaceView:
    """Return how much charcoal goes beside a batch, and what it does.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    given = product_of(asked.product, compiler)
    p = load_parameters(CharcoalParameters, "charcoal", members=asked.product.members)
    kind = Kind(asked.kind)
    return charcoal_view(
        charcoal_figures(given.content, p, kind, is_for_pile=asked.is_for_pile),
        kind,
        given.speech,
        bed_kg_per_m2=p.soil_kg_per_m2.value,
        sources=load_sources(),
        cautions={each.id: each for each in load_cautions()},
        assumptions=given.assumptions,
    )
