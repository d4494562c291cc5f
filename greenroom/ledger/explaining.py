"""What an error of the disk or of the database means, in one sentence.

SQLite names its results and servers have standard codes (SQLSTATE); both are looked up by their
beginning, so a code that is not listed is told by its family. The words of a message are never
searched: they change with the version and with the language of a server.
"""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

import sqlalchemy as sa

from greenroom.ledger.errors import DamagedLedgerError, LedgerError, LedgerUnavailableError, ServerAwayError
from greenroom.speech import tr

IN_USE = tr("{name} is in use by another program, so nothing was done; close that program and try again.")
BUSY = tr("{name} is busy with what others write, so nothing was done; try again in a moment.")
FULL = tr("The disk that holds {name} is full, so nothing was written; free some space and try again.")
DAMAGED = tr("{name} is damaged ({detail}) and was left as it is; restore it from a backup.")
MOVED = tr(
    "{name} was moved, replaced or deleted while it was open, so nothing was written; "
    "put it back where it was or open it where it is now."
)
READ_ONLY = tr("{name} is read-only, so nothing was written; allow writing to it, then try again.")
FOLDER_SHUT = tr("The folder of {name} does not let files be made in it; allow writing to the folder.")
DISK = tr(
    "The disk does not let {name} be read or written ({detail}); check the disk and the folder's rights."
)
SERVER = tr(
    "The database server of {name} does not let it be used ({detail}); check the server and the rights."
)
AWAY = tr("The database server of {name} does not answer just now ({detail}).")
GUARDED = tr("Something tried to change a fact in {name} and was refused; facts are only ever struck out.")
STRANGE = tr("{name} does not answer as a ledger should ({detail}); nothing was done.")

# The first beginning that fits is taken. https://www.sqlite.org/rescode.html
SQLITE_MEANINGS: tuple[tuple[str, type[LedgerError], str], ...] = (
    ("SQLITE_BUSY", LedgerUnavailableError, IN_USE),
    ("SQLITE_LOCKED", LedgerUnavailableError, IN_USE),
    ("SQLITE_FULL", LedgerUnavailableError, FULL),
    ("SQLITE_READONLY_DBMOVED", LedgerUnavailableError, MOVED),
    ("SQLITE_READONLY_DIRECTORY", LedgerUnavailableError, FOLDER_SHUT),
    ("SQLITE_READONLY", LedgerUnavailableError, READ_ONLY),
    ("SQLITE_CANTOPEN", LedgerUnavailableError, DISK),
    ("SQLITE_PERM", LedgerUnavailableError, DISK),
    ("SQLITE_IOERR", LedgerUnavailableError, DISK),
    ("SQLITE_CORRUPT", DamagedLedgerError, DAMAGED),
    ("SQLITE_NOTADB", DamagedLedgerError, DAMAGED),
    ("SQLITE_CONSTRAINT_TRIGGER", DamagedLedgerError, GUARDED),
)
# PostgreSQL 15 documentation, appendix A; the classes are those of the SQL standard.
SERVER_MEANINGS: tuple[tuple[str, type[LedgerError], str], ...] = (
    ("55P03", LedgerUnavailableError, BUSY),
    ("53100", LedgerUnavailableError, FULL),
    ("25006", LedgerUnavailableError, READ_ONLY),
    ("P0001", DamagedLedgerError, GUARDED),
    ("XX", DamagedLedgerError, DAMAGED),
    ("08", ServerAwayError, AWAY),
    ("57P", ServerAwayError, AWAY),
    ("28", LedgerUnavailableError, SERVER),
    ("3D", LedgerUnavailableError, SERVER),
    ("42501", LedgerUnavailableError, SERVER),
    ("5", LedgerUnavailableError, SERVER),
)


def explain(error: sa.exc.DBAPIError | sqlite3.Error, name: str) -> LedgerError:
    """Return the LedgerError that says what a database error means for the ledger ``name``."""
    cause = error.orig if isinstance(error, sa.exc.DBAPIError) else error
    detail = _detail(cause)
    code = getattr(cause, "sqlite_errorname", None)
    if code is not None:
        return _told(SQLITE_MEANINGS, code, name, detail)
    if isinstance(error, sa.exc.DBAPIError) and error.connection_invalidated:
        return ServerAwayError(AWAY.format(name=name, detail=detail))
    code = getattr(cause, "sqlstate", None) or getattr(cause, "pgcode", None)
    if code is not None:
        return _told(SERVER_MEANINGS, code, name, detail)
    if isinstance(error, sa.exc.OperationalError):  # a server that cannot be reached has no code
        return ServerAwayError(SERVER.format(name=name, detail=detail))
    return DamagedLedgerError(STRANGE.format(name=name, detail=detail))


def explain_file(error: OSError, name: str) -> LedgerError:
    """Return the LedgerError that says what an error of the file system means."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return LedgerUnavailableError(FULL.format(name=name))
    return LedgerUnavailableError(DISK.format(name=name, detail=error.strerror or str(error)))


@contextmanager
def explained(name: str) -> Iterator[None]:
    """Turn what the disk or the database refuses into the sentence it means."""
    try:
        yield
    except (sa.exc.DBAPIError, sqlite3.Error) as error:
        raise explain(error, name) from error
    except UnicodeDecodeError as error:  # the driver, on a message that quotes a damaged schema
        raise DamagedLedgerError(
            DAMAGED.format(name=name, detail=tr("it holds text that is none"))
        ) from error
    except OSError as error:
        raise explain_file(error, name) from error


def _told(
    meanings: tuple[tuple[str, type[LedgerError], str], ...], code: str, name: str, detail: str
) -> LedgerError:
    for beginning, kind, sentence in meanings:
        if code.startswith(beginning):
            return kind(sentence.format(name=name, detail=detail))
    return DamagedLedgerError(STRANGE.format(name=name, detail=detail))


def _detail(cause: BaseException | None) -> str:
    """Return the first line of what the database said, without its full stop."""
    lines = str(cause).strip().splitlines() or [type(cause).__name__]
    said = lines[0].rstrip(". ")
    return "".join(letter if letter.isprintable() else "�" for letter in said)
