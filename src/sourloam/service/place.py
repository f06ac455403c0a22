"""Use case: all fates of a batch side by side at the places of a site."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

import numpy as np

from sourloam.base.errors import BadInput, Problem
from sourloam.evidence.cautions import load_cautions
from sourloam.fleet.outlets import places_of
from sourloam.science.batch.cautions import Caution
from sourloam.science.places.offer import Offer, Place
from sourloam.science.places.taker import TAKES_UNSOUND, Taker
from sourloam.service.assemble import knowledge
from sourloam.service.bed import Answered, AskedBed, answers_of
from sourloam.service.ferment import Compiler
from sourloam.service.named import is_of_book
from sourloam.service.product import AskedProduct, Given, product_of
from sourloam.service.tub import AskedTub, read_tub, tub_answer
from sourloam.site.site import Site
from sourloam.views.bed_verdict import rest_of
from sourloam.views.fates import Fate, FatesView, fates_view
from sourloam.views.place import Decision, PlaceView, caution_lines

ALL: Final = "all of it"  # as an offer says it
FARMED: Final = ("hens", "pigs", "ruminants")
NOW_NOT: Final = ("too cold", "too hot", "fed until", "resting", "closed", "frozen", "not ready")
OTHER_PREMISES: Final = "food-waste-from-a-business"
FARMED_ANIMALS: Final = "feeding-kitchen-or-catering-waste-to-farmed-animals"


@dataclass(frozen=True)
class AskedPlace:
    """What a sorting is asked with: the product, the readings, and what the keeper values."""

    product: AskedProduct
    bed: AskedBed
    tub: AskedTub
    values: str = "soil"


def sort_batch(asked: AskedPlace, compiler: Compiler | None = None) -> FatesView:
    """Return all fates of a batch at a site, the best first.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    product = asked.product
    if product.named is None and product.site is None and not is_of_book(product.batch, None):
        raise BadInput("--site", (Problem("", "fates are those of a site;", "name the site file: --site SITE."),))
    if asked.bed.seedlings is not None and asked.product.place is None:
        raise BadInput("--seedlings", (Problem("", "a test is of one bed;", "name the bed it is of: --place BED."),))
    whole = replace(asked.product, place=None)
    tub_read = read_tub(asked.tub)
    given = product_of(whole, compiler)
    site = given.site
    assert site is not None  # noqa: S101 - a site file was named, and read
    cautions = {each.id: each for each in load_cautions()}
    fates = [
        *_of_beds(asked, replace(asked.bed, product=whole), given, site),
        *(_of_tub(tub_answer(asked.tub, tub_read, given, each), each.id) for each in site.soil_tubs),
        *_of_offers(site, given, cautions),
        *(_of_taker(each, given, site, cautions) for each in site.takers),
    ]
    chosen = [each for each in fates if asked.product.place in (None, each.place)]
    if not chosen:
        there = ", ".join(each.place for each in fates) or "none"
        raise BadInput(
            "--place", (Problem("", f'"{asked.product.place}" is no place of the site;', f"they are: {there}."),)
        )
    return fates_view(
        chosen,
        batch=given.content.batch,
        on=given.on,
        mass_kg=given.content["mass_kg"].value,
        values=asked.values,
        assumptions=given.assumptions,
        speech=given.speech,
    )


def _of_beds(asked: AskedPlace, bed: AskedBed, given: Given, site: Site) -> Iterator[Fate]:
    """Give what beds say to this batch; a seedling test tells of the one that lies in a bed already."""
    fresh = replace(bed, seedlings=None, dug=None)
    for each, found in zip(site.beds, answers_of(tuple(site.beds), fresh, given), strict=True):
        fate = _of_bed(found)
        if bed.seedlings is not None and each.id == asked.product.place:
            lies = replace(bed, dug=given.on - timedelta(days=1))  # a test counts however long it lay
            (tested,) = answers_of((each,), lies, given)
            fate = replace(fate, because=(f"what lies there already: {tested.view.says}", *fate.because))
        yield fate


def _of_bed(found: Answered) -> Fate:
    view, figures = found.view, found.dug.figures
    rest = figures[rest_of(found.ground.crop)].value
    nitrogen = figures["nitrogen_g_per_m2"].value
    effect = f"{nitrogen:.2g} g of nitrogen on each square metre, sourer by {figures['shift_ph'].value:.1f} pH at first"
    fate = _fate(view, found.ground.place, effect, rest)
    return replace(fate, because=fate.because[:1]) if view.is_yes else fate  # what it rests by is told by its own verb


def _of_tub(view: PlaceView, place: str) -> Fate:
    soon = next((each.value for each in view.numbers if each.name == "days"), None)
    return _fate(view, place, "becomes soil for pots and beds", soon)


def _fate(view: PlaceView, place: str, effect: str, wait_d: float | None) -> Fate:
    is_yes = view.decision is Decision.YES
    return Fate(
        place,
        view.place,
        view.name,
        view.decision,
        float(view.tables.get("takes_kg", 0.0)),
        effect if is_yes else "",
        wait_d if wait_d is not None and np.isfinite(wait_d) else None,
        view.cautions,
        view.because if is_yes and view.because else (view.says, *view.because),
        reasons=view.reasons,
    )


def _of_offers(site: Site, given: Given, cautions: Mapping[str, Caution]) -> Iterator[Fate]:
    """Give what piles and worm bins say through the interface of all places."""
    places = places_of(site, knowledge(site.materials))
    for kind, parts in (("pile", site.piles), ("worm_bin", site.worm_bins)):
        for each in parts:
            offer = _offer(places[each.id], each, given)
            takes = offer.takes_kg
            decision = Decision.YES if takes > 0.0 else _refused(offer.limit)
            yield Fate(
                each.id,
                kind,
                site.name_of(each.id),
                decision,
                takes,
                offer.effect,
                offer.wait_d if takes > 0.0 else None,
                caution_lines(offer.cautions, cautions),
                ("it takes all of it" if offer.limit == ALL else offer.limit,),
            )


def _offer(place: Place, owner: object, given: Given) -> Offer:
    state = owner.at_start(given.on)  # type: ignore[attr-defined]  # every table of a place has it
    return place.can_take(state, given.content.product(), given.on, climate=given.climate)


def _refused(limit: str) -> Decision:
    return Decision.NOT_YET if any(each in limit for each in NOW_NOT) else Decision.NO


def _of_taker(taker: Taker, given: Given, site: Site, cautions: Mapping[str, Caution]) -> Fate:
    """Return what a taker says; whatever leaves the premises is first asked about."""
    place = places_of(site, knowledge(site.materials))[taker.id]
    offer = _offer(place, taker, given)
    keys = [*offer.cautions, *((OTHER_PREMISES, FARMED_ANIMALS) if not taker.is_last_resort else ())]
    fate = Fate(
        taker.id,
        "taker",
        site.name_of(taker.id),
        Decision.YES if offer.takes_kg > 0.0 else Decision.NOT_YET,
        offer.takes_kg,
        offer.effect,
        0.0,
        caution_lines(keys, cautions),
        (offer.limit,),
        taker.is_last_resort,
    )
    if taker.is_last_resort:
        return replace(fate, because=("what goes there feeds nothing",))
    if given.content.state != "ready" and taker.kind not in TAKES_UNSOUND:
        return replace(fate, decision=Decision.NO, takes_kg=0.0)
    if given.content.animal_matter and not taker.takes_meat:
        return replace(fate, decision=Decision.NO, takes_kg=0.0)
    also = fate.because if fate.takes_kg <= 0.0 else ()
    return replace(fate, decision=Decision.ASK, because=(*_asks(taker, site), *also))


def _asks(taker: Taker, site: Site) -> Iterator[str]:
    """Say why somebody is asked before it goes there, whom, and what."""
    yield (
        "It leaves the premises: ask the local waste authority whether fermented kitchen scraps may be carried to "
        "other premises and used there without a registration."
    )
    if any(each in FARMED for each in site.keeper.animals):
        yield "Farmed animals are near: ask the animal health authority whether it may lie where they can reach it."
    if taker.terms:
        yield f"Agreed: {taker.terms}"
