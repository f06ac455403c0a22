"""Reads the answers, runs the commands they name, and looks whether the answers hold."""

import csv
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import tomllib
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
PROGRAM = Path(sys.executable).parent / "sourloam"
KINDS = ("computed", "advice")
ANSWERED = (0, 1)  # done, and done with the answer no
WAYS = {
    "up": lambda before, after: after > before,
    "down": lambda before, after: after < before,
    "not up": lambda before, after: after <= before,
    "not down": lambda before, after: after >= before,
    "same": lambda before, after: after == before or math.isclose(after, before),
}


class CommandFailed(Exception):
    """A command gave no answer."""


@dataclass(frozen=True)
class Case:
    """One row of the table."""

    id: str
    topic: str
    question: str


@dataclass(frozen=True)
class Variant:
    """The same situation with one number changed, and how the answer must follow."""

    words: str
    of: str
    to: tuple[str, ...]
    moves: dict[str, str]
    must: tuple[dict[str, Any], ...] = ()
    gone: dict[str, Any] | None = None


@dataclass(frozen=True)
class Answer:
    """What a case is answered with, and what must be in it."""

    case: str
    kind: str
    command: tuple[str, ...]
    site: str
    must: tuple[dict[str, Any], ...]
    why: tuple[str, ...]
    variants: tuple[Variant, ...]
    given: str
    lacks: str
    batch: str = ""
    past: str = ""

    @property
    def files(self) -> tuple[str, str, str]:
        """Return the texts of its files."""
        return self.site, self.batch, self.past


def cases() -> tuple[Case, ...]:
    """Return the table."""
    with (HERE / "cases.csv").open(encoding="utf-8", newline="") as file:
        return tuple(Case(row["id"], row["topic"], row["question"]) for row in csv.DictReader(file))


def answers() -> tuple[Answer, ...]:
    """Return all answers, topic by topic."""
    files = sorted((HERE / "answers").glob("*.toml"))
    return tuple(_answer(raw) for path in files for raw in tomllib.loads(path.read_text("utf-8"))["answer"])


def _answer(raw: dict[str, Any]) -> Answer:
    variants = tuple(
        Variant(
            each["words"],
            each["of"],
            tuple(each["to"]),
            each.get("moves", {}),
            tuple(each.get("must", ())),
            each.get("gone"),
        )
        for each in raw["variant"]
    )
    return Answer(
        raw["case"],
        raw["kind"],
        tuple(raw["command"]),
        raw.get("site", ""),
        tuple(raw["must"]),
        tuple(raw.get("why", ())),
        variants,
        raw["given"],
        raw.get("lacks", ""),
        raw.get("batch", ""),
        raw.get("past", ""),
    )


@lru_cache(maxsize=256)
def printed(command: tuple[str, ...], site: str, batch: str = "", past: str = "") -> Any:
    """Return the object that a command prints for a site file, a batch file, or a logbook of past records."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in (("site.toml", site), ("batch.toml", batch)):
            (Path(folder) / name).write_text(text, encoding="utf-8")
        done = _written_down(folder, past) if past else None
        if done is None or done.returncode == 0:
            done = _run(command, folder)
    if done.returncode not in ANSWERED:
        raise CommandFailed(f"sourloam {' '.join(command)} ended with {done.returncode}: {done.stdout}{done.stderr}")
    return json.loads(done.stdout)


def _written_down(folder: str, past: str) -> subprocess.CompletedProcess[str]:
    """Take the site and its past records into a logbook of their own."""
    (Path(folder) / "past.csv").write_text(past.strip(), encoding="utf-8")
    done = _run(("import", "site.toml"), folder)
    return done if done.returncode else _run(("import", "past.csv", "--yes"), folder)


def _run(command: tuple[str, ...], folder: str) -> subprocess.CompletedProcess[str]:
    env = os.environ | {"SOURLOAM_BOOK": str(Path(folder) / "book.sourloam")}
    return subprocess.run(
        [PROGRAM, *command], cwd=folder, env=env, capture_output=True, text=True, stdin=subprocess.DEVNULL, check=False
    )


def faults(answer: Answer) -> list[str]:
    """Return what an answer lacks, as sentences; none if it holds."""
    try:
        found = printed(answer.command, *answer.files)
    except CommandFailed as failed:
        return [str(failed)]
    lacking = [_told(must, found) for must in answer.must if not holds(must, found)]
    return lacking + [fault for name in answer.why for fault in _reasonless(answer, name)]


def variant_faults(answer: Answer, variant: Variant) -> list[str]:
    """Return where an answer does not follow a change of the situation."""
    times = sum(each.count(variant.of) for each in (*answer.files, *answer.command))
    if times != 1:
        return [f"{variant.of!r} stands {times} times in the files and the command, not once"]
    steps = (variant.of, *variant.to)
    try:
        objects = [printed(*_changed(answer, variant.of, each)) for each in steps]
    except CommandFailed as failed:
        return [str(failed)]
    lacking = [_told(must, objects[-1]) for must in variant.must if not holds(must, objects[-1])]
    for path, way in variant.moves.items():
        values = [_comparable(at(path, each)) for each in objects]
        if not all(WAYS[way](before, after) for before, after in pairwise(values)):
            lacking.append(f"{path} must go {way} over {', '.join(steps)}, and goes {values}")
    if variant.gone and not holds(variant.gone, objects[0]):
        lacking.append(f"{variant.gone['says']!r} is not there before the change, so that it cannot go")
    if variant.gone and holds(variant.gone, objects[-1]):
        lacking.append(
            f"{variant.gone['says']!r} is still in {variant.gone['path']}: {at(variant.gone['path'], objects[-1])}"
        )
    return lacking


def _changed(answer: Answer, of: str, to: str) -> tuple[tuple[str, ...], str, str, str]:
    command = tuple(each.replace(of, to) for each in answer.command)
    site, batch, past = (each.replace(of, to) for each in answer.files)
    return command, site, batch, past


def at(path: str, found: Any) -> Any:
    """Return what stands at a path; nothing where the path ends early."""
    for step in path.split("."):
        if step == "*":
            continue
        if isinstance(found, list):
            found = [each.get(step) for each in found] if not step.isdigit() else dict(enumerate(found)).get(int(step))
        else:
            found = found.get(step) if isinstance(found, dict) else None
    return found


def holds(must: dict[str, Any], found: Any) -> bool:
    """Whether the object holds what it must."""
    value = at(must["path"], found)
    if "says" in must:
        return any(re.search(must["says"], each, re.DOTALL) for each in _texts(value))
    if "is" in must:
        return bool(value == must["is"])
    if "holds" in must:
        return value is not None and value["low"] <= must["holds"] <= value["high"]
    if "overlaps" in must:
        low, high = must["overlaps"]
        return value is not None and value["low"] <= high and value["high"] >= low
    if "at_least" in must:
        return value is None or value["value"] >= must["at_least"]
    if value is not None and "since" in must:
        value = (date.fromisoformat(value) - date.fromisoformat(at(must["since"], found))).days
    return value is not None and must["from"] <= value <= must["to"]


def _texts(value: Any) -> list[str]:
    return [each for each in value if isinstance(each, str)] if isinstance(value, list) else [str(value)]


def _comparable(value: Any) -> Any:
    return math.inf if value is None else value


def _told(must: dict[str, Any], found: Any) -> str:
    wanted = {name: each for name, each in must.items() if name not in ("words", "path")}
    words, path = must.get("words", must["path"]), must["path"]
    return f"{words}: {wanted} is wanted at {path}, and there is {at(path, found)!r}"


def _reasonless(answer: Answer, name: str) -> list[str]:
    """Return where a figure of an answer has no reason: no formula, or leaves that name no source."""
    try:
        reason = printed((*answer.command, "--why", name), *answer.files)
    except CommandFailed as failed:
        return [str(failed)]
    opens = (reason["inputs"] and reason["formula"]) or sourced(reason)
    bare = [] if opens else [f"--why {name} opens nothing"]
    return bare + [f"--why {name}: {each['name']} names no source" for each in leaves(reason) if not sourced(each)]


def leaves(reason: dict[str, Any]) -> list[dict[str, Any]]:
    """Return everything that a reason rests on in the end."""
    below = [leaf for each in reason["inputs"] for leaf in leaves(each)]
    return below or [reason]


def sourced(leaf: dict[str, Any]) -> bool:
    """Whether a leaf names a source, or is what the person wrote."""
    return bool(leaf["source"] or leaf["typed"])
