"""The causes of what goes wrong at a place: a packaged table becomes values of the core."""

from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of, words_in
from sourloam.science.places.ails import Cause


def load_causes() -> tuple[Cause, ...]:
    """Return every cause, in the order of the table.

    Raises
    ------
    UnknownSource
        If one rests on a source that is not listed.
    """
    sources = load_sources()
    found = []
    for row in rows_of("causes"):
        known(row["source"], f"causes.csv: {row['id']}", sources)
        pairs = (each.split("=") for each in words_in(row["seen"]))
        seen = {name.strip(): float(value) for name, value in pairs}
        texts = {name: row[name] for name in ("id", "place", "sign", "words", "do", "look")}
        found.append(Cause(**texts, prior=float(row["prior"]), seen=seen))
    return tuple(found)
