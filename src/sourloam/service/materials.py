"""Use cases: look a material up; see how well the tool's values are known."""

from collections import Counter
from collections.abc import Sequence
from contextlib import suppress

from sourloam.base.errors import BadInput, NotFound
from sourloam.base.source import Basis
from sourloam.evidence.audit import audit_of, audited
from sourloam.evidence.materials import Materials, load_materials
from sourloam.evidence.sources import load_sources
from sourloam.exchange.amounts import find_any
from sourloam.science.materials.composition import Material
from sourloam.views.audit import AuditView, MaterialsAuditView
from sourloam.views.materials import MaterialView, material_view


def look_up(words: Sequence[str]) -> tuple[MaterialView, ...]:
    """Return the materials that words name: the one that answers to them, else all in whose names they occur.

    Raises
    ------
    BadInput
        If nothing answers to that.
    """
    materials, sources = load_materials(), load_sources()
    return tuple(material_view(each, sources) for each in _found(" ".join(words), materials))


def _found(words: str, materials: Materials) -> list[Material]:
    if not words:
        return list(materials)
    plain = words.casefold()
    with suppress(NotFound):
        return [materials.find(words)]
    if of_kind := [each for each in materials if plain in (each.kind, each.family)]:
        return of_kind
    try:
        return [find_any(words, materials.find)]
    except NotFound as missing:
        if alike := [each for each in materials if _says(each, plain)]:
            return alike
        raise BadInput("materials", (missing.problem(otherwise="Without words all are listed."),)) from None


def _says(material: Material, plain: str) -> bool:
    names = (material.id.replace("-", " "), material.name, *material.synonyms)
    return any(all(word in each.casefold() for word in plain.split()) for each in names)


def audit_materials() -> MaterialsAuditView:
    """Return how the values of the materials were obtained."""
    return audit_of(load_materials())


def audit_all(basis: Basis | None = None) -> AuditView:
    """Return every value of the tool with its basis; of one basis, if one is named."""
    rows = audited(load_materials())
    counts = Counter(each.basis for each in rows)
    return AuditView(
        counts=tuple((each.value, each.words, counts[each.value]) for each in Basis),
        rows=tuple(each for each in rows if basis is None or each.basis == basis),
    )
