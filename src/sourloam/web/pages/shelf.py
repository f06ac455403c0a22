"""The shelf: every vessel cut open on its board, one scale, the verb under the thing it acts on."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from sourloam.draw.shelf_words import dated, finding
from sourloam.draw.standing import rule, standing
from sourloam.plan.shelf import OnShelf
from sourloam.views.shelf import ShelfView
from sourloam.web.furniture import desk_of, page

VERBS: Final = {
    "filling": ("layer", "Add a layer"),
    "empty": ("layer", "Start filling"),
    "fermenting": ("reading", "Write a reading"),
    "ready": ("place", "Place it"),
    "failed": ("", "Take it away"),
}
PHONE, TABLE = ("phone", 3, 350.0), ("table", 8, 560.0)  # its key, vessels to a board, pixels of a metre
TALLEST_PX: Final = 330.0


@dataclass(frozen=True)
class Standing:
    """One vessel on its board, with what hangs below."""

    id: str
    name: str
    state: str
    date: str
    between: str
    holds: str
    act: str
    verb: str
    svg: str


@dataclass(frozen=True)
class Known:
    """What is known beside the drawing: vessels whose batch failed and how, and batches that are due."""

    failed: Mapping[str, str]
    due: frozenset[str]


@dataclass(frozen=True)
class Board:
    """What stands on one board."""

    rule: str
    vessels: tuple[Standing, ...]


def show(request: Request) -> Response:
    """Show the page."""
    desk = desk_of(request)
    view, known = desk.shelf(), Known(_failed(request), _due(request))
    return page(
        request,
        "shelf.html",
        here="shelf",
        heading=finding(view),
        three=tuple(_boards(view, known, PHONE)),
        eight=tuple(_boards(view, known, TABLE)),
        view=view,
    )


def _due(request: Request) -> frozenset[str]:
    """Return the batches that may be placed, by their kept forecasts."""
    desk = desk_of(request)
    return frozenset(
        id_
        for id_, each in desk.forecasts().items()
        if each.is_current and each.due.middle and each.due.middle <= desk.day
    )


def _failed(request: Request) -> dict[str, str]:
    state = desk_of(request).state
    held = ((each.vessel, state.batches.get(each.batch)) for each in state.must()[1].vessels if each.phase != "empty")
    return {vessel: record.failed for vessel, record in held if record and record.failed}


def _boards(view: ShelfView, known: Known, size: tuple[str, int, float]) -> Iterator[Board]:
    """Give the boards, one scale on all of them."""
    key, per_board, px_per_m = size
    vessels = view.shelf.vessels
    if not vessels:
        return
    scale = min(px_per_m, TALLEST_PX / max(each.height_m for each in vessels))
    for start in range(0, len(vessels), per_board):
        row = vessels[start : start + per_board]
        yield Board(
            rule(row, px_per_m=scale, speech=view.speech, key=f"{key}-rule-{start}"),
            tuple(_standing(each, view, known, key=key, scale=scale) for each in row),
        )


def _standing(vessel: OnShelf, view: ShelfView, known: Known, *, key: str, scale: float) -> Standing:
    how = known.failed.get(vessel.vessel, "")
    state = f"failed, {how}" if how else vessel.phase
    on, between = ("", "") if how else dated(vessel, view)
    phase = "ready" if vessel.batch in known.due else vessel.phase
    act, verb = VERBS["failed" if how else phase]
    name = view.names[vessel.vessel]
    return Standing(
        vessel.vessel,
        name,
        state,
        on,
        between.strip("()"),
        view.speech.kg(vessel.mass_kg) if vessel.mass_kg > 0.0 else "",
        act,
        verb,
        standing(
            vessel,
            px_per_m=scale,
            key=f"{key}-{vessel.vessel}",
            says=f"{name}, {state}",
            ph=view.ph.get(vessel.vessel, ()),
        ),
    )
