"""Use case: what the record says of its site, beside the usual values."""

from sourloam.base.figure import Figure, derive, law, leaf
from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.fleet.arrivals import week_kg
from sourloam.logbook.corrections import effective
from sourloam.logbook.learned import Usual, lessons
from sourloam.logbook.parameters import LogbookParameters
from sourloam.logbook.state import State
from sourloam.science.batch.content import ContentParameters
from sourloam.service.assemble import knowledge
from sourloam.service.book import Book, Known, entries
from sourloam.service.so_far import state_of
from sourloam.views.learned import LearnedView, learned_view

MEMBERS = 1000


@law("room x what a litre of it weighs / what comes in a week x 7", unit="d")
def fill_d(room_l: FloatArray, kg_per_l: FloatArray, week_kg: FloatArray) -> FloatArray:
    """Return the days in which a vessel fills."""
    return room_l * kg_per_l / week_kg * 7.0


def learned(book: Book, *, known: Known | None = None) -> LearnedView:
    """Return this site's own values beside the usual ones.

    Raises
    ------
    BadInput
        If the book holds no site.
    """
    known = known or Known()
    state = state_of(book, known)
    found = lessons(state, effective(entries(book)), usual_of(state))
    site = state.must()[0]
    return learned_view(found, site.facts.name or site.facts.id, load_sources())


def usual_of(state: State) -> Usual:
    """Return the usual values of a site: of its file where that says them, else of the tables."""
    site = state.must()[0]
    facts = knowledge(site.materials)
    held = load_parameters(LogbookParameters, "logbook", members=MEMBERS)
    product = load_parameters(ContentParameters, "product", members=MEMBERS)
    stated = sum(week_kg(site.streams, facts.materials).values())
    low, high = held.week_times.low, held.week_times.high
    week = _said("week_kg", Spread(stated, stated * low, stated * high, "lognormal"), "kg", "scraps in a week")
    room = sum(each.usable_l for each in site.vessels) / len(site.vessels)
    fill = derive(
        "fill_d",
        fill_d,
        words="days until a vessel is full",
        room_l=_said("room_l", Spread.exactly(room), "L", "room of a vessel"),
        kg_per_l=product.kg_per_l,
        week_kg=week,
    )
    handful = site.keeper.handful_kg * 1000.0
    return Usual(
        week,
        product.kg_per_l,
        fill,
        facts.ferment.ready_at_20c_d,
        held.leachate_l_per_kg,
        facts.inoculum.plain_dose_g_per_kg,
        _said("handful_g", Spread(handful, handful * low, handful * high, "lognormal"), "g", "a handful of bran"),
        facts.ferment.failing_share,
        held.usual_weighs,
    )


def _said(name: str, spread: Spread, unit: str, words: str) -> Figure:
    return leaf(name, spread, unit, words=words, source="keeper", basis=Basis.READ, members=MEMBERS)
