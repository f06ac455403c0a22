"""What may be changed so that a chain stalls less, with what it costs: nothing, a habit, or something bought."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from sourloam.fleet.cures import EFFORTS, Effort, candidates, commonest, effort_of, with_vessels
from sourloam.fleet.knowledge import Knowledge
from sourloam.fleet.replicate import Change
from sourloam.site.site import Site

# Pails, drums and bins as they are sold; common practice, no source.
SIZES_L: Final = (8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 40.0, 60.0, 80.0, 120.0, 200.0)
SIZES_GAL: Final = (2.0, 3.5, 5.0, 6.5, 10.0, 20.0, 32.0, 55.0)
L_PER_GAL: Final = 3.785411784


@dataclass(frozen=True)
class Option:
    """A change of a site, to be lived on the same lots."""

    kind: str
    what: str  # in the voice of "What if you ...?"
    site: Site
    effort: Effort
    change: Change = Change()


def options(site: Site, knowledge: Knowledge, indoors_c: float, *, is_place_bound: bool) -> tuple[Option, ...]:
    """Return the changes that fit a site, those that cost nothing first."""
    found = [*_from_cures(site, indoors_c, is_place_bound=is_place_bound), *_by_hand(site, knowledge), *_bought(site)]
    return tuple(sorted(found, key=lambda each: EFFORTS.index(each.effort)))


def _from_cures(site: Site, indoors_c: float, *, is_place_bound: bool) -> Iterator[Option]:
    for kind, what, changed in candidates(site, indoors_c, is_place_bound=is_place_bound):
        yield Option(kind, what, changed, effort_of(kind))


def _by_hand(site: Site, knowledge: Knowledge) -> Iterator[Option]:
    """Give what is done at each load: pressing, and more bran."""
    chance, response = knowledge.chance, knowledge.response
    pressed = Change(density_times=chance.pressed_times.value)
    yield Option("press", "press each layer down with a plate and a weight", site, "nothing", pressed)
    usual, more = knowledge.inoculum.plain_dose_g_per_kg.value, chance.more_bran_times.value
    faster = Change(dose_times=more, takes_times=response.times_with(more * usual, usual))
    yield Option("bran", f"give {more:g} times the bran to each layer", site, "thing", faster)


def _bought(site: Site) -> Iterator[Option]:
    """Give one more vessel, and the next size up for all."""
    usual = commonest(site).volume_l
    yield Option("vessel", f"add one more vessel of {usual:.3g} L", with_vessels(site, len(site.vessels) + 1), "thing")
    larger = next((each for each in sizes_l(site) if each > usual * 1.05), None)
    if larger is not None:
        what = f"take vessels of {larger:.3g} L in place of those of {usual:.3g} L"
        yield Option("size", what, resized(site, larger), "thing")


def sizes_l(site: Site) -> tuple[float, ...]:
    """Return the sizes in which vessels are sold where the keeper lives."""
    if site.keeper.units == "us":
        return tuple(each * L_PER_GAL for each in SIZES_GAL)
    return SIZES_L


def near_sizes_l(site: Site) -> tuple[float, ...]:
    """Return the commonest size of a site with the next smaller and the next larger one that are sold."""
    usual = commonest(site).volume_l
    smaller = [each for each in sizes_l(site) if each < usual * 0.95][-1:]
    larger = [each for each in sizes_l(site) if each > usual * 1.05][:1]
    return (*smaller, usual, *larger)


def resized(site: Site, volume_l: float) -> Site:
    """Return the site with vessels of another size for all those of its commonest one."""
    usual = commonest(site).volume_l
    changed = tuple(
        replace(each, volume_l=volume_l, drain_space_l=None) if each.volume_l == usual else each
        for each in site.vessels
    )
    return replace(site, vessels=changed)


def fleet_of(site: Site, volume_l: float, number: int) -> Site:
    """Return the site with so many equal vessels, where the commonest of its own stand."""
    model = replace(commonest(site), volume_l=volume_l, drain_space_l=None, state="empty")
    made = tuple(replace(model, id=f"equal-{each + 1}") for each in range(number))
    return replace(site, vessels=made)
