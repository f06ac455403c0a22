"""Where custom and reckoning disagree on how long something keeps, and on how wet bran is made."""

from collections.abc import Iterator, Mapping

from sourloam.base.days import YEAR_D
from sourloam.base.figure import Figure
from sourloam.plan.words import Speech
from sourloam.science.inoculum.bench import Circulating, Store
from sourloam.science.inoculum.carrier import Carrier
from sourloam.science.inoculum.wetting import wetted_moisture_wb_frac
from sourloam.views.culture import Disagreement
from sourloam.views.reason import number_of

MONTH_D = 365.25 / 12.0
KG_PER_L = 0.998  # of thin liquid; memory


def differs(store: Store, keeps: Figure) -> bool:
    """Whether the middle of what is reckoned lies outside what custom says."""
    return not store.custom_low_d <= keeps.value <= store.custom_high_d


def disagreement(store: Store, keeps: Figure, store_c: float, speech: Speech) -> Disagreement:
    """Return what custom, publications and reckoning say of a store."""
    told = f"reckoned here it works for about {span(keeps)} at {speech.celsius(store_c)}"
    agree = "they do not agree" if differs(store, keeps) else "they agree within their spans"
    tail = ": believe neither, and try it in a jar of milk" if differs(store, keeps) else ""
    return Disagreement(
        about=store.name,
        custom=f"{store.custom}.",
        custom_low_d=store.custom_low_d,
        custom_high_d=store.custom_high_d,
        model=number_of(keeps),
        published=f"{speech.told(store.published)}.",
        says=f"{store.custom}; {told}: {agree}{tail}.",
    )


def span(days: Figure) -> str:
    """Return days with their interval, in weeks, months or years as they are long."""
    middle, low, high = days.value, days.low, days.high
    name, size = ("days", 1.0) if middle < 21 else ("weeks", 7.0) if middle < 84 else ("months", MONTH_D)
    if middle > 2.5 * YEAR_D:
        name, size = "years", float(YEAR_D)
    return f"{middle / size:.0f} {name} ({low / size:.0f} to {high / size:.0f})"


def recipe_moistures(recipes: tuple[Circulating, ...], carriers: Mapping[str, Carrier]) -> Iterator[Disagreement]:
    """Give every recipe in circulation that misses its own target when it is reckoned."""
    for each in recipes:
        if each.aim_low_frac is None or each.aim_high_frac is None:
            continue
        carrier = carriers[each.carrier]
        moisture = moisture_of(each, carrier)
        if each.aim_low_frac <= moisture <= each.aim_high_frac:
            continue
        aim = f"{100.0 * each.aim_low_frac:.0f} to {100.0 * each.aim_high_frac:.0f} %"
        way = "too dry" if moisture < each.aim_low_frac else "too wet"
        own = 100.0 * carrier["moisture_wb_frac"].value
        yield Disagreement(
            about="a recipe in circulation",
            custom=f"{each.name}: {aim} of water.",
            custom_low_d=None,
            custom_high_d=None,
            model=None,
            published="",
            says=(
                f"A recipe in circulation, {each.name}, means to reach {aim} of water. With {carrier.name} at "
                f"{own:.0f} % it comes to {100.0 * moisture:.0f} %: {way} by its own aim."
            ),
        )


def moisture_of(recipe: Circulating, carrier: Carrier) -> float:
    """Return the moisture that a recipe comes to, its liquid counted as water."""
    liquid = recipe.liquid_l * KG_PER_L / recipe.carrier_kg
    return float(wetted_moisture_wb_frac(liquid, carrier["moisture_wb_frac"].value))
