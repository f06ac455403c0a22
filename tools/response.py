"""Writes the response of the model of a vessel: when it is sour and ready, by mix, dose of bran and temperature.

    python tools/response.py           follow the vessels and write evidence/data/response.csv
    python tools/response.py --rule    print the rule that lies nearest to it, for parameters/ferment.toml

Plan and fleet go by that rule, so that neither has to follow vessels: a time at 20 °C, and a pace by temperature.
"""

import csv
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Final

import numpy as np
from scipy.optimize import minimize

from sourloam.base.figure import written
from sourloam.base.numbers import FloatArray
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.science.ferment.ensemble.dates import dates_of
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer
from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.kernel import live_all
from sourloam.science.load.assess import Portion
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.microbes.cardinal import cardinal_temperature
from sourloam.service.assemble import living_of

OUT: Final = Path(__file__).parent.parent / "src" / "sourloam" / "evidence" / "data" / "response.csv"
MEMBERS: Final = 400
TEMPERATURES_C: Final = (2, 4, 6, 8, 10, 12, 15, 18, 20, 22, 25, 28, 30, 33, 36)
DOSES_G_PER_KG: Final = (0, 5, 10, 20, 30)
DAYS, COLD_DAYS, COLD_C = 60, 120, 12
USUAL_G_PER_KG: Final = 20.0
MOST_C: Final = 42.0  # above, nothing; as the rule by custom has it
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
    living = living_of(members)
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


@dataclass(frozen=True)
class Rule:
    """A time at 20 °C, and cardinal temperatures of its pace."""

    at_20c_d: float
    least_c: float
    best_c: float
    most_c: float

    def days(self, temperatures_c: Sequence[float]) -> FloatArray:
        """Return the time at each temperature."""
        limits = {"least_c": self.least_c, "best_c": self.best_c, "most_c": self.most_c}
        pace = np.asarray(cardinal_temperature(np.array(temperatures_c, dtype=float), **limits))
        return np.asarray(self.at_20c_d * cardinal_temperature(20.0, **limits) / np.maximum(pace, 1e-9))


def shipped() -> list[dict[str, str]]:
    """Return the rows of the response as it is shipped."""
    with OUT.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def times(found: Sequence[Mapping[str, str]], column: str, *, dose: float) -> FloatArray:
    """Return a time by temperature, the mean of its logarithm over the mixes, at a dose of bran."""
    chosen = [row for row in found if float(row["dose_g_per_kg"]) == dose]
    return np.array(
        [
            np.exp(np.mean([np.log(float(r[column])) for r in chosen if float(r["temperature_c"]) == each]))
            for each in TEMPERATURES_C
        ]
    )


def rule(days: FloatArray) -> Rule:
    """Return the rule nearest to some times by temperature, by the squares of their logarithms."""

    def open_of(least_c: float, best_c: float) -> FloatArray:
        return np.log(days) - np.log(Rule(1.0, least_c, best_c, MOST_C).days(TEMPERATURES_C))

    def cost(point: FloatArray) -> float:
        least_c, best_c = point
        if not (least_c < 2.0 and (least_c + MOST_C) / 2.0 < best_c < MOST_C):
            return 1e3
        return float(np.var(open_of(least_c, best_c)))

    least_c, best_c = minimize(cost, np.array([-5.0, 30.0]), method="Nelder-Mead").x
    return Rule(float(np.exp(open_of(least_c, best_c).mean())), float(least_c), float(best_c), MOST_C)


def rules() -> dict[str, Rule]:
    """Return the rules of the middle and of the ends of the interval, and of souring and of wild flora alone."""
    found = shipped()
    columns = {"ready": "ready_50", "early": "ready_5", "late": "ready_95", "soured": "soured_50"}
    told = {name: rule(times(found, column, dose=USUAL_G_PER_KG)) for name, column in columns.items()}
    return told | {"wild": rule(times(found, "ready_50", dose=0.0))}


def main() -> None:
    if "--rule" in sys.argv[1:]:
        for name, each in rules().items():
            print(f"{name:8} {each.at_20c_d:6.2f} d at 20 °C; {each.least_c:6.2f}, {each.best_c:6.2f} °C")
        return
    with OUT.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, COLUMNS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows())
    print(f"Written: {OUT.name}")


if __name__ == "__main__":
    main()
