"""The published fermentations and the pairs to compare, as their files hold them."""

import csv
import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final, Literal

FOLDER: Final = Path(__file__).parent
LAST_DAY: Final = 28.0  # to which a run is followed that is there for a contrast without a day

Number = float | list[float]  # as printed; two are the ends of a range


@dataclass(frozen=True)
class Observed:
    """What was printed of a run; a printed range has two ends, a bound is known from one side."""

    day: float
    quantity: str
    low: float
    high: float
    bound: str = ""  # "at most", "at least"


Part = Literal["open", "held out", "fresh"]  # may be looked at; looked at once; found after that


@dataclass(frozen=True)
class Run:
    """One vessel of a study."""

    id: str
    temperature_c: Number
    ingredients: dict[str, Number]  # share of the fresh mass, by material
    preparation: str
    flora: str
    is_sealed: bool = True
    added: dict[str, Number] = field(default_factory=dict)  # per cent of that mass, upon it
    measured: dict[str, Number] = field(default_factory=dict)
    culture_log10: Number | None = None  # live cells in a gram of the whole
    observed: tuple[Observed, ...] = ()


@dataclass(frozen=True)
class Study:
    """What one source printed."""

    id: str
    kind: str
    is_seen: bool
    part: Part
    runs: tuple[Run, ...]

    @property
    def is_held_out(self) -> bool:
        """Whether the model was never changed in sight of it."""
        return self.part != "open"

    def run(self, name: str) -> Run:
        """Return a run by its id."""
        return next(each for each in self.runs if each.id == name)


@dataclass(frozen=True)
class Contrast:
    """Two runs that differ in one condition, and what was printed of that."""

    id: str
    study: str
    run_a: str
    run_b: str
    quantity: str
    a_is: str  # "lower", "higher", "sooner"
    day: float | None = None
    level: float | None = None  # to be reached sooner


def ends(value: Number) -> tuple[float, float]:
    """Return both ends of a number; one that is no range has the same end twice."""
    return (float(value[0]), float(value[1])) if isinstance(value, list) else (float(value), float(value))


def load_studies(folder: Path = FOLDER / "studies") -> tuple[Study, ...]:
    """Return every study that was admitted, in the order of their names."""
    return tuple(study_of(tomllib.loads(path.read_text("utf-8"))) for path in sorted(folder.glob("*.toml")))


def study_of(held: dict[str, Any]) -> Study:
    """Return the study of one file."""
    runs = tuple(_run(each) for each in held["run"])
    part: Part = "held out" if held["held_out"] else "open"
    if held.get("fresh", False):
        part = "fresh"
    return Study(held["id"], held["kind"], is_seen=held["seen"], part=part, runs=runs)


def _run(held: dict[str, Any]) -> Run:
    return Run(
        held["id"],
        held["temperature_c"],
        held["ingredients"],
        held["preparation"],
        held["flora"],
        is_sealed=held["sealed"],
        added=held.get("added", {}),
        measured=held.get("measured", {}),
        culture_log10=held.get("inoculum_log10_per_g"),
        observed=tuple(_observed(each) for each in held.get("observed", [])),
    )


def _observed(held: dict[str, Any]) -> Observed:
    low, high = held.get("low", held.get("value", 0.0)), held.get("high", held.get("value", 0.0))
    return Observed(float(held["day"]), held["quantity"], float(low), float(high), held.get("bound", ""))


def load_contrasts(path: Path = FOLDER / "contrasts.csv") -> tuple[Contrast, ...]:
    """Return the pairs, in their order."""
    with path.open(encoding="utf-8", newline="") as file:
        return tuple(_contrast(row) for row in csv.DictReader(file))


def _contrast(row: dict[str, str]) -> Contrast:
    names = {each: row[each] for each in ("id", "study", "run_a", "run_b", "quantity", "a_is")}
    return Contrast(**names, day=_maybe(row["day"]), level=_maybe(row["level"]))


def _maybe(cell: str) -> float | None:
    return float(cell) if cell else None


def refused_count(path: Path = FOLDER / "refused.csv") -> int:
    """Return how many sources were looked at and not admitted."""
    with path.open(encoding="utf-8", newline="") as file:
        return sum(1 for _ in csv.DictReader(file))


def last_day(study: Study, run: Run, contrasts: tuple[Contrast, ...]) -> int:
    """Return how long a run must be followed."""
    compared = [each for each in contrasts if each.study == study.id and run.id in {each.run_a, each.run_b}]
    days = [each.day for each in run.observed] + [each.day for each in compared if each.day is not None]
    open_ended = any(each.day is None or each.a_is == "sooner" for each in compared)
    return int(-(-max([*days, LAST_DAY if open_ended else 1.0]) // 1))
