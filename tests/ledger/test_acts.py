"""An act is kept whole or not at all, and undo reaches back to the first day."""

import itertools
import sqlite3
from dataclasses import replace
from datetime import UTC, datetime

import pytest
import sqlalchemy as sa

from greenroom.ledger import BadFactError, Ledger, LedgerError
from greenroom.ledger.errors import LedgerUnavailableError, UnknownFactError
from tests.ledger.checks import FIRST_MOMENT, assert_one_sentence, everything, sown
from tests.ledger.examples import EXAMPLES, all_examples


class InterruptionError(Exception):
    """What a test throws into the middle of an act."""


class Saboteur:
    """Breaks the n-th statement sent to any database, or the commit if ``n`` is "commit"."""

    def __init__(self, n, error):
        self._n = n
        self._error = error
        self._seen = 0
        self.struck = False

    def __enter__(self):
        sa.event.listen(sa.Engine, "before_cursor_execute", self._statement)
        sa.event.listen(sa.Engine, "commit", self._commit)
        return self

    def __exit__(self, *_):
        sa.event.remove(sa.Engine, "before_cursor_execute", self._statement)
        sa.event.remove(sa.Engine, "commit", self._commit)

    def _statement(self, *_):
        self._seen += 1
        if self._seen == self._n:
            self.struck = True
            raise self._error

    def _commit(self, _):
        if self._n == "commit":
            self.struck = True
            raise self._error


def a_big_act(ledger):
    """Write facts of every kind, strike one fact out and restore another, in one act."""
    return ledger.do("much at once", record=all_examples(), strike=["standing"], restore=["struck"])


def prepared(open_ledger) -> Ledger:
    """Return a ledger with something to undo, something to redo, and facts to strike and restore."""
    ledger = open_ledger()
    ledger.record(replace(sown(1), id="standing"), replace(sown(2), id="struck"), name="the first act")
    ledger.strike("struck", name="struck one out")
    ledger.record(sown(5), name="a third act")
    ledger.undo()
    assert (ledger.undo_name, ledger.redo_name) == ("struck one out", "a third act")
    return ledger


def break_everywhere(open_ledger, act, error, expected, step=1):
    """Break ``act`` at its commit and at each ``step``-th statement; each time all is as before.

    Count the breaks.
    """
    ledger = prepared(open_ledger)
    before = everything(ledger)
    breaks = 0
    for n in itertools.chain(["commit"], itertools.count(1, step)):
        with Saboteur(n, error) as saboteur:
            whole = not broken(ledger, act, expected)
        assert saboteur.struck is not whole
        if whole:
            break
        breaks += 1
        assert everything(ledger) == before
    assert everything(ledger) != before
    return breaks


def broken(ledger, act, expected) -> bool:
    """Carry out an act; tell whether it raised what was expected."""
    try:
        act(ledger)
    except expected:
        return True
    return False


each_deed = pytest.mark.parametrize(
    ("act", "at_least"), [(a_big_act, 25), (Ledger.undo, 8), (Ledger.redo, 8)], ids=["do", "undo", "redo"]
)


@each_deed
def test_an_act_that_breaks_anywhere_leaves_facts_and_both_undo_directions_alone(
    act, at_least, kept_in, open_ledger
):
    step = 1 if kept_in == "file" else 8
    breaks = break_everywhere(open_ledger, act, InterruptionError(), InterruptionError, step)
    assert breaks >= at_least // step


@each_deed
def test_a_disk_that_fails_anywhere_leaves_facts_and_both_undo_directions_alone(
    act, at_least, path, open_ledger
):
    error = sqlite3.OperationalError("disk I/O error")
    assert break_everywhere(open_ledger, act, error, LedgerError) >= at_least


def test_after_an_act_that_broke_a_restart_finds_everything_as_before(open_ledger):
    ledger = prepared(open_ledger)
    before = everything(ledger)
    for n in ("commit", 2, 9, 30):
        with Saboteur(n, InterruptionError()), pytest.raises(InterruptionError):
            a_big_act(ledger)
        ledger = open_ledger()
        assert everything(ledger) == before


def test_a_full_disk_keeps_nothing_of_the_act_and_the_next_one_works(path, ledger):
    ledger.record(sown(0), name="before")
    before = everything(ledger)
    raw = ledger._connection.connection.driver_connection
    pages = raw.execute("PRAGMA page_count").fetchone()[0]
    raw.execute(f"PRAGMA max_page_count={pages + 1}")
    with pytest.raises(LedgerUnavailableError, match="is full, so nothing was written") as caught:
        ledger.record(*(sown(row=row, column=column) for row in range(50) for column in range(50)))
    assert_one_sentence(str(caught.value))
    assert everything(ledger) == before
    raw.execute(f"PRAGMA max_page_count={pages + 1000}")
    ledger.record(sown(1))
    assert len(ledger.facts()) == 2


def test_one_bad_fact_keeps_the_whole_act_out(ledger):
    before = everything(ledger)
    with pytest.raises(BadFactError):
        ledger.record(sown(1), sown(column=100), sown(2))
    assert everything(ledger) == before


def test_a_fact_is_written_once(ledger):
    fact = sown()
    ledger.record(fact)
    before = everything(ledger)
    with pytest.raises(BadFactError, match="was written before"):
        ledger.record(sown(1), fact)
    assert everything(ledger) == before
    ledger.undo()
    with pytest.raises(BadFactError, match="was written before; restore it"):
        ledger.record(fact)
    with pytest.raises(BadFactError, match="two facts of one act have the id"):
        ledger.record(sown(1), twin := sown(2), twin)


def test_an_act_that_does_nothing_is_refused(ledger):
    for nothing in (ledger.record, ledger.strike, ledger.restore, lambda: ledger.do("nothing")):
        with pytest.raises(BadFactError, match="needs at least one fact"):
            nothing()
    assert ledger.acts() == []


def test_striking_out_what_is_not_there_is_refused_whole(ledger):
    facts = [sown(column) for column in range(3)]
    ledger.record(*facts)
    ledger.strike(facts[2].id)
    before = everything(ledger)
    for act, ids, words in (
        (ledger.strike, (facts[0].id, "no such id"), "There is no fact 'no such id' in "),
        (ledger.restore, ("no such id",), "There is no fact"),
        (ledger.strike, (facts[0].id, facts[2].id), "is struck out already"),
        (ledger.restore, (facts[2].id, facts[0].id), "is not struck out"),
    ):
        with pytest.raises(UnknownFactError, match=words) as caught:
            act(*ids)
        assert_one_sentence(str(caught.value))
        assert everything(ledger) == before


def test_naming_a_fact_twice_strikes_it_out_once(ledger):
    fact = sown()
    ledger.record(fact)
    assert len(ledger.strike(fact.id, fact.id).removed) == 1
    assert len(ledger.restore(fact.id, fact.id).added) == 1


def test_one_act_can_correct_a_fact_and_one_undo_brings_the_old_one_back(open_ledger):
    wrong, right = sown(1), sown(2)
    ledger = open_ledger()
    ledger.record(wrong)
    change = ledger.do("corrected", strike=[wrong.id], record=[right])
    assert ([entry.fact for entry in change.added], [entry.fact for entry in change.removed]) == (
        [right],
        [wrong],
    )
    assert ledger.facts() == [right]
    undone = open_ledger().undo()
    assert (undone.added, undone.removed) == (change.removed, change.added)
    assert open_ledger().facts() == [wrong]


def test_undo_reaches_back_to_the_first_day_after_any_number_of_restarts(open_ledger):
    for column in range(12):
        open_ledger().record(sown(column), name=f"act {column}")
    for column in reversed(range(12)):
        ledger = open_ledger()
        assert ledger.undo_name == f"act {column}"
        assert [entry.fact.column for entry in ledger.undo().removed] == [column]
    ledger = open_ledger()
    assert (ledger.facts(), ledger.undo_name, ledger.undo()) == ([], None, None)
    for column in range(12):
        ledger = open_ledger()
        assert ledger.redo_name == f"act {column}"
        ledger.redo()
    assert (ledger.redo_name, ledger.redo()) == (None, None)
    assert [fact.column for fact in open_ledger().facts()] == list(range(12))


def test_a_new_act_clears_what_could_be_redone(open_ledger):
    ledger = open_ledger()
    ledger.record(sown(0), name="kept")
    ledger.record(sown(1), name="undone")
    ledger.undo()
    ledger.record(sown(2), name="new")
    assert (ledger.undo_name, ledger.redo_name, ledger.redo()) == ("new", None, None)
    ledger.undo()
    assert (ledger.undo_name, ledger.redo_name) == ("kept", "new")
    assert open_ledger().redo_name == "new"


def test_undo_of_striking_and_of_restoring(open_ledger):
    fact = sown()
    ledger = open_ledger()
    ledger.record(fact)
    ledger.strike(fact.id)
    ledger.restore(fact.id)
    assert (ledger.undo().removed[0].fact, ledger.facts()) == (fact, [])
    assert (ledger.undo().added[0].fact, ledger.facts()) == (fact, [fact])
    assert (open_ledger().redo().removed[0].fact, open_ledger().facts()) == (fact, [])


def test_the_history_says_what_when_where_and_by_whom(open_ledger):
    ledger = open_ledger()
    ledger.record(sown(), name="sowed Tray A")
    ledger.record(sown(1))
    ledger.record(sown(2), sown(3))
    ledger.undo()
    acts = ledger.acts()
    assert [(act.number, act.deed, act.name, act.reverses) for act in acts] == [
        (4, "undo", "2 × sowing", 3),
        (3, "do", "2 × sowing", None),
        (2, "do", "sowing", None),
        (1, "do", "sowed Tray A", None),
    ]
    assert {(act.zone, act.who) for act in acts} == {("Europe/Oslo", "grower")}
    assert acts[0].written > acts[1].written > acts[-1].written > FIRST_MOMENT
    assert (ledger.act(1), ledger.acts(last=2)) == (acts[-1], acts[:2])
    with pytest.raises(UnknownFactError, match="no act of the number 5"):
        ledger.act(5)
    assert open_ledger().acts() == acts


def test_an_act_without_a_name_is_named_for_what_it_wrote(ledger):
    note, held = EXAMPLES["note"][0], EXAMPLES["held"][0]
    ledger.record(sown(0), note, sown(1), held)
    assert ledger.undo_name == "2 × sowing, note, day kept in"
    ledger.strike(note.id)
    assert ledger.undo_name == "struck out"
    ledger.restore(note.id)
    assert ledger.undo_name == "restored"


def test_every_entry_names_the_act_that_wrote_it(ledger):
    ledger.record(sown(0))
    ledger.record(sown(1), sown(2))
    assert [(entry.number, entry.act) for entry in ledger.entries()] == [(1, 1), (2, 2), (3, 2)]


def test_an_act_is_dated_by_the_clock_given_to_the_ledger(path):
    moment = datetime(2025, 3, 1, 12, tzinfo=UTC)
    with Ledger.open(path, clock=lambda: moment) as ledger:
        assert ledger.record(EXAMPLES["held"][0]).act.written == moment
        assert ledger.acts()[0].written == moment
        assert ledger.acts()[0].who


def test_a_large_act_is_one_act(open_ledger):
    facts = [sown(row=row, column=column) for row in range(40) for column in range(40)]
    ledger = open_ledger()
    ledger.record(*facts)
    ledger.strike(*(fact.id for fact in facts))
    assert ledger.facts() == []
    assert len(open_ledger().undo().added) == 1600
    assert open_ledger().facts() == facts


def test_a_closed_ledger_says_so(ledger):
    ledger.close()
    ledger.close()
    for ask in (ledger.facts, ledger.undo, lambda: ledger.record(sown())):
        with pytest.raises(LedgerUnavailableError, match="was closed before; open it again") as caught:
            ask()
        assert_one_sentence(str(caught.value))
