"""Whatever is done to a ledger, and at whichever call to the database it breaks: nothing is half written."""

import shutil
import sqlite3
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from greenroom.exchange.mending import mend
from greenroom.ledger import Ledger, LedgerError
from greenroom.ledger.backup_check import checked_contents
from greenroom.ledger.backups import Backups
from greenroom.ledger.restore import restore
from greenroom.ledger.tables import SCHEMA
from tests.ledger.checks import assert_one_sentence, digest, everything, sown
from tests.ledger.examples import EXAMPLES
from tests.ledger.make_sample import SAMPLES, told

MOST = 500
NOW = datetime(2027, 5, 14, 9, 54, tzinfo=UTC)


class Breaker:
    """Has the n-th call to SQLite fail as when the disk does, whoever makes it; while ``n`` is set."""

    def __init__(self) -> None:
        self.n: int | None = None
        self.seen = 0

    def hit(self) -> None:
        self.seen += 1
        if self.seen == self.n:
            error = sqlite3.OperationalError("disk I/O error")
            error.sqlite_errorname = "SQLITE_IOERR"
            raise error

    def at(self, n: int | None) -> None:
        self.n, self.seen = n, 0

    @property
    def struck(self) -> bool:
        return self.n is not None and self.seen >= self.n


@pytest.fixture
def breaker(monkeypatch):
    """A breaker of every connection that is opened from now on."""
    made = Breaker()

    class Cursor(sqlite3.Cursor):
        def execute(self, *given):
            made.hit()
            return super().execute(*given)

        def executemany(self, *given):
            made.hit()
            return super().executemany(*given)

    class Connection(sqlite3.Connection):
        def cursor(self, factory=Cursor):
            return super().cursor(factory)

        def execute(self, *given):
            made.hit()
            return super().execute(*given)

        def commit(self):
            made.hit()
            return super().commit()

        def backup(self, *given, **named):
            made.hit()
            return super().backup(*given, **named)

    connect = sqlite3.connect
    monkeypatch.setattr(
        sqlite3, "connect", lambda *given, **named: connect(*given, factory=Connection, **named)
    )
    return made


def broken_at_each(breaker, act, check, step=1):
    """Break ``act`` at every ``step``-th call until it goes through; ``check`` after each; count them."""
    for breaks in range(MOST):
        breaker.at(1 + breaks * step)
        whole = goes_through(act)
        struck = breaker.struck
        breaker.at(None)
        if not struck:
            assert whole
            return breaks
        check(whole)
    return pytest.fail("it never goes through")


def goes_through(act):
    """Carry out an act; tell whether it did, or said in one sentence why not."""
    try:
        act()
    except LedgerError as error:
        assert_one_sentence(str(error))
        return False
    return True


@pytest.fixture
def other():
    """The book of another ledger: some facts, one struck out."""
    with Ledger.open("sqlite://", who="friend") as ledger:
        ledger.record(*(fact for kind in ("variety", "packet", "weather_record") for fact in EXAMPLES[kind]))
        ledger.record(replace(sown(9), id="theirs"))
        ledger.strike("theirs")
        return ledger.book()


@pytest.fixture(scope="module")
def ready(tmp_path_factory):
    """The file of a ledger with something to undo, to redo, to strike out and to restore."""
    path = tmp_path_factory.mktemp("ready") / "season.greenroom"
    with Ledger.open(path) as ledger:
        ledger.record(replace(sown(1), id="standing"), replace(sown(2), id="struck"), name="first")
        ledger.strike("struck")
        ledger.record(sown(5), name="a third act")
        ledger.undo()
    return path


@pytest.fixture
def used(ready, breaker, path):
    """That ledger, open; its calls to the database may be broken."""
    shutil.copy(ready, path)
    with Ledger.open(path) as ledger:
        yield ledger


ACTS = {
    "record": (lambda ledger, other: ledger.record(sown(3), EXAMPLES["note"][0]), 5),
    "strike": (lambda ledger, other: ledger.strike("standing"), 5),
    "restore": (lambda ledger, other: ledger.restore("struck"), 5),
    "undo": (lambda ledger, other: ledger.undo(), 5),
    "redo": (lambda ledger, other: ledger.redo(), 5),
    "correct": (lambda ledger, other: ledger.do("x", record=[sown(4)], strike=["standing"]), 5),
    "bring in": (lambda ledger, other: ledger.bring_in("x", other, strike=["standing"]), 15),
}


@pytest.mark.parametrize("name", ACTS)
def test_an_act_that_breaks_at_any_call_is_not_there_and_the_next_one_works(name, used, other, breaker, path):
    act, at_least = ACTS[name]
    before = everything(used)

    def check(whole):
        assert not whole
        assert everything(used) == before

    assert broken_at_each(breaker, lambda: act(used, other), check) >= at_least
    after = everything(used)
    assert after != before
    used.close()
    with Ledger.open(path) as again:
        assert everything(again) == after


def test_a_whole_book_that_breaks_on_its_way_into_an_empty_ledger_leaves_it_empty(breaker, other, path):
    with Ledger.open(path) as ledger:
        assert (
            broken_at_each(
                breaker, lambda: ledger.bring_in("x", other), lambda whole: check_empty(ledger, whole)
            )
            > 8
        )
        assert ledger.book() == other


def check_empty(ledger, whole):
    assert not whole
    assert everything(ledger) == ([], [], None, None)


@pytest.mark.parametrize(
    "ask",
    [Ledger.facts, Ledger.book, Ledger.acts, lambda ledger: ledger.undo_name, lambda ledger: ledger.act(1)],
    ids=["facts", "book", "acts", "undo name", "act"],
)
def test_reading_that_breaks_is_told_and_can_be_done_again(ask, used, breaker):
    before = ask(used)
    assert broken_at_each(breaker, lambda: ask(used), lambda whole: None) >= 2
    assert ask(used) == before


def test_opening_that_breaks_at_any_call_changes_no_byte(used, breaker, path):
    used.close()
    before = digest(path)

    def check(whole):
        assert not whole
        assert digest(path) == before
        assert [one.name for one in path.parent.iterdir()] == [path.name]

    assert broken_at_each(breaker, lambda: Ledger.open(path).close(), check) >= 8


def test_a_copying_that_breaks_leaves_no_copy_that_is_not_whole(used, breaker, path):
    backups = Backups(path)

    def check(whole):
        for copy in backups.copies():
            assert checked_contents(copy.path).facts == 3
        assert [one.name for one in path.parent.iterdir() if one.suffix == ".new"] == []

    assert broken_at_each(breaker, lambda: backups.keep(NOW, "asked for"), check, step=5) >= 4
    check(True)


def test_going_back_that_breaks_leaves_the_one_or_the_other(used, breaker, path):
    backups = Backups(path)
    copy = backups.keep(NOW).copy
    used.record(sown(8))
    now = everything(used)
    used.close()
    with Ledger.open(copy.path) as ledger:
        then = everything(ledger)

    as_it_was = path.read_bytes()

    def check(whole):
        with Ledger.open(path) as ledger:
            found = everything(ledger)
        assert found == then if whole else found in (then, now)
        path.write_bytes(as_it_was)

    assert broken_at_each(breaker, lambda: restore(backups, copy.path, NOW), check, step=13) >= 4
    with Ledger.open(path) as ledger:
        assert everything(ledger) == then


def test_mending_that_breaks_leaves_the_damaged_ledger_to_be_mended_again(used, breaker, path):
    backups = Backups(path)
    backups.keep(NOW)
    used.record(replace(sown(8), id="since"))
    used.close()
    damaged = path.read_bytes()[:-4096]
    path.write_bytes(damaged)

    def check(whole):
        asides = list(path.parent.glob("season.damaged-*.greenroom"))
        assert all(one.read_bytes() == damaged for one in asides)
        if whole:  # what could not be read for the moment is in the damaged ledger, which is kept
            assert asides
            path.unlink()
            path.write_bytes(damaged)
        assert path.read_bytes() == damaged
        for one in asides:
            one.unlink()

    copy = backups.copies()[0].path

    def make_good():
        mend(backups, copy, NOW, zone="UTC", who="x")

    assert broken_at_each(breaker, make_good, check, step=67) >= 3
    with Ledger.open(path) as ledger:
        assert {"standing", "since"} <= {fact.id for fact in ledger.facts()}


@pytest.mark.parametrize("version", [f"{number:04d}" for number in range(1, int(SCHEMA))])
def test_an_upgrade_from_any_version_that_breaks_leaves_the_old_or_the_new_and_a_whole_copy(
    version, breaker, path
):
    sample = SAMPLES / f"v{version}.greenroom"
    shutil.copy(sample, path)
    before = digest(path)

    def check(whole):
        assert not whole
        for copy in Backups(path).copies():
            assert checked_contents(copy.path).version == version
            copy.path.unlink()
        if digest(path) != before:  # the upgrade was done, and what looks at it afterwards broke
            assert checked_contents(path).version == SCHEMA
            shutil.copy(sample, path)

    assert broken_at_each(breaker, lambda: Ledger.open(path).close(), check, step=53) >= 1
    (copy,) = Backups(path).copies()
    assert checked_contents(copy.path).version == version
    with Ledger.open(path) as ledger, Ledger.open(copy.path) as again:
        assert told(ledger) == told(again)
