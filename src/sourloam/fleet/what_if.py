"""What may befall a site that its keeper does not choose: people come or go, a glut, an absence, cold, a broken lid.

Each changes a site as it would be with it, so that several may be put together; the year is then lived on the same
chance as without.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from sourloam.base.days import Span
from sourloam.fleet.arrivals import kg_per_d
from sourloam.fleet.cures import commonest
from sourloam.fleet.knowledge import Knowledge
from sourloam.site.site import Site
from sourloam.site.streams import Glut, Stream

AWAY_D: Final = 21  # three weeks
GLUT_D: Final = 21
GLUT_TIMES: Final = 2.5  # JUDGEMENT: windfalls and trimmings of a garden against what a kitchen brings
LEAST_LEFT_FRAC: Final = 0.2  # of a stream: nobody goes whose leaving would leave less of it
LEAST_PART_FRAC: Final = 0.1  # of a stream: one person more or fewer than that is lost in the canteen
A_FIFTH_FRAC: Final = 0.2
HOLIDAY: Final = (7, 1)  # holidays fall into the warm half of the year; in the south half a year later
HARVEST: Final = (9, 1)
COLD_ROOM: Final = "outdoors"
WARM_ROOMS: Final = ("kitchen", "indoors", "cellar", "shed")


@dataclass(frozen=True)
class WhatIf:
    """Something that may happen."""

    kind: str
    what: str  # in the voice of "What if ...?"
    changed: Callable[[Site], Site]


def what_ifs(site: Site, first: date, knowledge: Knowledge, *, person_kg_per_d: float) -> tuple[WhatIf, ...]:
    """Return what may happen to a site in the year from `first`; what cannot happen to it is left out."""
    return tuple(_what_ifs(site, first, knowledge, person_kg_per_d))


def together(site: Site, happened: Iterable[WhatIf]) -> Site:
    """Return the site with all that happened to it."""
    for each in happened:
        site = each.changed(site)
    return site


def _what_ifs(site: Site, first: date, knowledge: Knowledge, person_kg_per_d: float) -> Iterator[WhatIf]:
    own = next((each for each in site.streams if each.premises == "home"), site.streams[0])
    usual_kg = kg_per_d(own, knowledge.materials)
    is_south = site.facts.latitude_deg < 0.0
    more, fewer = "one more person eats with you", "one person fewer eats with you"
    part = person_kg_per_d / usual_kg
    if part < LEAST_PART_FRAC:
        part, more, fewer = A_FIFTH_FRAC, "a fifth more comes", "a fifth less comes"
    yield WhatIf("more-people", more, _times_of(own, 1.0 + part))
    if 1.0 - part >= LEAST_LEFT_FRAC:
        yield WhatIf("fewer-people", fewer, _times_of(own, 1.0 - part))
    glut = _span(first, HARVEST, GLUT_D, is_south=is_south)
    yield WhatIf("glut", f"{GLUT_TIMES:g} times as much comes for three weeks at harvest", _with_glut(own, glut))
    away = _span(first, HOLIDAY, AWAY_D, is_south=is_south)
    yield WhatIf("away", "you are away for three weeks in summer and bring nothing", _with_absence(own, away))
    if any(each.stands in WARM_ROOMS for each in site.vessels):
        yield WhatIf("cold", "all vessels stand in the cold outdoors", _cold)
    if len(site.vessels) > 1:
        yield WhatIf("broken-lid", "a lid breaks and one vessel is out of use", _without_one)


def _span(first: date, on: tuple[int, int], days: int, *, is_south: bool) -> Span:
    """Return some days of the year that begins with `first`."""
    month, day = on
    month = (month + 5) % 12 + 1 if is_south else month
    begins = date(first.year, month, day)
    if begins < first:
        begins = date(first.year + 1, month, day)
    return Span(begins, begins + timedelta(days=days - 1))


def _changing(stream: Stream, change: Callable[[Stream], Stream]) -> Callable[[Site], Site]:
    def changed(site: Site) -> Site:
        return replace(site, streams=tuple(change(each) if each.id == stream.id else each for each in site.streams))

    return changed


def _times_of(stream: Stream, times: float) -> Callable[[Site], Site]:
    return _changing(
        stream, lambda each: replace(each, flow=replace(each.flow, per_day=each.flow.per_day * times, typed=""))
    )


def _with_glut(stream: Stream, span: Span) -> Callable[[Site], Site]:
    return _changing(stream, lambda each: replace(each, gluts=(*each.gluts, Glut(span, GLUT_TIMES))))


def _with_absence(stream: Stream, span: Span) -> Callable[[Site], Site]:
    return _changing(stream, lambda each: replace(each, absences=(*each.absences, span)))


def _cold(site: Site) -> Site:
    return replace(site, vessels=tuple(replace(each, stands=COLD_ROOM, temperature_c=None) for each in site.vessels))


def _without_one(site: Site) -> Site:
    """Return the site without a vessel of its commonest size: an empty one where there is one."""
    size = commonest(site).volume_l
    like = [each for each in site.vessels if each.volume_l == size]
    gone = next((each for each in reversed(like) if each.state == "empty"), like[-1])
    return replace(site, vessels=tuple(each for each in site.vessels if each.id != gone.id))
