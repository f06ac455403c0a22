"""The vessel, followed: our time beside SciPy's LSODA on the same right-hand side, with the error of both.

The peer does the same job twice: with the layers coupled, where LSODA takes the
place of our integrator between the exchanges of water and air; and with a layer
alone, which is easier, since nothing starts it anew. All are one thread; the
reference is the same model with a tolerance ten thousand times finer.
"""

import time
from collections.abc import Iterator
from dataclasses import dataclass
from unittest.mock import patch

import numba
import numpy as np
from scipy.integrate import solve_ivp

from sourloam.base.figure import written
from sourloam.evidence.materials import load_materials
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer
from sourloam.science.ferment.ensemble.follow import Followed, days_of, follow
from sourloam.science.ferment.kernel import live_all
from sourloam.science.ferment.layer.acidity import ln_protons, ph_of
from sourloam.science.ferment.layer.change import change
from sourloam.science.ferment.layer.growth import warmed
from sourloam.science.ferment.layer.state import Flora, Place, State
from sourloam.science.ferment.stack import life
from sourloam.science.ferment.stack.given import SUMP, Stack, flora_of
from sourloam.science.ferment.stack.life import Days, Starts, lay, place_of
from sourloam.science.load.assess import Portion
from sourloam.service.assemble import living_of

DAYS, LAYERS = 28, 20
MEMBERS, PEERS = 100, 8  # vessels that ours follows; layers that the peer does
EXACT = 3e-8
PEER_RTOL = 1e-4
PEER_STEPS = 18  # three days of a vessel: the peer is slow


@dataclass(frozen=True)
class Compared:
    """Ours against the peer."""

    ours_ms: float  # for a layer of 28 days
    peer_ms: float  # a layer alone
    coupled_ms: float  # by the peer
    ours_error: float  # of pH, the greatest
    peer_error: float


def starts(members: int) -> tuple[Starts, Days]:
    """Return a vessel of household scraps with bran, filled over twenty days in a cool room."""
    living = living_of(members)
    table = load_materials()

    def portion(name: str, mass_kg: float) -> Portion:
        return Portion(table[name], written(name, mass_kg, "kg", members=members))

    layers = tuple(
        Layer(
            (portion("vegetable-scraps", 0.35), portion("mixed-household-scraps", 0.35)),
            bran=portion("wheat-bran", 0.014),
            laid_d=0.5 * number,
        )
        for number in range(LAYERS)
    )
    room_c = 16.0 + 4.0 * np.sin(np.arange(DAYS) / 4.0)
    filling = Filling(layers, Kept(20.0, 0.06, 1.7, room_c))
    return draw(filling, living), days_of(filling)


def few(all_starts: Starts, members: int) -> Starts:
    return Starts(*(each[:members] for each in all_starts))


def run(given: Starts, days: Days) -> tuple[Followed, float, float]:
    """Return what became of the members, and how long it took of a processor and of the day."""
    begun, wall = time.process_time(), time.perf_counter()
    found = follow(given, days, compiler=live_all)
    return found, time.process_time() - begun, time.perf_counter() - wall


def peer(given: Starts, days: Days, member: int, layer: int) -> tuple[float, float]:
    """Follow one layer by LSODA in plain Python; return its seconds, and the greatest error of its pH."""
    layers = given.y.shape[1]
    stack = Stack(
        given.y[member].copy(),
        given.solutes[member].copy(),
        np.ones(layers),
        -np.log(10.0) * given.ph[member],
        np.full(layers, 0.5),
        given.laid[member],
        np.zeros(SUMP),
        np.zeros(3),
    )
    flora = flora_of(given.groups[member], given.homolactic_frac[member])
    lay(stack, flora, days, 24.0 * DAYS, before=0)
    place = place_of(stack, layer, float(np.mean(days.room_c)))
    warm = warmed(flora, place.temperature_c)
    near = [stack.ln_h[layer]]

    def rates(_: float, y: np.ndarray) -> State:
        moved, near[0] = change(State(*y), place, warm, near[0])
        return moved

    def solved(rtol: float) -> tuple[np.ndarray, float]:
        begun = time.process_time()
        found = solve_ivp(
            rates,
            (0.0, 24.0 * DAYS),
            stack.y[layer],
            method="LSODA",
            t_eval=24.0 * np.arange(DAYS + 1.0),
            rtol=rtol,
            atol=1e-6,
        )
        took = time.process_time() - begun
        return np.array([ph_of(ln_protons(State(*y), place, near[0])) for y in found.y.T]), took

    exact, _ = solved(1e-9)
    ph, took = solved(PEER_RTOL)
    return took, float(np.max(np.abs(ph - exact)))


def lsoda_through(
    y: np.ndarray, place: Place, flora: Flora, *, hours: float, near: float, step_h: float, tolerance: float
) -> tuple[float, float]:
    """Take a layer through some hours by LSODA, in `y` itself."""
    last = [near]

    def rates(_: float, state: np.ndarray) -> State:
        moved, last[0] = change(State(*state), place, flora, last[0])
        return moved

    found = solve_ivp(rates, (0.0, hours), y, method="LSODA", rtol=PEER_RTOL, atol=1e-6)
    y[:] = found.y[:, -1]
    return ln_protons(State(*y), place, last[0]), step_h


def coupled_ms(given: Starts, days: Days) -> float:
    """Return what a layer of 28 days takes the peer, layers coupled, from the first days of one vessel."""
    few_days = days._replace(room_c=days.room_c[:PEER_STEPS])
    with patch.object(life, "through", lsoda_through):
        begun = time.process_time()
        follow(few(given, 1), few_days)
        took = time.process_time() - begun
    layer_days = sum(max(PEER_STEPS * days.step_h / 24.0 - 0.5 * number, 0.0) for number in range(LAYERS))
    return 1000.0 * took / layer_days * DAYS


def compared() -> Compared:
    """Follow the same vessels by both, one thread each."""
    given, days = starts(MEMBERS)
    run(few(given, 2), days)  # compiled, or read from the disk
    threads = numba.get_num_threads()
    numba.set_num_threads(1)
    ours, took, _ = run(given, days)
    numba.set_num_threads(threads)
    exact, _, _ = run(given, days._replace(tolerance=EXACT))
    errors = np.abs(ours.ph - exact.ph)
    errors = errors[np.isfinite(errors)]
    each = [peer(given, days, member, 0) for member in range(PEERS)]
    return Compared(
        1000.0 * took / (MEMBERS * LAYERS),
        1000.0 * float(np.median([seconds for seconds, _ in each])),
        coupled_ms(given, days),
        float(errors.max()),
        max(error for _, error in each),
    )


def lines() -> Iterator[tuple[str, float, float | None]]:
    """Give the lines of the table: what, how much, at most how much."""
    both = compared()
    yield "a layer of 28 days, ours, layers coupled, ms, one thread", both.ours_ms, None
    yield f"  LSODA in Python (rtol {PEER_RTOL:g}), layers coupled, ms", both.coupled_ms, None
    yield "  ours / that (goal: 50 times as fast)", both.ours_ms / both.coupled_ms, 1.0 / 50.0
    yield f"  LSODA in Python, a layer alone, ms, median of {PEERS}", both.peer_ms, None
    yield "  ours / that", both.ours_ms / both.peer_ms, None
    yield "  greatest error of pH, ours", both.ours_error, 0.01
    yield "  greatest error of pH, LSODA", both.peer_error, 0.01
    given, days = starts(1000)
    whole, _, took = run(given, days)
    exact, _, _ = run(few(given, 200), days._replace(tolerance=EXACT))
    errors = np.abs(whole.ph[:200] - exact.ph)
    errors = errors[np.isfinite(errors)]
    yield f"1,000 members x {LAYERS} layers x {DAYS} days, all processors, wall s", took, None
    yield "  greatest error of pH (of 200 members)", float(errors.max()), 0.01
    yield "  99.99th percentile of it", float(np.quantile(errors, 0.9999)), 0.002


if __name__ == "__main__":
    for name, value, goal in lines():
        print(f"{name:<72} {value:9.4f} {'' if goal is None else goal}")
