"""All fates of a batch side by side, ranked by what the keeper values."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType
from typing import Any, Final

from sourloam.plan.words import Speech, days, when
from sourloam.views.place import Decision
from sourloam.views.reason import Reason

SORTED: Final = "sourloam.place.sorting/1"
# What the keeper values: least work, nearest to soil, most nitrogen kept. Judgement.
ORDER: Final = (Decision.YES, Decision.ASK, Decision.NOT_YET, Decision.NO)
VALUES: Final = ("soil", "soon", "little-work", "feed")
WORK: Final = MappingProxyType({"taker": 0, "worm_bin": 1, "pile": 1, "soil_tub": 2, "bed": 3})  # judgement
SOIL: Final = MappingProxyType({"bed": 0, "soil_tub": 1, "pile": 2, "worm_bin": 3, "taker": 4})
FEEDS: Final = MappingProxyType({"bed": 0, "worm_bin": 1, "soil_tub": 2, "pile": 3, "taker": 4})


@dataclass(frozen=True)
class Fate:
    """What one place does with the batch today."""

    place: str
    kind: str
    name: str
    decision: Decision
    takes_kg: float
    effect: str
    wait_d: float | None  # until it may be used again; none where that is not known
    cautions: tuple[str, ...]
    because: tuple[str, ...]  # the limit that binds first
    is_last: bool = False  # the waste bin
    reasons: Mapping[str, Reason] = field(default_factory=lambda: MappingProxyType({}))  # of its figures, opened


@dataclass(frozen=True)
class FatesView:
    """All fates of a batch, the best first."""

    batch: str
    on: date
    mass_kg: float
    says: str
    fates: tuple[Fate, ...]
    values: str
    assumptions: tuple[str, ...]
    speech: Speech

    @property
    def reasons(self) -> Mapping[str, Reason]:
        """Return the figures of all places, opened: "long_bed.dose" is the dose of the long bed."""
        return MappingProxyType(
            {figure_key(each.place, name): reason for each in self.fates for name, reason in each.reasons.items()}
        )

    @property
    def has_place(self) -> bool:
        """Whether it may go anywhere today but into the waste."""
        return any(each.decision in (Decision.YES, Decision.ASK) and not each.is_last for each in self.fates)


def figure_key(place: str, figure: str) -> str:
    """Return what a figure of one place is called among those of all."""
    return f"{place.replace('-', '_')}.{figure}"


def fates_view(
    fates: Sequence[Fate],
    *,
    batch: str,
    on: date,
    mass_kg: float,
    values: str,
    assumptions: tuple[str, ...],
    speech: Speech,
) -> FatesView:
    """Return fates ranked: what goes today first, what is worth most to the keeper before the rest, the waste last."""
    ranked = tuple(sorted(fates, key=_rank(values, mass_kg)))
    return FatesView(batch, on, mass_kg, _says(ranked, mass_kg, speech), ranked, values, assumptions, speech)


def _rank(values: str, mass_kg: float) -> Callable[[Fate], tuple[float, ...]]:
    def rank(fate: Fate) -> tuple[float, ...]:
        wait = fate.wait_d if fate.wait_d is not None else 1e6
        own: dict[str, tuple[float, ...]] = {
            "soil": (SOIL[fate.kind], wait),
            "soon": (wait, SOIL[fate.kind]),
            "little-work": (WORK[fate.kind], wait),
            "feed": (FEEDS[fate.kind], wait),
        }
        is_part = fate.takes_kg < 0.98 * mass_kg
        return (float(fate.is_last), float(ORDER.index(fate.decision)), *own[values], float(is_part), -fate.takes_kg)

    return rank


def _says(fates: Sequence[Fate], mass_kg: float, speech: Speech) -> str:
    """Say in a sentence or two where it goes."""
    left, parts = mass_kg, []
    for each in fates:
        if each.decision is Decision.YES and not each.is_last and left > 0.02 * mass_kg:
            takes = min(each.takes_kg, left)
            left -= takes
            parts.append(f"{speech.kg(takes)} into {each.name}")
    if not parts:
        asks = [each.name for each in fates if each.decision is Decision.ASK]
        if asks:
            return f"No place of your own takes it today; ask {asks[0]}, or leave it shut: ready, it keeps for months."
        return "No place takes it today. Leave it shut and cool: once it is sour it keeps for months."
    told = f"{', and '.join(parts)}."
    return f"Put {told}" + (f" {speech.kg(left)} find no place today." if left > 0.02 * mass_kg else "")


def wait_words(fate: Fate) -> str:
    """Say how long the place rests."""
    if fate.wait_d is None or fate.decision is not Decision.YES:
        return ""
    return "free again at once" if fate.wait_d <= 0.0 else f"{days(fate.wait_d)} until it may be used"


def fates_object(view: FatesView) -> dict[str, Any]:
    """Return them as a plain object for JSON."""
    return {
        "schema": SORTED,
        "batch": view.batch,
        "on": view.on.isoformat(),
        "mass_kg": view.mass_kg,
        "says": view.says,
        "decision": (view.fates[0].decision if view.fates else Decision.NO).value,
        "values": view.values,
        "fates": [
            {
                "place": each.place,
                "kind": each.kind,
                "name": each.name,
                "decision": each.decision.value,
                "takes_kg": each.takes_kg,
                "effect": each.effect,
                "wait_days": each.wait_d,
                "cautions": list(each.cautions),
                "because": list(each.because),
            }
            for each in view.fates
        ],
        "assumptions": list(view.assumptions),
    }


def title(view: FatesView) -> str:
    """Return what is sorted, and when."""
    return f"{view.batch}, {view.speech.kg(view.mass_kg)}, on {when(view.on)} {view.on.year}"
