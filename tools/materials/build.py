"""Makes evidence/data/materials.csv from map.toml and the foods of SR28.

    python tools/materials/build.py [ARCHIVE]

How a composition is closed: carbohydrate is by difference in the table, so the
parts of it that were measured (sugars, starch, fibre) or are given in the map
are taken out of it, and what is then left goes to `rest` of the map: starch
for starchy food, fibre for all else (pectin, gums, the error of the
difference). Where the parts are more than the whole, fibre gives way, then
starch, then sugars. Rounding, and alcohol, end up there too. Meat has no
carbohydrate; where its parts are more than the whole, all of them give way.
"""

import csv
import sys
import tomllib
from pathlib import Path

import sr28

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
TABLE = ROOT / "src" / "sourloam" / "evidence" / "data" / "materials.csv"
EXTRACT = ROOT / "tests" / "evidence" / "data" / "sr28_extract.csv"
CONSTITUENTS = ("water", "protein", "fat", "sugars", "starch", "fibre", "lignin", "acids", "ash")
MINERALS = {"sodium": "Na", "potassium": "K", "phosphorus": "P", "calcium": "Ca"}
COLUMNS = (
    *("id", "name", "synonyms", "kind", "animal", "rule", "reason", "preparation", "at_most_pct"),
    *("water", "water_low", "water_high", *CONSTITUENTS[1:], "nitrogen_factor", "spread_pct", *MINERALS),
    *("loose_kg_per_l", "pressed_kg_per_l", "density_source", "density_place", "density_basis"),
    *("source", "place", "basis", "method", "note"),
)
SPREAD = {"measured": 20, "relative": 50, "rule": 40}  # 90 % half-width of a dry constituent, per cent; judgement
DRIEST = {"measured": 1.15, "relative": 1.40, "rule": 1.40}  # dry matter at the dry end, times the middle; judgement
WETTEST = {"measured": 0.85, "relative": 0.70, "rule": 0.70}
MOST = 1025.0  # g per kg; 99 in 100 foods of the table close within 18
Parts = dict[str, float]  # g per kg as thrown in; "nitrogen" and the minerals beside the constituents


def main() -> None:
    """Write the table, and the foods that it rests on beside its test."""
    wanted = tomllib.loads((HERE / "map.toml").read_text("utf-8"))
    densities, words = wanted.pop("densities"), wanted.pop("words")
    archive = sr28.checked(Path(sys.argv[1]).read_bytes()) if len(sys.argv) > 1 else sr28.fetch()
    foods = sr28.foods(archive, {number for row in wanted.values() for number in row.get("foods", ())})
    parts = {name: composed(name, wanted, foods) for name in wanted}
    write(TABLE, COLUMNS, [line(name, wanted[name], parts[name], densities, words) for name in wanted])
    write(EXTRACT, sr28.COLUMNS, [foods[number] for number in sorted(foods)])
    print(f"{len(wanted)} materials, {len(foods)} foods")


def composed(name: str, wanted: dict, foods: dict[str, sr28.Food]) -> Parts:
    """Return what a material is made of, by whichever way the map gives."""
    row = wanted[name]
    if "mix" in row:
        whole = blend([(share, composed(each, wanted, foods)) for each, share in row["mix"].items()], name)
    elif "foods" in row:
        whole = blend([(share, from_food(foods[each], row)) for each, share in row["foods"].items()], name)
    else:
        whole = from_dry(row)
    if abs(sum(whole[each] for each in CONSTITUENTS) - 1000.0) > 0.01:
        raise SystemExit(f"{name} does not add up")
    return whole


def blend(shares: list[tuple[float, Parts]], name: str) -> Parts:
    """Return the mass-weighted sum of several compositions."""
    if abs(sum(share for share, _ in shares) - 1.0) > 1e-9:
        raise SystemExit(f"the shares of {name} do not add up to 1")
    return {each: sum(share * parts[each] for share, parts in shares) for each in shares[0][1]}


def from_food(food: sr28.Food, row: dict) -> Parts:
    """Return a food of the table, closed as the module says, at the water that the map gives."""
    held = fitted({each: 10.0 * float(food.get(f"{each}_g") or 0.0) for each in ("water", "protein", "fat", "ash")})
    dry = 1000.0 - held["water"]
    if "nitrogen_db" in row:
        held["protein"] = row["nitrogen_db"] * factor_of(food, row) * dry / 1000.0
    given = {each: row.get(f"{each}_db", 0.0) * dry / 1000.0 for each in ("sugars", "acids", "lignin")}
    open_g = dry - held["protein"] - held["fat"] - held["ash"]
    sugars = given["sugars"] or 10.0 * float(food.get("sugars_g") or 0.0)
    starch = 10.0 * float(food.get("starch_g") or 0.0)
    fibre = 10.0 * float(food.get("fibre_g") or 0.0) - given["lignin"]
    held |= shared_out(open_g, given["acids"], given["lignin"], sugars, starch, fibre, row.get("rest", "fibre"))
    held["nitrogen"] = held["protein"] / factor_of(food, row)
    held |= {each: float(food.get(f"{each}_mg") or 0.0) / 100.0 for each in MINERALS}
    return at_water(held, row["water"]) if "water" in row else held


def fitted(parts: Parts) -> Parts:
    """Return parts that were each measured, made to fit into the whole where together they are more."""
    most = max(1000.0, sum(parts.values()))
    if most > MOST:
        raise SystemExit(f"{parts} are more than a food can hold")
    return {each: value * 1000.0 / most for each, value in parts.items()}


def shared_out(
    open_g: float, acids: float, lignin: float, sugars: float, starch: float, fibre: float, rest: str
) -> Parts:
    """Return the carbohydrate of a food in its parts; the measured ones may be more than the whole."""
    parts = {"acids": min(acids, open_g), "lignin": 0.0, "sugars": 0.0, "starch": 0.0, "fibre": 0.0}
    left = open_g - parts["acids"]
    for each, wanted in (("lignin", lignin), ("sugars", sugars), ("starch", starch), ("fibre", max(fibre, 0.0))):
        parts[each] = min(wanted, left)
        left -= parts[each]
    parts[rest] += left
    return parts


def factor_of(food: sr28.Food, row: dict) -> float:
    """Return the protein per nitrogen: of the map, else of the table, else 6.25 (some foods have none printed)."""
    return row.get("nitrogen_factor") or float(food["nitrogen_factor"] or 0.0) or 6.25


def at_water(parts: Parts, water: float) -> Parts:
    """Return the same dry matter with other water."""
    times = (1000.0 - water) / (1000.0 - parts["water"])
    return {each: water if each == "water" else value * times for each, value in parts.items()}


def from_dry(row: dict) -> Parts:
    """Return a material that is given by its dry matter; fibre takes what is left, or ash where the map says so."""
    dry = {each: float(row["dry"].get(each, 0.0)) for each in CONSTITUENTS[1:]}
    if "nitrogen_db" in row:
        dry["protein"] = row["nitrogen_db"] * row.get("nitrogen_factor", 6.25)
    dry["ash" if row.get("ash_takes_rest") or row["kind"] == "bone" else "fibre"] += 1000.0 - sum(dry.values())
    dry |= {each: row["minerals"][symbol] for each, symbol in MINERALS.items()}
    dry["nitrogen"] = dry["protein"] / row.get("nitrogen_factor", 6.25)
    times = (1000.0 - row["water"]) / 1000.0
    return {"water": float(row["water"])} | {each: value * times for each, value in dry.items()}


def line(name: str, row: dict, parts: Parts, densities: dict, words: dict) -> dict[str, str]:
    """Return a material as its line in the table."""
    method = row["method"]
    dry = 1000.0 - parts["water"]
    low = row.get("water_low", max(0.0, 1000.0 - DRIEST[method] * dry))
    high = row.get("water_high", 1000.0 - WETTEST[method] * dry)
    loose, pressed = densities[row["kind"]]
    factor = parts["protein"] / parts["nitrogen"] if parts["nitrogen"] else 6.25
    said = {
        **{each: row.get(each, "") for each in ("reason", "note")},
        "id": name,
        "name": row["name"],
        "kind": row["kind"],
        "method": method,
        "rule": row.get("rule", "yes"),
        "synonyms": ";".join(row["synonyms"]),
        "animal": "yes" if row.get("animal") else "no",
        "preparation": words.get(row.get("preparation", ""), row.get("preparation", "")),
        "at_most_pct": f"{row.get('at_most', 100):g}",
        **{each: f"{parts[each]:.2f}" for each in (*CONSTITUENTS, *MINERALS)},
        "water_low": f"{low:.0f}",
        "water_high": f"{high:.0f}",
        "nitrogen_factor": f"{factor:.3f}",
        "spread_pct": f"{row.get('spread', SPREAD[method]):g}",
        "loose_kg_per_l": f"{row.get('loose', loose):g}",
        "pressed_kg_per_l": f"{row.get('pressed', pressed):g}",
        "density_source": row.get("density_source", "judgement"),
        "density_place": row.get(
            "density_place", f"by kind ({row['kind']}) or shape; raw and tamped by hand 0.5 to 0.7"
        ),
        "density_basis": row.get("density_basis", "JUDGEMENT"),
    }
    return said | provenance(row)


def provenance(row: dict) -> dict[str, str]:
    """Return where a composition is from; a stand-in and a mixture are worked out, not read."""
    if "mix" in row:
        return {"source": "sourloam_derivation", "place": " + ".join(_shares(row["mix"])), "basis": "JUDGEMENT"}
    if "foods" in row:
        numbers = "NDB " + " + ".join(_shares(row["foods"]))
        stands_in = row["method"] == "relative" or len(row["foods"]) > 1 or "water" in row
        return {"source": "usda_sr28", "place": numbers, "basis": "DERIVED" if stands_in else "READ"}
    return {each: row[each] for each in ("source", "place", "basis")}


def _shares(shares: dict[str, float]) -> list[str]:
    return [each if share == 1.0 else f"{share:g} {each}" for each, share in shares.items()]


def write(path: Path, columns: tuple[str, ...], lines: list[dict[str, str]]) -> None:
    """Write a table, lines ending as in every file here."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", encoding="utf-8", newline="") as opened:
        table = csv.DictWriter(opened, columns, lineterminator="\n")
        table.writeheader()
        table.writerows(lines)


if __name__ == "__main__":
    main()
