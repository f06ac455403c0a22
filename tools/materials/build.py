"""Makes evidence/data/materials.csv and material_grounds.csv from map/ and the foods of SR28.

    python tools/materials/build.py [ARCHIVE]

`compose.py` says how a composition is closed. What a row of the map leaves out
is that of its class in map/classes.toml. One row of the first table is a
material with its values; the second says of each group of its values where
they are from, how they were obtained and how far they may be off.
"""

import csv
import sys
import tomllib
from pathlib import Path

import sr28
from compose import CONSTITUENTS, MINERALS, Parts, Row, Rows, composed

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
DATA = ROOT / "src" / "sourloam" / "evidence" / "data"
EXTRACT = ROOT / "tests" / "evidence" / "data" / "sr28_extract.csv"
FILES = (  # in the order in which the table shows them
    *("vegetables", "fruit", "dishes", "animal", "coffee_tea_nuts_flowers", "garden", "browns", "manures"),
    *("carriers", "minerals", "liquids", "apart", "household"),
)
FLORA = ("lactic_log10", "enteric_log10", "yeast_log10", "spore_log10")
PACKING = ("loose", "pressed", "held", "piece_mm")
COLUMNS = (
    *("id", "name", "synonyms", "kind", "class", "animal", "rule", "reason", "preparation", "at_most_pct"),
    *("barred_by_strict", "persists", "water", "water_low", "water_high", *CONSTITUENTS[1:], "nitrogen_factor"),
    *MINERALS,
    *("ph", "ph_low", "ph_high", "buffering", "alkali", "alkali_reacts_low", "alkali_reacts", "alkali_reacts_high"),
    *(*PACKING, "piece_g", *FLORA, "note"),
)
GROUNDS = ("id", "group", "spread_pct", "method", "source", "place", "basis")
COMPOSED = ("water", "proximate", "carbohydrate", "mineral")
GROUPS = (*COMPOSED, "acid", "buffering", "alkali", "packing", "piece", "flora")
# 90 % half-width of a dry constituent, per cent. Judgement, after what two national tables say of the same 88 foods:
# dry matter 0.72 to 1.55 times, protein 0.75 to 1.47, ash 0.64 to 1.80, potassium 0.69 to 1.35, calcium 0.50 to 2.62.
SPREAD = {"measured": 35, "relative": 50, "rule": 45}
STRICT = ("garden", "brown")  # kinds that the stricter lists of councils bar, whatever they are
OF_MINERALS = 15  # wider
DRIEST = {"measured": 1.25, "relative": 1.40, "rule": 1.40}  # dry matter at the dry end, times the middle
WETTEST = {"measured": 0.80, "relative": 0.70, "rule": 0.70}
STAND_IN = 50  # least spread of sugars, fibre and potassium where an edible part stands for a peel
OTHERS = {"acid": 60, "buffering": 40, "alkali": 25, "packing": 30, "piece": 40, "flora": 0}


def main() -> None:
    """Write the tables, and the foods that they rest on beside their test."""
    rows = read_map()
    archive = sr28.checked(Path(sys.argv[1]).read_bytes()) if len(sys.argv) > 1 else sr28.fetch()
    foods = sr28.foods(archive, {number for row in rows.values() for number in row.get("foods", ())})
    lines = [line(name, rows[name], composed(name, rows, foods)) for name in rows]
    grounds = [ground(name, group, rows[name]) for name in rows for group in GROUPS if holds(rows[name], group)]
    write(DATA / "materials.csv", COLUMNS, lines)
    write(DATA / "material_grounds.csv", GROUNDS, grounds)
    write(EXTRACT, sr28.COLUMNS, [foods[number] for number in sorted(foods)])
    print(f"{len(rows)} materials, {len(foods)} foods")


def read_map() -> Rows:
    """Return every row of the map, filled up from its class; `own` names what the row says itself."""
    classes, words = read("classes"), read("words")
    rows: Rows = {}
    for name in FILES:
        for key, row in read(name).items():
            if key in rows:
                raise SystemExit(f"{key} stands twice")
            said = words.get(row.get("preparation", ""), row.get("preparation", ""))
            rows[key] = classes[row["class"]] | row | {"own": frozenset(row), "preparation": said}
    return rows


def read(name: str) -> Row:
    """Return a file of the map."""
    return tomllib.loads((HERE / "map" / f"{name}.toml").read_text("utf-8"))


def line(name: str, row: Row, parts: Parts) -> dict[str, str]:
    """Return a material as its line in the table."""
    dry = 1000.0 - parts["water"]
    low = row.get("water_low", max(0.0, 1000.0 - DRIEST[row["method"]] * dry))
    high = row.get("water_high", 1000.0 - WETTEST[row["method"]] * dry)
    factor = parts["protein"] / parts["nitrogen"] if parts["nitrogen"] else 6.25
    reacts = row.get("alkali_reacts", (1.0, 1.0, 1.0))
    return {
        **{each: row.get(each, "") for each in ("reason", "preparation", "note")},
        **{each: row[each] for each in ("name", "kind", "class")},
        **{each: f"{row[each]:g}" for each in PACKING},
        **{each: f"{max(parts[each], 0.0):.2f}" for each in (*CONSTITUENTS, *MINERALS)},
        **{each: f"{value:g}" for each, value in zip(FLORA, row["flora"], strict=True)},
        **{each: f"{value:g}" for each, value in zip(("ph_low", "ph", "ph_high"), row["ph"], strict=True)},
        **{
            each: f"{value:g}" if "alkali" in row else ""
            for each, value in zip(("alkali_reacts_low", "alkali_reacts", "alkali_reacts_high"), reacts, strict=True)
        },
        "id": name,
        "rule": row.get("rule", "yes"),
        "synonyms": ";".join(row["synonyms"]),
        "animal": _yes(row.get("animal", False)),
        "at_most_pct": f"{row.get('at_most', 100):g}",
        "barred_by_strict": _yes(row.get("barred_by_strict", row.get("rule") == "no" or row["kind"] in STRICT)),
        "persists": row.get("persists", "weeks"),
        "water_low": f"{low:.0f}",
        "water_high": f"{high:.0f}",
        "nitrogen_factor": f"{factor:.3f}",
        "buffering": f"{row['buffering']:g}" if "buffering" in row else "",
        "alkali": f"{row['alkali']:g}" if "alkali" in row else "",
        "piece_g": f"{row['piece_g']:g}" if "piece_g" in row else "",
    }


def holds(row: Row, group: str) -> bool:
    """Whether a material says something of that group; buffering that nobody titrated follows from a law."""
    return {"alkali": "alkali" in row, "piece": "piece_g" in row}.get(group, True)


def ground(name: str, group: str, row: Row) -> dict[str, str]:
    """Return where one group of values is from, how it was obtained, and how far it may be off."""
    own = row.get("ground", {}).get(group, {})
    found = of_composition(row, group) if group in COMPOSED else of_rest(row, group)
    return {"id": name, "group": group} | {each: str(own.get(each, found[each])) for each in GROUNDS[2:]}


def of_composition(row: Row, group: str) -> Row:
    """Return the ground of what the food table, a mixture or the given dry matter says."""
    method, source = row["method"], provenance(row)
    if group == "carbohydrate" and row["own"] & {"sugars_db", "starch_db", "lignin_db"}:
        method = "rule"  # the table leaves them out, so that the map gives them
    if group == "mineral" and row["own"] & {"minerals"} and "foods" in row:
        method = "rule"
    spread = row.get("spread", SPREAD[method]) + (OF_MINERALS if group == "mineral" else 0)
    if group in ("carbohydrate", "mineral") and row["method"] == "relative":
        spread = max(spread, STAND_IN)
    if method != row["method"]:
        source = source | {"basis": "MEMORY"}
    return source | {"method": method, "spread_pct": f"{spread:g}"}


def of_rest(row: Row, group: str) -> Row:
    """Return the ground of what the food table does not hold: that of the class, by judgement, unless the row says."""
    judged = {"source": "judgement", "place": f"by class ({row['class']})", "basis": "JUDGEMENT"}
    if group == "buffering" and "buffering" not in row:
        judged = {"source": "sourloam_derivation", "place": "from protein, acids and phosphorus", "basis": "DERIVED"}
    elif row["own"] & {"acid": {"ph", "acids"}, "packing": set(PACKING)}.get(group, {group, f"{group}_g"}):
        judged = {"source": "memory", "place": "recalled for this material", "basis": "MEMORY"}
    return judged | {"method": "rule", "spread_pct": f"{OTHERS[group]:g}"}


def provenance(row: Row) -> Row:
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


def _yes(said: object) -> str:
    return "yes" if said else "no"


def write(path: Path, columns: tuple[str, ...], lines: list[dict[str, str]]) -> None:
    """Write a table, lines ending as in every file here."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", encoding="utf-8", newline="") as opened:
        table = csv.DictWriter(opened, columns, lineterminator="\n")
        table.writeheader()
        table.writerows(lines)


if __name__ == "__main__":
    main()
