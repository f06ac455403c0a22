"""The sanitation rules that are known, and whose they are."""

from typing import Final

from sourloam.evidence.tables import rows_of
from sourloam.science.places.pile.sanitation import Rule

OTHER: Final = "OTHER"  # a place whose rules are not in the table
RATIO: Final = "C:N of 25 to 40"
BY_READINGS: Final = (  # conditions that the readings and the turnings show
    "of these five days, 4 hours",
    "the turnings fall within",
    "held for 20 minutes",
    "in the edge, the core and the base",
)


def load_jurisdictions() -> tuple[str, ...]:
    """Return the codes of the places whose rules are known, in alphabetical order, and `OTHER`."""
    return (*sorted({row["jurisdiction"] for row in rows_of("sanitation_rules")}), OTHER)


def load_sanitation_rules() -> tuple[Rule, ...]:
    """Return the rules of time and temperature, in the order of the table; scopes and limits of products are none."""
    return tuple(_rule(row) for row in rows_of("sanitation_rules") if row["min_temp_c"])


def _rule(row: dict[str, str]) -> Rule:
    def number(name: str) -> float | None:
        return float(row[name]) if row[name] else None

    besides = row["other_conditions"]
    shown = besides.startswith((RATIO, *BY_READINGS))
    size = f"cut to {row['max_particle_mm']} mm" if row["max_particle_mm"] and "mm" not in besides else ""
    return Rule(
        row["rule_id"],
        row["jurisdiction"],
        row["instrument"],
        row["system"],
        float(row["min_temp_c"]),
        number("min_duration_h") or 0.0,
        most_c=number("max_temp_c"),
        within_c=number("within_min_temp_c"),
        within_hours=number("within_min_duration_h") or 0.0,
        turnings=int(number("min_turnings") or 0),
        turning_interval_d=number("min_turning_interval_d") or 0.0,
        coefficient_d=number("duration_coefficient_d"),
        exponent_per_c=number("duration_exponent_per_c") or 0.0,
        asks_ratio=besides.startswith(RATIO),
        besides="; ".join(each for each in (size, "" if shown else besides) if each),
    )
