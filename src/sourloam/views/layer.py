"""What is offered where a layer is written down: the kinds that come often, usual amounts, the bran for each."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Offered:
    """One choice: what it is called, and what is written down if it is taken."""

    words: str
    typed: str


@dataclass(frozen=True)
class LayerOffer:
    """What somebody with wet hands may press."""

    vessel: str
    name: str
    kinds: tuple[Offered, ...]
    amounts: tuple[Offered, ...]
    holds: str
    bran_left: str
    warns: str  # what speaks against another layer, or nothing
