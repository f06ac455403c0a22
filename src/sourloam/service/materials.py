"""Use cases: look a material up; see how well the tool's values are known."""

from collections import Counter
from collections.abc import Sequence
from contextlib import suppress

from sourloam.base.errors import BadInput, NotFound, Problem, offer
from sourloam.base.source import Basis
from sourloam.evidence.audit import audited, commonest, shares_by_group, shares_of
from sourloam.evidence.materials import Materials, load_materials
from sourloam.evidence.sources import load_sources
from sourloam.exchange.amounts import find_any
from sourloam.science.materials.composition import Material
from sourloam.views.audit import AuditView, MaterialsAuditView, audit_view, materials_audit_view
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
        remedy = offer(missing.near).strip() or "Without words all are listed."
        problem = Problem("", f'"{words}" is not a known material.', remedy)
        raise BadInput("materials", (problem,)) from None


def _says(material: Material, plain: str) -> bool:
    names = (material.id.replace("-", " "), material.name, *material.synonyms)
    return any(all(word in each.casefold() for word in plain.split()) for each in names)


def audit_materials() -> MaterialsAuditView:
    """Return how the values of the materials were obtained."""
    materials = load_materials()
    return materials_audit_view(
        shares_of(materials), shares_of(materials, commonest()), shares_by_group(materials), commonest()
    )


def audit_all(basis: Basis | None = None) -> AuditView:
    """Return every value of the tool with its basis; of one basis, if one is named."""
    rows = audited(load_materials())
    counts = Counter(each.basis for each in rows)
    shown = tuple(each for each in rows if basis is None or each.basis is basis)
    return audit_view(shown, tuple((each, counts[each]) for each in Basis), load_sources())
