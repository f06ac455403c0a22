"""`make validate`: the model against published ferments; tables here, numbers in out/validation.json.

Runs what is held out and what is not. While the model is being changed `--open`
runs only what is not: what is held out is looked at when the values of the
model stand as they do, and is no test of anything that is changed after that.
What is fresh was found after the first look, and is shown alone too.
"""

import argparse
import csv
import json
import math
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

from sourloam.evidence.parameters import load_parameters
from sourloam.service.assemble import living_of
from validation.baseline import ThermalRule, best_spread
from validation.points import Point, points_of, predict_all
from validation.score import score_of
from validation.studies import Contrast, Study, load_contrasts, load_studies, refused_count
from validation.summary import HALF_OF_ALL, contrast_rows, numbers, study_rows, without

OUT: Final = Path(__file__).parent.parent / "out"
MEMBERS: Final = 300
HELD, FRESH, OPEN = "held out", "fresh", "not held out"
PARTS: Final[Mapping[str, Callable[[Study], bool]]] = MappingProxyType(
    {
        HELD: lambda study: study.is_held_out,
        FRESH: lambda study: study.part == "fresh",
        OPEN: lambda study: not study.is_held_out,
    }
)


def open_studies(studies: Sequence[Study]) -> tuple[Study, ...]:
    """Return the studies that may be looked at as often as one likes."""
    return tuple(each for each in studies if not each.is_held_out)


def validated(
    chosen: tuple[Study, ...], fitted: tuple[Study, ...], pairs: tuple[Contrast, ...], *, members: int
) -> tuple[dict[str, Any], list[Point]]:
    """Return the numbers of the chosen studies and all their points; the rule's spread is that of the fitted ones."""
    names = {each.id for each in chosen}
    own = tuple(each for each in pairs if each.study in names)
    known = load_parameters(ThermalRule, "thermal_rule")
    spread = best_spread(fitted, known)
    predicted = predict_all(chosen, own, living_of(members), told=_say)
    points = points_of(chosen, predicted, known, spread=spread)
    compared = contrast_rows(own, predicted)
    told = numbers(points) | {
        "baseline_spread_ph": spread,
        "contrasts": len(compared),
        "contrasts_right": sum(each["right"] for each in compared),
        "members": members,
    }
    if HALF_OF_ALL in names:
        told[f"without_{HALF_OF_ALL}"] = numbers(without(points, HALF_OF_ALL))
    return told | {"by_study": study_rows(chosen, points), "by_contrast": compared}, points


def _say(study: str) -> None:
    sys.stderr.write(f"\r{study:40}")
    sys.stderr.flush()


def table(told: dict[str, Any]) -> str:
    """Return the table that is shown, misses first."""
    lines = [
        "studies {studies}, admitted {admitted}, refused {refused}, held out {held_out}; here: {part}".format(**told),
        "points {points} (pH {ph_points})".format(**told),
        "within 0.3 pH {within_0_3_ph_share:.2f} (rule {within_0_3_ph_share_baseline:.2f})".format(**told),
        "coverage of 90 % intervals {coverage_90:.2f} ({coverage_low:.2f} to {coverage_high:.2f})".format(**told),
        "studies weighing the same {coverage_by_study:.2f}, two-sided {coverage_two_sided:.2f}".format(**told),
        "score of pH {score:.2f}, rule {score_baseline:.2f}; of all {score_all:.2f}".format(**told),
        f"contrasts right {told['contrasts_right']} of {told['contrasts']}",
        "",
        f"{'study':24} {'points':>6} {'covered':>7} {'score':>7} {'pH':>7} {'rule':>7}",
    ]
    lines += [
        f"{row['study']:24} {row['points']:6d} {row['coverage_90']:7.2f} {row['score_all']:7.2f} "
        f"{row['score']:7.2f} {row['score_baseline']:7.2f}"
        for row in told["by_study"]
    ]
    wrong = [row for row in told["by_contrast"] if not row["right"]]
    lines += ["", "contrasts that are wrong:"] if wrong else []
    lines += [
        f"{row['id']} {row['study']}: {row['quantity']} of {row['run_a']} {row['a_is']} than of {row['run_b']}, "
        f"said {row['difference']:+.2g}"
        for row in wrong
    ]
    return "\n".join(lines)


def write(told: dict[str, Any], points: Sequence[Point], out: Path) -> None:
    """Leave the numbers and every point with what was said of it."""
    out.mkdir(parents=True, exist_ok=True)
    (out / "validation.json").write_text(json.dumps(_finite(told), indent=1) + "\n", encoding="utf-8")
    with (out / "validation_points.csv").open("w", encoding="utf-8", newline="") as file:
        rows = [_row(each) for each in sorted(points, key=lambda each: -each.score)]
        writer = csv.DictWriter(file, list(rows[0]) if rows else [], lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def _row(point: Point) -> dict[str, Any]:
    said = {f"said_{name}": f"{value:.3g}" for name, value in asdict(point.said).items()}
    seen = asdict(point.seen)
    ruled = f"{score_of(point.by_rule, point.seen):.3g}" if point.by_rule else ""
    judged = {"miss": f"{point.miss:+.3g}", "covered": point.covered, "score": f"{point.score:.3g}"}
    return {"study": point.study, "run": point.run} | seen | said | judged | {"score_baseline": ruled}


def _finite(value: Any) -> Any:  # noqa: ANN401 - what JSON holds
    """Return what is no number as nothing, which JSON can hold."""
    if isinstance(value, dict):
        return {name: _finite(each) for name, each in value.items()}
    if isinstance(value, list):
        return [_finite(each) for each in value]
    return None if isinstance(value, float) and not math.isfinite(value) else value


def part_of(
    name: str, every: tuple[Study, ...], pairs: tuple[Contrast, ...], *, members: int
) -> tuple[dict[str, Any], list[Point]]:
    """Return the numbers and the points of one part of the studies."""
    chosen = tuple(each for each in every if PARTS[name](each))
    told, points = validated(chosen, open_studies(every), pairs, members=members)
    refused = refused_count()
    whole = {
        "part": name,
        "studies": len(every) + refused,
        "admitted": len(every),
        "refused": refused,
        "held_out": sum(each.is_held_out for each in every),
    }
    return whole | told, points


def main(arguments: Sequence[str] | None = None, *, studies: tuple[Study, ...] | None = None, out: Path = OUT) -> int:
    """Run the studies, show a table of each part and leave the numbers: those of what is held out come first."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--open", action="store_true", help="run only what is not held out")
    parser.add_argument("--members", type=int, default=MEMBERS)
    asked = parser.parse_args(arguments)
    every, pairs = load_studies() if studies is None else studies, load_contrasts()
    names = [OPEN] if asked.open else [name for name, holds in PARTS.items() if any(map(holds, every))]
    found = {name: part_of(name, every, pairs, members=asked.members) for name in names}
    shown = [table(told) for told, _ in found.values()]
    told = found[names[0]][0] | {name.replace(" ", "_"): found[name][0] for name in names[1:]}
    points = [each for name in names if name != FRESH for each in found[name][1]]  # the fresh ones are held out too
    write(told, points, out)
    sys.stderr.write("\r")
    sys.stdout.write("\n\n".join(shown) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
