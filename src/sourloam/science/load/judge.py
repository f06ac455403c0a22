"""The whole judgement of a load: what of it goes in, will it sour, what to change."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from sourloam.science.load.advice import Advice, Means, advise
from sourloam.science.load.assess import Known, Load, Portion, Setting, assess
from sourloam.science.load.verdict import Limit, Verdict, limits
from sourloam.science.materials.composition import Material, Rule
from sourloam.science.materials.rules import Sorted, sort_out

STRICT: Final = "The stricter lists of councils bar it."
NO_BRAN: Final = "Without bran it rots before it sours: keep it in the cold until there is bran again."


@dataclass(frozen=True)
class Judgement:
    """A load, and what is said of it. Where nothing of it goes in there is no load."""

    sorted: Sorted
    left_out: tuple[Portion, ...]  # by the rules; the load is without it
    load: Load | None
    kept: tuple[Limit, ...]
    advice: Advice | None

    @property
    def verdict(self) -> Verdict:
        """Return what is to be expected of all of it, as it was brought: what must stay out makes it unsound."""
        return Verdict.UNSOUND if self.left_out else self.of_the_rest

    @property
    def of_the_rest(self) -> Verdict:
        """Return what is to be expected without what must stay out."""
        return self.kept[0].verdict if self.kept else Verdict.UNSOUND

    @property
    def limiting(self) -> str:
        """Return what binds: `rule` where something stays out, else a limit, or nothing where all is well."""
        if self.left_out or not self.kept:
            return "rule"
        return "" if self.verdict is Verdict.SOUND else self.kept[0].id


def judge(
    portions: Sequence[Portion],
    setting: Setting,
    known: Known,
    means: Means,
    *,
    members: int,
    is_strict: bool = False,
    has_bran: bool = True,
) -> Judgement:
    """Return the judgement of what was brought; liquids are counted as poured in, all else that stays out is left out.

    Raises
    ------
    OutOfRange
        If an amount is impossible.
    """
    brought = [replace(each, material=_strictly(each.material)) for each in portions] if is_strict else list(portions)
    if not has_bran:
        brought = [replace(each, material=_without_bran(each.material)) for each in brought]
    sorted_ = sort_out(_masses(brought))
    going = [each for each in brought if each.material.rule is not Rule.NO or each.material.is_liquid]
    left_out = tuple(each for each in brought if each.material.rule is Rule.NO and not each.material.is_liquid)
    if all(each.material.is_liquid for each in going):
        return Judgement(sorted_, left_out, None, (), None)
    load = assess(going, setting, known, members=members)
    kept = limits(load, known)
    return Judgement(sorted_, left_out, load, kept, advise(load, kept, known, means))


def _masses(portions: Sequence[Portion]) -> dict[Material, float]:
    masses: dict[Material, float] = {}
    for each in portions:
        masses[each.material] = masses.get(each.material, 0.0) + each.mass.value
    return masses


def _strictly(material: Material) -> Material:
    """Return the material by the stricter lists."""
    if not material.is_barred_by_strict or material.rule is Rule.NO:
        return material
    return replace(material, rule=Rule.NO, reason=f"{STRICT} {material.reason}".strip(), preparation="")


def _without_bran(material: Material) -> Material:
    """Return the material as it is without bran: plants sour by themselves, meat and dairy do not."""
    if not material.animal or material.rule is Rule.NO or material.is_liquid:
        return material
    return replace(material, rule=Rule.NO, reason=NO_BRAN, preparation="")
