"""Loads of packaged materials, for the tests of the judgement."""

from functools import cache

from sourloam.base.figure import written
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.load.advice import Means
from sourloam.science.load.assess import Known, Portion, Setting, assess
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.vessel.parameters import VesselParameters

MEMBERS = 400
MATERIALS = load_materials()


@cache
def known():
    """Return the parameters, with as many members as the loads have."""
    kinds = {"load": LoadParameters, "vessel": VesselParameters, "inoculum": InoculumParameters}
    return Known(**{table: load_parameters(kind, table, members=MEMBERS) for table, kind in kinds.items()})


def portions(amounts):
    """Return so many kilograms of each material."""
    return [
        Portion(MATERIALS[name], written(f"mass.{number}", mass, "kg", members=MEMBERS))
        for number, (name, mass) in enumerate(amounts.items())
    ]


def setting(*, drain=True, litres=20.0, absorbent="cardboard"):
    """Return a vessel."""
    volume = written("volume_l", litres, "L", members=MEMBERS)
    return Setting(volume, written("below_grid_l", litres / 12.0, "L", members=MEMBERS), drain, MATERIALS[absorbent])


def load(amounts, **where):
    """Return a load that was worked out."""
    return assess(portions(amounts), setting(**where), known(), members=MEMBERS)


def means(*absorbents):
    """Return what is at hand."""
    dry = tuple(MATERIALS[each] for each in absorbents or ("cardboard",))
    return Means(MATERIALS["sugar"], MATERIALS["water"], dry, MATERIALS["vegetable-scraps"])
