"""When the surroundings fail, the grower is told within about a second, and nothing is half done."""

import os
import sqlite3
import subprocess
import sys
import threading
import time
from contextlib import closing, contextmanager

import pytest
import sqlalchemy as sa

from greenroom.ledger import Ledger
from greenroom.ledger.errors import LedgerUnavailableError
from tests.ledger.checks import assert_one_sentence, everything, refused, sown

PATIENCE_SECONDS = 3.0  # what a test grants a call that waits for one second, on a busy machine
HOLD = (
    "import sqlite3, sys; held = sqlite3.connect(sys.argv[1], isolation_level=None); "
    "held.execute('BEGIN EXCLUSIVE'); print('held', flush=True); sys.stdin.read()"
)


@contextmanager
def held_by_another_program(path):
    """Have another process lock the ledger."""
    with subprocess.Popen(
        [sys.executable, "-c", HOLD, str(path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as other:
        assert other.stdout.readline() == "held\n"
        yield
        other.communicate(timeout=20)


@contextmanager
def held_in_this_program(path, statement="BEGIN EXCLUSIVE"):
    """Have another connection lock the ledger."""
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute(statement)
        other.execute("SELECT count(*) FROM fact").fetchone()
        yield
        other.execute("ROLLBACK")


@contextmanager
def told_soon(*words):
    """Expect to be told in one sentence, soon, that the ledger is not to be had."""
    start = time.monotonic()
    with pytest.raises(LedgerUnavailableError) as caught:
        yield
    assert time.monotonic() - start < PATIENCE_SECONDS
    assert_one_sentence(str(caught.value))
    for word in words:
        assert word in str(caught.value)


def test_a_ledger_held_by_another_program_cannot_be_opened_but_is_not_hurt(path):
    with Ledger.open(path) as ledger:
        ledger.record(sown())
    with held_by_another_program(path), refused(path, LedgerUnavailableError, "in use by another program"):
        Ledger.open(path)
    with Ledger.open(path) as ledger:
        assert len(ledger.facts()) == 1


@pytest.mark.parametrize(
    ("statement", "act"),
    [
        ("BEGIN EXCLUSIVE", Ledger.redo),
        ("BEGIN IMMEDIATE", lambda ledger: ledger.record(sown(2))),
        ("BEGIN", lambda ledger: ledger.record(sown(2))),
        ("BEGIN", Ledger.redo),
    ],
)
def test_a_mark_made_while_another_program_holds_the_ledger_is_refused_whole(statement, act, ledger, path):
    """Plain BEGIN is a reader, as a backup is: it holds the act up only at the very commit."""
    ledger.record(sown(0), name="kept")
    ledger.record(sown(1), name="undone")
    ledger.undo()
    before = everything(ledger)
    with held_in_this_program(path, statement), told_soon("in use by another program", "nothing was done"):
        act(ledger)
    assert everything(ledger) == before
    ledger.redo()
    assert (ledger.undo_name, len(ledger.facts())) == ("undone", 2)


def test_reading_needs_no_writers_lock(ledger, path):
    ledger.record(sown())
    with held_in_this_program(path, "BEGIN IMMEDIATE"):
        assert len(ledger.facts()) == 1
        assert ledger.undo_name == "sowing"


def test_an_act_keeps_other_writers_off_from_its_first_look(ledger, path):
    """Else two programs could give two facts one number, or each wait for the other."""

    def try_to_write(connection, cursor, statement, *_):
        if statement.startswith("SELECT"):
            with closing(sqlite3.connect(path, isolation_level=None, timeout=0)) as other:
                with pytest.raises(sqlite3.OperationalError, match="database is locked"):
                    other.execute("BEGIN IMMEDIATE")
                tries.append(statement)

    tries = []
    sa.event.listen(sa.Engine, "after_cursor_execute", try_to_write)
    try:
        ledger.record(sown())
    finally:
        sa.event.remove(sa.Engine, "after_cursor_execute", try_to_write)
    assert len(tries) >= 2


def test_a_short_hold_is_waited_for(ledger, path):
    def hold():
        with held_in_this_program(path):
            held.set()
            time.sleep(0.2)

    held = threading.Event()
    other = threading.Thread(target=hold)
    other.start()
    held.wait()
    ledger.record(sown())
    other.join()
    assert len(ledger.facts()) == 1


@pytest.mark.skipif(os.name != "posix", reason="elsewhere an open file cannot be moved")
@pytest.mark.parametrize("fate", ["moved", "deleted", "replaced"])
def test_a_ledger_that_is_moved_away_while_open_takes_no_mark(fate, ledger, path, tmp_path):
    """SQLite would write on into a file that no name leads to: the mark would be gone on closing."""
    ledger.record(sown(0))
    before = everything(ledger)
    away = tmp_path / "moved.greenroom"
    path.rename(away)
    if fate == "replaced":
        path.write_bytes(away.read_bytes())
    elif fate == "deleted":
        away.unlink()
    with told_soon("was moved, replaced or deleted while it was open, so nothing was written"):
        ledger.record(sown(1))
    assert everything(ledger) == before
    if fate != "deleted":
        away.replace(path)
        ledger.record(sown(1))
        assert len(ledger.facts()) == 2


def test_a_ledger_that_vanishes_between_two_looks_is_not_made_anew(path, monkeypatch):
    from greenroom.ledger import files

    Ledger.open(path).close()
    check = files.check_ledger

    def check_and_lose(place):
        check(place)
        place.unlink()

    monkeypatch.setattr(files, "check_ledger", check_and_lose)
    with told_soon("The disk does not let season.greenroom be read"):
        Ledger.open(path)
    assert list(path.parent.iterdir()) == []


def test_calls_from_several_threads_wait_for_each_other(open_ledger):
    ledger = open_ledger()
    threads = [
        threading.Thread(target=lambda row=row: [ledger.record(sown(column, row)) for column in range(10)])
        for row in range(4)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    facts = open_ledger().facts()
    assert {(fact.row, fact.column) for fact in facts} == {(row, n) for row in range(4) for n in range(10)}
    assert [act.number for act in open_ledger().acts()] == list(range(40, 0, -1))


def test_a_user_the_system_does_not_know_can_still_write(path, monkeypatch):
    def nobody():
        raise KeyError("getpwuid(): uid not found: 12345")

    monkeypatch.setattr("getpass.getuser", nobody)
    with Ledger.open(path) as ledger:
        assert ledger.record(sown()).act.who == "unknown"
