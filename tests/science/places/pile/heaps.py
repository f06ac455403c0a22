"""What the tests of a pile in time share."""

import numpy as np

from sourloam.base.figure import written
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.science.batch.content import ContentParameters, content_of
from sourloam.science.places.pile.ferment import ferment_of
from sourloam.science.places.pile.heat import Weather, follow, left_alone
from sourloam.science.places.pile.heat_parameters import PileHeatParameters
from sourloam.science.places.pile.lay import laid
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.rates import Rates
from sourloam.science.places.pile.stuff import stuff_of

MEMBERS = 100
P = load_parameters(PileParameters, "pile", members=MEMBERS)
HEAT = load_parameters(PileHeatParameters, "pile_heat", members=MEMBERS)
RATES = Rates.of(HEAT, MEMBERS)
TABLE = load_materials()


def stuff(name, kg=1e9, least_kg=0.0):
    return stuff_of(TABLE[name], kg, members=MEMBERS, least_kg=least_kg)


def ferment(kg):
    held = load_parameters(ContentParameters, "product", members=MEMBERS)
    return ferment_of(content_of(written("mass_kg", kg, "kg", members=MEMBERS), held, batch="the batch"), HEAT)


def pile_of(kg, sour_kg=0.0):
    stuffs = [stuff(name) for name in kg]
    amounts = dict(kg)
    if sour_kg:
        stuffs.append(ferment(sour_kg))
        amounts["ferment"] = sour_kg
    return laid(stuffs, amounts, blend_frac=P.blend_frac.members)


def weather(air_c, days=40, *, walled=False):
    return Weather(np.full(days + 2, float(air_c)), walled)


def middle_run(start, air_c=12.0, *, days=40, decide=left_alone, walled=False, fine=1.0):
    """Follow the pile in the middle of all; return its days and the course of its core."""
    course = follow(
        start.middle(), RATES.middle(), weather(air_c, days, walled=walled), days=days, decide=decide, fine=fine
    )
    return np.array(course.day), course.table("core_c")[:, 0], course
