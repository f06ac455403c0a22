"""Reads "2 kg vegetable peelings", "1 cup cooked rice" or "3 eggshells" as a person writes them.

One amount, one material. By mass, by loose volume, in handfuls, or counted in
pieces where the table knows what one weighs. All faults are gathered.
"""

import re
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, NotFound, Problem
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import BY_NAME, Dimension
from sourloam.exchange.rows import read_rows
from sourloam.science.materials.composition import Material

MOST_KG: Final = 500.0
MOST_WORDS: Final = 5  # "1 1/2 US fluid ounces" and then a name
PIECES: Final = ("piece", "pieces", "slice", "slices", "whole", "bag", "bags", "medium", "large", "small", "x")
HANDFULS: Final = ("handful", "handfuls")
EXAMPLES: Final = '"2 kg vegetable peelings", "1 cup cooked rice" or "3 eggshells"'
COLUMNS: Final = ("amount", "material")
SHAPES: Final = (  # words before a name that change its shape, and nothing that is reckoned
    *("torn", "shredded", "chopped", "sliced", "diced", "cubed", "cut", "grated", "peeled", "minced", "mashed"),
    *("crushed", "crumbled", "loose", "leftover", "old", "fresh", "ripe", "overripe", "small", "large", "clean"),
)
HEATED: Final = ("cooked", "boiled", "steamed", "fried", "roasted", "baked", "grilled")  # of what is wet before it too
DRIED: Final = ("dry", "dried")  # of what is dry anyway
WET_FROM, DRY_TO = 0.5, 0.5  # water, as a share of the fresh mass; judgement
_OF: Final = re.compile(r"^(of|the)\s+", re.IGNORECASE)

_EITHER: Final = re.compile(r"(?<!US )(?<!UK )(?<!imp )(?<!imperial )\b(pints?|gallons?)\b", re.IGNORECASE)


class By(StrEnum):
    """How an amount was measured."""

    MASS = "mass"
    VOLUME = "volume"
    HANDFUL = "handful"
    PIECE = "piece"


@dataclass(frozen=True)
class Amount:
    """So much of a material: kg, L, handfuls or pieces."""

    value: float
    by: By
    material: Material
    typed: str


Find = Callable[[str], Material]


def read_amounts(
    texts: Sequence[str], find: Find, *, where: str = "amounts", most: float = MOST_KG
) -> tuple[Amount, ...]:
    """Return the amounts that were written, none of them more than `most` kilograms or litres.

    Raises
    ------
    BadInput
        If one cannot be read; all faults are named, each with what was written.
    """
    return _gathered([(text, None) for text in texts], find, where, most)


def read_amounts_file(path: Path, find: Find) -> tuple[Amount, ...]:
    """Return the amounts of a CSV file with the columns `amount` and `material`.

    Raises
    ------
    BadInput
        If the file cannot be read, or a row cannot; all faults are named with their line.
    """
    rows = read_rows(path, COLUMNS, says="write amount,material on its first line.")
    texts = [(f"{row['amount']} {row['material']}".strip(), line) for line, row in rows]
    return _gathered([(text, line) for text, line in texts if text], find, path.name, MOST_KG)


def read_amount(text: str, find: Find, most: float = MOST_KG) -> Amount:
    """Return one amount of one material.

    Raises
    ------
    BadQuantity
        If it holds no amount, or one that cannot be.
    NotFound
        If nothing answers to the name.
    """
    words = text.split()
    for cut in range(min(MOST_WORDS, len(words) - 1), 0, -1):
        measured = _measured(" ".join(words[:cut]))
        if measured is None:
            continue
        value, by = measured
        name = _OF.sub("", " ".join(words[cut:]))
        if name.casefold() in BY_NAME:  # a unit, of which the material is missing
            continue
        if by is By.PIECE and name.split()[0].casefold() in PIECES and len(name.split()) > 1:
            name = _OF.sub("", name.partition(" ")[2])
        material = _named(name, find, text) if by is By.PIECE else find_any(name, find)
        if by is By.PIECE and material.piece_kg is None:
            remedy = f'write a mass or a volume, for example "300 g {material.name}".'
            raise BadQuantity(f'what one {material.name} weighs is not known ("{text}");', remedy)
        return _checked(Amount(value, by, material, text), most)
    if len(words) > 2 and words[0][:1].isdigit():
        read_quantity(" ".join(words[:2]), (Dimension.MASS, Dimension.VOLUME))  # says what is wrong with it
    raise BadQuantity(f'"{text}" does not begin with an amount;', f"write one such as {EXAMPLES}.")


def find_any(name: str, find: Find) -> Material:
    """Return the material that a name means: in the plural as in the singular, and without a word of its shape.

    Raises
    ------
    NotFound
        If nothing answers to the name; near ones are offered.
    """
    with suppress(NotFound):
        return _singly(name, find)
    word, _, rest = name.partition(" ")
    if rest and word.casefold() in (*SHAPES, *HEATED, *DRIED):
        with suppress(NotFound):
            material = find_any(rest, find)
            if _goes_with(word.casefold(), material):
                return material
    return find(name)


def _singly(name: str, find: Find) -> Material:
    plain = re.sub(r"(?<=[a-z]{2})s$", "", name)
    for each in (name, plain, re.sub(r"(?<=[a-z]{2})es$", "", name), f"{name}s"):
        with suppress(NotFound):
            return find(each)
    return find(name)


def _goes_with(word: str, material: Material) -> bool:
    """Whether a word of state leaves a material what it is: dry rice takes up water when it is cooked."""
    water = material.composition.water_wb_frac
    if word in HEATED:
        return water >= WET_FROM
    return word in SHAPES or water <= DRY_TO


def _named(name: str, find: Find, text: str) -> Material:
    """Return the material of a name that stands behind a bare number, where an unknown unit would stand too."""
    try:
        return find_any(name, find)
    except NotFound:
        word, _, rest = name.partition(" ")
        with suppress(NotFound):
            material = find_any(_OF.sub("", rest), find) if rest else None
            if material is not None:
                remedy = f'write a mass or a volume, for example "2 kg {material.name}".'
                raise BadQuantity(
                    f'"{text}": "{word}" is no unit that is known, and "{name}" no material;', remedy
                ) from None
        raise


def read_as_american(texts: Sequence[str]) -> dict[str, float]:
    """Return what could be British in some texts, pints and gallons, and is read as American: litres by name."""
    words = (found[0].casefold() for text in texts for found in _EITHER.finditer(text))
    return {each.removesuffix("s"): BY_NAME[each].factor for each in words}


def _measured(head: str) -> tuple[float, By] | None:
    """Return the number and how it is measured, or nothing where `head` is no amount."""
    try:
        read = read_quantity(head, (Dimension.MASS, Dimension.VOLUME))
    except BadQuantity:
        return _counted(head)
    return read.value, By.MASS if read.dimension is Dimension.MASS else By.VOLUME


def _counted(head: str) -> tuple[float, By] | None:
    number, _, unit = head.rpartition(" ")
    is_handful = unit.casefold() in HANDFULS
    try:
        value = read_quantity(f"{number if is_handful else head} kg", Dimension.MASS).value
    except BadQuantity:
        return None
    return value, By.HANDFUL if is_handful else By.PIECE


def _checked(amount: Amount, most: float) -> Amount:
    if not 0.0 < amount.value <= most:
        remedy = f"write more than nothing, and {most:g} kg or L at most."
        raise BadQuantity(f'"{amount.typed}" is no amount that can be soured;', remedy)
    return amount


def _gathered(texts: Sequence[tuple[str, int | None]], find: Find, where: str, most: float) -> tuple[Amount, ...]:
    """Return what can be read, or raise with all that cannot."""
    amounts, problems = [], []
    for text, line in texts:
        try:
            amounts.append(read_amount(text, find, most))
        except BadQuantity as bad:
            problems.append(Problem("", bad.found, bad.remedy, line))
        except NotFound as missing:
            problems.append(missing.problem(f'"{text}"', otherwise='See "sourloam materials".', line=line))
    if not problems and not amounts:
        problems.append(Problem("", "there is nothing to mix;", f"write {EXAMPLES}."))
    if problems:
        raise BadInput(where, tuple(problems))
    return tuple(amounts)
