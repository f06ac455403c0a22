"""The crops: a packaged table becomes values of the core."""

from collections.abc import Mapping

from sourloam.base.source import Basis, Source
from sourloam.evidence.lookup import Lookup
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of, words_in
from sourloam.science.places.ground.crops import Crop, Edible, NeedKind, Start


def load_crops() -> dict[str, Crop]:
    """Return every crop by its id.

    Raises
    ------
    UnknownSource
        If a crop rests on a source that is not listed.
    """
    return {each.id: each for each in crop_lookup()}


def crop_lookup() -> Lookup[Crop]:
    """Return the crops in the order of their table; `find` takes any of their names.

    Raises
    ------
    UnknownSource
        If a crop rests on a source that is not listed.
    """
    sources = load_sources()
    return Lookup("crop", tuple(_crop(row, sources) for row in rows_of("crops")))


def _crop(row: dict[str, str], sources: Mapping[str, Source]) -> Crop:
    where = f"crops.csv: {row['id']}"
    slope = _number(row["salt_slope_pct_per_ds_per_m"])
    return Crop(
        id=row["id"],
        name=row["name"],
        synonyms=words_in(row["synonyms"]),
        nitrogen_g_per_m2=float(row["nitrogen_g_per_m2"]),
        nitrogen_low_g_per_m2=float(row["nitrogen_low"]),
        nitrogen_high_g_per_m2=float(row["nitrogen_high"]),
        need_kind=NeedKind(row["need_kind"]),
        fixes_nitrogen=row["fixes_nitrogen"] == "yes",
        salt_threshold_ds_per_m=_number(row["salt_threshold_ds_per_m"]),
        salt_slope_frac_per_ds_per_m=None if slope is None else slope / 100.0,
        start=Start(row["start"]),
        edible=Edible(row["edible"]),
        source=known(row["source"], where, sources).key,
        place=row["place"],
        basis=Basis(row["basis"]),
        salt_source=known(row["salt_source"], where, sources).key if row["salt_source"] else "",
        salt_basis=Basis(row["salt_basis"]) if row["salt_basis"] else None,
        note=row["note"],
    )


def _number(cell: str) -> float | None:
    return float(cell) if cell else None
