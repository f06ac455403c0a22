"""What the bench knows, and a making on it, for the tests of this room."""

from functools import lru_cache
from typing import Final

from sourloam.base.figure import written
from sourloam.evidence.culture import load_bench, load_carriers
from sourloam.evidence.parameters import load_parameters
from sourloam.science.inoculum.culture_parameters import CultureParameters
from sourloam.science.inoculum.making import Kitchen, Known
from sourloam.science.inoculum.parameters import InoculumParameters

MEMBERS: Final = 400
KNOWN: Final = Known(
    load_parameters(InoculumParameters, "inoculum", members=MEMBERS),
    load_parameters(CultureParameters, "culture", members=MEMBERS),
)
BENCH: Final = load_bench(members=MEMBERS)
CARRIERS: Final = load_carriers(members=MEMBERS)
STORES: Final = {each.id: each for each in BENCH.stores}
STARTS: Final = {each.id: each for each in BENCH.starts}


def told(name, value, unit):
    return written(name, value, unit, words=name, members=MEMBERS)


@lru_cache(maxsize=8)
def kitchen(room_c=20.0, humidity=None, layer_m=0.02):
    damp = KNOWN.culture.room_humidity_frac if humidity is None else told("humidity_frac", humidity, "1")
    return Kitchen(told("room_c", room_c, "Cel"), damp, told("layer_m", layer_m, "m"), humidity is not None)
