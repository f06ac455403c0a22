"""Writes the response of the model of a vessel: when it is sour and ready, by mix, dose of bran and temperature.

    python tools/response.py

What it writes, `evidence/data/response.csv`, is what plan and fleet go by, so that neither has to follow vessels.
"""

import csv
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import written
from sourloam.base.numbers import FloatArray
from sourloam.evidence.materials import load_materials
from sourloam.evidence.organisms import load_organisms
from sourloam.evidence.parameters import load_parameters
from sourloam.science.ferment.ensemble.dates import dates_of
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer
from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.ensemble.parameters import ModelParameters
from sourloam.science.ferment.kernel import live_all
from sourloam.science.load.assess import Portion
from sourloam.science.load.parameters import LoadParameters

OUT: Final = Path(__file__).parent.parent / "src" / "sourloam" / "evidence" / "data" / "response.csv"
MEMBERS: Final = 400
TEMPERATURES_C: Final = (2, 4, 6, 8, 10, 12, 15, 18, 20, 22, 25, 28, 30, 33, 36)
DOSES_G_PER_KG: Final = (0, 5, 10, 20, 30)
DAYS, COLD_DAYS, COLD_C = 60, 120, 12
MIXES: Final[Mapping[str, Mapping[str, float]]] = MappingProxyType(
    {  # a kilogram of each
        "plant": {"vegetable-scraps": 1.0},
        "mixed": {"mixed-household-scraps": 1.0},
        "cooked": {"white-bread": 0.3, "cooked-rice": 0.3, "cooked-potato": 0.4},
        "animal": {"mixed-household-scraps": 0.75, "cooked-chicken": 0.25},
    }
)
LEVELS: Final = (0.05, 0.25, 0.5, 0.75, 0.95)
COLUMNS: Final = (
    *("mix", "dose_g_per_kg", "temperature_c", "sour_frac", "ready_frac"),
    *(f"{what}_{100 * level:.0f}" for what in ("soured", "ready") for level in LEVELS),
)


def row(mix: str, dose_g_per_kg: float, temperature_c: float, *, members: int = MEMBERS) -> dict[str, str]:
    """Return one row: the parts of the members that get there in the days followed, and when those do."""
    living = Living(load_parameters(ModelParameters, "vessel_model", members=members), load_organisms(members=members))
    scatter = load_parameters(LoadParameters, "load", members=members).critical_ph_scatter.members
    table = load_materials()

    def portion(name: str, mass_kg: float) -> Portion:
        return Portion(table[name], written(name, mass_kg, "kg", members=members))

    bran = portion("wheat-bran", dose_g_per_kg / 1000.0) if dose_g_per_kg else None
    layer = Layer(tuple(portion(name, mass) for name, mass in MIXES[mix].items()), bran=bran)
    days = COLD_DAYS if temperature_c <= COLD_C else DAYS
    filling = Filling((layer,), Kept(2.0, 0.01, 0.2, np.full(days, float(temperature_c))))
    followed = follow(draw(filling, living), days_of(filling), compiler=live_all)
    dates = dates_of(followed, filling, scatter=scatter, acid_m2_per_d=living.model.acid_m2_per_d.members)
    told = {"mix": mix, "dose_g_per_kg": f"{dose_g_per_kg:g}", "temperature_c": f"{temperature_c:g}"}
    told |= {"sour_frac": f"{_came(dates.soured_d):.3f}", "ready_frac": f"{_came(dates.ready_d):.3f}"}
    for what, values in (("soured", dates.soured_d), ("ready", dates.ready_d)):
        found = values[np.isfinite(values)]
        for level in LEVELS:
            told[f"{what}_{100 * level:.0f}"] = f"{np.quantile(found, level):.2f}" if found.size else ""
    return told


def _came(values: FloatArray) -> float:
    return float(np.mean(np.isfinite(values)))


def rows() -> Iterator[dict[str, str]]:
    for mix in MIXES:
        for dose in DOSES_G_PER_KG:
            for temperature_c in TEMPERATURES_C:
                yield row(mix, dose, temperature_c)
            print(mix, dose, file=sys.stderr)


def main() -> None:
    with OUT.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, COLUMNS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows())
    print(f"Written: {OUT.name}")


if __name__ == "__main__":
    main()
