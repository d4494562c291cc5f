"""Opening a ledger: what is checked before a single fact is believed."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import sqlalchemy as sa

from greenroom.ledger import files
from greenroom.ledger.engines import (
    BEGIN,
    TO_READ,
    UPGRADE_SECONDS,
    file_engine,
    keep_one_file,
    lock_for_writing,
    memory_engine,
    server_engine,
)
from greenroom.ledger.errors import (
    DamagedLedgerError,
    LedgerUnavailableError,
    NewerLedgerError,
    NotALedgerError,
)
from greenroom.ledger.explaining import DAMAGED, explained
from greenroom.ledger.journal import require_own_journal
from greenroom.ledger.server_address import plain_name, reached
from greenroom.ledger.server_rights import give_rights
from greenroom.ledger.tables import SCHEMA, VERSION_TABLE, guard_statements, metadata
from greenroom.speech import tr

UNREADABLE = tr(
    "The address of the ledger cannot be read; one such as postgresql://user@host/name is needed."
)
VERSION_FORM = re.compile(r"\d{4}")


def open_engine(url_or_path: str | os.PathLike[str]) -> tuple[sa.Engine, str]:
    """Return an engine on a ledger that was checked, made or upgraded, and the ledger's name.

    Raises
    ------
    LedgerError
        With one sentence; what stands there is left as it was.
    """
    text = os.fsdecode(url_or_path)
    if "://" not in text:
        return _open_file(Path(text))
    url = readable_address(text)
    if url.get_backend_name() != "sqlite":
        return _open_server(url)
    if url.database in (None, "", ":memory:"):
        return _open_new(memory_engine(), tr("the ledger in memory"))
    return _open_file(Path(str(url.database)))


def readable_address(text: str) -> sa.URL:
    """Return the address of a ledger read into its parts; raise NotALedgerError if it cannot be."""
    try:
        url = sa.make_url(text)
    except (sa.exc.ArgumentError, ValueError):
        # Without its cause, which may quote the address and with it a password.
        raise NotALedgerError(UNREADABLE) from None
    if url.get_backend_name() not in ("sqlite", "postgresql"):
        raise NotALedgerError(
            tr(
                "A ledger cannot be kept in {system}; a file, sqlite or postgresql is allowed.",
                system=url.get_backend_name(),
            )
        )
    named = f"{url.username or ''}{url.database or ''}" if url.get_backend_name() == "postgresql" else ""
    if set(named) & set(":@/"):  # a slip that puts the password where a name stands, and names are told
        raise NotALedgerError(UNREADABLE)
    return url


def _open_file(path: Path) -> tuple[sa.Engine, str]:
    place = Path(os.path.realpath(path))  # a link is followed, so that a new ledger never replaces it
    with explained(path.name):
        if not place.exists():
            files.make_file(place, _fill)
        files.check_ledger(place)
        require_own_journal(place)
        return _open_old(file_engine(place), path.name)


def _open_server(url: sa.URL) -> tuple[sa.Engine, str]:
    name = plain_name(url)
    try:
        engine = server_engine(url)
    except (ImportError, sa.exc.NoSuchModuleError) as error:
        raise LedgerUnavailableError(
            tr(
                "The driver {driver} that {name} needs is not installed; install "
                "greenroom[server] and try again.",
                driver=reached(url).drivername,
                name=name,
            )
        ) from error
    with explained(name), _let_go_on_error(engine):
        with engine.connect() as connection:
            fresh = not _has_version(connection)
        if fresh:
            _make_on_server(engine)
        return _open_old(engine, name)


def _make_on_server(engine: sa.Engine) -> None:
    """Make the tables unless another window did so meanwhile: one at a time gets past the lock."""
    with engine.begin() as connection:
        lock_for_writing(connection, UPGRADE_SECONDS)
        if not _has_version(connection):
            make_tables(connection)
            give_rights(connection)


def _has_version(connection: sa.Connection) -> bool:
    return sa.inspect(connection).has_table(VERSION_TABLE)


def _open_new(engine: sa.Engine, name: str) -> tuple[sa.Engine, str]:
    with _let_go_on_error(engine), engine.begin() as connection:
        make_tables(connection)
    return engine, name


def _open_old(engine: sa.Engine, name: str) -> tuple[sa.Engine, str]:
    with _let_go_on_error(engine):
        with _looking(engine) as connection:
            _examine(connection, name)
            found = _version(connection, name)
        if found < SCHEMA:
            from greenroom.ledger.upgrades import upgrade

            upgrade(engine, SCHEMA)
        with _looking(engine) as connection:
            _check_tables(connection, name)
        with engine.connect() as connection:
            keep_one_file(connection, name)
    return engine, name


@contextmanager
def _let_go_on_error(engine: sa.Engine) -> Iterator[None]:
    try:
        yield
    except BaseException:
        engine.dispose()
        raise


@contextmanager
def _looking(engine: sa.Engine) -> Iterator[sa.Connection]:
    """Give a connection that takes no lock but a reader's."""
    with engine.connect() as connection:
        yield connection.execution_options(**{BEGIN: TO_READ})


def _examine(connection: sa.Connection, name: str) -> None:
    """Have SQLite read every page and follow every key: 20 and 5 ms for 7 MB."""
    if connection.dialect.name != "sqlite":
        return
    answer = str(connection.exec_driver_sql("PRAGMA quick_check(1)").scalar_one())
    if answer != "ok":
        detail = answer.splitlines()[-1].rstrip(". ")
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=detail))
    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
    if broken is not None:
        detail = tr("row {row} of {table} points to nothing", row=broken[1], table=broken[0])
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=detail))


def _version(connection: sa.Connection, name: str) -> str:
    """Return the version of the ledger, if this program can read it or bring it up to date."""
    found = None
    if _has_version(connection):
        found = connection.exec_driver_sql(f"SELECT version_num FROM {VERSION_TABLE}").scalar()
    if not isinstance(found, str) or not VERSION_FORM.fullmatch(found):
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=tr("it does not say which version it is")))
    if found > SCHEMA:
        raise NewerLedgerError(
            tr(
                "{name} was written by a later greenroom (its version is {found}, this program reads "
                "up to {schema}) and was left untouched; update greenroom to open it.",
                name=name,
                found=found,
                schema=SCHEMA,
            )
        )
    return found


def _check_tables(connection: sa.Connection, name: str) -> None:
    missing = sorted(set(metadata.tables) - set(sa.inspect(connection).get_table_names()))
    if missing:
        detail = tr("it has no table {missing}", missing=", ".join(missing))
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=detail))


def _fill(path: Path) -> None:
    """Make a new ledger in an empty file."""
    engine = file_engine(path)
    try:
        with engine.begin() as connection:
            make_tables(connection)
    finally:
        engine.dispose()


def make_tables(connection: sa.Connection) -> None:
    """Make all tables at once; ``upgrades`` leads to the same ones, which a test compares."""
    metadata.create_all(connection, checkfirst=False)
    for statement in guard_statements(connection.dialect.name):
        connection.exec_driver_sql(statement)
    connection.exec_driver_sql(
        f"CREATE TABLE {VERSION_TABLE} "
        f"(version_num VARCHAR(32) NOT NULL, CONSTRAINT {VERSION_TABLE}_pkc PRIMARY KEY (version_num))"
    )
    connection.execute(sa.text(f"INSERT INTO {VERSION_TABLE} VALUES (:version)"), {"version": SCHEMA})
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql(f"PRAGMA application_id={files.APPLICATION_ID}")
