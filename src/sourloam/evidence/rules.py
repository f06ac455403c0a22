"""The sanitation rules that are known, and whose they are."""

from typing import Final

from sourloam.evidence.tables import rows_of

OTHER: Final = "OTHER"  # a place whose rules are not in the table


def load_jurisdictions() -> tuple[str, ...]:
    """Return the codes of the places whose rules are known, in alphabetical order, and `OTHER`."""
    return (*sorted({row["jurisdiction"] for row in rows_of("sanitation_rules")}), OTHER)
