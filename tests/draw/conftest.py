"""Plans to be drawn: those of the repository, one with many vessels in a cold place, hard names, crops too soon."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from sourloam.base.days import Span
from sourloam.plan.words import Speech
from sourloam.service.plan import plan_site

ROOT = Path(__file__).parents[2]

HARD_NAMES = (
    "The big blue bucket with a crooked handle beside the cellar stairs",
    "Donaudampfschifffahrtsgesellschaftskapitänskajüte",
    "<b>&\"'</b>",
    "صندوق التربة الكبير خلف البيت",
    "x",
)


@pytest.fixture(scope="session")
def views():
    demo = plan_site(ROOT / "examples" / "quillet_yard.toml")
    named = {each: f"{HARD_NAMES[at % len(HARD_NAMES)]} {at}" for at, each in enumerate(demo.names)}
    return {
        "demo": demo,
        "two_vessels": plan_site(ROOT / "tests" / "sites" / "two_vessels.toml"),
        "flat": plan_site(ROOT / "tests" / "sites" / "flat.toml"),
        "many": many(demo),
        "long_names": replace(demo, names=named),
        "us": replace(demo, speech=Speech("us")),
        "too_soon": replace(demo, ground=tuple(hurried(each) for each in demo.ground)),
    }


def many(view):
    """Return a plan with 14 vessels, of which one is never used, and frozen ground for long and for short."""
    batches, levels, names = list(view.batches), dict(view.levels), dict(view.names)
    shelf = list(view.shelf.vessels)
    for copy in range(2, 5):
        for each in view.shelf.vessels:
            vessel = f"{each.vessel}-{copy}"
            shelf.append(replace(each, vessel=vessel))
            names[vessel] = f"Tall pail {len(shelf)}"
            for batch in (batch for batch in view.batches if batch.vessel == each.vessel and copy < 4):
                batches.append(replace(batch, id=f"{batch.id}-{copy}", vessel=vessel))
                levels[batches[-1].id] = view.levels.get(batch.id, ())
    start = view.last.replace(month=1, day=12)
    frozen = tuple(
        Span(start + timedelta(days=at), start + timedelta(days=at + more)) for at, more in ((0, 25), (30, 1))
    )
    shown = replace(view.shelf, vessels=tuple(shelf[:14]))
    kept = {each.vessel for each in shown.vessels}
    batches = [each for each in batches if each.vessel in kept]
    return replace(view, batches=tuple(batches), levels=levels, names=names, shelf=shown, frozen=frozen)


def hurried(ground):
    """Return a bed with crops on days on which it rests, close together and at both ends of the year."""
    if ground.kind != "bed" or not ground.plantings:
        return ground
    (crop, on, _), *_ = ground.plantings
    early = on.replace(month=4, day=5)
    ends = (
        ("broad bean", early.replace(month=3, day=1), ""),
        ("garlic", on.replace(year=on.year + 1, month=2, day=27), ""),
    )
    soon = "too soon: the bed rests until 5 May, 30 days longer"
    again = tuple((f"{crop} {at}", early.replace(day=5 + 4 * at), soon) for at in range(3))
    return replace(ground, plantings=(ends[0], *again, *ground.plantings, ends[1]))


@pytest.fixture(params=["demo", "two_vessels", "flat", "many", "long_names", "us", "too_soon"])
def view(request, views):
    return views[request.param]
