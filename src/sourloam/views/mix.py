"""What the judgement of a load may show."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.base.source import Source
from sourloam.plan.words import Speech
from sourloam.science.load.advice import Do, Step
from sourloam.science.load.assess import Load, Portion
from sourloam.science.load.judge import Judgement
from sourloam.science.load.verdict import Limit, Verdict
from sourloam.science.materials.composition import Material
from sourloam.science.materials.fermentability import LINE_FROM_PCT
from sourloam.views.reason import Number, Reason, number_of, reason_of

FIRST: Final = (  # what a keeper asks
    *(
        "mass_kg",
        "pressed_l",
        "layers",
        "bran_g",
        "free_water_l",
        "first_liquid_d",
        "draw_off_d",
        "absorbent_g",
        "start_ph",
        "critical_ph",
    ),
    *("lactic_needed_g_per_kg", "lactic_possible_g_per_kg", "fermentability"),
)
THEN: Final = (  # what somebody asks who wants to know why
    *(
        "butyric_chance",
        "dry_matter_pct",
        "sugar_g_per_100g_dm",
        "protein_pct",
        "fat_pct",
        "salt_g_per_kg",
        "animal_pct",
        "air_frac",
    ),
    *("buffering_meq_per_kg_dm", "buffering_lactic", "carbon_pct_dry", "nitrogen_pct_dry", "c_to_n"),
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
        "animal": "so that what is rich in protein lies among what sours",
        "fat": "so that fat is spread thinly",
        "alcohol": "so that it sours and does not brew",
        "pours": "so that what pours is held",
        "air": "so that little air is left in it",
    }
)
SPOON_L, SPOONS_UNDER_L = 0.0148, 0.15  # a tablespoon; under how much it is counted in them
PILE_WET_PCT, PILE_RICH = 60.0, 25.0  # nraes54_targets
LITTLE_ANIMAL, MUCH_LIQUID = 0.02, 0.1  # parts of a load that are worth a word
HANDFUL_OF_BRAN_G = 30.0  # as where a site file says nothing
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
    elsewhere: tuple[str, ...]  # the same load on a pile, to worms
    numbers: tuple[Number, ...]
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
    speech: Speech,
) -> MixView:
    """Return what of a judgement is shown."""
    figures = judged.load.figures if judged.load else {}
    shown = {name: figures[name] for name in (*FIRST, *THEN) if name in figures}
    return MixView(
        verdict=judged.verdict.value,
        says=SAYS[judged.verdict] if judged.load else judged.sorted.refusal,
        limiting=judged.limiting,
        why=tuple(_why(each) for each in judged.kept if each.verdict is not Verdict.SOUND),
        advice=tuple(_to_do(each, speech) for each in judged.advice.steps) if judged.advice else (),
        after=SAYS[judged.advice.after[0].verdict] if judged.advice else "",
        notes=tuple(each.words for each in judged.sorted.notes),
        hints=tuple(_hints(judged, speech)),
        elsewhere=tuple(_elsewhere(judged.load)) if judged.load else (),
        numbers=tuple(number_of(each) for each in shown.values()),
        reasons={name: reason_of(each, sources) for name, each in shown.items()},
        parts=tuple((each.typed or each.material.name, _mass(each, speech)) for each in portions),
        assumptions=tuple(assumptions),
        speech=speech,
    )


def _why(limit: Limit) -> LimitView:
    return LimitView(limit.id, limit.holds_frac, limit.words)


def _mass(portion: Portion, speech: Speech) -> str:
    number = number_of(portion.mass)
    value, low, high = (speech.kg(each) for each in (number.value or 0.0, number.low or 0.0, number.high or 0.0))
    return value if low == high else f"{value} ({low} to {high})"


def _to_do(step: Step, speech: Speech) -> ToDo:
    because = FOR[step.because]
    kg = step.amount_kg
    if step.material is None:
        return ToDo("Cut it small, and press it down with a weight", 0.0, "", because)
    words = {
        Do.SWEETEN: f"Strew {_measured(step.material, kg, speech)} of {step.material.name} over it",
        Do.SOAK: f"Mix in {_measured(step.material, kg, speech)} of {_torn(step.material)}",
        Do.MOISTEN: f"Sprinkle {speech.litres(kg)} of water over it",
        Do.SPREAD: f"Spread it over layers with {_measured(step.material, kg, speech)} of {step.material.name}",
        Do.HOLD_BACK: f"Hold back {speech.kg(kg)} of the {step.material.name}: in the cold, for another layer",
    }[step.do]
    return ToDo(words, kg * 1000.0, "g", because)


def _torn(material: Material) -> str:
    return f"torn {material.name}" if material.family == "paper" else f"dry {material.name}"


def _measured(material: Material, mass_kg: float, speech: Speech) -> str:
    """Return a mass with its loose volume, since few kitchens weigh."""
    volume_l = mass_kg / material.loose_kg_per_l
    if volume_l < SPOONS_UNDER_L:
        spoons = max(1, round(volume_l / SPOON_L))
        return f"{speech.kg(mass_kg)} (about {spoons} tablespoon{'s' if spoons > 1 else ''})"
    return f"{speech.kg(mass_kg)} (about {speech.litres(float(f'{volume_l:.2g}')).replace('.0 ', ' ')} loose)"


def _hints(judged: Judgement, speech: Speech) -> list[str]:
    """Say what a keeper does with any such load."""
    load = judged.load
    if load is None:
        return []
    found = [_bran(load, speech)]
    if load.figures["animal_frac"].value > LITTLE_ANIMAL:
        found.append("Load meat, fish and dairy on the day they come, never first in an empty vessel.")
    if load.figures["kept_dry_pct"].value < LINE_FROM_PCT:
        found.append(
            "Under 15 % dry matter nobody has published a pH that keeps: here it is where the acid itself stops rot."
        )
    if load.setting.has_drain and load.figures["free_water_l"].value > MUCH_LIQUID * load.figures["mass_kg"].value:
        every = max(1, round(load.figures["draw_off_d"].value))
        often = "every day" if every == 1 else f"every {every} days"
        found.append(f"Draw the liquid off {often}: more bran does not cure wetness.")
    return found


def _bran(load: Load, speech: Speech) -> str:
    """Say how much bran goes on, by mass, in handfuls, and over how many layers."""
    grams = load.figures["bran_g"].value
    hands = max(0.5, round(2.0 * grams / HANDFUL_OF_BRAN_G) / 2.0)
    count = max(1, round(load.figures["layers"].value))
    over = "over it" if count == 1 else f"over its {count} layers"
    handfuls = f"{hands:g} handful{'s' if hands > 1.0 else ''} of {HANDFUL_OF_BRAN_G:g} g"
    told = f"Strew {speech.kg(grams / 1000.0)} of bran at least {over}, about {handfuls}"
    return f"{told if not speech.is_us else told.removesuffix(f' of {HANDFUL_OF_BRAN_G:g} g')}; press it down."


def _elsewhere(load: Load) -> list[str]:
    """Say how the same load would do on a pile and with worms, unfermented."""
    ratio = load.figures["c_to_n"].value
    water = 100.0 - load.figures["dry_matter_pct"].value
    pile = f"On a pile: C:N about {ratio:.0f} (25 to 30 is wanted) and {water:.0f} % water (50 to 60 %)."
    browns = " It wants dry browns." if water > PILE_WET_PCT or ratio < PILE_RICH else ""
    salt, ph = load.figures["salt_g_per_kg"].value, load.figures["start_ph"].value
    worms = f"To worms: pH {ph:.1f} and {salt:.1f} g of salt to a kilogram."
    sour = " Sour or salty food goes in a little at a time." if ph < WORM_SOUR_PH or salt > WORM_SALTY_G_PER_KG else ""
    return [pile + browns, worms + sour]
