"""Use case: follow a batch, and say when it is sour, ready and due, what may go wrong, and what would help."""

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from sourloam.base.figure import Figure, derive
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.plan.loads import ABSORBENT, setting_of
from sourloam.science.ferment.ensemble.changes import AtHand, Change, changes
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.ensemble.forecast import Limits, forecast
from sourloam.science.ferment.stack.life import Run
from sourloam.science.load.assess import Known, assess
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.vessel.settling import sinks_cm
from sourloam.service.assemble import known_of, living_of
from sourloam.service.batches import AskedBatch, batch_of
from sourloam.service.portions import BRAN, SUGAR
from sourloam.site.vessels import Vessel
from sourloam.views.batch import Batch
from sourloam.views.ferment import FermentView, ferment_view
from sourloam.views.ferment_verdict import is_overfilled

TRIED_ON: Final = 60  # members on which remedies are tried: enough to tell which of them helps

Compiler = Callable[[], Run]
Says = Callable[[str], None]


def forecast_batch(
    asked: AskedBatch, *, compiler: Compiler | None = None, says: Says | None = None, is_advised: bool = True
) -> FermentView:
    """Return the forecast of a batch; `says` hears how far it is, and nothing at the end.

    What would help is tried only where it is asked for, and where the vessel holds what was laid in.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    tell = says or (lambda _: None)
    known = known_of(asked.members)
    batch = batch_of(asked, known)
    living = living_of(asked.members)
    scatter = known.load.critical_ph_scatter.members
    starts = draw(batch.filling, living)
    followed = follow(
        starts, days_of(batch.filling), compiler=compiler, told=lambda done, of: tell(f"Followed {done} of {of}")
    )
    helping: tuple[Change, ...] = ()
    if is_advised and not is_overfilled(batch, known.vessel):
        tell("Trying what would help")
        helping = _changes(batch, min(asked.members, TRIED_ON), compiler)
    tell("")
    limits = Limits(batch.least_d, scatter, batch.has_animal, batch.past)
    return ferment_view(
        forecast(followed, batch.filling, living, limits),
        batch,
        beside=_beside(batch, known, asked.members),
        changes=helping,
        sources=load_sources(),
        cautions={each.id: each for each in load_cautions()},
        vessel=known.vessel,
    )


def _beside(batch: Batch, known: Known, members: int) -> dict[str, Figure]:
    """Return what is said beside the model: its liquid by a formula for forage, and how far it sinks."""
    kept = batch.filling.kept
    portions = [portion for layer in batch.filling.layers for portion in layer.all_of_it]
    vessel = Vessel("batch", kept.volume_l, has_drain=batch.has_drain, drain_space_l=kept.sump_l)
    setting = setting_of(vessel, load_materials()[ABSORBENT], members=members)
    load = assess(portions, setting, known, members=members).figures
    sinks = derive(
        "sinks_cm",
        sinks_cm,
        words="how far it sinks together",
        pressed_l=load["pressed_l"],
        settles_frac=known.vessel.settles_frac,
        floor_m2=load["area_m2"],
    )
    forage = replace(load["free_water_l"], name="leachate_forage_l", words="the same by a formula for forage")
    return {each.name: each for each in (forage, sinks)}


def _changes(batch: Batch, members: int, compiler: Compiler | None) -> tuple[Change, ...]:
    """Return what would help, tried on fewer members."""
    table = load_materials()
    scatter = load_parameters(LoadParameters, "load", members=members).critical_ph_scatter.members
    at_hand = AtHand(table[BRAN], table[SUGAR], table[ABSORBENT])
    return changes(batch.filling, living_of(members), scatter, at_hand, compiler=compiler)
