"""How the plan speaks: amounts, days, and what is done at each kind of place."""

from datetime import date
from types import MappingProxyType
from typing import Final

from sourloam.site.site import Site

MONTHS: Final = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

# What to do with a batch at each kind of place, and what follows.
ACTS: Final = MappingProxyType(
    {
        "bed": ("Dig {what} from {vessel} into {place}", "May be planted from {day}."),
        "pile": ("Turn {what} from {vessel} into {place}, covered with browns", ""),
        "worm_bin": ("Feed {what} from {vessel} to {place}, at one side", ""),
        "soil_tub": ("Mix {what} from {vessel} with soil in {place}", "Soil again from {day}."),
        "taker": ("Hand {what} from {vessel} to {place}", ""),
    }
)


def kg(value: float) -> str:
    """Return a mass as a keeper would say it."""
    if value < 0.995:
        return f"{_small(value)} g"
    return f"{value:.1f} kg" if value < 99.5 else f"{value:.0f} kg"


def litres(value: float) -> str:
    """Return a volume as a keeper would say it."""
    if value < 0.995:
        return f"{_small(value)} ml"
    return f"{value:.1f} L" if value < 99.5 else f"{value:.0f} L"


def _small(value: float) -> str:
    """Return thousandths, to ten from a hundred up."""
    thousandths = value * 1000.0
    return f"{round(thousandths, -1):.0f}" if thousandths >= 99.5 else f"{thousandths:.0f}"


def when(day: date | None) -> str:
    """Return a day without its year."""
    return "no day that we know" if day is None else f"{day.day} {MONTHS[day.month - 1]}"


def days(number: float) -> str:
    """Return a count of days."""
    return "1 day" if round(number) == 1 else f"{round(number)} days"


def place_words(site: Site, place: str) -> tuple[str, str]:
    """Return what to do at a place and what follows, with its name filled in."""
    kind = next(kind for kind, parts in site.parts().items() if any(each.id == place for each in parts))
    act, after = ACTS[kind]
    return act.replace("{place}", site.name_of(place)), after
