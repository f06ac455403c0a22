"""Atomic masses, and the share of an element in a formula."""

import re
from types import MappingProxyType
from typing import Final

# Standard atomic masses, abridged. [g/mol] iupac_masses
ATOMIC_MASS_G_PER_MOL: Final = MappingProxyType(
    {
        "H": 1.008,
        "C": 12.011,
        "N": 14.007,
        "O": 15.999,
        "Na": 22.990,
        "Mg": 24.305,
        "P": 30.974,
        "S": 32.06,
        "Cl": 35.45,
        "K": 39.098,
        "Ca": 40.078,
    }
)
PART: Final = re.compile(r"([A-Z][a-z]?)(\d*)")


def molar_mass_g_per_mol(formula: str) -> float:
    """Return the mass of a mole of a formula without brackets, such as "C6H12O6".

    Raises
    ------
    ValueError
        If the formula is not one, or holds an element that is not listed.

    Examples
    --------
    >>> round(molar_mass_g_per_mol("CaCO3"), 2)
    100.09
    """
    return sum(ATOMIC_MASS_G_PER_MOL[symbol] * count for symbol, count in _parts(formula))


def mass_share(element: str, formula: str) -> float:
    """Return the share of a formula's mass that one element makes up.

    Raises
    ------
    ValueError
        If the formula is not one, or holds an element that is not listed.

    Examples
    --------
    >>> round(mass_share("C", "C6H12O6"), 3)
    0.4
    """
    held = sum(count for symbol, count in _parts(formula) if symbol == element)
    return held * ATOMIC_MASS_G_PER_MOL.get(element, 0.0) / molar_mass_g_per_mol(formula)


def oxygen_kg_per_kg(formula: str) -> float:
    """Return the oxygen that burns a formula of C, H, O and N to carbon dioxide and water, its nitrogen to ammonia.

    Raises
    ------
    ValueError
        If the formula is not one.

    Examples
    --------
    >>> round(oxygen_kg_per_kg("C6H12O6"), 3)
    1.066
    """
    held = dict.fromkeys("CHON", 0) | dict(_parts(formula))
    molecules = held["C"] + held["H"] / 4.0 - held["O"] / 2.0 - 0.75 * held["N"]
    return 2.0 * molecules * ATOMIC_MASS_G_PER_MOL["O"] / molar_mass_g_per_mol(formula)


def _parts(formula: str) -> list[tuple[str, int]]:
    found = PART.findall(formula)
    if not formula or "".join(symbol + count for symbol, count in found) != formula:
        raise ValueError(f'"{formula}" is not a formula such as C6H12O6')
    unknown = [symbol for symbol, _ in found if symbol not in ATOMIC_MASS_G_PER_MOL]
    if unknown:
        raise ValueError(f'"{formula}" holds {unknown[0]}, whose atomic mass is not listed')
    return [(symbol, int(count or 1)) for symbol, count in found]
