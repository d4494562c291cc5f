"""A ledger for each test, in a folder of its own."""

import pytest

from greenroom.ledger import Ledger
from tests.ledger.checks import ticking_clock


@pytest.fixture
def path(tmp_path):
    """Where the test's ledger is."""
    return tmp_path / "season.greenroom"


@pytest.fixture
def open_ledger(path):
    """Return a function that opens the test's ledger, closing the one it gave before."""
    opened = []

    def reopen():
        for ledger in opened:
            ledger.close()
        opened.append(Ledger.open(path, clock=ticking_clock(), who="grower", zone="Europe/Oslo"))
        return opened[-1]

    yield reopen
    for ledger in opened:
        ledger.close()


@pytest.fixture
def ledger(open_ledger):
    """Return a new ledger, open."""
    return open_ledger()
