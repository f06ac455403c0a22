"""Answers the cases; prints by topic what is computed and what is advice only, and leaves out/cases.json."""

import json
import sys
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from tests.cases.answering import Answer, Case, answers, cases, faults, variant_faults

OUT = Path(__file__).resolve().parents[2] / "out" / "cases.json"
WORKERS = 2
WIDTH = 100


def main() -> int:
    """Run all answers, tell how far they reach, and return how many no longer hold."""
    held = answers()
    with ThreadPoolExecutor(WORKERS) as pool:  # each answer waits for processes of its own
        failing = dict(zip((each.case for each in held), pool.map(_all_faults, held), strict=True))
    standing = {each.case: each for each in held if not failing[each.case]}
    topics = table(cases(), standing)
    found = {name: sum(each[name] for each in topics.values()) for name in ("computed", "advice", "total")}
    OUT.parent.mkdir(exist_ok=True)
    OUT.write_text(json.dumps({**found, "topics": topics}, indent=1) + "\n", encoding="utf-8")
    sys.stdout.write("\n".join(told(found, topics, standing=standing, failing=failing)) + "\n")
    return 1 if any(failing.values()) else 0


def _all_faults(answer: Answer) -> list[str]:
    return faults(answer) + [fault for each in answer.variants for fault in variant_faults(answer, each)]


def table(rows: Sequence[Case], standing: dict[str, Answer]) -> dict[str, dict[str, int]]:
    """Return how many cases of each topic are answered, and how."""
    counts: dict[str, dict[str, int]] = {}
    for row in rows:
        counted = counts.setdefault(row.topic, {"computed": 0, "advice": 0, "total": 0})
        counted["total"] += 1
        if row.id in standing:
            counted[standing[row.id].kind] += 1
    return dict(sorted(counts.items()))


def told(
    found: dict[str, int],
    topics: dict[str, dict[str, int]],
    *,
    standing: dict[str, Answer],
    failing: dict[str, list[str]],
) -> list[str]:
    """Return the lines that are printed."""
    begun = {name: each for name, each in topics.items() if each["computed"] + each["advice"]}
    lines = [f"{'topic':<14} computed  advice only  unanswered  of"]
    for name, each in begun.items():
        left = each["total"] - each["computed"] - each["advice"]
        lines.append(f"{name:<14} {each['computed']:>8}  {each['advice']:>11}  {left:>10}  {each['total']:>2}")
    open_cases = [row for row in cases() if row.topic in begun and row.id not in standing]
    lines += ["", "Unanswered in these topics:", *(f"  {row.id} {row.topic}: {row.question}" for row in open_cases)]
    lines += ["", "Answered, but not in full:"]
    lines += [f"  {each.case}: {each.lacks}" for each in standing.values() if each.lacks]
    untouched = [f"{name} {each['total']}" for name, each in topics.items() if name not in begun]
    lines += ["", "Topics with no answer yet:", *_folded(untouched)]
    lines += [f"\n{case} no longer holds:\n  " + "\n  ".join(each) for case, each in failing.items() if each]
    left = found["total"] - found["computed"] - found["advice"]
    whole = f"{found['computed']} computed, {found['advice']} advice only, {left} unanswered, {found['total']} in all"
    return [*lines, "", whole]


def _folded(parts: list[str]) -> list[str]:
    lines = [" "]
    for part in parts:
        if len(lines[-1]) + len(part) > WIDTH:
            lines.append(" ")
        lines[-1] += f" {part},"
    return [*lines[:-1], lines[-1].rstrip(",")]


if __name__ == "__main__":
    sys.exit(main())
