"""What the answer for the liquid may show."""

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech
from sourloam.science.batch.cautions import Caution
from sourloam.science.places.leachate.parameters import LeachateParameters
from sourloam.science.places.offer import rough
from sourloam.views.place import Decision, PlaceView, Section, caution_lines, numbers_of, reasons_of

FIRST: Final = ("ec_ds_m", "dilution", "liquid_l", "feed_l", "fed_m2", "feed_ds_per_m")
THEN: Final = (
    *("cardboard_l", "dry_leaves_l", "straw_l", "sawdust_l"),
    *("nitrogen_g", "phosphorus_g", "potassium_g", "sodium_g"),
    *("nitrogen_g_per_l", "phosphorus_g_per_l", "potassium_g_per_l", "sodium_g_per_l"),
    *("nitrogen_g_per_m2", "potassium_g_per_m2", "sodium_g_per_m2", "acid_mmol_per_l"),
)
CAUTIONS: Final = (
    "leachate-on-leaves-and-pots",
    "leachate-in-drains-and-ponds",
    "acid-liquid-on-skin-eyes-metal-concrete",
)
PLANTS: Final = ("seedlings", "pots", "bed", "fruiting", "trees")
NAMES: Final = MappingProxyType(
    {
        "seedlings": "seedlings",
        "pots": "plants in pots",
        "bed": "a bed",
        "fruiting": "tomatoes and other fruiting crops",
        "trees": "trees and shrubs outdoors",
    }
)


@dataclass(frozen=True)
class ByDay:
    """The liquid some days after the first layer."""

    day: int
    litres_so_far: float
    ds_per_m: float  # of what comes then


@dataclass(frozen=True)
class LeachateCase:
    """What the answer rests on beside its figures."""

    for_what: str
    parts: float | None  # of water to one, as the keeper means to pour it; 0 where undiluted
    drawn_d: float | None
    area_m2: float | None
    soil: str
    assumptions: tuple[str, ...]
    speech: Speech
    sources: Mapping[str, Source]
    cautions: Mapping[str, Caution]
    browns: Mapping[str, str]
    by_day: tuple[ByDay, ...]

    @property
    def is_for_plants(self) -> bool:
        """Whether it goes where something grows."""
        return self.for_what in PLANTS


def leachate_view(figures: Mapping[str, Figure], known: LeachateParameters, case: LeachateCase) -> PlaceView:
    """Return the answer for a liquid."""
    decision, says, because = _decided(figures, known, case)
    sections = [
        Section("Do this", tuple(_steps(figures, known, case))) if decision is Decision.YES else None,
        Section("Where it may go else", tuple(_sink(figures, case))),
    ]
    later = (
        Section("When it comes", tuple(_course(case))),
        Section("What strength for what, by custom and by salt", tuple(_table(figures, known))),
        Section("Is it worth it?", tuple(_worth(figures))),
    )
    return PlaceView(
        "leachate",
        "the liquid",
        decision,
        says,
        because,
        caution_lines(CAUTIONS, case.cautions),
        numbers_of(figures, FIRST),
        reasons_of(figures, case.sources),
        case.speech,
        tuple(each for each in sections if each is not None),
        later,
        {"keeps_d": known.keeps_d.value, "drink": "never", "by_day": [asdict(each) for each in case.by_day]},
        case.assumptions,
        numbers_of(figures, THEN),
    )


def _decided(
    figures: Mapping[str, Figure], known: LeachateParameters, case: LeachateCase
) -> tuple[Decision, str, tuple[str, ...]]:
    """Return the decision, what it says, and why."""
    if case.for_what == "pond":
        return Decision.NO, "never into a pond, a stream or a street drain: it takes the oxygen out of the water.", ()
    if case.for_what == "drain":
        says = "a little down a sink or toilet is usual; in quantity, or with a septic tank, the water company says."
        return Decision.ASK, says, ("Ask: may sour food liquid of so many litres a week go down the drain?",)
    if case.for_what == "pile":
        return Decision.YES, "pour it undiluted over dry browns in a pile: there it does least harm.", ()
    old = case.drawn_d is not None and case.drawn_d > known.keeps_d.high
    if old and case.is_for_plants:
        kept = f"it met air {rough(case.drawn_d or 0.0)} days ago, and keeps some hours, a day at the most"
        return Decision.NO, f"{kept}: onto dry browns with it, not onto plants.", ()
    if case.soil in ("frozen", "waterlogged"):
        what = "frozen: it runs off" if case.soil == "frozen" else "full of water: it stays on top and rots"
        return Decision.NOT_YET, f"the ground is {what}; soak it up in dry browns until then.", ()
    if case.for_what == "fallow":
        return Decision.YES, "bare ground that is planted later takes it, thinned ten times or more.", ()
    if case.parts is not None and case.parts < known.weakest_parts.value:
        return Decision.NO, _too_strong(case.parts, known), tuple(_why_reports_differ())
    if not np.isfinite(figures["dilution"].value):
        return Decision.NO, "your water is as salty as they bear by itself: use rain water.", ()
    thin = figures["dilution"]
    says = f"thin 1 part with {rough(thin.value)} of water for {NAMES[case.for_what]}, on bare soil, today."
    return Decision.YES, says, tuple(_why_thin(figures, known))


def _too_strong(parts: float, known: LeachateParameters) -> str:
    how = "undiluted" if parts < 1.0 else f"1:{parts:g}"
    return f"{how} is too strong for roots: 1:{known.weakest_parts.value:g} is the strongest that goes on plants."


def _why_reports_differ() -> Iterator[str]:
    yield "In a school trial undiluted liquid killed eleven of twelve bean seedlings; some give it to shrubs unharmed."
    yield "Both can be so: old woody roots, soil with lime and rain bear what seedlings and pots do not. Cautious wins."


def _why_thin(figures: Mapping[str, Figure], known: LeachateParameters) -> Iterator[str]:
    salt, least = figures["by_salt_parts"], known.weakest_parts.value
    yield f"For its salt alone 1 part to {rough(salt.value)} would do ({rough(salt.low)} to {rough(salt.high)})."
    yield f"Never stronger than 1:{least:g} on plants: its acid, and what nobody measured of it, ask for that."


def _steps(figures: Mapping[str, Figure], known: LeachateParameters, case: LeachateCase) -> Iterator[str]:
    if case.for_what == "pile":
        yield "Pour it slowly over the browns, and turn them under."
        return
    parts = figures["dilution"].value if case.for_what != "fallow" else 10.0
    can = 10.0
    yield (
        f"Into a can of {case.speech.size(can)}: {case.speech.litres(can / (1.0 + parts))}. All of it makes "
        f"{case.speech.litres(figures['liquid_l'].value * (1.0 + parts))} of feed."
    )
    yield (
        f"Pour about {known.pour_l_per_m2.value:g} L on a square metre of moist bare soil, twice a month at most; "
        "not on leaves, and on nothing that is eaten raw."
    )
    if case.for_what == "pots":
        yield "In pots let it run through and out below now and then with plain water, or the salt stays."
    yield "Try one plant first and wait a week. Draw off again every two or three days, and use it the same day."


def _sink(figures: Mapping[str, Figure], case: LeachateCase) -> Iterator[str]:
    told = ", or ".join(
        f"{rough(figures[f'{name}_l'].value)} L of {words}"
        for name, words in case.browns.items()
        if np.isfinite(figures[f"{name}_l"].value)
    )
    yield f"Winter, frost, or more than plants want: {told}, loose and dry, soak it all up, for the pile."
    yield "Or undiluted on a pile or on ground that is bare for weeks; into a pond or street drain never."


def _course(case: LeachateCase) -> Iterator[str]:
    says = case.speech.litres
    told = "; ".join(
        f"day {each.day}: {says(each.litres_so_far)} so far, {each.ds_per_m:.0f} dS/m" for each in case.by_day
    )
    yield f"After the first layer, in the middle case, {told}."
    yield "Fruit and raw vegetables give more, bread and rice hardly any."


def _table(figures: Mapping[str, Figure], known: LeachateParameters) -> Iterator[str]:
    pots, seedlings = known.pot_parts, known.seedling_parts
    least, most = (round(each, -2) for each in (pots.low, pots.high))
    yield f"Seedlings: 1:{seedlings.value:.0f}, and plain water does as well (one trial)."
    yield f"Pots and houseplants: 1:{least:.0f} to 1:{most:.0f}; both are told, in one and the same place."
    yield f"Beds and tough plants outdoors: 1:{known.weakest_parts.value:.0f}. None of these numbers is well founded."
    made = figures["liquid_l"].value * 301.0
    yield f"At 1:300, the weakest for beds that is told, all of it makes {rough(made)} L."


def _worth(figures: Mapping[str, Figure]) -> Iterator[str]:
    told = ", ".join(
        f"{figures[f'{name}_g'].value:.1f} g of {name}" for name in ("nitrogen", "phosphorus", "potassium", "sodium")
    )
    yield f"All of it holds about {told}: little nitrogen, some potassium, and salt by what was eaten."
    yield "It is a weak feed, and no more is proven; drawing it off helps the batch more than the plants."
