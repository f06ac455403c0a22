"""Times the commands as a person starts them; prints a table and leaves out/bench.json.

Each command is a process of its own at its default accuracy. `wall` is what a person waits, `processor` is the time
that the process took of the machine (user and system), which other work on the machine disturbs less. A first run
finds no bytecode of the package.
"""

import json
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import asdict, dataclass
from pathlib import Path

from bed import lines as bed_lines
from ferment import lines
from fleet import lines as fleet_lines
from kernels import MATERIALS, TIMES, bare_draws, load_case, seconds
from logbook import lines as logbook_lines
from pile import lines as pile_lines
from web import lines as web_lines

ROOT = Path(__file__).resolve().parent.parent
OUT = ROOT / "out" / "bench.json"
SITE = "examples/quillet_yard.toml"
ANSWERS = (0, 1)  # done, and done with the answer no


@dataclass(frozen=True)
class Result:
    """One line of the table; a line without a goal is there to compare with."""

    name: str
    value: float
    goal: float | None = None
    better: str = "lower"

    @property
    def met(self) -> bool | None:
        """Whether the goal is met; None where there is none."""
        return None if self.goal is None else self.value <= self.goal


@dataclass(frozen=True)
class Time:
    """What one process took, in seconds."""

    wall: float
    processor: float


def timed(command: list[str], env: dict[str, str]) -> Time:
    """Run `command` once; stop where it fails, since a failure has no speed."""
    with tempfile.TemporaryFile() as said:
        start = time.perf_counter()
        process = subprocess.Popen(command, cwd=ROOT, stdin=subprocess.DEVNULL, stdout=said, stderr=said, env=env)
        _, status, used = os.wait4(process.pid, 0)
        wall = time.perf_counter() - start
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode not in ANSWERS:
            said.seek(0)
            sys.exit(f"{' '.join(command)} ended with {process.returncode}:\n{said.read().decode(errors='replace')}")
    return Time(wall, used.ru_utime + used.ru_stime)


def first_and_next(command: list[str], times: int) -> tuple[Time, list[Time]]:
    """Return the time of a run that finds no bytecode of the package, and the times of the runs after it."""
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    for cache in (ROOT / "src").rglob("__pycache__"):
        shutil.rmtree(cache, ignore_errors=True)
    return timed(command, env), [timed(command, env) for _ in range(times)]


def middle(values: list[float]) -> float:
    return statistics.median(values)


def results() -> list[Result]:
    """Time all there is to time."""
    python, sourloam = sys.executable, str(Path(sys.executable).with_name("sourloam"))
    bare = [timed([python, "-c", "pass"], dict(os.environ)) for _ in range(15)]
    found = [Result("python -c pass, wall s, median of 15", middle([each.wall for each in bare]))]
    first, after = first_and_next([sourloam, "--help"], 15)
    found.append(Result("sourloam --help, wall s, median of 15", middle([each.wall for each in after]), 0.15))
    found.append(Result("sourloam --help, wall s, first run", first.wall))
    if not (ROOT / SITE).exists():
        print(f"{SITE} is not there; the plan is not timed.")
        return [*found, *kernels()]
    first, after = first_and_next([sourloam, "plan", SITE], 7)
    name = f"sourloam plan {SITE}"
    found.append(Result(f"{name}, processor s, first run", first.processor, 2.0))
    found.append(Result(f"{name}, processor s, median of 7", middle([each.processor for each in after]), 2.0))
    found.append(Result(f"{name}, wall s, median of 7", middle([each.wall for each in after])))
    return [*found, *logbook(sourloam), *kernels()]


def logbook(sourloam: str) -> list[Result]:
    """Time the verbs of a day on a book of their own."""
    with tempfile.TemporaryDirectory() as folder:
        at = ["--book", str(Path(folder) / "book.sourloam")]
        env = dict(os.environ)
        timed([sourloam, "import", SITE, "--on", "2027-03-01", *at], env)
        times = [
            timed([sourloam, "log", f"blue-1 {each} kg bread", "--on", "2027-03-02", *at], env)
            for each in (1, 2, 3, 4, 5)
        ]
        timed([sourloam, "forecast", *at], env)
        listed = [timed([sourloam, "today", "--today", "2027-03-03", *at], env) for _ in range(5)]
    return [
        Result("sourloam log, processor s, median of 5", middle([each.processor for each in times]), 0.6),
        Result("sourloam today, processor s, median of 5", middle([each.processor for each in listed]), 1.0),
    ]


def kernels() -> list[Result]:
    """Time what is computed inside a command, each beside a general library."""
    found = []
    for members, goal in ((1_000, 0.050), (10_000, 0.300)):
        what = f"load of {MATERIALS} materials, {members} members, s, median of {TIMES}"
        found.append(Result(what, seconds(load_case(members)), goal))
        found.append(Result(f"  numpy: as many draws and exponentials, {members}", seconds(bare_draws(members))))
    rows = (*lines(), *bed_lines(), *pile_lines(), *fleet_lines(), *logbook_lines(), *web_lines())
    return [*found, *(Result(name, value, goal) for name, value, goal in rows)]


def shown(result: Result) -> str:
    """Return the line of the table."""
    goal = "" if result.goal is None else f"{result.goal:8.3f}  {'met' if result.met else 'MISSED'}"
    return f"{result.name:<72} {result.value:8.4f} {goal}".rstrip()


def main() -> None:
    load = os.getloadavg()
    print(
        f"Load of the machine before the start: {load[0]:.2f} {load[1]:.2f} {load[2]:.2f}, {os.cpu_count()} processors"
    )
    print(f"{'':<72} {'value':>8} {'goal':>8}")
    found = results()
    for result in found:
        print(shown(result))
    lines = [{**asdict(result), "value": round(result.value, 4), "met": result.met} for result in found]
    OUT.parent.mkdir(exist_ok=True)
    OUT.write_text(json.dumps(lines, indent=2) + "\n", encoding="utf-8")
    print(f"Wrote {OUT.relative_to(ROOT)}")


if __name__ == "__main__":
    main()
