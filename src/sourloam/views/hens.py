"""What may be shown of a flock that stands beside the vessels. Nothing here says that scraps may be fed."""

from collections.abc import Mapping
from typing import Final

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech
from sourloam.science.batch.cautions import Caution
from sourloam.views.place import Decision, PlaceView, Section, caution_lines, numbers_of, reasons_of

SHOWN: Final = ("room_kg_per_d", "room_kg_per_week", "left_kg_per_d", "flock_kg_per_d")
CAUTIONS: Final = (
    "feeding-kitchen-or-catering-waste-to-farmed-animals",
    "vegan-kitchen-scraps-to-hens",
    "animals-sharing-a-home-composting-site",
)
QUESTION: Final = (
    "Ask the animal health authority: may hens have greens straight from the garden here, and may they have anything "
    "that was in a kitchen?"
)


def hens_view(
    figures: Mapping[str, Figure],
    speech: Speech,
    *,
    sources: Mapping[str, Source],
    cautions: Mapping[str, Caution],
    assumptions: tuple[str, ...],
) -> PlaceView:
    """Return what a flock has room for: always to be asked about first."""
    room, left = figures["room_kg_per_d"].value, figures.get("left_kg_per_d")
    says = f"where it is allowed, the flock has room for about {speech.kg(room)} of scraps a day."
    if left is not None:
        says += (
            f" {speech.kg(left.value)} a day would be left for the vessels."
            if left.value > 0.0
            else (" That is more than comes: nothing would be left for the vessels.")
        )
    how = (
        "Until you have the answer, plan for all of it in the vessels.",
        "Where you may: hens first, the rest into the vessels; what they leave by evening goes to a pile.",
        "Nothing out of a vessel goes to hens: souring lifts no ban, and it is salty.",
        "Feed soaked in water goes further: some keepers save about 15 % (common practice, no source).",
    )
    return PlaceView(
        place="hens",
        name="hens",
        decision=Decision.ASK,
        says=says,
        because=(QUESTION,),
        cautions=caution_lines(CAUTIONS, cautions),
        numbers=numbers_of(figures, SHOWN),
        reasons=reasons_of(figures, sources),
        speech=speech,
        sections=(Section("How", how),),
        assumptions=assumptions,
    )
