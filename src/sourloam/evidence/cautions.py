"""The cautions: a packaged table becomes values of the core."""

from sourloam.base.source import Basis
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of, words_in
from sourloam.science.batch.cautions import Caution


def load_cautions() -> tuple[Caution, ...]:
    """Return every caution, in the order in which they are shown.

    Raises
    ------
    UnknownSource
        If a caution rests on a source that is not listed.
    ValueError
        If one is tied to a situation that nothing can be in.
    """
    sources = load_sources()
    return tuple(
        Caution(
            id=row["id"],
            when=words_in(row["when"]),
            text=row["text"],
            authority=row["authority"],
            source=known(row["source"], f"cautions.csv: {row['id']}", sources).key,
            place=row["place"],
            basis=Basis(row["basis"]),
        )
        for row in rows_of("cautions")
    )
