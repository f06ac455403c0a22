"""The places of a site as the fleet meets them, and the order in which they are asked."""

from collections.abc import Mapping
from typing import Final

from sourloam.fleet.knowledge import Knowledge
from sourloam.science.places.bed.place import BedPlace
from sourloam.science.places.offer import Place
from sourloam.science.places.pile.place import PilePlace
from sourloam.science.places.soil_tub.place import SoilTubPlace
from sourloam.science.places.taker import TakerPlace
from sourloam.science.places.worm_bin.place import WormBinPlace
from sourloam.site.site import Site

EATERS: Final = ("worm_bin",)  # they eat little and often, and so come first
ORDER: Final = ("worm_bin", "bed", "soil_tub", "pile", "taker")
LAST_RESORT: Final = "waste-bin"


def places_of(site: Site, knowledge: Knowledge) -> Mapping[str, Place]:
    """Return every place of a site with the numbers that it goes by."""
    made: dict[str, Place] = {}
    made.update({each.id: BedPlace(each, knowledge.bed, site.facts.closed) for each in site.beds})
    made.update({each.id: PilePlace(each, knowledge.pile) for each in site.piles})
    made.update({each.id: WormBinPlace(each, knowledge.worm_bin) for each in site.worm_bins})
    made.update({each.id: SoilTubPlace(each, knowledge.soil_tub) for each in site.soil_tubs})
    made.update({each.id: TakerPlace(each, knowledge.taker) for each in site.takers})
    return made


def asking_order(site: Site) -> tuple[str, ...]:
    """Return the places in the order in which they are asked: worms, ground, tubs, piles, takers."""
    parts = site.parts()
    ordered = [each for table in ORDER for each in parts[table]]
    food_last = sorted(ordered, key=lambda each: (_is_last(each), not getattr(each, "food", True)))
    return tuple(each.id for each in food_last)


def last_resorts(site: Site) -> frozenset[str]:
    """Return the places that are asked only when no vessel is left to fill."""
    return frozenset(each.id for each in site.takers if _is_last(each))


def _is_last(place: object) -> bool:
    return getattr(place, "kind", "") == LAST_RESORT
