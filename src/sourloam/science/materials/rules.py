"""What goes in, what goes in once prepared, and what stays out: each with its reason."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from sourloam.base.checks import within
from sourloam.base.ranges import Range
from sourloam.science.materials.composition import Material, Rule

MASS: Final = Range(0.0, 1e6, "kg")


@dataclass(frozen=True)
class Note:
    """What is said of one material in a load."""

    material: str  # its id
    rule: Rule
    share_frac: float  # of the load as it came
    words: str


@dataclass(frozen=True)
class Sorted:
    """A load after the rules: what goes in, and what was said of each of its materials."""

    taken: dict[Material, float]  # shares of what goes in; empty where nothing does
    left_out_frac: float
    notes: tuple[Note, ...]
    is_liquid_only: bool

    @property
    def refusal(self) -> str:
        """Say why nothing of it can go in; empty where something can."""
        if self.taken:
            return ""
        if self.is_liquid_only:
            return "It is liquid only, and liquid drowns a vessel. Name the solids that come with it."
        return "Nothing of it goes into a vessel: " + " ".join(each.words for each in self.notes)


def sort_out(shares: Mapping[Material, float]) -> Sorted:
    """Return what of a load goes in, from the shares of its materials by mass.

    The most noteworthy comes first: refused, a little, prepared; within these the larger share.

    Raises
    ------
    OutOfRange
        If a share is negative.
    """
    masses = {
        each: float(within(share, MASS, name=f"share of {each}", why="a share is not negative."))
        for each, share in shares.items()
    }
    held = {each: share for each, share in masses.items() if share > 0.0}
    whole = sum(held.values())
    goes_in = {each: share for each, share in held.items() if each.rule is not Rule.NO}
    inside = sum(goes_in.values())
    notes = [_note(each, share / whole) for each, share in held.items() if _is_noteworthy(each, share / whole)]
    order = (Rule.NO, Rule.A_LITTLE, Rule.PREPARE, Rule.YES)
    return Sorted(
        taken={each: share / inside for each, share in goes_in.items()},
        left_out_frac=1.0 - inside / whole if whole else 0.0,
        notes=tuple(sorted(notes, key=lambda note: (order.index(note.rule), -note.share_frac))),
        is_liquid_only=bool(held) and all(each.is_liquid for each in held),
    )


def _is_noteworthy(material: Material, share_frac: float) -> bool:
    return material.rule is not Rule.YES or share_frac > material.at_most_frac


def _note(material: Material, share_frac: float) -> Note:
    name = material.name[0].upper() + material.name[1:]
    match material.rule:
        case Rule.NO if material.is_liquid:
            words = f"{name} does not go in as it pours. {material.reason}"
        case Rule.NO:
            words = f"{name} stays out. {material.reason}"
        case Rule.A_LITTLE | Rule.PREPARE if share_frac > material.at_most_frac:
            most = f"up to {material.at_most_frac:.0%} goes well"
            words = f"{share_frac:.0%} of it is {material.name}; {most}. {material.reason}"
        case Rule.A_LITTLE:
            words = f"{name}: a little. {material.reason}"
        case _:
            words = f"{name}: {material.reason}"
    return Note(material.id, material.rule, share_frac, f"{words} {material.preparation}".strip())
