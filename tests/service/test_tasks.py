"""What became of a task: it leaves the list, and what was done stands in the record."""

from datetime import date, timedelta

import pytest

from sourloam.base.errors import BadInput
from sourloam.logbook import entries as of
from sourloam.logbook.entry import plain
from sourloam.service.book import Book, entries
from sourloam.service.record import By
from sourloam.service.so_far import state_of
from sourloam.service.tasks import task_done, task_not_needed, task_put_off
from sourloam.service.today import today
from sourloam.store import log
from tests.logbook.days import book as entries_of
from tests.logbook.days import known, layer

KNOWN = known()


@pytest.fixture
def book(tmp_path):
    made = Book(str(tmp_path / "book.sourloam"), "yard")
    held = entries_of((0, layer(kg=8.0)), (5, of.Sealed("blue-1")), (5, layer("green")))
    log.append(made.where, made.site, [], lambda _: [(each.id, log.text_of(plain(each))) for each in held])
    return made


def job(book, kind, on):
    view = today(book, on, known=KNOWN)
    return next((each for each in (*view.now, *view.next) if each.id.startswith(kind)), None)


def first_day_of(book, kind):
    days = (date(2027, 3, 7) + timedelta(days=each) for each in range(60))
    return next((on, job(book, kind, on)) for on in days if job(book, kind, on) and job(book, kind, on).on <= on)


def test_a_batch_that_was_placed_is_placed_where_the_list_said(book):
    on, task = first_day_of(book, "place:")
    views = task_done(book, task.id, By(on=on), known=KNOWN)
    assert [each.line.plain["kind"] for each in views] == ["placed", "task"]
    state = state_of(book, KNOWN)
    assert state.vessel("blue-1").phase == "empty"
    assert job(book, task.id, on) is None


def test_a_task_that_is_sent_twice_is_kept_once(book):
    for _ in range(2):
        task_done(book, "seal:green/1", By(on=date(2027, 3, 9), id="phone-1"), known=KNOWN)
    kinds = [each.kind for each in entries(book)]
    assert (kinds.count("sealed"), kinds.count("task")) == (2, 1)
    assert state_of(book, KNOWN).vessel("green").phase == "fermenting"


def test_a_draw_off_is_written_down_where_its_amount_is_said(book):
    on, task = first_day_of(book, "draw:")
    views = task_done(book, task.id, By(on=on), amount=0.3, known=KNOWN)
    assert views[0].line.plain["value"] == {"vessel": "blue-1", "litres_l": 0.3}
    assert job(book, task.id, on).on > on


def test_a_task_that_is_put_off_comes_again_on_its_day(book):
    on, task = first_day_of(book, "draw:")
    later = on + timedelta(days=3)
    task_put_off(book, task.id, later, By(on=on), known=KNOWN)
    assert job(book, task.id, on).on == later
    with pytest.raises(BadInput, match="is not after"):
        task_put_off(book, task.id, on, By(on=on), known=KNOWN)


def test_a_task_that_is_not_needed_is_off_the_list_until_it_comes_again(book):
    on, task = first_day_of(book, "draw:")
    task_not_needed(book, task.id, By(on=on), known=KNOWN)
    assert job(book, task.id, on) is None
    assert job(book, task.id, on + timedelta(days=8)).on > on + timedelta(days=7)


def test_bran_that_came_dry_wants_its_weight(book):
    with pytest.raises(BadInput, match="how much bran came dry"):
        task_done(book, "bag:bran/1", By(on=date(2027, 3, 9)), known=KNOWN)
