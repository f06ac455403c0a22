"""A logbook under whatever is done to it, beside a plain list of entries in memory; on both databases."""

import json
from datetime import date, timedelta
from itertools import count

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from sourloam.base.errors import BadInput
from sourloam.logbook import entries as of
from sourloam.logbook.entry import plain
from sourloam.logbook.fold import fold
from sourloam.service.book import Book, entries, held_open
from sourloam.service.record import By, log_value, undo, verify
from sourloam.service.so_far import is_kept_right, situation_of, state_of
from sourloam.store import kept, log
from tests.logbook.days import book as entries_of
from tests.logbook.days import known, layer
from tests.logbook.test_kept import MORE

KNOWN = known()
FIRST = date(2027, 3, 1)
DAYS = st.integers(0, 60).map(lambda each: FIRST + timedelta(days=each))
NUMBERS = count(1)


class Logbook(RuleBasedStateMachine):
    """What a keeper and a server do, and what must be so after each of it."""

    address: str
    engine = None

    @initialize()
    def begin(self):
        self.book = Book(self.address, f"yard-{next(NUMBERS)}", self.engine)
        held = entries_of()
        log.append(
            self.book.where, self.book.site, [], lambda _: [(each.id, log.text_of(plain(each))) for each in held]
        )
        self.model = list(held)

    @rule(value=MORE, on=DAYS, is_last=st.booleans())
    def write(self, value, on, is_last):
        """Write an entry of any day, most often at the end; what was kept is what the model holds."""
        day = max(on, *(each.on for each in self.model)) if is_last else on
        self.ask(lambda: log_value(self.book, value, By(on=day, id=f"x{len(self.model)}"), known=KNOWN))

    @rule(back=st.integers(1, 6))
    def take_back(self, back):
        target = self.model[-min(back, len(self.model))]
        self.ask(lambda: undo(self.book, By(id=f"x{len(self.model)}"), target.id))

    @rule(kg=st.floats(0.1, 3.0))
    @precondition(lambda self: any(isinstance(each.value, of.LayerAdded) for each in self.model))
    def put_right(self, kg):
        target = next(each for each in reversed(self.model) if isinstance(each.value, of.LayerAdded))
        right = of.Corrected(target.id, {"vessel": target.value.vessel, "parts": [["bread", kg]], "bran_kg": 0.0})
        self.ask(lambda: log_value(self.book, right, By(id=f"x{len(self.model)}"), known=KNOWN))

    @rule()
    @precondition(lambda self: len(self.model) > 1)
    def send_again(self):
        """Send the last entry again under its id: nothing is written."""
        again = log_value(self.book, layer(), By(id=self.model[-1].id), known=KNOWN)
        assert not again.is_new

    @rule(value=MORE, is_dropped=st.booleans())
    def forget_and_write(self, value, is_dropped):
        """A process ends, or what is kept is dropped; then somebody writes."""
        KNOWN.seen.clear()
        if is_dropped:
            kept.forget(self.book.where, self.book.site)
        on = max(each.on for each in self.model)
        self.ask(lambda: log_value(self.book, value, By(on=on, id=f"x{len(self.model)}"), known=KNOWN))

    def ask(self, write):
        before = len(self.model)
        try:
            view = write()
        except BadInput:
            assert len(entries(self.book)) == before
            return
        assert view.is_new
        line = log.lines(self.book.where, self.book.site)[-1]
        assert json.loads(line.text) == dict(view.line.plain)
        self.model.append(entries(self.book)[-1])

    @invariant()
    def the_book_is_the_model_and_what_is_kept_is_the_fold(self):
        if not hasattr(self, "model"):
            return
        assert list(entries(self.book)) == self.model
        folded = fold(self.model, KNOWN.knows)
        assert is_kept_right(self.book, KNOWN, self.model)
        assert state_of(self.book, KNOWN) == folded
        assert situation_of(self.book, KNOWN) == folded.situation
        assert folded.situation.bran_kg >= 0.0
        assert verify(self.book) == (len(self.model), ())


def run(address, examples):
    with held_open(address) as engine:
        machine = type("Here", (Logbook,), {"address": address, "engine": engine})
        quiet = [HealthCheck.too_slow, HealthCheck.filter_too_much]
        run_state_machine_as_test(
            machine,
            settings=settings(
                max_examples=examples, stateful_step_count=14, deadline=None, suppress_health_check=quiet
            ),
        )


def test_a_logbook_in_a_file(tmp_path):
    run(str(tmp_path / "book.sourloam"), 25)


@pytest.mark.needs_system("pg_ctlcluster")
def test_a_logbook_on_a_server(server):
    run(server, 10)
