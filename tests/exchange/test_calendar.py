"""The tasks as iCalendar: read by vobject, which did not write them, and held to RFC 5545 by its bytes."""

from datetime import UTC, date, datetime
from types import SimpleNamespace

import pytest
import vobject
from hypothesis import given
from hypothesis import strategies as st

from sourloam.exchange.calendar import CATEGORIES, plan_calendar, uid_of
from sourloam.plan.answer import Task
from sourloam.plan.tasks import KINDS
from sourloam.service.plan import plan_site
from tests.architecture.tree import ROOT

STAMP = datetime(2027, 3, 1, 7, 30, tzinfo=UTC)
ODD = st.text(st.characters(exclude_categories=("Cs",)), max_size=200)


def view_of(*tasks, site="Quillet Yard"):
    return SimpleNamespace(site=site, site_id="quillet-yard", tasks=tasks)


def seal(*, what="Press Blue down and seal it", because="It is full.", on=date(2027, 3, 17)):
    return Task("seal:blue-1/2", "blue-1/2", on, what, because)


def read(content):
    return vobject.readOne(content.decode())


def events(content):
    return {each.uid.value: each for each in read(content).vevent_list}


@pytest.fixture(scope="module")
def flat():
    return plan_site(ROOT / "tests" / "sites" / "flat.toml")


@pytest.fixture(scope="module")
def cool_flat(tmp_path_factory):
    text = (ROOT / "tests" / "sites" / "flat.toml").read_text("utf-8")
    path = tmp_path_factory.mktemp("site") / "flat.toml"
    path.write_text(text.replace("start = 2027-01-04", 'start = 2027-01-04\nindoors = "15 C"'), "utf-8")
    return plan_site(path)


def test_a_stranger_reads_every_task_of_a_plan_with_its_day_and_reason(flat):
    found = events(plan_calendar(flat, stamp=STAMP))
    assert {uid: (each.dtstart.value, each.summary.value, each.description.value) for uid, each in found.items()} == {
        uid_of(task, "flat"): (task.date, task.what, task.because) for task in flat.tasks
    }
    assert len(found) == len(flat.tasks) > 20


def test_a_task_is_a_whole_day_that_blocks_no_appointment():
    (event,) = events(plan_calendar(view_of(seal()), stamp=STAMP)).values()
    assert event.dtstart.params["VALUE"] == ["DATE"]
    assert event.dtstart.value == date(2027, 3, 17)
    assert not hasattr(event, "dtend")  # RFC 5545, 3.6.1: a date without an end is one day
    assert (event.transp.value, event.dtstamp.value) == ("TRANSPARENT", STAMP)
    assert event.categories.value == ["Vessels"]


def test_a_task_that_moved_keeps_its_id(flat, cool_flat):
    before, after = (events(plan_calendar(view, stamp=STAMP)) for view in (flat, cool_flat))
    moved = [uid for uid in before.keys() & after.keys() if before[uid].dtstart.value != after[uid].dtstart.value]
    assert "place:bucket/1@flat.sourloam" in moved  # a cool flat ferments for longer


def test_the_same_plan_and_stamp_give_the_same_bytes(flat):
    assert plan_calendar(flat, stamp=STAMP) == plan_calendar(flat, stamp=STAMP)


def test_ids_are_unique_in_a_calendar(flat):
    assert len({each.id for each in flat.tasks}) == len(flat.tasks)


@given(ODD, ODD, ODD)
def test_odd_names_come_back_as_they_were_but_for_control_characters(site, what, because):
    content = plan_calendar(view_of(seal(what=what, because=because), site=site), stamp=STAMP)
    (event,) = events(content).values()
    assert (event.summary.value, event.description.value) == (kept(what), kept(because))


def kept(text):
    """Return what a TEXT may hold (RFC 5545, 3.3.11): no control character but a line break."""
    one = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(" " if (ord(each) < 32 and each != "\n") or 127 <= ord(each) < 160 else each for each in one)


@given(ODD, ODD)
def test_lines_are_folded_at_75_octets_and_end_in_crlf(site, what):
    content = plan_calendar(view_of(seal(what=what), site=site), stamp=STAMP)
    lines = content.split(b"\r\n")
    assert lines[-1] == b""  # RFC 5545, 3.1: every line ends in CRLF, the last one too
    assert all(len(line) <= 75 and b"\n" not in line and b"\r" not in line for line in lines)
    assert all(line.decode() for line in lines[:-1])  # no character is cut in two


def test_commas_semicolons_backslashes_and_line_breaks_are_escaped():
    content = plan_calendar(view_of(seal(what="a, b; c\\d\ne")), stamp=STAMP)
    assert b"SUMMARY:a\\, b\\; c\\\\d\\ne\r\n" in content  # RFC 5545, 3.3.11


def test_the_calendar_says_who_made_it_and_whose_it_is():
    calendar = read(plan_calendar(view_of(seal(), site="Hut, north; blue"), stamp=STAMP))
    assert (calendar.version.value, calendar.prodid.value) == ("2.0", "-//Sourloam//Plan 1//EN")
    assert b"X-WR-CALNAME:Hut\\, north\\; blue\r\n" in plan_calendar(
        view_of(seal(), site="Hut, north; blue"), stamp=STAMP
    )


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_task_has_a_category(kind):
    assert CATEGORIES[kind]
