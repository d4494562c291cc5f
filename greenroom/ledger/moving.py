"""Moving a ledger: from a file to a server, from a server back to a file, with all it ever held."""

from __future__ import annotations

from greenroom.ledger import bringing, reading, writing
from greenroom.ledger.book import Book, checked
from greenroom.ledger.engines import UPGRADE_SECONDS, announce, lock_for_writing
from greenroom.ledger.errors import DamagedLedgerError, LedgerUnavailableError
from greenroom.ledger.explaining import explained
from greenroom.ledger.facts import BadFactError
from greenroom.ledger.opening import open_engine
from greenroom.ledger.store import Ledger
from greenroom.ledger.tables import act_table
from greenroom.speech import tr

NOT_EMPTY = tr(
    "{name} holds acts already and was left as it is; name an empty database, or a file that is not there."
)
NOTHING = tr("{name} holds nothing yet, so there is nothing to move.")
DIFFERS = tr("What was written to {name} reads back differently; keep using the ledger as it was.")


def move(source: str, target: str) -> Book:
    """Write every act, fact and strike of one ledger into another that holds nothing; return them.

    The ledger moved from stays as it is. What was written is read back and compared.

    Raises
    ------
    LedgerError
        With one sentence; then nothing was written to the target.
    """
    with Ledger.open(source) as old:
        book = old.book()
    if not book.acts:
        raise LedgerUnavailableError(NOTHING.format(name=open_name(source)))
    try:
        whole = checked(book)
    except BadFactError as error:
        raise DamagedLedgerError(tr("The ledger cannot be moved: {error}.", error=error)) from error
    engine, name = open_engine(target)
    try:
        with explained(name), engine.begin() as connection:
            lock_for_writing(connection, UPGRADE_SECONDS)
            if writing.next_number(connection, act_table) > 1:
                raise LedgerUnavailableError(NOT_EMPTY.format(name=name))
            bringing.write_whole(connection, whole)
            if reading.book(connection) != whole:
                raise DamagedLedgerError(DIFFERS.format(name=name))
            announce(connection)
    finally:
        engine.dispose()
    return whole


def open_name(place: str) -> str:
    """Return what a ledger is called."""
    engine, name = open_engine(place)
    engine.dispose()
    return name
