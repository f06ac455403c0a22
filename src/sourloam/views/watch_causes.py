"""What may be behind a vessel that goes wrong, ranked: its faults by their chance, and what a cure shows.

A fault that members carry is counted by what was read. What no member carries
as a fault, wet scraps or too little bran, is measured by its cure: of how many
cases less goes wrong with dry stuff, with more bran, pressed and tight.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from sourloam.science.ferment.ensemble.changes import Change
from sourloam.science.watch.faults import Fault
from sourloam.views.ferment_verdict import chance_words

LEAST: Final = 0.1  # chance from which a fault of a sound vessel is named; judgement


@dataclass(frozen=True)
class Cause:
    """One thing that may be behind it: the fault that is it, the cure that shows it."""

    words: str
    fault: Fault | None = None
    cure: str = ""


CAUSES: Final = (
    Cause("some of it had begun to rot before it went in", fault=Fault.SPOILED),
    Cause("it is too wet: what dry stuff mixed in would have cured", cure="dry stuff"),
    Cause("too little live bran, most of all on meat, fish or dairy", fault=Fault.DEAD, cure="more bran"),
    Cause("air gets in, or was left between the scraps", fault=Fault.LEAK, cure="tamp and seal"),
    Cause("liquid stands in it and has no way out", fault=Fault.DROWNED),
    Cause("it stands far colder than you said", fault=Fault.COLD),
)


def causes(
    faults: Mapping[Fault, float], cures: Mapping[str, Change], *, drowned: float, is_amiss: bool
) -> Iterator[str]:
    """Give what may be behind it, the likeliest first: all of it, as a list to go through, or what is likely at least.

    Where nothing is amiss only the faults that members carry are named.
    """
    counted = {**faults, Fault.DROWNED: max(faults.get(Fault.DROWNED, 0.0), drowned)} if is_amiss else faults
    told = cures if is_amiss else {}
    ranked = sorted(((_share(each, counted, told), each) for each in CAUSES), key=lambda pair: -pair[0])
    for share, each in ranked:
        if is_amiss or share >= LEAST:
            yield f"{each.words}: {chance_words(share)}"


def _share(cause: Cause, faults: Mapping[Fault, float], cures: Mapping[str, Change]) -> float:
    """Return in what part of all cases it is behind it."""
    fault = faults.get(cause.fault, 0.0) if cause.fault is not None else 0.0
    change = cures.get(cause.cure)
    cured = change.failing_before_frac - change.failing_frac if change is not None else 0.0
    return max(fault, cured)
