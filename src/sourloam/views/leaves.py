"""What may be shown of leaves that rot, and of green matter that is saved up for a pile."""

from collections.abc import Mapping
from typing import Final

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech
from sourloam.views.place import Decision, PlaceView, Section, numbers_of, reasons_of
from sourloam.views.reason import number_of
from sourloam.views.spoken import said, said_range

SOON_MO: Final = 8.0  # from autumn to spring


def leaves_view(
    figures: Mapping[str, Figure],
    name: str,
    speech: Speech,
    *,
    sources: Mapping[str, Source],
    is_tough: bool,
    is_shredded: bool,
) -> PlaceView:
    """Return what becomes of leaves."""
    done = number_of(figures["mould_months"])
    by_spring = figures["mould_months"].value <= SOON_MO
    says = f"leaf mould of {name} takes about {said(done, speech)} ({said_range(done, speech)})."
    tips = [
        "Keep them as moist as a wrung-out sponge, in wire or in a sack with holes: dry leaves do not rot.",
        *([] if is_shredded else ["Shred them with a mower: that about halves the time (--shredded)."]),
        *(["Thick and waxy leaves take twice as long: keep them apart from soft ones."] if is_tough else []),
        "Mow them over again each month: it lets air in, and they shrink faster.",
        "For a pile keep some sacks of them dry instead: they are its browns for the whole year.",
    ]
    return PlaceView(
        "leaf_mould",
        name,
        Decision.YES if by_spring else Decision.NOT_YET,
        says if by_spring else f"not by spring: {says}",
        (),
        (),
        numbers_of(figures, figures),
        reasons_of(figures, sources),
        speech,
        sections=(Section("How", tuple(tips)),),
        assumptions=("Sources say from half a year to three years; nobody measured it by kind of leaf.",),
    )


def saving_view(
    figures: Mapping[str, Figure], name: str, speech: Speech, *, sources: Mapping[str, Source], heats_l: float
) -> PlaceView:
    """Return how green matter is saved up."""
    weeks, many = number_of(figures["saving_weeks"]), number_of(figures["vessels"])
    lying, soured = (figures[each].value for each in ("lost_lying_pct", "lost_soured_pct"))
    says = (
        f"save it for about {said(weeks, speech)}, soured in {said(many, speech)} vessels, and build "
        f"a pile of {speech.size(heats_l, digits=0)} in one go."
    )
    tips = (
        f"Piled bit by bit {name} never heats, and loses about {lying:.0f} % of its nitrogen by then.",
        f"Soured and shut it loses about {soured:.0f} %.",
        "Tread it hard into a drum or a lined pit with bran or serum, and shut it: it keeps for months.",
        "Build when there is enough, from spring on, with dry leaves by the recipe (sourloam pile --at-hand ...).",
    )
    return PlaceView(
        "saving",
        name,
        Decision.YES,
        says,
        (),
        (),
        numbers_of(figures, figures),
        reasons_of(figures, sources),
        speech,
        sections=(Section("How", tips),),
    )
