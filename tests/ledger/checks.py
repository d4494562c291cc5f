"""What many of these tests look at: bytes, sentences, and all that a ledger knows."""

import hashlib
import re
from contextlib import contextmanager, suppress
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from greenroom.ledger import Ledger, LedgerError
from greenroom.ledger.backup_check import checked_contents
from greenroom.ledger.facts import Sown

FIRST_MOMENT = datetime(2025, 2, 24, 7, 0, tzinfo=UTC)
INNER_STOP = re.compile(r"[.!?]\s")


def ticking_clock():
    """Return a clock that goes on one second each time it is read."""
    now = FIRST_MOMENT

    def clock():
        nonlocal now
        now += timedelta(seconds=1)
        return now

    return clock


def sown(column: int = 0, row: int = 0) -> Sown:
    """Return one seed in one cell."""
    return Sown(day=date(2025, 2, 24), holder="tray-a", row=row, column=column, packet="p1")


def everything(ledger: Ledger) -> tuple:
    """Return all that can be asked of a ledger."""
    return ledger.entries(), ledger.acts(1_000_000), ledger.undo_name, ledger.redo_name


def newest_good(backups):
    """Return the newest copy that is sound, or None."""
    for copy in backups.copies():
        with suppress(LedgerError):
            checked_contents(copy.path)
            return copy
    return None


def digest(path: Path) -> str:
    """Return a fingerprint of a file's bytes."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def assert_one_sentence(message: str) -> None:
    """Fail unless the message is one whole sentence on one line."""
    assert message.endswith("."), message
    assert not INNER_STOP.search(message), f"more than one sentence: {message}"
    assert "\n" not in message, message


@contextmanager
def refused(path: Path, error: type[LedgerError], *words: str):
    """Expect a refusal in one sentence that has ``words``, and every byte in the folder as it was."""
    before = _fingerprints(path.parent)
    with pytest.raises(error) as caught:
        yield
    assert_one_sentence(str(caught.value))
    for word in words:
        assert word in str(caught.value)
    assert _fingerprints(path.parent) == before


def _fingerprints(folder: Path) -> dict[str, str]:
    return {one.name: digest(one) if one.is_file() else "" for one in folder.iterdir()}
