"""What may be shown of charcoal beside a batch."""

from collections.abc import Mapping, Sequence
from typing import Final

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech
from sourloam.science.batch.cautions import Caution
from sourloam.science.places.charcoal import REFUSED, Kind, field_kg_per_m2
from sourloam.views.place import Decision, PlaceView, Section, caution_lines, numbers_of, reasons_of
from sourloam.views.reason import number_of
from sourloam.views.spoken import said, said_range

DUST: Final = "charcoal-and-ash-dust"
SHOWN: Final = ("charcoal_kg", "water_l", "ammonium_g", "nitrate_g", "acid_taken_pct")


def charcoal_view(
    figures: Mapping[str, Figure],
    kind: Kind,
    speech: Speech,
    *,
    bed_kg_per_m2: float,
    sources: Mapping[str, Source],
    cautions: Mapping[str, Caution],
    assumptions: Sequence[str],
) -> PlaceView:
    """Return what of charcoal is shown."""
    refused = REFUSED.get(kind)
    number = number_of(figures["charcoal_kg"])
    trial = float(field_kg_per_m2(0.02, 1300.0, 0.2))
    how = (
        "Wet it, then crush it to the size of peas, outdoors.",
        "Mix it into the batch while it fills, or into the pile: it takes up liquid and smell there.",
        "Never raw to roots: in one trial it took 40 % of a crop so, and gave more once charged in compost.",
        "Two weeks in the batch or in the pile charge it.",
        f"To a bed {speech.kg(bed_kg_per_m2)} a square metre a year is much; trials used {speech.kg(trial)}, far more.",
    )
    known = (
        "At 2 % of a soil, ammonium in what drained fell by 22 to 78 %; all seven chars held it, one held nitrate.",
        "A ferment with about 8 % of char came to pH 7.2, without it to 4.9, on a supplier's summary.",
        "Its carbon is not counted in C:N: nothing eats it.",
    )
    says = refused or f"about {said(number, speech)} ({said_range(number, speech)}), crushed and wetted."
    return PlaceView(
        place="charcoal",
        name=f"charcoal of {kind.value}",
        decision=Decision.NO if refused else Decision.YES,
        says=says,
        because=(),
        cautions=caution_lines([DUST], cautions),
        numbers=() if refused else numbers_of(figures, SHOWN),
        reasons=reasons_of(figures, sources),
        speech=speech,
        sections=() if refused else (Section("How", how),),
        later=() if refused else (Section("What is known", known),),
        tables={"kind": kind.value},
        assumptions=tuple(assumptions),
    )
