"""A ledger on a PostgreSQL server keeps its word as one in a file does, whoever else writes on it."""

import threading
import time

import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext

from greenroom.ledger import Ledger
from greenroom.ledger.engines import server_engine
from greenroom.ledger.errors import DamagedLedgerError, LedgerUnavailableError, NewerLedgerError
from greenroom.ledger.facts import new_key
from greenroom.ledger.tables import SCHEMA, metadata
from greenroom.ledger.upgrades import upgrade
from tests.ledger.checks import assert_one_sentence, everything, sown
from tests.ledger.examples import all_examples
from tests.private_server import driven


@pytest.fixture
def bare(server):
    """Return the address of a new database with nothing in it, dropped after the test."""
    name = f"greenroom_{new_key()[:12]}"
    with server.asked() as keeper:
        keeper.exec_driver_sql(f"CREATE DATABASE {name}")
        yield server.url(name)
        keeper.exec_driver_sql(f"DROP DATABASE {name} WITH (FORCE)")


def test_a_ledger_on_a_server_keeps_every_kind_of_fact_and_both_undo_directions(url):
    with Ledger.open(url, who="grower") as ledger:
        done = ledger.record(*all_examples(), name="all")
        assert ledger.facts() == all_examples()
        ledger.strike("sown-1")
        ledger.undo()
        before = everything(ledger)
    with Ledger.open(url, who="grower") as ledger:
        assert everything(ledger) == before
        assert ledger.undo().removed == done.added
        assert ledger.redo().added == done.added
        assert ledger.facts() == all_examples()


def test_two_writers_at_once_lose_nothing_and_share_no_number(url):
    def write(row):
        with Ledger.open(url) as ledger:
            for column in range(20):
                ledger.record(sown(column, row))

    Ledger.open(url).close()
    threads = [threading.Thread(target=write, args=(row,)) for row in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    with Ledger.open(url) as ledger:
        assert len(ledger.facts()) == 60
        assert [act.number for act in ledger.acts()] == list(range(60, 0, -1))


def test_a_server_held_by_another_writer_is_told_soon_and_reading_goes_on(url):
    other = sa.create_engine(driven(url))
    with Ledger.open(url) as ledger, other.connect() as holder:
        ledger.record(sown())
        before = everything(ledger)
        holder.exec_driver_sql("LOCK TABLE act IN EXCLUSIVE MODE")
        start = time.monotonic()
        with pytest.raises(LedgerUnavailableError, match="is busy with what others write") as caught:
            ledger.record(sown(1))
        assert time.monotonic() - start < 3
        assert_one_sentence(str(caught.value))
        assert everything(ledger) == before
        holder.rollback()
        ledger.record(sown(1))
    other.dispose()


@pytest.mark.parametrize("statement", ["UPDATE fact SET kind = kind", "DELETE FROM sown", "TRUNCATE strike"])
def test_a_change_is_refused_by_the_server_itself(statement, url):
    with Ledger.open(url) as ledger:
        ledger.record(*all_examples())
        before = everything(ledger)
        with pytest.raises(DamagedLedgerError, match="tried to change a fact"), ledger._transaction("BEGIN"):
            ledger._connection.exec_driver_sql(statement)
        assert everything(ledger) == before


def test_steps_and_making_at_once_lead_to_the_same_tables(bare):
    engine = server_engine(sa.make_url(bare))
    assert upgrade(engine) is None
    with engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []
    engine.dispose()
    with Ledger.open(bare) as ledger:
        ledger.record(*all_examples())
        assert ledger.facts() == all_examples()


def test_a_newer_ledger_on_a_server_is_refused(bare):
    Ledger.open(bare).close()
    other = sa.create_engine(driven(bare))
    with other.begin() as connection:
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(NewerLedgerError, match="9999"):
        Ledger.open(bare)
    other.dispose()


def test_a_server_or_database_that_is_not_there_is_told_without_the_password(url):
    gone = sa.make_url(url).set(database="no_such_season", password="secret")
    away = gone.set(host="host.invalid")
    for address in (gone, away):
        with pytest.raises(LedgerUnavailableError, match="does not let it be used") as caught:
            Ledger.open(address.render_as_string(hide_password=False))
        assert_one_sentence(str(caught.value))
        assert "secret" not in str(caught.value)


@pytest.mark.parametrize("before", [None, "0001", "0003"])
def test_windows_that_open_a_new_or_an_old_ledger_at_once_make_it_ready_once(before, bare):
    if before is not None:
        engine = server_engine(sa.make_url(bare))
        upgrade(engine, before)
        engine.dispose()
    opened = []

    def open_it():
        with Ledger.open(bare) as ledger:
            opened.append(ledger.facts())

    threads = [threading.Thread(target=open_it) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert opened == [[]] * 4
    engine = server_engine(sa.make_url(bare))
    with engine.connect() as connection:
        assert list(connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalars()) == [
            SCHEMA
        ]
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []
    engine.dispose()
