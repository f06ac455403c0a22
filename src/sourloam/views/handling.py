"""What a keeper does with a load: bran, liquid, a whole filling, the ground it goes to, what is kept apart."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from sourloam.base.days import YEAR_D
from sourloam.base.figure import Figure
from sourloam.base.units import BY_NAME
from sourloam.plan.words import Speech, enumerated
from sourloam.science.load.assess import Load, Portion
from sourloam.science.load.course import Habit
from sourloam.science.materials.composition import Material

WEEK_D: Final = 7.0
LITTLE_ANIMAL: Final = 0.02  # part of a load that is worth a word
WEEKS_FROM_D: Final = 21.0  # from here up days are said in weeks
MORE_THAN_NEEDED: Final = 1.25  # times the usual bran, from which a habit is worth a word
MOST_OF_IT: Final = 0.3  # share of the liquid from which a material is named
KEPT_FROM, BROKEN_UNDER = 0.8, 0.5  # shares of cases in which a limit of the ground is kept surely, and hardly
DRY_TO: Final = 0.5  # water of what is called dry, as where amounts are read
HARDLY_L: Final = 0.01
HARDLY_KG: Final = 0.05  # of scraps in a whole vessel


@dataclass(frozen=True)
class Kitchen:
    """How a keeper is spoken to, and what their own measures hold."""

    speech: Speech
    handful_kg: float  # of bran
    bran_kg_per_l: float


@dataclass(frozen=True)
class Handling:
    """What the sentences rest on beside the load itself."""

    kitchen: Kitchen
    habit: Habit
    tender_ds_per_m: float  # conductivity that beans and carrots bear
    hardy_ds_per_m: float  # and that crops of middling tolerance bear
    usual_dose_frac: float  # bran on plants, by weight
    usual_ready_d: float  # with bran, at 20 °C
    usual_fails_frac: float  # with bran
    safe_parts: float  # of water to one of the liquid, at least
    shares: Mapping[Material, float] = field(default_factory=dict)  # of what the liquid comes
    apart: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # sentences by the id of a material


def handfuls(mass_kg: float, kitchen: Kitchen) -> str:
    """Return an amount of bran in the keeper's handfuls, or in spoons where it is less than one."""
    if mass_kg < 0.75 * kitchen.handful_kg:
        return spoons(mass_kg / kitchen.bran_kg_per_l)
    hands = round(2.0 * mass_kg / kitchen.handful_kg) / 2.0
    return f"about {hands:g} handful{'s' if hands > 1.0 else ''}"


def spoons(volume_l: float) -> str:
    """Return a small volume in tablespoons, or in teaspoons where it is less than one."""
    large_l, small_l = BY_NAME["tablespoon"].factor, BY_NAME["teaspoon"].factor
    name, size_l = ("tablespoon", large_l) if volume_l >= 0.75 * large_l else ("teaspoon", small_l)
    count = max(0.5, round(2.0 * volume_l / size_l) / 2.0)
    return f"about {count:g} {name}{'s' if count > 1.0 else ''}"


def bran_hints(load: Load, given: Handling) -> Iterator[str]:
    """Say how much bran goes on, at least and by custom, how long it lasts, and what a habit costs."""
    if not given.habit.has_bran:
        yield from _without_bran(load, given)
        return
    yield _least(load, given.kitchen)
    usual = load.figures["bran_usual_g"].value / 1000.0
    said = f"{given.kitchen.speech.kg(usual)} of bran ({handfuls(usual, given.kitchen)})"
    percent = f"{100.0 * given.usual_dose_frac:g} % by weight"
    yield (
        f"{said[0].upper()}{said[1:]} would be {percent}, as is usual; guides say from under 1 to over 5 %. More does "
        "no harm but for its cost."
    )
    lasts = _kilogram_lasts(given.kitchen.speech, load.figures["kilogram_lasts_d"].value)
    lasts = lasts.replace(" last", " of bran last", 1)
    yield f"At that {lasts}. (Guides say from 3 weeks to more than 6 months.)"
    if given.habit.smells:
        yield "It smells already: twice the bran is counted in. Press it down, and shut the air out."
    if given.habit.loads is not None:
        yield from _habit(load, given)


def _least(load: Load, kitchen: Kitchen) -> str:
    mass_kg = load.figures["bran_g"].value / 1000.0
    count = max(1, round(load.figures["layers"].value))
    over = "over it" if count == 1 else f"over its {count} layers"
    doubled = ", twice as much on meat counted in" if load.figures["animal_frac"].value > LITTLE_ANIMAL else ""
    said = kitchen.speech.kg(mass_kg)
    return f"Sprinkle at least {said} of bran {over} ({handfuls(mass_kg, kitchen)}{doubled}); press it down."


def _habit(load: Load, given: Handling) -> Iterator[str]:
    habit, usual = load.figures["habit_bran_g"].value, load.figures["bran_usual_g"].value
    if habit <= MORE_THAN_NEEDED * usual:
        return
    takes = f"Covering it all at each of {given.habit.loads} loadings takes {given.kitchen.speech.kg(habit / 1000.0)}"
    lasts = _kilogram_lasts(given.kitchen.speech, load.figures["habit_lasts_d"].value)
    is_often = (given.habit.loads or 0) > given.habit.over_d
    better = "Load once a day" if is_often else "Let it gather in the caddy and load less often"
    yield f"{takes}, {_two_digits(habit / usual)} times that: {lasts}. {better}, in thicker layers."


def _without_bran(load: Load, given: Handling) -> Iterator[str]:
    ready, fails = load.figures["wild_ready_d"].value, load.figures["wild_fails_frac"].value
    slower = f"about {ready:.0f} days at 20 °C, against {given.usual_ready_d:.0f}"
    surely = f"about 1 in {max(round(1.0 / fails), 1)} fails, against 1 in {round(1.0 / given.usual_fails_frac)}"
    yield given.kitchen.speech.told(
        f"Without bran plant scraps mostly sour by themselves, but more slowly ({slower}) and less surely ({surely})."
    )
    yield "In its place spray each layer with serum, or with the liquid of a batch that smells right; open it seldom."


def _kilogram_lasts(speech: Speech, days: float) -> str:
    """Say how long a kilogram lasts, in pounds to whom that says more."""
    return f"{speech.kg(1.0)} last {_long(days)}" if speech.is_us else f"a kilogram lasts {_long(days)}"


def _long(days: float) -> str:
    if days > YEAR_D:
        return "more than a year"
    return f"about {days / WEEK_D:.0f} weeks" if days >= WEEKS_FROM_D else f"about {max(days, 1.0):.0f} days"


def liquid_notes(load: Load, given: Handling) -> Iterator[str]:
    """Say when liquid comes and how much, how often to draw it off, and what it may be used as."""
    if not load.setting.has_drain:
        return
    speech, held = given.kitchen.speech, load.figures
    if held["first_liquid_d"].never_frac > BROKEN_UNDER:
        yield "Little or no liquid is to be expected: most of it is dry, or soaks it up."
        return
    first, amount = held["first_liquid_d"], held["first_draw_l"]
    yield (
        f"The first comes after about {first.value:.0f} days ({first.low:.0f} to {first.high:.0f}{_never(first)}); the "
        f"first draw-off gives about {speech.litres(amount.value)} ({_between(amount, speech)})."
    )
    every = max(1, round(held["draw_off_d"].value))
    often = "every day" if every == 1 else f"every {every} days"
    yield (
        f"Draw it off {often}, so that it never touches the scraps, and go on while they rest. (Guides say from every "
        "day to once a week.) Extra bran would not soak it up."
    )
    yield _of_what(given.shares)
    ph = held["liquid_ph"]
    yield (
        f"Pour it on bare soil the same day, thinned 1 to {given.safe_parts:g} with water or weaker. Its pH is about "
        f"{ph.value:.1f} ({ph.low:.1f} to {ph.high:.1f})."
    )
    yield _thinned(load, given)


def _never(first: Figure) -> str:
    """Say in how many cases so little comes that it is not seen."""
    never = round(100.0 * first.never_frac)
    return f"; in {never} of 100 cases so little comes that none is seen" if never else ""


def _thinned(load: Load, given: Handling) -> str:
    """Say what water it takes, from the volume that is said with it, and how the keeper's own mixture does."""
    speech, safe, own = given.kitchen.speech, given.safe_parts, given.habit.parts
    parts = safe if own is None else max(own, safe)
    whole_l = as_said(load.figures["runs_off_l"].value)
    told = (
        f"About {speech.litres(whole_l)} run off in all: at 1 to {parts:g} that takes {_water(whole_l, parts, speech)}"
    )
    if own is None:
        return f"{told}."
    if own < safe:
        times = _two_digits(safe / own)
        return f"{told}. 1 to {own:g} is {times} times as strong as that: it can burn roots and kill seedlings."
    return f"{told}. 1 to {own:g}, as you thin it, is weak enough."


def as_said(litres: float) -> float:
    """Return a volume with as many digits as are printed of it."""
    return float(f"{litres:.2g}") if litres < 1.0 else round(litres, 1)


def _water(whole_l: float, parts: float, speech: Speech) -> str:
    return f"{speech.size(whole_l * parts, digits=0)} of water"


def _between(figure: Figure, speech: Speech) -> str:
    most = speech.litres(figure.high)
    return f"{speech.litres(figure.low)} to {most}" if figure.low > HARDLY_L else f"up to {most}"


def _of_what(shares: Mapping[Material, float]) -> str:
    """Say of what most of the liquid is, and what its colour means."""
    colour = "Its colour follows what is in it, beetroot above all, and is harmless unless the smell is foul."
    large = sorted((each for each in shares if shares[each] >= MOST_OF_IT), key=lambda each: -shares[each])
    if not large or len(shares) == 1:
        return colour
    return f"Most of it is of the {enumerated([each.name for each in large])}. {colour}"


def fill_steps(load: Load, given: Handling) -> Iterator[str]:
    """Say how a vessel without a drain is filled from the floor to the lid."""
    if load.setting.has_drain:
        return
    kitchen, held = given.kitchen, load.figures
    speech, dry = kitchen.speech, torn(load.setting.absorbent)
    if held["full_kg"].value < HARDLY_KG:
        yield "The bed leaves no room for scraps: make it thinner."
        return
    count = max(1, round(held["full_layers"].value))
    many = "one layer" if count == 1 else f"{count} layers, each"
    bran_kg = held["full_bran_g"].value / 1000.0 if given.habit.has_bran else 0.0
    one = f"{speech.kg(bran_kg / (count + 2))} of bran ({handfuls(bran_kg / (count + 2), kitchen)})"
    depths = {"bed": dict(held["bed_g"].inputs)["bed_m"], "layer": dict(held["full_layers"].inputs)["layer_m"]}
    deep = {name: speech.told(f"{100.0 * each.value:.2g} cm") for name, each in depths.items()}
    bed_kg, mixed_kg = (held[each].value / 1000.0 for each in ("bed_g", "full_mixed_g"))
    bed = f"bed of {dry}, {deep['bed']} deep ({speech.kg(bed_kg)})"
    yield (f"Dust the floor with {one}. On it a {bed}, and bran once more." if bran_kg else f"On the floor a {bed}.")
    parts = [f"about {speech.kg(held['full_kg'].value / count)} of scraps"]
    parts += [f"{speech.kg(mixed_kg / count)} of {dry} mixed into them"] if mixed_kg > HARDLY_KG else []
    parts += [f"{one} on top"] if bran_kg else []
    yield f"Then {many} {deep['layer']} deep before it settles: {enumerated(parts)}. Press every layer hard."
    yield _in_all(held, bed_kg + mixed_kg, bran_kg, load=load, kitchen=kitchen)
    yield _takes_up(held, dry, speech)


def _in_all(held: Mapping[str, Figure], dry_kg: float, bran_kg: float, *, load: Load, kitchen: Kitchen) -> str:
    """Add up a whole filling."""
    speech, name = kitchen.speech, load.setting.absorbent.name
    told = f"In all {speech.kg(held['full_kg'].value)} of scraps, {speech.kg(dry_kg)} of {name} with the bed"
    if not bran_kg:
        return f"{told}."
    least, most = (speech.kg(each / 1000.0) for each in (held["full_bran_g"].low, held["full_bran_g"].high))
    return (
        f"{told}, and {speech.kg(bran_kg)} of bran ({handfuls(bran_kg, kitchen)}; {least} to {most}). By custom a "
        "handful goes on each layer, more on meat."
    )


def _takes_up(held: Mapping[str, Figure], dry: str, speech: Speech) -> str:
    """Say what liquid that is for."""
    most, soaks = held["full_liquid_l"].high, held["bed_soaks_l"].value
    if held["full_mixed_g"].value <= 1000.0 * HARDLY_KG:
        told = f"The bed takes up about {speech.litres(soaks)}, and that is enough: the load soaks up the rest itself"
    else:
        told = (
            f"Such a filling sets {speech.litres(held['full_liquid_l'].value)} free, and no more than "
            f"{speech.litres(most)} in 19 of 20 cases: that is what the {dry} is for, and the bed alone takes up "
            f"{speech.litres(soaks)}"
        )
    return (
        f"{told}. Dry bread or old rice does as well. A vessel with a drain is surer: if liquid shows at the side all "
        "the same, put more of it on the next layers."
    )


def torn(material: Material) -> str:
    """Return what soaks up liquid, as it is put in."""
    if material.family == "paper":
        return f"torn {material.name}"
    return f"dry {material.name}" if material.composition.water_wb_frac <= DRY_TO else material.name


def ground_notes(load: Load, given: Handling) -> Iterator[str]:
    """Say whether the soil bears the salt of a load."""
    salt = f"{_two_digits(load.figures['salt_g_per_m2'].value)} g to a square metre of bed"
    bed, pot = load.figures["salt_bed_ds_per_m"], load.figures["salt_pot_ds_per_m"]
    first = "Pots and tubs suffer first, and beds where no rain washes it out"
    if _is_borne(bed, given.tender_ds_per_m) and _is_borne(pot, given.tender_ds_per_m):
        yield f"Its salt does no harm: {salt}. {first}."
        return
    yield f"Its salt, {salt}, {_borne(bed, given)}."
    yield f"{first}: in a pot, mixed with soil, it {_borne(pot, given)}."


def _is_borne(added: Figure, most_ds_per_m: float) -> bool:
    return float(np.mean(added.members <= most_ds_per_m)) >= KEPT_FROM


def _borne(added: Figure, given: Handling) -> str:
    """Say what bears what is added."""
    tender, hardy = given.tender_ds_per_m, given.hardy_ds_per_m
    if _is_borne(added, tender):
        return "does no harm"
    told = f"{_two_digits(added.value)} dS/m"
    if added.value <= hardy:
        return f"may be too much for beans and carrots ({told}; they bear {tender:g}), and is not for tomatoes"
    soil = np.ceil(added.value / tender)
    bear = f"beans and carrots bear {tender:g}, tomatoes {hardy:g}"
    return f"is too much ({told}; {bear}): give it {soil:.0f} times the soil"


def _two_digits(value: float) -> str:
    return f"{float(f'{value:.2g}'):g}"


def apart_notes(left_out: Sequence[Portion], given: Handling) -> list[str]:
    """Say what is done with what has to be kept apart."""
    ids = dict.fromkeys(each.material.id for each in left_out)
    return [text for each in ids for text in given.apart.get(each, ())]
