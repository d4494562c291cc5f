"""Connections to a ledger: a file, the memory, or a database server, each made to keep its word.

SQLite runs with a rollback journal and full synchronisation: when an act returns it is on the disk,
and the ledger is one file whenever no act is under way. A write-ahead log would be faster, but it
leaves a second file that is part of the ledger, and releases before 3.51.3 could lose data with it.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

import sqlalchemy as sa
from sqlalchemy.pool import StaticPool

from greenroom.ledger.errors import LedgerUnavailableError
from greenroom.ledger.server_address import reached
from greenroom.speech import tr

# How long a call waits for another program to let go. The desk keeps two windows off one ledger, so
# only a backup or a sync service holds it, and those for milliseconds (a commit takes about one). A
# person feels a click that takes more than a second as broken; nothing is lost by saying so then,
# since the act was refused whole and can be done again.
BUSY_SECONDS = 1.0

BEGIN = "ledger_begin"  # the execution option that names how the next transaction starts
TO_READ = "BEGIN"
TO_WRITE = "BEGIN IMMEDIATE"

# The number all writers of one database agree on; it spells "gren" in ASCII.
WRITERS_LOCK = 0x6772656E
CHANNEL = "greenroom_act"
# How long a window waits while another one makes the tables or brings them up to date.
UPGRADE_SECONDS = 60.0

PRAGMAS = ("foreign_keys=ON", "recursive_triggers=ON", "trusted_schema=OFF", "synchronous=FULL")


def file_engine(path: Path) -> sa.Engine:
    """Return an engine on a file that stands there; SQLite is never let make one."""
    address = f"{path.as_uri()}?mode=rw"
    return _sqlite_engine(lambda: _connect(address))


def memory_engine() -> sa.Engine:
    """Return an engine on a ledger that lasts as long as the program."""
    return _sqlite_engine(lambda: _connect(":memory:"))


def server_engine(url: sa.URL) -> sa.Engine:
    """Return an engine on a PostgreSQL server."""
    # What a statement carries is a grower's own; it is left out of what is said when one fails.
    engine = sa.create_engine(reached(url), isolation_level="REPEATABLE READ", hide_parameters=True)
    sa.event.listen(engine, "connect", _limit_waiting)
    return engine


def lock_for_writing(connection: sa.Connection, seconds: float = BUSY_SECONDS) -> None:
    """Keep other writers off until the transaction ends, so that numbers run on without a gap.

    It must be the first statement of a transaction. SQLite is locked already by how it begins. On a
    server it is a lock that every writer may take (a table's would need the right to change rows). What
    is read afterwards must be what stands once the lock is had, so each statement looks anew.
    """
    if connection.dialect.name != "postgresql":
        return
    connection.exec_driver_sql("SET TRANSACTION ISOLATION LEVEL READ COMMITTED")
    if seconds != BUSY_SECONDS:
        connection.exec_driver_sql(f"SET LOCAL lock_timeout = {round(seconds * 1000)}")
    connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({WRITERS_LOCK})")


def announce(connection: sa.Connection) -> None:
    """Have those who listen told that an act was written, once it is; a file has nobody to tell."""
    if connection.dialect.name == "postgresql":
        connection.exec_driver_sql(f"NOTIFY {CHANNEL}")


def keep_one_file(connection: sa.Connection, name: str) -> None:
    """Turn a write-ahead log off, if another program turned it on."""
    if connection.dialect.name != "sqlite":
        return
    raw = raw_connection(connection)
    mode = raw.execute("PRAGMA journal_mode=DELETE").fetchone()[0]
    if mode not in ("delete", "memory"):
        raise LedgerUnavailableError(
            tr(
                "{name} was set to journal mode {mode} by another program and cannot be set back; "
                "close that program and try again.",
                name=name,
                mode=mode,
            )
        )


def raw_connection(connection: sa.Connection) -> sqlite3.Connection:
    """Return SQLite's own connection under one of SQLAlchemy's."""
    raw = connection.connection.driver_connection
    if not isinstance(raw, sqlite3.Connection):
        raise TypeError(f"{connection.dialect.name} has no SQLite connection")
    return raw


def _connect(address: str) -> sqlite3.Connection:
    # Autocommit in the driver: the "begin" event below starts every transaction, so that changes of
    # the schema are inside it too and a writer holds its lock from the start.
    connection = sqlite3.connect(
        address, timeout=BUSY_SECONDS, isolation_level=None, check_same_thread=False, uri=True
    )
    try:
        for pragma in PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")
    except BaseException:
        connection.close()
        raise
    return connection


def _sqlite_engine(connect: Callable[[], sqlite3.Connection]) -> sa.Engine:
    engine = sa.create_engine("sqlite://", creator=connect, poolclass=StaticPool)
    sa.event.listen(engine, "begin", _begin)
    return engine


def _begin(connection: sa.Connection) -> None:
    connection.exec_driver_sql(connection.get_execution_options().get(BEGIN, TO_WRITE))


def _limit_waiting(raw: sa.engine.interfaces.DBAPIConnection, record: object) -> None:  # noqa: ARG001 SQLAlchemy's signature
    cursor = raw.cursor()
    cursor.execute(f"SET lock_timeout = {round(BUSY_SECONDS * 1000)}")
    cursor.close()
    raw.commit()
