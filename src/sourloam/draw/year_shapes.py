"""The shapes of a year, the same whether its time runs to the right or down."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from sourloam.base.days import Span
from sourloam.draw.canvas import Point, arrow, interval, line, moves, path, polygon, polyline, rect
from sourloam.draw.palette import EDGE, FAN_INNER, FAN_OUTER, INK
from sourloam.draw.patterns import filled
from sourloam.draw.year import Frame, Rest, left_on, resting
from sourloam.plan.answer import Batch

STROKE_PX = 4.0  # from one stroke of a rest to the next
LEAST_STROKE_PX = 2.0


def vessel_band(batch: Batch, levels: Sequence[tuple[date, float]], frame: Frame, *, key: str) -> str:
    """Return one filling of a vessel: it rises, ferments at the height it reached, and waits under light strokes."""
    time = frame.time
    rise = _rise(batch, levels, frame)
    top = rise[-1][1]
    gone = left_on(batch)
    end = time.at(gone) if gone else time.end_px
    shut = min(time.past(batch.sealed), end) if batch.sealed else end
    ready = min(time.at(batch.ready), end) if batch.ready else end
    wedge = [*rise, (shut, top)]
    drawn = [_area(wedge, frame, fill=FAN_OUTER)]
    if ready > shut:
        drawn.append(rect(*frame.box(shut, ready, high=top), fill=FAN_INNER))
    if end > ready and batch.sealed:
        waiting = "waiting-level" if frame.upright else "waiting"
        drawn.append(rect(*frame.box(max(ready, shut), end, high=top), fill=filled(waiting, key)))
    closed = [(end, 0.0)] if gone and time.holds(gone) else []
    outline = [frame.at(*each) for each in ((wedge[0][0], 0.0), *wedge, (end, top), *closed)]
    drawn.append(polyline(outline, width=1.2))
    drawn += [line(frame.at(at), frame.at(at, top), width=1.2) for at in (shut, ready) if wedge[0][0] < at < end]
    return "".join(drawn)


def _rise(batch: Batch, levels: Sequence[tuple[date, float]], frame: Frame) -> list[tuple[float, float]]:
    """Return where the filling stood after each load, along the time."""
    time = frame.time
    points = [(time.past(on), level * frame.height) for on, level in levels]
    start = time.at(batch.first_layer)
    if not points:
        return [(start, frame.height)]
    began_before = batch.first_layer < time.first
    return [(start, points[0][1] if began_before else 0.0), *points]


def _area(points: Sequence[tuple[float, float]], frame: Frame, *, fill: str) -> str:
    corners = [frame.at(points[0][0]), *(frame.at(*each) for each in points), frame.at(points[-1][0])]
    return polygon(corners, fill=fill)


def ready_bar(batch: Batch, frame: Frame, *, high: float) -> str:
    """Return the bar over a band that says when it may be ready, as far as it lies in the year."""
    low, middle, late = batch.ready_low, batch.ready, batch.ready_high
    time = frame.time
    if low is None or middle is None or low > time.last:
        return ""
    open_end = late is None or late > time.last
    end = time.end_px if late is None else time.at(late)
    dot = time.at(middle) if middle <= time.last else None
    return interval(frame.at(time.at(low), high), frame.at(end, high), middle=dot, open_end=open_end)


def rest_strokes(rests: Sequence[Rest], frame: Frame, *, px_per_day: float) -> str:
    """Return rest counted down: strokes as tall as there are days to go, a short tick where none is."""
    time = frame.time
    stride = max(round(STROKE_PX / time.px_per_day), 1)
    drawn = [
        (frame.at(time.at(on)), frame.at(time.at(on), max(left * px_per_day, LEAST_STROKE_PX)))
        for stretch in _stretches(resting(rests))
        for on, left in stretch[::stride]
        if time.holds(on)
    ]
    return path(moves(drawn), width=1.6) if drawn else ""


def _stretches(days: Sequence[tuple[date, int]]) -> Iterator[list[tuple[date, int]]]:
    """Give stretches that end where the days to go jump up again, so that each new batch has its tall stroke."""
    found: list[tuple[date, int]] = []
    for on, left in days:
        if found and (left > found[-1][1] or (on - found[-1][0]).days > 1):
            yield found
            found = []
        found.append((on, left))
    if found:
        yield found


def rest_spans(rests: Sequence[Rest], frame: Frame) -> tuple[tuple[float, float], ...]:
    """Return where along the time there are strokes."""
    return tuple((frame.time.at(each.on) - 2.0, frame.time.at(each.usable_on)) for each in rests)


def arrivals(rests: Iterable[Rest], frame: Frame, *, length: float = 13.0) -> str:
    """Return an arrow onto the base line for each batch that came."""
    return "".join(
        arrow(frame.at(frame.time.at(each.on), length), frame.at(frame.time.at(each.on), 1.5))
        for each in rests
        if frame.time.holds(each.on)
    )


def shut_ground(spans: Iterable[Span], frame: Frame, kind: str, *, key: str) -> str:
    """Return the times in which nothing can be dug, across all beds, bounded at both ends."""
    drawn = []
    for span in spans:
        start, end = frame.time.at(span.first), frame.time.past(span.last)
        drawn.append(rect(*frame.box(start, end), fill=filled(kind, key)))
        drawn += [line(frame.at(at), frame.at(at, frame.height), stroke=EDGE) for at in (start, end)]
    return "".join(drawn)


def saw(held: Sequence[tuple[date, float]], frame: Frame, *, px_per_kg: float, key: str) -> str:
    """Return the bran in the bag over the year, flaked, with an ink line on top."""
    points = [(frame.time.past(on), mass_kg * px_per_kg) for on, mass_kg in held]
    start = [(frame.time.start_px, points[0][1])]
    top: list[Point] = [frame.at(*each) for each in [*start, *points]]
    return _area([*start, *points], frame, fill=filled("bran", key)) + polyline(top, stroke=INK, width=1.4)
