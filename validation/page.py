"""Writes docs/validation.md from what `make validate` left: python -m validation.page."""

import json
import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

ROOT: Final = Path(__file__).parent.parent
WORDS: Final = """# The model of a vessel against published ferments

`make validate` follows every run of `validation/studies/` as it was made, and holds what was printed against the 90 %
interval that the model gave. The rule of admission, the rules for missing inputs and the choice of what is held out
were written down before any run ([admission.md](../validation/admission.md)); what was looked at and refused is listed
with its reason. What is held out was looked at when the values of the model stood as they do now: a first part once,
and then, with no value changed, a fresh part that was searched for after that look. It is no test of anything that is
changed since. One thing was: mould that has no air wastes, where before it kept its mass. It was added for vessels that
stand for years and not for any study here; run again, no pair changed sides, and scores moved by 0.02 at the most.

## What it misses, first

* **Pairs, at the first look.** Of 38 pairs 28 came out in the printed direction by their middle members; three quarters
  would have been 29. A middle member that never arrives loses a pair in days whatever the others do, so pairs are now
  held member by member, which was settled on what is not held out, before the fresh part was run. By that
  {contrasts_right} of {contrasts} are right, and of the fresh part alone {fresh_right} of {fresh_contrasts}.
* **The fresh part is one-sided.** It is mostly pairs, with much lucerne and water hyacinth, without kitchen waste or
  fish; there the model's score of pH is {fresh_score:.2f} against {fresh_rule:.2f}, less ahead than on the first part.
* **Lucerne carries the coverage.** One study holds 64 of the {points} points held out. Without it {without:.0%} of the
  points lie in their intervals ({without_low:.0%} to {without_high:.0%}): they are too narrow.
* **Lucerne in the warm.** It soured best at 15 °C, and worse at 25 and 35 °C; the model has it the other way.
* **Crab and shrimp carry much of the margin.** They stayed near pH 7, where a rule that says 4.2 is far off. Even so
  the model sours them too far: it knows too little of the lime in their shells. Kelp that did not sour is missed too.
* **Fish with tapioca or maize** soured below 4.5 within a week; the model says 5 to 6.5. Starch is
  split too slowly in it, and a culture brings nothing that splits it.
* **The cold near freezing.** Radish kimchi at 0 °C was at 4.0 on day 18; the model says 5.1 to 5.9.
* **Amounts of acid.** Where sugar abounds (poultry with solubles, orange peel) the printed lactic acid is two to three
  times the model's, and its acetic acid is too much; lactic bacteria of half a year are dead in it and were alive.
* **Pressing, wilting and dry stuff.** Brewers' grains that were pressed, lucerne that was wilted, potato pulp with
  maize or hay come out on the wrong side: the model gives a drier mass more sugar to a kilogram of water, and nothing
  that slows it.

## What was fitted

Nothing by a search. Of the three values that might have been (rate of lactic growth, buffering, and the acid at which
lactic bacteria stop) a search over what is not held out ran to 2.6 per hour, about twice what broths have shown (1.0
to 1.3), so it was not taken. The rate between studies was set to 1.3 (0.75 to 2.2) in sight of what is not held out;
the other two stand by judgement. `python -m validation.fit` repeats the search within what is possible.

## What the plan goes by

The plan lives a year of many vessels and follows none of them. It waits a fortnight at 20 °C, by custom, and at other
temperatures as the model sours: `tools/response.py` writes when it does, by mix, dose of bran and temperature
(`evidence/data/response.csv`), and the curve nearest to that (least -2.2, best 32 °C). The model calls a vessel ready
sooner than custom does, after about a week at 20 °C; no keeper's account bears that out, so the plan does not use it.

## What it is measured against

Beside it stands the thermal-time rule by custom (sour after half of a fortnight at 20 °C, then pH 4.2), with the one
spread that suits it best on what is not held out.

"""


def table(told: dict[str, Any]) -> Iterator[str]:
    """Give the lines of one part."""
    low, high = told["coverage_low"], told["coverage_high"]
    yield "| | model | rule |"
    yield "| --- | --- | --- |"
    yield f"| studies, points (of pH) | {len(told['by_study'])}, {told['points']} ({told['ph_points']}) | |"
    yield f"| interval score of pH, less is better | {told['score']:.2f} | {told['score_baseline']:.2f} |"
    share = f"{told['coverage_90']:.0%} ({low:.0%} to {high:.0%})"
    yield f"| points whose 90 % interval holds what was seen | {share} | |"
    near, rule = told["within_0_3_ph_share"], told["within_0_3_ph_share_baseline"]
    yield f"| points within 0.3 pH (no goal: a constant does nearly as well) | {near:.0%} | {rule:.0%} |"
    yield f"| contrasts in the printed direction | {told['contrasts_right']} of {told['contrasts']} | |"
    yield ""
    yield "| study | points | held | score | of pH | rule |"
    yield "| --- | --- | --- | --- | --- | --- |"
    for row in told["by_study"]:
        cells = (row["points"], f"{row['coverage_90']:.0%}", *map(shown, (row["score_all"], row["score"])))
        yield f"| {row['study']} | {' | '.join(map(str, cells))} | {shown(row['score_baseline'])} |"
    wrong = [row for row in told["by_contrast"] if not row["right"]]
    yield ""
    yield (
        "Contrasts on the wrong side, by their id in `contrasts.csv`: "
        + ", ".join(f"{row['id']} {row['study']} ({row['quantity']})" for row in wrong)
        + "."
    )


def shown(value: float | None) -> str:
    """Return a score, or nothing where there is none."""
    return "" if value is None or math.isnan(value) else f"{value:.2f}"


def page(told: dict[str, Any]) -> str:
    """Return the whole page."""
    apart, fresh = told["without_alfalfa_sucrose"], told["fresh"]
    words = WORDS.format(
        contrasts_right=told["contrasts_right"],
        contrasts=told["contrasts"],
        points=told["points"],
        fresh_right=fresh["contrasts_right"],
        fresh_contrasts=fresh["contrasts"],
        fresh_score=fresh["score"],
        fresh_rule=fresh["score_baseline"],
        without=apart["coverage_90"],
        without_low=apart["coverage_low"],
        without_high=apart["coverage_high"],
    )
    later = ("", "## Of these, found after the first look", *table(fresh))
    parts = ("## Held out", *table(told), *later, "", "## Not held out", *table(told["not_held_out"]))
    return words + "\n".join(("\n" + each + "\n") if each.startswith("## ") else each for each in parts).lstrip() + "\n"


if __name__ == "__main__":
    numbers = json.loads((ROOT / "out" / "validation.json").read_text("utf-8"))
    (ROOT / "docs" / "validation.md").write_text(page(numbers), encoding="utf-8")
