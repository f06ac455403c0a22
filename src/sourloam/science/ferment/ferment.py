"""The ferment: a filling in its room, through its days, to its end.

A thermal-time rule for now, behind the interface that a mechanistic model will
fill: it knows temperature and nothing of what the mix is made of.
"""

from collections.abc import Sequence
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from sourloam.base.figure import SEED, Figure
from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.clock import clock_rate
from sourloam.science.ferment.outcome import Filling, Final, Outcome
from sourloam.science.ferment.parameters import FermentParameters
from sourloam.science.inoculum.keeping import BranLot
from sourloam.science.vessel.leachate import leachate_l_per_kg
from sourloam.science.vessel.parameters import VesselParameters


def ferment(
    filling: Filling,
    temperatures_c: Sequence[float],
    bran: BranLot | None,
    parameters: FermentParameters,
    *,
    vessel: VesselParameters,
    members: int = 200,
    seed: int = SEED,
) -> Outcome:
    """Follow a sealed filling through the daily `temperatures_c` of its room, the first being the day after sealing.

    The last temperature is taken to last on after the series ends. All members
    of a parameter are shared between batches, so that a slow household is slow
    in all its vessels; `seed` draws only which members fail. Without `bran` only
    the wild flora is at work, which takes longer.
    """
    need = _of(parameters.ready_at_20c_d, members)
    if bran is None:
        need = need * _of(parameters.without_bran_times, members)
    passed = _days_passed(temperatures_c, parameters, members)
    ready = _reached(passed, need - filling.age_d)
    return Outcome(
        filling.batch,
        filling.sealed_on,
        soured_d=_reached(passed, need * _of(parameters.soured_share, members) - filling.age_d),
        ready_d=ready,
        leachate_l=_leachate_l(filling, vessel, members),
        failed=_failed(filling.batch, parameters, members, seed),
        final=_final(filling, parameters, vessel, members),
    )


def _of(figure: Figure, members: int) -> FloatArray:
    return np.resize(figure.members, members)


def _days_passed(temperatures_c: Sequence[float], parameters: FermentParameters, members: int) -> FloatArray:
    """Return the days at 20 °C that have passed by the end of each day: (members, days)."""
    named = {"least_c": parameters.least_c, "best_c": parameters.best_c, "most_c": parameters.most_c}
    limits = {name: _of(each, members)[:, None] for name, each in named.items()}
    rates = np.asarray(clock_rate(np.asarray(temperatures_c, dtype=float)[None, :], **limits))
    return np.cumsum(rates, axis=1)


def _reached(passed: FloatArray, need: FloatArray) -> FloatArray:
    """Return when each member has come as far as it must; beyond the series at its last pace."""
    days = passed.shape[1]
    within = (passed < need[:, None]).sum(axis=1)
    pace = passed[:, -1] - (passed[:, -2] if days > 1 else 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        beyond = np.where(pace > 0, days + np.ceil((need - passed[:, -1]) / pace), np.inf)
    return np.where(need <= 0, 0.0, np.where(within < days, within + 1.0, beyond))


def _failed(batch: str, parameters: FermentParameters, members: int, seed: int) -> NDArray[np.bool_]:
    stream = np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(crc32(batch.encode()),)))
    return stream.random(members) < _of(parameters.failing_share, members)


def _leachate_l(filling: Filling, vessel: VesselParameters, members: int) -> FloatArray:
    held = filling.contents
    per_kg = leachate_l_per_kg(
        held.scraps_dry_wb_frac,
        _of(vessel.softness, members),
        held.bran_kg / max(held.scraps_kg, 1e-9),
        _of(vessel.bran_holds_kg_per_kg, members),
    )
    return np.asarray(per_kg) * held.scraps_kg


def _final(filling: Filling, parameters: FermentParameters, vessel: VesselParameters, members: int) -> Final:
    held = filling.contents
    liquid = _leachate_l(filling, vessel, members)
    gas = _of(parameters.dry_loss_frac, members) * held.dry_kg
    mass = held.scraps_kg + held.bran_kg - liquid - gas
    kept = 1.0 - _of(parameters.nitrogen_loss_frac, members) - _of(vessel.leachate_nitrogen_frac, members)
    return Final(
        mass_kg=mass,
        dry_kg=held.dry_kg - gas,
        nitrogen_g=held.nitrogen_g * kept,
        acid_mol=_of(parameters.acid_mol_per_kg, members) * mass,
    )
