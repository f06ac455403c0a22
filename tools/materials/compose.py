"""What a material is made of: from foods of the table, from a mixture of materials, or from its dry matter.

How a composition is closed: carbohydrate is by difference in the table, so the
parts of it that were measured (sugars, starch, fibre) or are given in the map
are taken out of it, and what is then left goes to `rest` of the map: starch
for starchy food, fibre for all else (pectin, gums, the error of the
difference). Where the parts are more than the whole, fibre gives way, then
starch, then sugars. Rounding, and alcohol, end up there too. Meat has no
carbohydrate; where its parts are more than the whole, all of them give way.
"""

from typing import Any

import sr28

ACIDS = ("citric", "malic", "lactic", "acetic")
CONSTITUENTS = ("water", "protein", "fat", "sugars", "starch", "fibre", "lignin", *ACIDS, "ash")
MINERALS = {"sodium": "Na", "potassium": "K", "chlorine": "Cl", "phosphorus": "P", "calcium": "Ca", "magnesium": "Mg"}
MOST = 1025.0  # g per kg; 99 in 100 foods of the table close within 18
SALT = 1.54  # g of chlorine beside a g of sodium in common salt
PEEL_SUGARS = (
    0.7  # of the flesh that stands for a peel, a leaf or a core; judgement: another table has 0.73 of this one
)
STANDS_IN = ("vegetable", "fruit")
OF_POTASSIUM = 0.10  # g of chlorine beside a g of potassium in plants; judgement, 0.03 to 0.3
Row = dict[str, Any]
Rows = dict[str, Row]
Parts = dict[str, float]  # g per kg as thrown in; "nitrogen" and the minerals beside the constituents


def composed(name: str, rows: Rows, foods: dict[str, sr28.Food]) -> Parts:
    """Return what a material is made of, by whichever way the map gives."""
    row = rows[name]
    if "mix" in row:
        whole = blend([(share, composed(each, rows, foods)) for each, share in row["mix"].items()], name)
    elif "foods" in row:
        whole = blend([(share, from_food(foods[each], row)) for each, share in row["foods"].items()], name)
    else:
        whole = from_dry(row, name)
    if abs(sum(whole[each] for each in CONSTITUENTS) - 1000.0) > 0.01:
        raise SystemExit(f"{name} does not add up")
    return whole


def blend(shares: list[tuple[float, Parts]], name: str) -> Parts:
    """Return the mass-weighted sum of several compositions."""
    if abs(sum(share for share, _ in shares) - 1.0) > 1e-9:
        raise SystemExit(f"the shares of {name} do not add up to 1")
    return {each: sum(share * parts[each] for share, parts in shares) for each in shares[0][1]}


def from_food(food: sr28.Food, row: Row) -> Parts:
    """Return a food of the table, closed as the module says, at the water that the map gives."""
    held = fitted({each: 10.0 * number(food, f"{each}_g") for each in ("water", "protein", "fat", "ash")})
    dry = 1000.0 - held["water"]
    if "nitrogen_db" in row:
        held["protein"] = row["nitrogen_db"] * factor_of(food, row) * dry / 1000.0
    acids = {each: row["acids"].get(each, 0.0) * dry / 1000.0 for each in ACIDS}
    given = {each: row.get(f"{each}_db", 0.0) * dry / 1000.0 for each in ("sugars", "starch", "lignin")}
    open_g = dry - held["protein"] - held["fat"] - held["ash"]
    sugars = given["sugars"] or 10.0 * number(food, "sugars_g") * sugar_times(row)
    starch = given["starch"] or 10.0 * number(food, "starch_g")
    fibre = 10.0 * number(food, "fibre_g") - given["lignin"]
    wanted = {"lignin": given["lignin"], "sugars": sugars, "starch": starch, "fibre": max(fibre, 0.0)}
    held |= shared_out(open_g, acids, wanted, row.get("rest", "fibre"))
    held["nitrogen"] = held["protein"] / factor_of(food, row)
    held |= {each: number(food, f"{each}_mg") / 100.0 for each in MINERALS if each != "chlorine"}
    held["chlorine"] = chlorine(held)
    held |= {each: row["minerals"][symbol] * dry / 1000.0 for each, symbol in MINERALS.items() if _given(row, symbol)}
    return at_water(held, row["water"]) if "water" in row else held


def sugar_times(row: Row) -> float:
    """Return how much of the sugar of a food a material holds for which it stands."""
    return PEEL_SUGARS if row["method"] == "relative" and row["kind"] in STANDS_IN else 1.0


def number(food: sr28.Food, column: str) -> float:
    """Return a value of the table; what it leaves out is nothing."""
    return float(food.get(column) or 0.0)


def fitted(parts: Parts) -> Parts:
    """Return parts that were each measured, made to fit into the whole where together they are more."""
    most = max(1000.0, sum(parts.values()))
    if most > MOST:
        raise SystemExit(f"{parts} are more than a food can hold")
    return {each: value * 1000.0 / most for each, value in parts.items()}


def shared_out(open_g: float, acids: Parts, wanted: Parts, rest: str) -> Parts:
    """Return the carbohydrate of a food in its parts; the measured ones may be more than the whole."""
    fits = min(1.0, open_g / sum(acids.values())) if any(acids.values()) else 1.0
    parts = {each: value * fits for each, value in acids.items()}
    left = open_g - sum(parts.values())
    for each, value in wanted.items():
        parts[each] = min(value, left)
        left -= parts[each]
    parts[rest] += left
    return parts


def factor_of(food: sr28.Food, row: Row) -> float:
    """Return the protein per nitrogen: of the map, else of the table, else 6.25 (some foods have none printed)."""
    return row.get("nitrogen_factor") or number(food, "nitrogen_factor") or 6.25


def chlorine(parts: Parts) -> float:
    """Return the chlorine that comes with salt, and with the potassium of plants, where nothing was measured."""
    return SALT * parts["sodium"] + OF_POTASSIUM * parts["potassium"]


def at_water(parts: Parts, water: float) -> Parts:
    """Return the same dry matter with other water."""
    times = (1000.0 - water) / (1000.0 - parts["water"])
    return {each: water if each == "water" else value * times for each, value in parts.items()}


def from_dry(row: Row, name: str) -> Parts:
    """Return a material that is given by its dry matter; fibre takes what is left, or ash where the map says so."""
    dry = {each: float(row["dry"].get(each, 0.0)) for each in CONSTITUENTS[1:]}
    dry |= {each: float(row["acids"].get(each, 0.0)) for each in ACIDS}
    if "nitrogen_db" in row:
        dry["protein"] = row["nitrogen_db"] * row.get("nitrogen_factor", 6.25)
    rest = "ash" if row.get("ash_takes_rest") or row["kind"] == "bone" else "fibre"
    dry[rest] += 1000.0 - sum(dry.values())
    if dry[rest] < 0.0:
        raise SystemExit(f"{name}: its parts come to more than its dry matter")
    dry |= {each: float(row["minerals"][symbol]) for each, symbol in MINERALS.items() if _given(row, symbol)}
    dry["chlorine"] = dry.get("chlorine", chlorine(dry))
    dry["nitrogen"] = dry["protein"] / row.get("nitrogen_factor", 6.25)
    times = (1000.0 - row["water"]) / 1000.0
    return {"water": float(row["water"])} | {each: value * times for each, value in dry.items()}


def _given(row: Row, symbol: str) -> bool:
    return symbol in row.get("minerals", {})
