"""What the judgement of a load may show."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.base.source import Source
from sourloam.plan.words import Speech, enumerated
from sourloam.science.load.advice import FILLED, Do, Step
from sourloam.science.load.assess import Load, Portion
from sourloam.science.load.judge import Judgement
from sourloam.science.load.verdict import Limit, Verdict
from sourloam.science.materials.composition import Material
from sourloam.science.materials.fermentability import class_of
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.views.handling import (
    LITTLE_ANIMAL,
    Handling,
    apart_notes,
    bran_hints,
    fill_steps,
    ground_notes,
    liquid_notes,
    spoons,
    torn,
)
from sourloam.views.reason import Number, Reason, number_of, reason_of

FIRST: Final = (  # what a keeper asks
    "mass_kg",
    "pressed_l",
    "layers",
    "bran_g",
    "free_water_l",
    "runs_off_l",
    "first_liquid_d",
    "draw_off_d",
    "full_layers",
    "full_kg",
    "full_bran_g",
    "mixed_g_per_kg",
    "bed_g",
    "wild_ready_d",
    "wild_fails_frac",
    "absorbent_g",
    "start_ph",
    "critical_ph",
    "lactic_needed_g_per_kg",
    "lactic_possible_g_per_kg",
    "fermentability",
)
THEN: Final = (  # what somebody asks who wants to know why
    "bran_usual_g",
    "bran_times",
    "kilogram_lasts_d",
    "habit_bran_g",
    "habit_lasts_d",
    "first_draw_l",
    "liquid_ph",
    "watering_l",
    "full_liquid_l",
    "full_mixed_g",
    "bed_soaks_l",
    "salt_g_per_m2",
    "salt_bed_ds_per_m",
    "salt_pot_ds_per_m",
    "butyric_chance",
    "dry_matter_pct",
    "sugar_g_per_100g_dm",
    "protein_pct",
    "fat_pct",
    "salt_g_per_kg",
    "animal_pct",
    "air_frac",
    "buffering_meq_per_kg_dm",
    "buffering_lactic",
    "carbon_pct_dry",
    "nitrogen_pct_dry",
    "c_to_n",
)
SAYS: Final = MappingProxyType(
    {
        Verdict.SOUND: "Sound: it will sour.",
        Verdict.MARGINAL: "Marginal: it may sour, and may not.",
        Verdict.UNSOUND: "Unsound: it will not sour as it is.",
    }
)
FOR: Final = MappingProxyType(
    {
        "sugar": "so that there is enough to make acid of",
        "liquid": "so that nothing lies in liquid",
        "dry": "so that it is moist enough to sour",
        "salt": "so that the salt does not stop it",
        "fermentability": "so that acid comes faster than rot",
        "animal": "so that what rots fast lies among what sours",
        "share": "so that there is not too much of one thing",
        "fat": "so that fat is spread thinly",
        "alcohol": "so that it sours and does not brew",
        "pours": "so that what pours is held",
        "air": "so that little air is left in it",
    }
)
SPOONS_UNDER_L: Final = 0.15  # a volume that is counted in spoons
LITTLE_L: Final = 0.05  # of liquid, which nobody sees
HARDLY_KG: Final = 0.005  # of what is mixed in
KEEPS: Final = ("mineral", "nut", "bone", "brown", "carrier", "sweetener")  # what need not be held in the cold
WORM_SOUR_PH, WORM_SALTY_G_PER_KG = 5.0, 5.0  # judgement: worms do well from pH 5 up, and with little salt


@dataclass(frozen=True)
class ToDo:
    """One thing to do, with its amount in the project's units and in words."""

    do: str
    amount: float
    unit: str
    because: str


@dataclass(frozen=True)
class LimitView:
    """A limit that a load does not keep surely."""

    id: str
    holds_frac: float
    words: str


@dataclass(frozen=True)
class MixView:
    """The judgement of a load."""

    verdict: str
    says: str
    limiting: str
    why: tuple[LimitView, ...]
    advice: tuple[ToDo, ...]
    after: str  # what it is once that is done; empty where there is nothing to do, or nothing that helps
    notes: tuple[str, ...]  # on the materials: what stays out, what is prepared
    hints: tuple[str, ...]
    liquid: tuple[str, ...]  # when it comes, how much, what it may be used as
    fill: tuple[str, ...]  # how a vessel without a drain is filled
    ground: tuple[str, ...]  # whether the soil bears it
    apart: tuple[str, ...]  # what is done with what never goes in
    elsewhere: tuple[str, ...]  # the same load on a pile, to worms
    numbers: tuple[Number, ...]
    fermentability: str  # its class in a word; empty where nothing goes in
    reasons: Mapping[str, Reason]
    parts: tuple[tuple[str, str], ...]  # each amount as it was written, and its mass
    assumptions: tuple[str, ...]
    speech: Speech

    @property
    def is_sound(self) -> bool:
        """Whether it goes in as it is."""
        return self.verdict == Verdict.SOUND


def mix_view(
    judged: Judgement,
    portions: Sequence[Portion],
    *,
    assumptions: Sequence[str],
    sources: Mapping[str, Source],
    handling: Handling,
    pile: PileParameters,
) -> MixView:
    """Return what of a judgement is shown."""
    speech = handling.kitchen.speech
    figures = judged.load.figures if judged.load else {}
    shown = {name: figures[name] for name in (*FIRST, *THEN) if name in figures and not _is_idle(name, judged)}
    return MixView(
        verdict=judged.verdict.value,
        says=_says(judged),
        limiting=judged.limiting,
        why=tuple(_why(each) for each in judged.kept if each.verdict is not Verdict.SOUND),
        advice=(*_leave_out(judged, speech), *_steps(judged, speech)),
        after=_after(judged),
        notes=tuple(each.words for each in judged.sorted.notes),
        hints=tuple(_hints(judged.load, handling)) if judged.load else (),
        liquid=tuple(liquid_notes(judged.load, handling)) if judged.load else (),
        fill=tuple(fill_steps(judged.load, handling)) if judged.load else (),
        ground=tuple(ground_notes(judged.load, handling)) if judged.load else (),
        apart=tuple(apart_notes(judged.left_out, handling)),
        elsewhere=tuple(_elsewhere(judged.load, pile)) if judged.load else (),
        numbers=tuple(number_of(each) for each in shown.values()),
        fermentability=class_of(figures["fermentability"].value).value if figures else "",
        reasons={name: reason_of(each, sources) for name, each in shown.items()},
        parts=tuple((each.typed or each.material.name, _mass(each, speech)) for each in portions),
        assumptions=tuple(assumptions),
        speech=speech,
    )


def _is_idle(name: str, judged: Judgement) -> bool:
    """Whether a figure is about liquid where there is none."""
    return name == "draw_off_d" and judged.load is not None and judged.load.figures["free_water_l"].value < LITTLE_L


def _says(judged: Judgement) -> str:
    if judged.load is None:
        return judged.sorted.refusal
    if not judged.left_out:
        return SAYS[judged.verdict]
    names = enumerated(tuple(dict.fromkeys(each.material.name for each in judged.left_out)))
    rest = SAYS[judged.of_the_rest]
    return f"Unsound as it is: leave out the {names}. Without that: {rest[0].lower()}{rest[1:]}"


def _leave_out(judged: Judgement, speech: Speech) -> list[ToDo]:
    """Say of each that stays out how much it is."""
    if judged.load is None:
        return []
    return [
        ToDo(
            f"Leave out the {speech.kg(each.mass.value)} of {each.material.name}",
            1000.0 * each.mass.value,
            "g",
            "since it does not go into a vessel",
        )
        for each in judged.left_out
    ]


def _steps(judged: Judgement, speech: Speech) -> list[ToDo]:
    if judged.advice is None or judged.load is None:
        return []
    return [_to_do(each, judged.load, speech) for each in judged.advice.steps]


def _after(judged: Judgement) -> str:
    """Say what it is once all of that is done; nothing where there is nothing to do, or nothing that helps."""
    if judged.advice is not None:
        return SAYS[judged.advice.after[0].verdict]
    is_cured = judged.left_out and judged.load is not None and judged.of_the_rest is Verdict.SOUND
    return SAYS[Verdict.SOUND] if is_cured else ""


def _why(limit: Limit) -> LimitView:
    return LimitView(limit.id, limit.holds_frac, limit.words)


def _mass(portion: Portion, speech: Speech) -> str:
    number = number_of(portion.mass)
    value, low, high = (speech.kg(each) for each in (number.value or 0.0, number.low or 0.0, number.high or 0.0))
    return value if low == high else f"{value} ({low} to {high})"


def _to_do(step: Step, load: Load, speech: Speech) -> ToDo:
    because = FOR[step.because]
    kg = step.amount_kg
    if step.material is None:
        return ToDo("Cut it small, and press it down with a weight", 0.0, "", because)
    words = {
        Do.SWEETEN: f"Sprinkle {_measured(step.material, kg, speech)} of {step.material.name} over it",
        Do.SOAK: _soaked(step.material, kg, load, speech),
        Do.MOISTEN: f"Sprinkle {speech.litres(kg)} of water over it",
        Do.SPREAD: f"{_spread(kg, load)} {_measured(step.material, kg, speech)} of {step.material.name}",
        Do.HOLD_BACK: _held_back(step.material, kg, speech),
    }[step.do]
    return ToDo(words, kg * 1000.0, "g", because)


def _soaked(material: Material, mass_kg: float, load: Load, speech: Speech) -> str:
    """Say what is mixed in; over a bed, as the plan of the filling has it, where nothing drains."""
    told = f"Mix in {_measured(material, mass_kg, speech)} of {torn(material)}"
    if load.setting.has_drain or material != load.setting.absorbent:
        return told
    if mass_kg < HARDLY_KG:
        return f"Lay it on a bed of {torn(material)}"
    per_kg = speech.kg(load.figures["mixed_g_per_kg"].value / 1000.0)
    return f"{told}, {per_kg} to {speech.kg(1.0) if speech.is_us else 'each kilogram'}, over a bed of it"


def _spread(mass_kg: float, load: Load) -> str:
    """Say over what a load is spread: other scraps of the day, or the layers of the coming weeks."""
    is_much = mass_kg > load.figures["mass_kg"].value
    return "Spread it over the layers of the coming weeks, with" if is_much else "Spread it over layers, with"


def _held_back(material: Material, mass_kg: float, speech: Speech) -> str:
    if material.kind in KEEPS:
        return f"Leave out {speech.kg(mass_kg)} of the {material.name}"
    return f"Hold back {speech.kg(mass_kg)} of the {material.name}: in the cold, for a later layer"


def _measured(material: Material, mass_kg: float, speech: Speech) -> str:
    """Return a mass with its loose volume, since few kitchens weigh."""
    volume_l = mass_kg / material.loose_kg_per_l
    if volume_l < SPOONS_UNDER_L:
        return f"{speech.kg(mass_kg)} ({spoons(volume_l)})"
    return f"{speech.kg(mass_kg)} (about {speech.litres(float(f'{volume_l:.2g}')).replace('.0 ', ' ')} loose)"


def _hints(load: Load, handling: Handling) -> Iterator[str]:
    """Say what a keeper does with any such load."""
    yield from _fills(load, handling.kitchen.speech)
    yield from bran_hints(load, handling)
    if load.figures["animal_frac"].value > LITTLE_ANIMAL:
        yield "Load meat, fish and dairy on the day they come, never first in an empty vessel."


def _fills(load: Load, speech: Speech) -> list[str]:
    """Say where a load is more than its vessel holds."""
    mass, full = load.figures["mass_kg"].value, load.figures["full_kg"].value
    if not load.setting.has_drain and mass > full:
        return [
            f"With its bed and what is mixed in the vessel holds {speech.kg(full)}: the rest goes into the next one."
        ]
    pressed, holds = load.figures["pressed_l"].value, FILLED * load.setting.volume.value
    if pressed <= holds:
        return []
    told = f"Pressed it takes {speech.litres(pressed)}, and the vessel holds {speech.litres(holds)} of scraps"
    return [f"{told}: the rest goes into the next one."]


def _elsewhere(load: Load, pile: PileParameters) -> list[str]:
    """Say how the same load would do on a pile and with worms, unfermented."""
    ratio, wanted = load.figures["c_to_n"].value, pile.carbon_to_nitrogen.value
    water = 100.0 - load.figures["dry_matter_pct"].value
    least, most = (100.0 * each.value for each in (pile.moisture_least_frac, pile.moisture_most_frac))
    told = (
        f"C:N about {ratio:.0f} (from {wanted:.0f} up is wanted) and {water:.0f} % water ({least:.0f} to {most:.0f} %)"
    )
    browns = " It wants dry browns." if water > most or ratio < wanted else ""
    salt, ph = load.figures["salt_g_per_kg"].value, load.figures["start_ph"].value
    worms = f"To worms: pH {ph:.1f} and {salt:.1f} g of salt to a kilogram."
    sour = " Sour or salty food goes in a little at a time." if ph < WORM_SOUR_PH or salt > WORM_SALTY_G_PER_KG else ""
    return [f"On a pile: {told}.{browns}", worms + sour]
