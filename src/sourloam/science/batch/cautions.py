"""What to mind, where it arises, and whom to ask."""

from dataclasses import dataclass
from typing import Final

from sourloam.base.source import Basis

SITUATIONS: Final = (
    *("always", "leachate", "leachate-drain", "bed", "food-bed", "pile", "hot-pile", "worm_bin", "soil_tub", "taker"),
    *("tight-lid", "lifting", "bran", "mouldy", "animal-matter", "pets", "hens", "farmed-animals", "rats"),
    *("business", "other-premises", "school", "charcoal", "lime"),
)


@dataclass(frozen=True)
class Caution:
    """One sentence about one hazard.

    Raises
    ------
    ValueError
        If it is tied to a situation that nothing can be in.
    """

    id: str
    when: tuple[str, ...]  # any of SITUATIONS; empty where only a place or an act calls it up by its id
    text: str
    authority: str  # whom to ask and what, as a sentence; empty where there is nobody to ask
    source: str
    place: str
    basis: Basis

    def __post_init__(self) -> None:
        if unknown := set(self.when) - set(SITUATIONS):
            raise ValueError(f'caution "{self.id}": {", ".join(sorted(unknown))} is no situation of a site')
