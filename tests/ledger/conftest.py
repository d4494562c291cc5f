"""A ledger for each test: in a file in a folder of its own, and once more on a server.

A test that asks for ``path`` is about files and runs on a file alone.
"""

import pytest

from greenroom.ledger import Ledger
from greenroom.ledger.errors import LedgerUnavailableError
from greenroom.ledger.facts import new_key
from tests.ledger.checks import ticking_clock

# What no hand of the program may do; only a superuser gets past the guards.
EMPTY = """
DO $$ DECLARE one text; BEGIN
  SET LOCAL session_replication_role = replica;
  FOR one IN SELECT tablename FROM pg_tables WHERE schemaname = 'public' AND tablename <> 'alembic_version'
  LOOP EXECUTE 'DELETE FROM ' || quote_ident(one); END LOOP;
END $$
"""


def pytest_generate_tests(metafunc):
    """Run every test of the ledger on both engines."""
    if "kept_in" in metafunc.fixturenames:
        engines = ["file"] if "path" in metafunc.fixturenames else ["file", "server"]
        metafunc.parametrize("kept_in", engines)


@pytest.fixture
def path(tmp_path):
    """Where the test's ledger is."""
    return tmp_path / "season.greenroom"


@pytest.fixture(scope="session")
def database(server):
    """The address of a database that the tests have one after the other, and the way to empty it."""
    name = f"greenroom_{new_key()[:12]}"
    with server.asked() as keeper:
        keeper.exec_driver_sql(f"CREATE DATABASE {name}")
        with server.asked(name) as inside:
            Ledger.open(server.url(name)).close()
            yield server.url(name), lambda: _empty(inside)
        keeper.exec_driver_sql(f"DROP DATABASE {name} WITH (FORCE)")


def _empty(inside):
    if inside.exec_driver_sql("SELECT 1 FROM act LIMIT 1").first():
        inside.exec_driver_sql(EMPTY)


@pytest.fixture
def place(kept_in, request):
    """Where the test's ledger is: a file, or an address on the server."""
    if kept_in == "file":
        yield request.getfixturevalue("path")
        return
    url, empty = request.getfixturevalue("database")
    yield url
    empty()


@pytest.fixture
def open_ledger(place):
    """Return a function that opens the test's ledger, closing the one it gave before."""
    opened = []

    def reopen():
        for ledger in opened:
            ledger.close()
        opened.append(ledger_of_the_test(place))
        return opened[-1]

    yield reopen
    for ledger in opened:
        ledger.close()


def ledger_of_the_test(place):
    return Ledger.open(place, clock=ticking_clock(), who="grower", zone="Europe/Oslo")


@pytest.fixture(scope="session")
def kept_open():
    """Ledgers on a server that stay open from test to test, by their address."""
    kept = {}
    yield kept
    for ledger in kept.values():
        ledger.close()


def _answers(ledger):
    """Whether a ledger is still open and its connection was not thrown out by a test."""
    try:
        ledger.acts(1)
    except LedgerUnavailableError:
        ledger.close()
        return False
    return True


@pytest.fixture
def ledger(kept_in, request):
    """Return a new ledger, open; one on a server is that of the test before, emptied."""
    if kept_in == "file" or "open_ledger" in request.fixturenames:
        return request.getfixturevalue("open_ledger")()
    place, kept = request.getfixturevalue("place"), request.getfixturevalue("kept_open")
    found = kept.get(place)
    if found is None or not _answers(found):
        found = kept[place] = ledger_of_the_test(place)
    found._clock = ticking_clock()
    return found


@pytest.fixture
def url(database):
    """The address of a database with an empty ledger in it."""
    address, empty = database
    yield address
    empty()


@pytest.fixture(scope="module")
def empty_ledger():
    """One ledger for all that is refused: it stays empty."""
    with Ledger.open("sqlite://") as empty:
        yield empty
