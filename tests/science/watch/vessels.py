"""What the tests of the watch share: one small filling with its members, and readings as a vessel would give them."""

from functools import lru_cache

import numpy as np

from sourloam.base.figure import written
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.signs import load_signs
from sourloam.science.ferment.ensemble.dates import dates_of
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer
from sourloam.science.ferment.kernel import live_all
from sourloam.science.load.assess import Portion
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.readings.kinds import Seen, Strip, Where
from sourloam.science.watch.filter import Means, ensemble_of, normed
from sourloam.science.watch.likelihood import ph_at
from sourloam.science.watch.parameters import WatchParameters
from tests.science.ferment.layers import living

MEMBERS, DAYS = 600, 28
SIGNS = load_signs()
KNOWN = load_parameters(WatchParameters, "watch", members=MEMBERS)
SCATTER = load_parameters(LoadParameters, "load", members=MEMBERS).critical_ph_scatter.members
MEANS = Means(KNOWN, live_all)
SMELLS = ("pickle", "vinegar", "yeast", "rancid", "putrid", "musty", "fresh")
GROWTHS = ("white", "specks", "blue", "clean")


def filling(*, days=DAYS, room_c=18.0, **kept):
    table = load_materials()
    mixed = Portion(table["mixed-household-scraps"], written("m", 4.0, "kg", members=MEMBERS))
    bran = Portion(table["wheat-bran"], written("b", 0.08, "kg", members=MEMBERS))
    layer = Layer((mixed,), bran=bran)
    return Filling((layer, layer), Kept(18.0, 0.055, 1.5, np.full(days, room_c), **kept))


@lru_cache(maxsize=1)
def ensemble():
    return ensemble_of(filling(), living(MEMBERS), MEANS)


def ready_d(of):
    acid = of.living.model.acid_m2_per_d.members
    return dates_of(of.followed, of.filling, scatter=SCATTER, acid_m2_per_d=acid).ready_d


def drawn(of, count, chance):
    """Return members as they come before any reading."""
    return chance.choice(of.members, size=count, replace=False, p=normed(of.log_prior))


def strips(of, member, days, chance, where=Where.CORE):
    """Return what strips of one box show of a member, with all that they and the model are off by."""
    shared = chance.normal(0.0, np.hypot(KNOWN.box_ph.value, KNOWN.model_ph.value))
    return [
        Strip(
            day=day,
            ph=float(ph_at(of.courses, day, where)[member] + shared + chance.normal(0.0, KNOWN.strip_ph.value)),
            where=where,
            typed=str(day),
        )
        for day in days
    ]


def sign(of, member, day, kind, names, chance):
    """Return the sign that somebody sees on a member, one of some names."""
    chances = np.array([SIGNS.by_id[each].chances[of.courses.column[member, int(day)]] for each in names])
    return Seen(day=day, sign=str(chance.choice(names, p=chances / chances.sum())), kind=kind, typed=kind)
