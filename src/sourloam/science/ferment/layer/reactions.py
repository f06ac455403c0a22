"""What each pathway makes of a mole of sugar, or of acid: balanced in carbon, or it cannot be built."""

from dataclasses import dataclass
from typing import Final

from sourloam.base.errors import BalanceError
from sourloam.science.ferment.layer.species import CARBON, G_PER_MOL

CLOSES_WITHIN: Final = 1e-9


@dataclass(frozen=True)
class Pathway:
    """Moles made of one mole of `of`.

    Raises
    ------
    BalanceError
        If its carbon does not close.
    """

    of: str
    lactic: float = 0.0
    acetic: float = 0.0
    butyric: float = 0.0
    ethanol: float = 0.0
    co2: float = 0.0

    def __post_init__(self) -> None:
        terms = [
            (name, getattr(self, name) * _carbon(name)) for name in ("lactic", "acetic", "butyric", "ethanol", "co2")
        ]
        terms.append((self.of, -_carbon(self.of)))
        if abs(sum(value for _, value in terms)) > CLOSES_WITHIN * _carbon(self.of):
            raise BalanceError(f"the carbon of {self.of}", tuple(terms), "g/mol")


def _carbon(name: str) -> float:
    return CARBON[name] * G_PER_MOL[name]


HOMOLACTIC: Final = Pathway("glucose", lactic=2.0)
# Where fructose takes up electrons a part of the ethanol is acetic acid instead: three tenths by judgement.
HETEROLACTIC: Final = Pathway("glucose", lactic=1.0, acetic=0.3, ethanol=0.7, co2=1.0)
MIXED_ACID: Final = Pathway("glucose", lactic=1.0, acetic=0.6, ethanol=0.56, co2=0.68)  # enteric bacteria
BUTYRIC: Final = Pathway("glucose", butyric=1.0, co2=2.0)
BUTYRIC_OF_LACTIC: Final = Pathway("lactic", butyric=0.5, co2=1.0)
ALCOHOLIC: Final = Pathway("glucose", ethanol=2.0, co2=2.0)
RESPIRATION: Final = Pathway("glucose", co2=6.0)
RESPIRED_LACTIC: Final = Pathway("lactic", co2=3.0)
OXYGEN_PER_CO2: Final = 1.0  # a mole of oxygen for each of carbon dioxide, for sugar and lactic acid alike
