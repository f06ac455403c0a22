"""`layer.step` against a stiff solver of a general library on the same right-hand side."""

import math
from typing import NamedTuple

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from sourloam.science.ferment.ensemble.follow import TOLERANCE
from sourloam.science.ferment.layer.acidity import TEN, ln_protons
from sourloam.science.ferment.layer.change import change
from sourloam.science.ferment.layer.growth import warmed
from sourloam.science.ferment.layer.state import GROUPS, LN_FROM, OXYGEN, STRONG, Flora, Place, State
from sourloam.science.ferment.layer.step import state_of, through
from tests.science.ferment.layers import NO_STATE, WATER, flora_within_ranges, in_salt, standing

HOURS = 28 * 24.0
EXCHANGE_H = 6.0
SETS = 50
ACIDS = ("lactic_mol", "acetic_mol", "butyric_mol")


class Batch(NamedTuple):
    """One layer with everything that the model is handed for it."""

    y: np.ndarray
    place: Place
    flora: Flora


def drawn(seed):
    """Return a layer whose food, cells, acids, warmth and groups lie anywhere in their ranges."""
    chance = np.random.default_rng(1000 + seed)
    flora = flora_within_ranges(1000 + seed)
    place = in_salt(WATER, chance.uniform(0.0, 0.3))._replace(
        temperature_c=chance.uniform(4.0, 32.0),
        tissue_eq=chance.uniform(0.02, 0.2),
        malic_mol=chance.uniform(0.0, 0.02),
        citric_mol=chance.uniform(0.0, 0.03),
        phosphate_mol=chance.uniform(0.0, 0.02),
        salt_osmol=chance.uniform(0.0, 0.4),
        release_per_d=chance.uniform(0.08, 0.8),
        starch_per_d=chance.uniform(0.02, 0.2),
        proteolysis_per_d=chance.uniform(0.0004, 0.006),
        alkali_per_d=chance.uniform(0.05, 0.2),
        aired=chance.choice([0.0, 0.3]),
        oxygen_mol=0.01,
        respiration_g_per_h=chance.uniform(0.01, 0.25),
        breath_per_h=0.1,
    )
    cells = {
        f"{name}_ln_g": math.log(10.0 ** chance.uniform(2.0, 6.5) * 1000.0 * (2e-11 if i > 4 else 5e-13))
        for i, name in enumerate(GROUPS)
    }
    state = NO_STATE._replace(
        sugar_g=chance.uniform(2.0, 30.0),
        cell_sugar_g=chance.uniform(0.0, 40.0),
        starch_g=chance.uniform(0.0, 60.0),
        protein_g=chance.uniform(5.0, 60.0),
        alkali_eq=chance.choice([0.0, 0.05]),
        oxygen_mol=0.01 if place.aired else 0.0,
        warm_ready=chance.uniform(0.02, 0.6),
        cold_ready=chance.uniform(0.1, 0.6),
        enteric_ready=chance.uniform(0.1, 0.6),
        **cells,
    )
    y = np.array(standing(state, place, chance.uniform(4.8, 6.8)))
    return Batch(y, place, warmed(flora, place.temperature_c))


def stepped(batch):
    """Return the states at the ends of days by the model's own steps, cut as they are in a vessel."""
    y, near, step_h, days = batch.y.copy(), -6.0 * TEN, 0.5, [batch.y.copy()]
    for cut in range(round(HOURS / EXCHANGE_H)):
        near, step_h = through(
            y, batch.place, batch.flora, hours=EXCHANGE_H, near=near, step_h=step_h, tolerance=TOLERANCE
        )
        if (cut + 1) % 4 == 0:
            days.append(y.copy())
    return np.array(days)


def solved(batch):
    def rates(hours, y):
        return change(state_of(y), batch.place, batch.flora, -6.0 * TEN)[0]

    days = np.arange(0.0, HOURS + 1.0, 24.0)
    found = solve_ivp(rates, (0.0, HOURS), batch.y, method="LSODA", rtol=1e-9, atol=1e-11, t_eval=days)
    assert found.success, found.message
    return found.y.T


def ph(y, place):
    return -ln_protons(state_of(y), place, -6.0 * TEN) / TEN


@pytest.mark.parametrize("seed", range(SETS))
def test_a_stiff_solver_finds_the_same_acids_and_ph(seed):
    batch = drawn(seed)
    ours, theirs = stepped(batch), solved(batch)
    exponents = np.array(
        [[ph(one, batch.place), ph(other, batch.place)] for one, other in zip(ours, theirs, strict=True)]
    )
    assert np.abs(exponents[:, 0] - exponents[:, 1]).max() <= 0.01
    for name in ACIDS:
        at = State._fields.index(name)
        # Under a hundredth of a millimole a share of it says nothing.
        assert ours[:, at] == pytest.approx(theirs[:, at], rel=0.01, abs=1e-5)


@pytest.mark.parametrize("seed", range(0, SETS, 5))
def test_no_step_ends_with_less_than_nothing(seed):
    y = stepped(drawn(seed))
    amounts = [i for i in range(LN_FROM) if i != STRONG]
    assert y[:, amounts].min() >= -1e-12  # of rounding; what a vessel records has none
    assert OXYGEN in amounts
