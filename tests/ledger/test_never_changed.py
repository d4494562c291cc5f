"""Facts are struck out, never changed: no statement of any program gets past the ledger's guards."""

import sqlite3
from contextlib import closing

import pytest

from greenroom.ledger import Ledger, LedgerError
from greenroom.ledger.tables import metadata
from tests.ledger.checks import everything
from tests.ledger.examples import all_examples

each_table = pytest.mark.parametrize("table", list(metadata.tables))


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    """Return the path of a closed ledger with rows in every table; nothing here changes it."""
    path = tmp_path_factory.mktemp("kept") / "season.greenroom"
    with Ledger.open(path) as ledger:
        ledger.record(*all_examples())
        ledger.strike("sown-1")
        ledger.undo()
    return path


@each_table
@pytest.mark.parametrize("statement", ["UPDATE {table} SET {column} = {column}", "DELETE FROM {table}"])
def test_another_programs_change_is_refused(statement, table, written):
    column = metadata.tables[table].columns.keys()[-1]
    with closing(sqlite3.connect(written)) as raw:
        assert raw.execute(f"SELECT count(*) FROM {table}").fetchone()[0] > 0
        with pytest.raises(sqlite3.IntegrityError, match="facts are struck out, never changed"):
            raw.execute(statement.format(table=table, column=f'"{column}"'))


def test_replacing_a_row_is_refused_too(written):
    """SQLite's REPLACE deletes without asking, unless triggers are told to watch it."""
    with Ledger.open(written) as ledger:
        before = everything(ledger)
        raw = ledger._connection.connection.driver_connection
        with pytest.raises(sqlite3.IntegrityError, match="never changed"):
            raw.execute("REPLACE INTO fact SELECT number, id, kind, '1999-01-01', act FROM fact")
        assert everything(ledger) == before


def test_a_change_tried_through_the_ledger_itself_is_told_as_one(written):
    with Ledger.open(written) as ledger:
        with (
            pytest.raises(LedgerError, match="tried to change a fact"),
            ledger._transaction("BEGIN IMMEDIATE"),
        ):
            ledger._connection.exec_driver_sql("UPDATE fact SET day = '1999-01-01'")
        assert ledger.facts()


def test_a_row_that_points_to_nothing_is_refused(written):
    with Ledger.open(written) as ledger:
        raw = ledger._connection.connection.driver_connection
        for statement in (
            "INSERT INTO strike (fact, act, restored) VALUES (9999, 1, 0)",
            "INSERT INTO fact VALUES (9999, 'x', 'sown', '2025-01-01', 9999)",
            "INSERT INTO act VALUES (9999, 'undo', 'x', '2025-01-01', 'UTC', 'x', 77777)",
        ):
            with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY constraint failed"):
                raw.execute(statement)


@pytest.mark.parametrize(("deed", "reverses"), [("do", 1), ("undo", None), ("sleep", 1)])
def test_an_act_that_makes_no_sense_is_refused(deed, reverses, written):
    with (
        closing(sqlite3.connect(written)) as raw,
        pytest.raises(sqlite3.IntegrityError, match="CHECK constraint failed"),
    ):
        raw.execute("INSERT INTO act VALUES (9999, ?, 'x', '2025-01-01', 'UTC', 'x', ?)", (deed, reverses))
