"""What a making costs, as far as prices are known, against what is bought."""

from collections.abc import Mapping
from typing import Final

from sourloam.base.figure import Figure, derive, derived
from sourloam.science.inoculum.cost import break_even_kg, made_per_kg, over, per_kg_scraps, per_month, times
from sourloam.service.culture_ask import Read

AMOUNTS: Final = (("carrier", "carrier_kg"), ("sugar", "sugar_kg"), ("milk", "milk_l"), ("rice", "rice_kg"))
LEAST_MILK_L: Final = 0.5  # common practice, no source: less is not worth a jar


def cost_figures(read: Read, figures: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return what bran and scraps cost, made and bought, and from which batch making is cheaper."""
    prices = {
        thing: read.told(f"price_{thing}", price, "/kg" if thing != "milk" else "/L", words=f"price of {thing}")
        for thing, price in read.prices.items()
    }
    if not prices:
        return {}
    dose = figures.get("dose_g_per_kg", read.known.inoculum.plain_dose_g_per_kg)
    found: dict[str, Figure] = {}
    if "bran" in prices:
        bought = prices["bran"].called("a kilogram of bran, bought")
        found["bought_per_kg"] = bought
        found["bought_scraps_per_kg"] = derive(
            "bought_scraps_per_kg",
            per_kg_scraps,
            words="a kilogram of scraps, with bran that is bought",
            price_per_kg=bought,
            dose_g_per_kg=dose,
        )
    parts = {name: figures[amount] for name, amount in AMOUNTS if name in prices and amount in figures}
    if "sugar" in prices:
        grams = figures["sugar_g"]
        parts["sugar"] = dict(grams.inputs)["mass_kg"]
    if not parts:
        return found
    amounts = {f"amount_{n}": parts[name] for n, name in enumerate(parts)}
    costs = {f"price_{n}": prices[name] for n, name in enumerate(parts)}
    made = derived(
        "made_per_kg",
        made_per_kg,
        {"bran_kg": figures["bran_kg"], **amounts, **costs},
        words="a kilogram of bran, made (" + ", ".join(parts) + ")",
    )
    found["made_per_kg"] = made
    found["made_scraps_per_kg"] = derive(
        "made_scraps_per_kg",
        per_kg_scraps,
        words="a kilogram of scraps, with bran that is made",
        price_per_kg=made,
        dose_g_per_kg=dose,
    )
    if "milk" in prices and "bran" in prices:
        jar = read.told("jar_l", LEAST_MILK_L, "L", words="milk of the smallest jar that is worth it")
        fixed = derive("fixed", times, words="the milk of one jar", one=jar, two=prices["milk"])
        found["break_even_kg"] = derive(
            "break_even_kg",
            break_even_kg,
            words="batch from which making is cheaper",
            fixed=fixed,
            bought_per_kg=prices["bran"],
            more_per_kg=made,
        )
    return found | _monthly(read, figures, found)


def _monthly(read: Read, figures: Mapping[str, Figure], found: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return what the bran of a month costs, where the scraps are known."""
    if "scraps_kg" not in figures:
        return {}
    week = read.told("week_d", 7.0, "d", words="days of a week")
    daily = derive("scraps_kg_per_d", over, words="scraps of a day", mass_kg=figures["scraps_kg"], days=week)
    ways = (("made_month", "made_scraps_per_kg", "made"), ("bought_month", "bought_scraps_per_kg", "bought"))
    return {
        name: derive(
            name, per_month, words=f"the bran of a month, {how}", price_per_kg_scraps=found[each], scraps_kg_per_d=daily
        )
        for name, each, how in ways
        if each in found
    }
