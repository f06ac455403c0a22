"""An answer of the bench of cultures as a plain object for JSON."""

from datetime import date
from typing import Any, Final

from sourloam.views.as_json import figure_object
from sourloam.views.culture import CultureView, Disagreement, StepLine

CULTURE: Final = "sourloam.culture/1"


def culture_object(view: CultureView) -> dict[str, Any]:
    """Return an answer."""
    return {
        "schema": CULTURE,
        "says": view.says,
        "because": list(view.because),
        "do": list(view.do),
        "figures": {each.name: figure_object(each) for each in view.numbers},
        "binds": view.binds,
        "start": _day(view.start_on),
        "safe_start": _day(view.safe_start),
        "ready": _day(view.ready_on),
        "steps": [_step(each) for each in view.steps],
        "starts": [
            {
                "start": each.id,
                "name": each.name,
                "days": figure_object(each.days),
                "spares_d": each.spares_d,
                "does": each.does,
                "amount": each.amount,
                "when_afresh": each.when_afresh,
            }
            for each in view.starts
        ],
        "shopping": [{"thing": each.thing, "amount": each.amount, "unit": each.unit} for each in view.shopping],
        "disagreements": [_disagreement(each) for each in view.disagreements],
        "uses": [
            {
                "use": each.name,
                "amount": each.amount,
                "evidence": each.evidence,
                "says": each.says,
                "caution": each.caution,
            }
            for each in view.uses
        ],
        "notes": list(view.notes),
        "cautions": list(view.cautions),
        "assumptions": list(view.assumptions),
    }


def _step(step: StepLine) -> dict[str, Any]:
    return {
        "id": step.id,
        "start": _day(step.start),
        "latest_start": _day(step.latest_start),
        "what": step.what,
        "amounts": step.amounts,
        "ready_when": step.ready_when,
        "throw_away_when": step.throw_away_when,
        "meanwhile": step.meanwhile,
        "days": figure_object(step.days) if step.days else None,
    }


def _disagreement(each: Disagreement) -> dict[str, Any]:
    return {
        "about": each.about,
        "custom": each.custom,
        "custom_low_d": each.custom_low_d,
        "custom_high_d": each.custom_high_d,
        "model": figure_object(each.model) if each.model else None,
        "published": each.published,
        "says": each.says,
    }


def _day(day: date | None) -> str | None:
    return day.isoformat() if day else None
