"""One chain as a value: everything that the keeper owns, does and wishes."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from sourloam.science.ferment.ensemble.past import Past
from sourloam.science.places.bed.bed import Bed
from sourloam.science.places.pile.pile import Pile
from sourloam.science.places.soil_tub.soil_tub import SoilTub
from sourloam.science.places.taker import Taker
from sourloam.science.places.worm_bin.worm_bin import WormBin
from sourloam.site.facts import Facts
from sourloam.site.own import OwnMaterial
from sourloam.site.people import Keeper
from sourloam.site.stocks import Stock
from sourloam.site.streams import Stream
from sourloam.site.vessels import Vessel

# The repeated tables of a site file, in the order in which matter flows.
REPEATED: Final[Mapping[str, type]] = MappingProxyType(
    {
        "material": OwnMaterial,
        "stream": Stream,
        "vessel": Vessel,
        "bed": Bed,
        "pile": Pile,
        "worm_bin": WormBin,
        "soil_tub": SoilTub,
        "taker": Taker,
    }
)

NOTHING_YET: Final = Past()
PLACES: Final = ("bed", "pile", "worm_bin", "soil_tub", "taker")


@dataclass(frozen=True)
class Site:
    """One chain: its streams, vessels, stocks, places and keeper."""

    facts: Facts
    streams: tuple[Stream, ...]
    vessels: tuple[Vessel, ...]
    beds: tuple[Bed, ...] = ()
    piles: tuple[Pile, ...] = ()
    worm_bins: tuple[WormBin, ...] = ()
    soil_tubs: tuple[SoilTub, ...] = ()
    takers: tuple[Taker, ...] = ()
    stock: Stock = Stock()
    keeper: Keeper = Keeper()
    materials: tuple[OwnMaterial, ...] = ()
    past: Past = NOTHING_YET

    @classmethod
    def of(
        cls,
        facts: Facts,
        stock: Stock,
        keeper: Keeper,
        parts: Mapping[str, tuple[Any, ...]],
        *,
        past: Past = NOTHING_YET,
    ) -> "Site":
        """Put a site together from its tables."""
        return cls(
            facts,
            parts["stream"],
            parts["vessel"],
            parts["bed"],
            parts["pile"],
            parts["worm_bin"],
            parts["soil_tub"],
            parts["taker"],
            stock,
            keeper,
            parts.get("material", ()),
            past,
        )

    def parts(self) -> Mapping[str, tuple[Any, ...]]:
        """Return the repeated tables by the name that each has in a file."""
        places = (self.beds, self.piles, self.worm_bins, self.soil_tubs, self.takers)
        return dict(zip(REPEATED, (self.materials, self.streams, self.vessels, *places), strict=True))

    def name_of(self, id_: str) -> str:
        """Return what the keeper calls something, or its id."""
        return next((each.name for part in self.parts().values() for each in part if each.id == id_ and each.name), id_)
