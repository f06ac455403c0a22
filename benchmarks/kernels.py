"""Times the kernels inside one process, each beside a peer: what a general library takes for the bare part of it."""

import statistics
import time
from collections.abc import Callable

import numpy as np

from sourloam.base.figure import written
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.load.assess import Known, Portion, Setting, assess
from sourloam.science.load.members import DRAWN
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.vessel.parameters import VesselParameters

MATERIALS = 30
TIMES = 7


def load_case(members: int) -> Callable[[], object]:
    """Return the judgement of a load of thirty materials, its draws included."""
    table = [each for each in load_materials() if each.kind in ("vegetable", "fruit", "starch")][:MATERIALS]
    known = Known(
        load_parameters(LoadParameters, "load", members=members),
        load_parameters(VesselParameters, "vessel", members=members),
        load_parameters(InoculumParameters, "inoculum", members=members),
    )
    portions = [Portion(each, written(each.id, 0.1, "kg", members=members)) for each in table]
    volume, below = (written(name, litres, "L", members=members) for name, litres in (("volume", 20.0), ("below", 2.0)))
    setting = Setting(volume, below, True, load_materials()["cardboard"])
    return lambda: assess(portions, setting, known, members=members)


def bare_draws(members: int) -> Callable[[], object]:
    """Return the peer: as many normal draws and their exponentials by numpy, and nothing else."""
    stream = np.random.default_rng(1)
    return lambda: np.exp(stream.standard_normal((members, MATERIALS * len(DRAWN))))


def seconds(run: Callable[[], object]) -> float:
    """Return the median time of several runs, after one that is not counted."""
    run()
    taken = []
    for _ in range(TIMES):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)
