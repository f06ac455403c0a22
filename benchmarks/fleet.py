"""Times lives of vessels: compiled, readable, and those of a general library of events, on the same random inputs."""

import resource
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from sourloam.fleet.cures import with_vessels  # noqa: E402 - the tests lie beside the benchmarks
from sourloam.fleet.kernel import run  # noqa: E402
from sourloam.fleet.replicate import Chances  # noqa: E402
from sourloam.fleet.rows import held_of, still_of  # noqa: E402
from sourloam.fleet.setting import year_of  # noqa: E402
from sourloam.fleet.simulate import simulate  # noqa: E402
from sourloam.service.assemble import question_of, site_file  # noqa: E402
from tests.fleet.events import live  # noqa: E402
from tests.fleet.test_events import both  # noqa: E402

LIVES, TIMES = 20, 7
READABLE, EVENTS = 1.0 / 200.0, 1.0 / 800.0  # goals: parts of their time
TEN_YEARS_D, REPLICATIONS = 3650, 10_000
SITE = ROOT / "examples" / "quillet_yard.toml"
GROWS = 1.0  # a day of a vessel is no dearer among many: the cost is linear in vessels and days
Line = tuple[str, float, float | None]


def middle_s(work: Callable[[], object]) -> float:
    """Return the processor time of some work, the middle of a few times."""
    found = []
    for _ in range(TIMES):
        start = time.process_time()
        work()
        found.append(time.process_time() - start)
    return sorted(found)[TIMES // 2]


def kernel_s(count: int, days: int, litres: float) -> float:
    """Return the time of one compiled life, without the rows being laid out."""
    situation, world, _ = both(1, count, litres=litres, fetched_on=("sat",), every_d=2, holding_l=8.0, days=days)
    still = still_of(situation, world)
    ready = [held_of(situation, days, world.habits.least_d) for _ in range(TIMES * LIVES + 1)]
    run(still, ready.pop(), 0, -1)
    return middle_s(lambda: [run(still, ready.pop(), 0, -1) for _ in range(LIVES)]) / LIVES


def against_others() -> list[Line]:
    """Return one life of a year by the three ways."""
    inputs = {"litres": 2.7, "fetched_on": ("sat",), "every_d": 2, "holding_l": 8.0}
    ours = kernel_s(3, 365, 2.7)
    situation, world, _ = both(1, 3, **inputs)
    readable = middle_s(lambda: simulate(situation, 365, world))
    yards = [both(1, 3, **inputs)[2] for _ in range(TIMES)]
    events = middle_s(lambda: live(yards.pop()))
    return [
        ("year of 3 vessels, compiled, ms", 1e3 * ours, None),
        ("  the same, readable, ms", 1e3 * readable, None),
        ("  the same, by a general library of events, ms", 1e3 * events, None),
        (f"  compiled as a part of readable (1 in {readable / ours:.0f})", ours / readable, READABLE),
        (f"  compiled as a part of the library's (1 in {events / ours:.0f})", ours / events, EVENTS),
    ]


def growth() -> list[Line]:
    """Return what a day of a vessel costs, from one bucket to two thousand vessels."""
    found = []
    for count, days in ((1, 3650), (10, 3650), (100, 365), (2000, 100)):
        cost = kernel_s(count, days, 0.9 * count) / count / days
        found.append((f"a day of a vessel among {count}, compiled, ns", 1e9 * cost, None))
    costs = [each[1] for each in found]
    return [*found, ("  among 2000 as a part of that among one", costs[-1] / costs[0], GROWS)]


def quillet() -> list[Line]:
    """Return what the smallest fleet of the demonstration takes, reckoned from some lives of ten years."""
    asked = question_of(site_file(SITE), SITE.parent)
    site = asked.site
    year = year_of(
        site.streams, asked.year.first, TEN_YEARS_D, climate=asked.year.climate, knowledge=asked.year.knowledge
    )
    chances = Chances(site, year, asked.situation, 1, 0.05, run)
    few = 2
    start = time.process_time()
    for fleet in (len(site.vessels), len(site.vessels) + 1, len(site.vessels) + 2):
        for number in range(few):
            chances.outcome(with_vessels(site, fleet), number)
    each = (time.process_time() - start) / few
    taken = replace(site, beds=(), piles=(), worm_bins=(), soil_tubs=())
    chances = Chances(taken, year, asked.situation, 1, 0.05, run)
    start = time.process_time()
    for fleet in (len(site.vessels), len(site.vessels) + 1, len(site.vessels) + 2):
        for number in range(few):
            chances.outcome(with_vessels(taken, fleet), number)
    bare = (time.process_time() - start) / few
    what = f"Quillet Yard, 3 fleets, {REPLICATIONS} x 10 years, s, reckoned from {few}"
    return [(what, each * REPLICATIONS, None), ("  the same with takers alone, s", bare * REPLICATIONS, None)]


def lines() -> list[Line]:
    """Return the lines of the table."""
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    found = [*against_others(), *growth(), *quillet()]
    more = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0 - memory
    return [*found, ("  memory beside that of the library itself, MB", more, None)]


if __name__ == "__main__":
    for name, value, goal in lines():
        print(f"{name:<72} {value:10.4f} {'' if goal is None else f'{goal:8.4f}'}")
