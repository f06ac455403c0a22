"""All the numbers with a provenance that the chain is handed."""

from collections.abc import Mapping
from dataclasses import dataclass

from sourloam.fleet.chance import ChanceParameters, Response
from sourloam.science.ferment.parameters import FermentParameters
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.materials.composition import Material
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.ground.crops import Crop
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.soil_tub.parameters import SoilTubParameters
from sourloam.science.places.taker import TakerParameters
from sourloam.science.places.worm_bin.parameters import WormBinParameters
from sourloam.science.vessel.parameters import VesselParameters


@dataclass(frozen=True)
class Knowledge:
    """Materials, crops and parameters, each with its source."""

    materials: Mapping[str, Material]
    crops: Mapping[str, Crop]
    load: LoadParameters
    ferment: FermentParameters
    vessel: VesselParameters
    inoculum: InoculumParameters
    bed: BedParameters
    pile: PileParameters
    worm_bin: WormBinParameters
    soil_tub: SoilTubParameters
    taker: TakerParameters
    chance: ChanceParameters
    response: Response
