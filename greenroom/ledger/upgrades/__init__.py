"""Upgrades of a ledger: numbered, forward only, in one transaction, with a backup taken first.

Each step is a script in ``versions/`` named for the version it leads to. A new ledger is not made by
them but at once from ``tables.py``; a test holds the two ways to the same schema.

To add a step: change the facts or tables, raise ``SCHEMA`` in ``tables.py``, and run
``python -m greenroom.ledger.upgrades.draft 0002 what_it_brings``, then ``ruff format`` on the script it
writes. Read the script and add what it cannot know: how old facts become new ones. The guards refuse
changes, so a step that has to change rows drops the guards of that table first and makes them again.
Add a sample of the version before (``python -m tests.ledger.make_sample``). A script that was released
is never changed again; until then it is drafted anew with each change of a kind of fact.
"""

from __future__ import annotations

from pathlib import Path

import sqlalchemy as sa
from alembic import command
from alembic.config import Config
from alembic.util import CommandError

from greenroom.ledger.backup import copy_ledger, file_of, free_name, reader
from greenroom.ledger.engines import UPGRADE_SECONDS, lock_for_writing, raw_connection
from greenroom.ledger.errors import DamagedLedgerError
from greenroom.ledger.server_rights import give_rights
from greenroom.ledger.tables import SCHEMA, VERSION_TABLE
from greenroom.speech import tr

HERE = Path(__file__).parent


def upgrade(engine: sa.Engine, target: str = SCHEMA, scripts: Path = HERE) -> Path | None:
    """Bring a ledger up to a later version: all the way, or not at all.

    Parameters
    ----------
    engine : Engine
        On the ledger, which nothing else uses.
    target : str
        The version to reach.
    scripts : path
        The folder that holds ``env.py`` and ``versions``.

    Returns
    -------
    path or None
        The copy of the ledger as it was; None if it is new or not kept in a file.

    Raises
    ------
    LedgerError
        If the copy cannot be made or no way leads from the version found to ``target``.
    """
    with engine.connect() as connection:
        _check_foreign_keys_at_each_step(connection, on=False)  # a table could not be rebuilt
        with connection.begin():
            lock_for_writing(connection, UPGRADE_SECONDS)
            copy = _back_up(connection)
            _run(connection, target, scripts)
            _require_foreign_keys(connection)
            if target == SCHEMA:
                give_rights(connection)
        _check_foreign_keys_at_each_step(connection, on=True)
    return copy


def _run(connection: sa.Connection, target: str, scripts: Path) -> None:
    config = Config()
    config.set_main_option("script_location", str(scripts).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    try:
        command.upgrade(config, target)
    except CommandError as error:
        raise DamagedLedgerError(
            tr("The ledger cannot be brought to version {target} ({error}).", target=target, error=error)
        ) from error


def _back_up(connection: sa.Connection) -> Path | None:
    """Copy the ledger beside itself, named for its version; the lock held keeps it as it is."""
    if connection.dialect.name != "sqlite" or not sa.inspect(connection).has_table(VERSION_TABLE):
        return None
    file = file_of(raw_connection(connection))
    if not file:
        return None
    version = connection.exec_driver_sql(f"SELECT version_num FROM {VERSION_TABLE}").scalar()
    copy = free_name(Path(file), f"v{version}")
    with reader(Path(file)) as source:  # the writer's own connection cannot be copied from
        copy_ledger(source, copy)
    return copy


def _check_foreign_keys_at_each_step(connection: sa.Connection, *, on: bool) -> None:
    if connection.dialect.name == "sqlite":
        raw_connection(connection).execute(f"PRAGMA foreign_keys={'ON' if on else 'OFF'}")


def _require_foreign_keys(connection: sa.Connection) -> None:
    if connection.dialect.name != "sqlite":
        return
    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
    if broken is not None:
        raise DamagedLedgerError(
            tr(
                "The ledger cannot be brought up to date: row {row} of {table} points to nothing.",
                row=broken[1],
                table=broken[0],
            )
        )
