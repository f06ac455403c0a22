"""What is believed of a lot in words: alive, weak or dead, how sure, what dose, and the jar that would tell."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech
from sourloam.science.inoculum.belief import Lot
from sourloam.science.inoculum.count import DEAD
from sourloam.views.culture import CultureView, Disagreement
from sourloam.views.culture_words import capital, numbers_of, reasons_of

SURE, LIKELY, HARDLY = 0.9, 0.6, 0.25  # shares of cases
MONTHS_UNTESTED: Final = 3.0
MOST_DOSE_TIMES: Final = 4.0  # of the usual dose, from which bran is better made afresh
SHOWN: Final = (
    "log10_cfu_per_g",
    "works_pct",
    "dose_g_per_kg",
    "keeps_d",
    "least_log10",
    "untested_log10",
    "sugar_activity",
)
JAR: Final = (
    "The jar test: boil two glasses of milk and let them cool to hand warmth; a level spoon of it into one, nothing "
    "into the other; both covered at 25 to 30 °C for 48 hours. Curd in the first alone (or pH 4.5 or under on a "
    "strip): it lives. In both: the test is spoilt. In neither: it is weak or dead. Then ask again with --jar curd, "
    "none or both."
)


def alive_view(
    lot: Lot,
    figures: Mapping[str, Figure],
    *,
    matter: str,
    place: str,
    is_spoilt_test: bool,
    disagreements: Sequence[Disagreement],
    custom_dose: float,
    is_bran: bool,
    assumptions: Sequence[str],
    sources: Mapping[str, Source],
    speech: Speech,
) -> CultureView:
    """Return what is shown of a lot."""
    works = figures["works_pct"].value / 100.0
    shown = {name: figures[name] for name in SHOWN if name in figures}
    if _is_spent(figures, custom_dose):
        shown.pop("dose_g_per_kg", None)  # as much bran as scraps is no dose
    return CultureView(
        says=_says(works, matter, lot, place),
        speech=speech,
        is_yes=works >= HARDLY,
        because=tuple(_because(lot, figures, is_bran=is_bran, is_spoilt_test=is_spoilt_test)),
        do=tuple(_do(lot, figures, custom_dose=custom_dose, is_bran=is_bran, speech=speech)),
        numbers=numbers_of(shown),
        reasons=reasons_of(shown, sources),
        disagreements=tuple(disagreements),
        notes=tuple(_notes(figures, matter, is_bran=is_bran, speech=speech)),
        cautions=("Live or not, what is mouldy in colour, or smells musty or rotten, goes away.",),
        assumptions=tuple(assumptions),
        name=matter,
    )


def _is_spent(figures: Mapping[str, Figure], custom_dose: float) -> bool:
    """Whether bran is better made afresh than strewn thicker."""
    if "dose_g_per_kg" not in figures:
        return False
    is_weak = figures["works_pct"].value < 100.0 * HARDLY
    return is_weak or figures["dose_g_per_kg"].value > MOST_DOSE_TIMES * custom_dose


def _says(works: float, matter: str, lot: Lot, place: str) -> str:
    age = _age(lot.months.value)
    which = (
        f"{capital(matter)} {age} from a {place}" if not place[:1].isdigit() else f"{capital(matter)} {age} at {place}"
    )
    if lot.curd is not None:
        which += ", tried in a jar"
    if works >= SURE:
        return f"{which}: alive, and strong enough."
    if works >= LIKELY:
        return f"{which}: probably alive; use more of it."
    if works >= HARDLY:
        return f"{which}: may be too weak. Try it before you trust it."
    return f"{which}: do not count on it."


def _age(months: float) -> str:
    if months < 0.03:
        return "made today"
    if months < 2.0:
        return f"{max(1, round(months * 30.44)):.0f} days old"
    return f"{months:.0f} months old"


def _because(lot: Lot, figures: Mapping[str, Figure], *, is_bran: bool, is_spoilt_test: bool) -> Iterator[str]:
    count, least = figures["log10_cfu_per_g"], figures["least_log10"]
    unit = "gram" if is_bran else "millilitre"
    middle = "probably none" if count.value <= DEAD else f"about {_count(count.value)}"
    yield (
        f"It works in {_in_twenty(figures['works_pct'].value / 100.0)} cases. Live count: {middle} to a {unit}, from "
        f"{_count(count.low)} to {_count(count.high)}; from {_count(least.value)} on it works at the usual dose."
    )
    if is_spoilt_test:
        yield "Both jars curded: that test says nothing, so it is left out. Boil the milk longer and try again."
    if lot.curd is True and count.value < least.value:
        yield "Curd says that something lives in it. So few may take too long in scraps: it is a start, not a dose."
    if lot.curd is None and lot.months.value >= MONTHS_UNTESTED and count.low <= DEAD:
        yield "Nobody has tried it for three months: it may as well be dead as strong, and looks alike either way."


def _in_twenty(share: float) -> str:
    count = round(20.0 * share)
    if count == 0:
        return "less than 1 in 20"
    return "nearly all" if count == 20 else f"{count} in 20"


def _count(log10: float) -> str:
    """Return a live count as people say it."""
    if log10 <= 0.5:
        return "none"
    if log10 < 3.0:
        return f"{float(f'{10.0**log10:.1g}'):.0f}"
    value = 10.0**log10
    for size, name in ((1e9, "thousand million"), (1e6, "million"), (1e3, "thousand")):
        if value >= size:
            number = float(f"{value / size:.1g}") if value / size < 100 else round(value / size, -2)
            return f"{number:g} {name}"
    return f"{value:.0f}"


def _do(lot: Lot, figures: Mapping[str, Figure], *, custom_dose: float, is_bran: bool, speech: Speech) -> Iterator[str]:
    works = figures["works_pct"].value / 100.0
    if not is_bran:
        if works >= LIKELY:
            yield "Use it as the recipe says."
        elif works >= HARDLY:
            yield "Try it in a jar first; or take three times as much of it, and begin fresh serum beside it."
        else:
            yield "Begin afresh: rice water today, or a live start (--start)."
        return
    dose = figures["dose_g_per_kg"].value
    if _is_spent(figures, custom_dose):
        tried = "Try a spoon of it in a jar of milk, and begin a new batch meanwhile." if works >= HARDLY else ""
        yield (
            f"{tried or 'Begin a new batch.'} Until then use this one on plants alone, as much as you like: it does no "
            "harm, it dries and feeds. No meat, fish or dairy on it."
        )
        return
    per = f"{speech.kg(1.0)}" if speech.is_us else "a kilogram"
    times = max(dose / custom_dose, 1.0)
    more = f", {times:.1f} times the usual" if times > 1.15 else ", the usual"
    yield f"Strew about {speech.kg(dose / 1000.0)} on {per} of scraps{more}."
    if works < SURE:
        yield "Try a spoon of it in a jar of milk: that narrows it more than anything else."


def _notes(figures: Mapping[str, Figure], matter: str, *, is_bran: bool, speech: Speech) -> Iterator[str]:
    yield speech.told(JAR)
    if matter == "sugared serum":
        yield (
            f"Equal weights of sugar come to a water activity of {figures['sugar_activity'].value:.2f}: that holds "
            "back most "
            "rot and slows the culture, and stops neither yeasts (from 0.88) nor the toughest cocci (from 0.83). "
            "Cold it "
            "keeps longer; let its gas out."
        )
    if matter == "wet bran":
        yield "Wet and shut it stays sour; each opening lets mould in. Use up what has been opened, or dry it."
    if is_bran:
        yield (
            "White fluff says little: use it soon, with more of it. Green, blue, black, pink or orange: away with it. "
            "Was it put away damp? A weighed handful that loses weight on a warm day was."
        )
