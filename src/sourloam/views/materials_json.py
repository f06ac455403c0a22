"""Materials and the audit as plain objects for JSON, and materials as rows of a table."""

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any, Final

from sourloam.views.audit import AuditView, MaterialsAuditView
from sourloam.views.materials import MaterialView

MATERIALS: Final = "sourloam.materials/1"
AUDIT: Final = "sourloam.audit/1"


def materials_object(views: Sequence[MaterialView]) -> dict[str, Any]:
    """Return materials."""
    return {"schema": MATERIALS, "materials": [_material(each) for each in views]}


def _material(view: MaterialView) -> dict[str, Any]:
    main = view.main
    return {
        "id": view.id,
        "name": view.name,
        "synonyms": list(view.synonyms),
        "kind": view.kind,
        "class": view.family,
        "animal": view.is_animal,
        "rule": view.rule,
        "reason": view.reason,
        "preparation": view.preparation,
        "at_most_pct": view.at_most_pct,
        "barred_by_strict": view.is_barred_by_strict,
        "persists": view.persists,
        "values": dict(view.values),
        "source": main.source,
        "basis": main.basis,
        "method": main.method,
        "grounds": [asdict(each) for each in view.grounds],
        "note": view.note,
    }


def material_rows(views: Sequence[MaterialView]) -> list[dict[str, Any]]:
    """Return materials as rows: the words first, then the values, then how each group was obtained."""
    return [
        {
            **{key: value for key, value in _material(each).items() if key not in ("values", "grounds", "synonyms")},
            "synonyms": ";".join(each.synonyms),
            **each.values,
            **{f"{ground.group}_method": ground.method for ground in each.grounds},
        }
        for each in views
    ]


def materials_audit_object(view: MaterialsAuditView) -> dict[str, Any]:
    """Return how the values of the materials were obtained."""
    return {
        "schema": AUDIT,
        "materials": view.materials,
        "all": asdict(view.all),
        "commonest": asdict(view.commonest) | {"ids": list(view.commonest_ids)},
        "by_group": [asdict(each) for each in view.by_group],
    }


def audit_object(view: AuditView) -> dict[str, Any]:
    """Return every value with its basis."""
    return {
        "schema": AUDIT,
        "counts": {basis: count for basis, _, count in view.counts},
        "values": [asdict(each) for each in view.rows],
    }
