"""Reads a docstring of the numpydoc kind, and the unit that a name carries."""

import inspect
import re

UNITS = {unit: unit for unit in ("kg", "g", "mg", "ug", "m", "cm", "mm", "m2", "m3", "d", "h", "s", "mol", "mmol")}
UNITS |= {"week": "week", "year": "year", "l": "L", "ml": "mL", "c": "°C", "k": "K"}
UNITS |= {"j": "J", "kj": "kJ", "pa": "Pa", "kpa": "kPa", "frac": "-", "share": "-"}
ALIASES = {"degC": "°C", "1": "-"}


def sections(docstring: str) -> dict[str, list[str]]:
    """Return the lines of each underlined section by its title."""
    lines = inspect.cleandoc(docstring).splitlines()
    heads = [i for i in range(len(lines) - 1) if re.fullmatch(r"-{3,}", lines[i + 1].strip()) and lines[i].strip()]
    ends = [*heads[1:], len(lines)]
    return {lines[head]: lines[head + 2 : end] for head, end in zip(heads, ends, strict=True)} if heads else {}


def entries(lines: list[str]) -> dict[str, str]:
    """Return name -> text for the entries of a section: a name at the margin, its text below and indented."""
    found: dict[str, str] = {}
    names: list[str] = []
    for line in lines:
        if line and not line[0].isspace():
            names = [name.strip() for name in line.partition(" : ")[0].split(",")]
            found |= dict.fromkeys(names, "")
        else:
            found |= {name: f"{found[name]} {line.strip()}".strip() for name in names}
    return found


def stated_unit(text: str) -> str | None:
    """Return the unit in brackets at the end of an entry."""
    match = re.search(r"\[([^\]]+)\]$", text)
    return ALIASES.get(match[1], match[1]) if match else None


def carried_unit(name: str) -> str | None:
    """Return the unit that the end of a name says, or None where it says none."""
    parts = name.split("_")
    if "per" in parts[1:-1]:
        at = len(parts) - 1 - parts[::-1].index("per")
        over, under = parts[at - 1], parts[at + 1 :]
        known = over in UNITS and all(part in UNITS for part in under)
        return "/".join([UNITS[over], *(UNITS[part] for part in under)]) if known else None
    return UNITS.get(parts[-1]) if len(parts) > 1 else None
