"""What a keeper has for a pile: amounts as they were written, and the carbon and nitrogen that stand beside them."""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from sourloam.base.figure import written
from sourloam.evidence.parameters import load_parameters
from sourloam.exchange.amounts import read_amounts
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.places.pile.stuff import Stuff, stuff_of
from sourloam.service.portions import Pantry, portion_of

MOST: Final = 20_000.0  # kg or L; beyond that it is a works
WATER: Final = "water"
STATED: Final = re.compile(
    r"\(\s*(?P<carbon>[\d.]+)\s*%\s*C\s*,\s*(?P<nitrogen>[\d.]+)\s*%\s*N\s*\)", re.IGNORECASE
)  # of the mass as it lies


def heaped(texts: Sequence[str], pantry: Pantry, members: int) -> list[Stuff]:
    """Return amounts such as "50 kg hay (40 % C, 1 % N)" as stuff of a pile, one for each material.

    Raises
    ------
    BadInput
        If one cannot be read or a name is unknown; all faults are named.
    """
    load = load_parameters(LoadParameters, "load", members=members)
    kg: dict[str, float] = {}
    found, known = {}, {}
    plain = [STATED.sub("", each).strip() for each in texts]
    for number, each in enumerate(read_amounts(plain, pantry.find, where="--at-hand", most=MOST)):
        portion = portion_of(each, number, load, members=members)
        name = portion.material.id
        found[name] = portion.material
        kg[name] = kg.get(name, 0.0) + portion.mass.value
        if match := STATED.search(texts[number]):
            known[name] = {each: min(float(match[each]) / 100.0, 1.0) for each in ("carbon", "nitrogen")}
    return [_known(stuff_of(found[each], kg[each], members=members), known.get(each, {})) for each in kg]


def _known(stuff: Stuff, shares: dict[str, float]) -> Stuff:
    """Return a stuff with what a keeper wrote beside it."""
    count = stuff.all("water").size
    brings = dict(stuff.brings) | {name: np.full(count, each) for name, each in shares.items()}
    opens = dict(stuff.figures) | {
        name: written(
            f"{stuff.id}.{name}", each, "1", words=f"{stuff.name}: {name}", typed=f"{100 * each:g} %", members=count
        )
        for name, each in shares.items()
    }
    return replace(stuff, brings=brings, figures=tuple(opens.items()))
