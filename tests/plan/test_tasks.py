"""`plan.tasks`: what to do when, under ids that stay when a day moves."""

import re
from itertools import pairwise

import pytest

from tests.plan.plans import DEMO, FILES, PAILS, asked, garden, planned

every_plan = pytest.mark.parametrize("name", FILES)
SUBJECT = r"(?:[a-z][a-z0-9-]*/[1-9][0-9]*|[a-z][a-z0-9-]*)"


def kind_of(task):
    return task.id.partition(":")[0]


def of_kind(plan, *kinds):
    return [each for each in plan.tasks if kind_of(each) in kinds]


@every_plan
def test_a_task_is_named_by_its_kind_and_its_subject_once(name):
    tasks = planned(name).tasks
    assert len({each.id for each in tasks}) == len(tasks)
    for task in tasks:
        kind, _, subject = task.id.partition(":")
        assert re.fullmatch(r"[a-z]+", kind)
        assert re.fullmatch(SUBJECT, task.subject)
        assert re.fullmatch(re.escape(task.subject) + r"(?:/[1-9][0-9]*)?", subject)


@every_plan
def test_the_subject_of_a_task_is_a_batch_a_culture_or_a_bed(name):
    plan = planned(name)
    batches = {each.id for each in plan.batches}
    cultures = {f"{what}/{lot.number}" for what in ("bran", "serum") for lot in plan.bran}
    beds = {each.id for each in asked(name).site.beds}
    assert {each.subject for each in plan.tasks} <= batches | cultures | beds | {"scraps"}


@every_plan
def test_tasks_come_in_the_order_of_their_days_and_lie_in_the_year(name):
    plan = planned(name)
    days = [each.date for each in plan.tasks]
    assert days == sorted(days)
    assert all(plan.first <= each <= plan.last for each in days)


@every_plan
def test_a_task_says_what_to_do_and_why(name):
    for task in planned(name).tasks:
        assert task.what[0].isupper()
        assert task.because.endswith(".")
        assert "{" not in task.what + task.because


@every_plan
def test_every_batch_has_its_tasks(name):
    plan = planned(name)
    ids = {each.id: each.date for each in plan.tasks}
    for batch in plan.batches:
        assert ids[f"fill:{batch.id}"] == batch.first_layer
        if batch.sealed:
            assert ids[f"seal:{batch.id}"] == batch.sealed
        places = [on for task, on in ids.items() if re.fullmatch(f"place:{batch.id}(/[0-9]+)?", task)]
        assert sorted(places) == sorted(each.on for each in batch.placings)


def test_an_id_stays_when_the_start_moves_by_a_day():
    today, tomorrow = ({each.id: each for each in planned(PAILS, later).tasks} for later in (0, 1))
    half = planned(PAILS).first.replace(month=9)
    steady = [each for each in today if today[each].date < half and re.match(r"fill:|seal:", each)]
    assert len(steady) >= 8
    kept = [each for each in steady if each in tomorrow]
    assert len(kept) >= 0.9 * len(steady)
    assert all(today[each].subject == tomorrow[each].subject for each in kept)
    first = kept[:4]
    assert all(0 <= (tomorrow[each].date - today[each].date).days <= 4 for each in first)


@every_plan
def test_what_needs_digging_falls_on_a_day_with_time(name):
    plan, site = planned(name), asked(name).site
    takers = {each.id for each in site.takers}
    weekdays = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
    for batch in plan.batches:
        for placing in batch.placings:
            assert placing.place in takers or weekdays[placing.on.weekday()] in site.keeper.days


def test_a_draw_off_has_an_ordinal_that_counts_within_its_batch():
    draws = of_kind(planned(DEMO), "draw")
    assert len(draws) > 20
    numbers = {}
    for task in draws:
        numbers.setdefault(task.subject, []).append(int(task.id.rpartition("/")[2]))
    assert all(each == list(range(1, len(each) + 1)) for each in numbers.values())


def test_liquid_is_drawn_off_every_two_to_seven_days():
    # Common practice, no source. At the end of a batch so little comes that a draw-off may wait longer.
    waits = []
    for batch in planned(DEMO).batches:
        days = [each.date for each in of_kind(planned(DEMO), "draw") if each.subject == batch.id]
        waits += [(later - earlier).days for earlier, later in pairwise(days[:4])]
    assert min(waits) >= 2
    assert max(waits) <= 7


def test_a_planting_is_a_task_of_its_bed():
    _, _, plan = garden()
    (task,) = of_kind(plan, "plant")
    assert (task.id, task.subject) == ("plant:beans/1", "beans")
    assert "omato" in task.what


def test_one_day_begins_with_what_is_in_the_way_and_ends_with_what_fills_up_again():
    plan = planned(DEMO)
    for day in {each.date for each in plan.tasks}:
        kinds = [kind_of(each) for each in plan.tasks if each.date == day]
        if "seal" in kinds and "fill" in kinds:
            assert kinds.index("seal") < kinds.index("fill")
        if "place" in kinds and "fill" in kinds:
            assert kinds.index("place") < kinds.index("fill")
