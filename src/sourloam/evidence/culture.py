"""The bench of cultures: packaged tables of carriers, sugars, milks, starts, steps, stores and uses."""

from collections import defaultdict
from functools import lru_cache
from typing import Final

from sourloam.base.figure import MEMBERS, SEED, Figure, leaf
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.evidence.lookup import Lookup
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of, words_in
from sourloam.science.inoculum.bench import Bench, Circulating, Milk, Start, StepSigns, Store, Sugar, Use
from sourloam.science.inoculum.carrier import PARTS, Carrier

CARRIERS, VALUES = "carriers", "carrier_values"
TABLES: Final = (
    "sugars",
    "milks",
    "culture_starts",
    "culture_steps",
    "culture_stores",
    "bran_uses",
    "serum_uses",
    "culture_recipes",
)
GRAMS: Final = 1000.0


@lru_cache(maxsize=4)
def load_carriers(*, members: int = MEMBERS, seed: int = SEED) -> Lookup[Carrier]:
    """Return every carrier by its id; `find` takes any of its names.

    Raises
    ------
    UnknownSource
        If a value rests on a source that is not listed.
    ValueError
        If a carrier lacks a value, or two answer to the same words.
    """
    values: dict[str, dict[str, Figure]] = defaultdict(dict)
    for row in rows_of(VALUES):
        where = f"{row['carrier']}.{row['value_of']}"
        values[row["carrier"]][row["value_of"]] = _figure(where, row, members, seed)
    return Lookup("carrier", tuple(_carrier(row, values[row["id"]]) for row in rows_of(CARRIERS)))


@lru_cache(maxsize=4)
def load_bench(*, members: int = MEMBERS, seed: int = SEED) -> Bench:
    """Return the tables beside the bench.

    Raises
    ------
    UnknownSource
        If a row rests on a source that is not listed.
    """
    rows = {each: _sourced(each) for each in TABLES}
    return Bench(
        sugars=tuple(_sugar(row, members, seed) for row in rows["sugars"]),
        milks=tuple(_milk(row, members, seed) for row in rows["milks"]),
        starts=tuple(_start(row) for row in rows["culture_starts"]),
        steps=tuple(
            StepSigns(row["id"], row["what"], row["ready_when"], row["throw_away_when"], row["meanwhile"])
            for row in rows["culture_steps"]
        ),
        stores=tuple(_store(row) for row in rows["culture_stores"]),
        uses=tuple(_use(row) for row in rows["bran_uses"]),
        serum_uses=tuple(_serum_use(row) for row in rows["serum_uses"]),
        recipes=tuple(_recipe(row) for row in rows["culture_recipes"]),
    )


def _sourced(table: str) -> list[dict[str, str]]:
    """Return the rows of a table, each of which rests on a source that is listed."""
    rows = rows_of(table)
    for row in rows:
        known(row["source"], f"{table}.csv: {row['id']}", load_sources())
    return rows


def _carrier(row: dict[str, str], values: dict[str, Figure]) -> Carrier:
    if set(values) != set(PARTS):
        raise ValueError(f"{VALUES}.csv: {row['id']} has not just the values {', '.join(PARTS)}")
    piece = float(row["piece_g"]) / GRAMS if row["piece_g"] else None
    words = words_in(row["synonyms"])
    return Carrier(row["id"], row["name"], words, values, row["note"], row["is_wet"] == "yes", piece)


def _figure(name: str, row: dict[str, str], members: int, seed: int) -> Figure:
    known(row["source"], f"{VALUES}.csv: {name}", load_sources())
    return leaf(
        f"carrier.{name}",
        Spread(float(row["value"]), float(row["low"]), float(row["high"]), row["shape"]),  # type: ignore[arg-type]
        row["unit"],
        words=row["words"],
        source=row["source"],
        place=row["place"],
        basis=Basis(row["basis"]),
        members=members,
        seed=seed,
    )


def _share(name: str, row: dict[str, str], value: str, *, words: str, members: int, seed: int) -> Figure:
    middle, low, high = (float(row[each]) for each in (value, "low", "high"))
    return leaf(
        name,
        Spread(middle, low, high, "fixed" if low == high else "normal"),
        "1",
        words=words,
        source=row["source"],
        place=row["place"],
        basis=Basis(row["basis"]),
        members=members,
        seed=seed,
    )


def _sugar(row: dict[str, str], members: int, seed: int) -> Sugar:
    words = f"part of {row['name']} that can be fermented"
    share = _share(f"sugar.{row['id']}", row, "fermentable", words=words, members=members, seed=seed)
    return Sugar(row["id"], row["name"], words_in(row["synonyms"]), share, float(row["loose_kg_per_l"]))


def _milk(row: dict[str, str], members: int, seed: int) -> Milk:
    words = f"serum from a litre of {row['name']}"
    serum = _share(f"milk.{row['id']}", row, "serum", words=words, members=members, seed=seed)
    return Milk(row["id"], row["name"], words_in(row["synonyms"]), serum, row["curds"] == "yes", row["note"])


def _start(row: dict[str, str]) -> Start:
    today = row["is_today"] == "yes"
    words = (row["does"], row["amount"], row["when_afresh"])
    return Start(row["id"], row["name"], (), row["from_link"], today, *words)


def _store(row: dict[str, str]) -> Store:
    numbers = {each: float(row[each]) for each in ("known_c", "low_c", "high_c", "custom_low_d", "custom_high_d")}
    words = {each: row[each] for each in ("id", "matter", "name", "decline", "custom", "published")}
    return Store(**words, **numbers)  # type: ignore[arg-type]


def _use(row: dict[str, str]) -> Use:
    if row["trial"]:
        known(row["trial"], f"bran_uses.csv: {row['id']}", load_sources())
    low, usual, high = (float(row[each]) for each in ("low", "usual", "high"))
    words = {each: row[each] for each in ("evidence", "trial_says", "trial", "caution")}
    return Use(row["id"], row["name"], low, usual, high, row["unit"], row["does"], **words)


def _serum_use(row: dict[str, str]) -> Use:
    low, usual, high = (float(row[each]) for each in ("least", "usual", "most"))
    return Use(row["id"], row["name"], low, usual, high, row["unit"], row["does"])


def _recipe(row: dict[str, str]) -> Circulating:
    low, high = (float(row[each]) / 100.0 if row[each] else None for each in ("aim_low_pct", "aim_high_pct"))
    kg, litres = float(row["carrier_kg"]), float(row["liquid_l"])
    return Circulating(row["id"], row["name"], row["carrier"], kg, litres, low, high)
