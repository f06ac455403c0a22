"""The response of the model of a vessel: how long it takes by warmth and bran, and how far batches differ."""

from typing import Final

from sourloam.evidence.tables import rows_of
from sourloam.fleet.chance import Response, log_sd_of

MIX: Final = "mixed"  # the usual scraps of a household
DOSE: Final = 20.0  # g/kg, the usual one
WARM_C: Final = 20.0


def load_response() -> Response:
    """Return the response for the usual scraps."""
    rows = [
        {name: float(cell) for name, cell in row.items() if name != "mix"}
        for row in rows_of("response")
        if row["mix"] == MIX
    ]
    usual = [row for row in rows if row["dose_g_per_kg"] == DOSE]
    warm = [row for row in rows if row["temperature_c"] == WARM_C]
    return Response(
        temperatures_c=tuple(row["temperature_c"] for row in usual),
        log_sd=tuple(log_sd_of(row["ready_5"], row["ready_95"]) for row in usual),
        doses_g_per_kg=tuple(row["dose_g_per_kg"] for row in warm),
        ready_20c_d=tuple(row["ready_50"] for row in warm),
    )
