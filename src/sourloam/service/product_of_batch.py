"""A batch file or a filling of a plan as a product: followed by the model of a vessel, on the day it goes out."""

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.evidence.parameters import load_parameters
from sourloam.science.batch.content import Content, ContentParameters, content_of
from sourloam.science.batch.made import Course, content_made
from sourloam.science.batch.product import Soundness
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.filling import Filling
from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.ensemble.forecast import Forecast, Limits, forecast
from sourloam.science.load.assess import Portion
from sourloam.service.assemble import known_of, living_of
from sourloam.service.batches import AskedBatch, batch_of
from sourloam.service.ferment import Compiler
from sourloam.views.batch import Batch

FOLLOWED: Final = 200  # members at the most: a course costs
HALF: Final = 0.5


@dataclass(frozen=True)
class Made:
    """What a batch gives, the day it goes out, and what was taken as given."""

    content: Content
    on: date
    assumptions: tuple[str, ...]


def content_of_batch(
    name: str, on: date | None, today: date, *, site: Path | None, members: int, compiler: Compiler | None = None
) -> Made:
    """Return what a batch gives; `on` is the day it is due where nobody says when it goes out.

    Raises
    ------
    BadInput
        If there is no such batch, or its file cannot be used.
    """
    count = min(members, FOLLOWED)
    known = known_of(count)
    batch = batch_of(AskedBatch((name,), site=site, members=count), known)
    living = living_of(count)
    followed = follow(draw(batch.filling, living), days_of(batch.filling), compiler=compiler)
    limits = Limits(batch.least_d, known.load.critical_ph_scatter.members, batch.has_animal, batch.past)
    told = forecast(followed, batch.filling, living, limits)
    due = told.figures["due_day"].value
    ready_on = batch.on(due) if np.isfinite(due) else None
    goes_on = on or ready_on or today
    held = load_parameters(ContentParameters, "product", members=count)
    course = Course(
        told.figures["leachate_l"],
        told.figures["dry_matter_loss_pct"],
        told.figures["nitrogen_loss_pct"],
        told.figures["lactic_g_per_kg"],
    )
    mass, content = content_made(_portions(batch.filling), course, held)
    state = _state(told, batch, ready_on, goes_on)
    made = content_of(mass, content, batch=batch.name, state=state, animal_matter=batch.has_animal, ready_on=ready_on)
    liquid = MappingProxyType({**made.figures, "leachate_l": told.figures["leachate_l"]})
    return Made(replace(made, figures=liquid), goes_on, batch.assumptions)


def _portions(filling: Filling) -> tuple[Portion, ...]:
    return tuple(portion for layer in filling.layers for portion in layer.all_of_it)


def _state(told: Forecast, batch: Batch, ready_on: date | None, on: date) -> Soundness:
    """Return how it stands on a day: not yet ready, ready, or such that it will hardly get there."""
    if told.goes_wrong_frac >= HALF:
        return "failed"
    if ready_on is None:
        last = batch.on(batch.follow_d)
        return "unknown" if last is None else "unfinished"
    return "ready" if on >= ready_on else "unfinished"
