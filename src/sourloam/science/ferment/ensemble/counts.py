"""The life that a layer begins with: how many cells of each group, by what it is made of and what was added."""

from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.ensemble.parts import Parts, share

COOKED_LOG10: Final = 1.0  # live cells in a gram that boiling leaves, beside spores; judgement
G_PER_KG: Final = 1000.0


def cells_g(parts: Parts, living: Living) -> dict[str, FloatArray]:
    """Return the cells of each group in a layer, g, and those of bran or culture as `added`."""
    model = living.model
    lactic, spores, yeasts = _lactic(parts, living), _wild(parts, living, "spore"), _wild(parts, living, "yeast")
    cold, protein, film = share(model.cold_frac), share(model.putrid_frac), share(model.film_frac)
    putrid = spores * 10.0**model.vegetative_log10.members
    counts = {
        "warm": lactic * (1.0 - cold),
        "cold": lactic * cold,
        "enteric": _wild(parts, living, "enteric"),
        "sugar_putrid": putrid * (1.0 - protein),
        "protein_putrid": putrid * protein,
        "yeast": yeasts * (1.0 - film),
        "film": yeasts * film,
        "mould": G_PER_KG * parts.mass_kg * 10.0**model.mould_log10.members,
    }
    each_g = {name: values["cell_g"].members for name, values in living.organisms.items()}
    grams = {name: (count + 1.0) * each_g[name] for name, count in counts.items()}  # there is always one
    return grams | {"added": _added(parts, living) * each_g["warm"]}


def _lactic(parts: Parts, living: Living) -> FloatArray:
    told = parts.layer.measured.lactic_log10
    if told is None:
        return _wild(parts, living, "lactic")
    return np.asarray(G_PER_KG * parts.mass_kg * 10.0 ** parts.drawn(told, "lactic"))


def _wild(parts: Parts, living: Living, name: str) -> FloatArray:
    """Return the wild cells of a kind in a layer."""
    total = np.zeros(parts.members)
    for each in parts.parts:
        log10 = getattr(each.portion.material.flora, f"{name}_log10")
        if parts.layer.is_cooked and not each.is_added and name != "spore":
            log10 = min(log10, COOKED_LOG10)
        total += G_PER_KG * each.mass_kg * 10.0 ** (log10 + living.model.wild_log10.members)
    return total


def _added(parts: Parts, living: Living) -> FloatArray:
    """Return the live cells that bran and culture bring."""
    layer, total = parts.layer, np.zeros(parts.members)
    if layer.bran is not None:
        told = layer.bran_log10
        log10 = living.model.bran_log10.members if told is None else parts.drawn(told, "bran")
        total += G_PER_KG * layer.bran.mass.members[: parts.members] * 10.0**log10
    if layer.culture_log10 is not None:
        total += G_PER_KG * parts.mass_kg * 10.0 ** parts.drawn(layer.culture_log10, "culture")
    return total
