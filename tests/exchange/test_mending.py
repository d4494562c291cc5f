"""A damaged ledger: the newest sound copy comes in its place, and what can be read of it is added."""

import random
import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.exchange.mending import NAME, mend
from greenroom.ledger import Ledger, LedgerError
from greenroom.ledger.backups import Backups
from greenroom.ledger.errors import DamagedLedgerError, LedgerUnavailableError
from greenroom.ledger.facts import KINDS, WeatherDay, WeatherRecord
from greenroom.ledger.salvage import salvage
from tests.ledger.checks import assert_one_sentence, everything, newest_good, sown, ticking_clock
from tests.ledger.examples import all_examples
from tests.ledger.make_sample import SAMPLES

NOW = datetime(2027, 5, 14, 9, 54, 12, tzinfo=UTC)
PAGE = 4096
RECORD = WeatherRecord(
    id="long",
    day=date(2026, 1, 1),
    source="station",
    days=tuple(
        WeatherDay(date(2000, 1, 1) + timedelta(days=number), -3.0 + number % 30, 9.0, None, None)
        for number in range(300)
    ),
)


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    """A ledger of all kinds and 600 cells, a copy in the midst of it, and all that it holds at the end."""
    path = tmp_path_factory.mktemp("whole") / "season.greenroom"
    cells = [
        replace(sown(column, row), id=f"cell-{row}-{column}") for row in range(12) for column in range(50)
    ]
    with Ledger.open(path, clock=ticking_clock(), who="grower", zone="Europe/Oslo") as ledger:
        ledger.record(*all_examples())
        ledger.record(*cells[:300], name="half")
        Backups(path).keep(NOW - timedelta(days=1))
        for start in range(300, 600, 50):
            ledger.record(*cells[start : start + 50])
        ledger.record(RECORD, name="weather")
        ledger.strike("cell-0-0", "cell-11-49")
        ledger.undo()
        ledger.strike("cell-0-1", "cell-11-48")
        return path, ledger.book(), ledger.facts()


@pytest.fixture
def damaged(written, tmp_path):
    """Return a function that gives the copies of a ledger damaged as asked."""
    whole, _, _ = written
    path = tmp_path / "season.greenroom"

    def make(spoil, *, copies=True):
        data = bytearray(whole.read_bytes())
        spoil(data)
        path.write_bytes(data)
        backups = Backups(path)
        if copies:
            backups.folder.mkdir()
            for copy in Backups(whole).copies():
                (backups.folder / copy.path.name).write_bytes(copy.path.read_bytes())
        return backups

    return make


def mended(backups, *, copy=True):
    chosen = newest_good(backups).path if copy else None
    before = backups.ledger.read_bytes()
    done = mend(backups, chosen, NOW, zone="Europe/Oslo", who="grower")
    assert done.aside.read_bytes() == before
    with Ledger.open(backups.ledger) as ledger:
        return done, ledger.book(), ledger.facts(), ledger.undo_name


def pages_of(path, table):
    """Return the numbers of the pages of a table that hold its rows, as SQLite itself tells them."""
    with closing(sqlite3.connect(path)) as raw:
        root = raw.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", (table,)).fetchone()[0]
    data = path.read_bytes()
    size = int.from_bytes(data[16:18], "big")
    found, waiting = [], [root]
    while waiting:  # https://www.sqlite.org/fileformat.html, 1.6: 5 is an inner page of a table, 13 a leaf
        number = waiting.pop()
        page = data[(number - 1) * size : number * size]
        cells = int.from_bytes(page[3:5], "big")
        if page[0] == 13:
            found.append(number)
            continue
        starts = [int.from_bytes(page[12 + 2 * one : 14 + 2 * one], "big") for one in range(cells)]
        waiting += [int.from_bytes(page[start : start + 4], "big") for start in starts]
        waiting.append(int.from_bytes(page[8:12], "big"))
    return sorted(found)


def spoiled(numbers):
    def spoil(data):
        for number in numbers:
            data[(number - 1) * PAGE : (number - 1) * PAGE + 200] = b"\xa5" * 200

    return spoil


def test_damage_that_touches_no_fact_costs_none(written, damaged):
    """An index alone is damaged: every fact since the copy is found, with who wrote it and when."""
    path, book, facts = written
    with closing(sqlite3.connect(path)) as raw:
        root = raw.execute("SELECT rootpage FROM sqlite_master WHERE name = 'ix_fact_act'").fetchone()[0]
    backups = damaged(spoiled([root]))
    with pytest.raises(LedgerError, match="is damaged"):
        Ledger.open(backups.ledger)
    done, after, in_force, undo = mended(backups)
    assert (done.copied, done.added, done.lost) == (len(all_examples()) + 300, 301, 0)
    assert {entry.fact.id: entry.fact for entry in after.entries} == {
        entry.fact.id: entry.fact for entry in book.entries
    }
    assert {fact.id for fact in in_force} == {fact.id for fact in facts}
    wrote = {act.number: act for act in after.acts}
    assert {wrote[entry.act].who for entry in after.entries} == {"grower"}
    late = next(entry for entry in after.entries if entry.fact.id == "cell-11-49")
    first = next(entry for entry in book.entries if entry.fact.id == "cell-11-49")
    assert wrote[late.act].written == next(act.written for act in book.acts if act.number == first.act)
    assert undo == NAME


def test_of_torn_pages_of_cells_only_their_own_cells_are_lost(written, damaged):
    """The copy holds the first half; of the other half cells on torn pages are gone, told by number."""
    path, book, _ = written
    leaves = pages_of(path, "sown")
    backups = damaged(spoiled([leaves[1], leaves[-2]]))
    done, after, _, _ = mended(backups)
    known = {entry.fact.id for entry in after.entries}
    missing = {entry.fact.id for entry in book.entries} - known
    assert 20 < len(missing) < 300
    assert done.lost == len(missing)
    assert done.copied + done.added == len(known)
    assert {one for one in missing if not one.startswith("cell-")} == set()


@pytest.mark.parametrize("table", ["act", "strike", "fact", "weather_day"])
def test_whatever_table_is_torn_what_is_kept_is_as_it_was_written(table, written, damaged):
    path, book, _ = written
    leaves = pages_of(path, table)
    backups = damaged(spoiled(leaves[len(leaves) // 2 :]))
    done, after, _, _ = mended(backups)
    was = {entry.fact.id: entry.fact for entry in book.entries}
    now = {entry.fact.id: entry.fact for entry in after.entries}
    assert all(was[one] == fact for one, fact in now.items())
    assert len(was) - len(now) == done.lost
    if table in ("act", "strike"):
        assert now == was
    if table == "weather_day":
        assert was.keys() - now.keys() == {"long"}, "a record with days missing is no record"


def test_without_a_copy_the_readable_part_makes_a_ledger_with_its_own_history(written, damaged):
    path, book, _ = written
    backups = damaged(spoiled(pages_of(path, "sown")[-1:]), copies=False)
    assert newest_good(backups) is None
    done, after, _, undo = mended(backups, copy=False)
    assert done.copied == 0
    assert done.added == len(after.entries) == len(book.entries) - done.lost
    assert after.acts[: len(book.acts)] == book.acts
    assert undo == book.acts[-1].name


@pytest.mark.parametrize(
    "spoil",
    [
        lambda data: data.__delitem__(slice(3000, None)),
        lambda data: data.__setitem__(slice(100, 4096), b"\xa5" * 3996),
        lambda data: data.__setitem__(slice(0, len(data)), random.Random(1).randbytes(len(data))),
    ],
    ids=["cut off in its first page", "no schema", "noise"],
)
def test_where_nothing_can_be_read_the_copy_alone_comes_back(spoil, damaged):
    done, after, _, _ = mended(damaged(spoil))
    assert (done.copied, done.added, done.lost) == (len(after.entries), 0, 0)


def test_any_page_at_all_may_be_torn_or_the_end_cut_off(written, damaged):
    """Whatever is torn, the mended ledger opens and every fact in it is one that was written."""
    path, book, _ = written
    was = {entry.fact.id: entry.fact for entry in book.entries}
    pages = path.stat().st_size // PAGE
    chance = random.Random(5)
    for _ in range(3):
        found = salvage(damaged(spoiled([chance.randrange(1, pages)]), copies=False).ledger, NOW, "UTC", "x")
        assert all(was[entry.fact.id] == entry.fact for entry in found.book.entries)
        assert len(found.book.entries) + len(found.lost) <= len(was)
    cut = damaged(lambda data: data.__delitem__(slice(pages * 9 // 10 * PAGE, None)), copies=False)
    found = salvage(cut.ledger, NOW, "UTC", "x")
    assert len(found.book.entries) > 50
    assert all(was[entry.fact.id] == entry.fact for entry in found.book.entries)


def test_a_ledger_of_an_old_version_is_salvaged_into_todays(tmp_path):
    path = tmp_path / "season.greenroom"
    sample = sorted(SAMPLES.glob("*.greenroom"))[0]
    path.write_bytes(sample.read_bytes())
    found = salvage(path, NOW, "UTC", "x")
    with Ledger.open(path) as ledger:
        assert found.book == ledger.book()
    assert not found.lost
    path.write_bytes(sample.read_bytes()[:5000])
    done, after, _, _ = mended(Backups(path))  # from the copy kept before the upgrade, brought up to date
    assert (done.copied, done.added, after) == (len(found.book.entries), 0, found.book)
    left = {path.name, done.aside.name, f"season.{sample.stem}.greenroom"}
    assert {one.name for one in path.parent.iterdir()} == left


def test_a_fact_of_which_one_half_is_gone_is_counted_and_comes_from_the_copy_if_that_has_it(written, damaged):
    """Every page is sound, but a row is missing: the ledger opens, and its facts cannot be read."""
    backups = damaged(lambda data: None)
    with closing(sqlite3.connect(backups.ledger)) as raw:
        raw.execute("DROP TRIGGER never_delete_sprouted")
        raw.execute("DROP TRIGGER never_delete_sown")
        raw.execute("DELETE FROM sprouted WHERE number = (SELECT max(number) FROM sprouted)")
        raw.execute("DELETE FROM sown WHERE number = (SELECT max(number) FROM sown)")
        raw.commit()
    with Ledger.open(backups.ledger) as ledger, pytest.raises(DamagedLedgerError):
        ledger.entries()
    done, after, _, _ = mended(backups)
    assert done.lost == 1
    lost = {entry.fact.id for entry in written[1].entries} - {entry.fact.id for entry in after.entries}
    assert lost == {"cell-11-49"}


def test_of_a_whole_ledger_every_act_fact_and_strike_of_every_kind_is_read(written):
    path, book, _ = written
    found = salvage(path, NOW, "UTC", "x")
    assert found.book == book
    assert {entry.fact.kind for entry in found.book.entries} == set(KINDS)
    assert not found.lost


def test_a_disk_that_is_full_leaves_the_damaged_ledger_where_it_was(written, damaged, monkeypatch):
    backups = damaged(lambda data: data.clear())

    def full(_path):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("greenroom.ledger.files._sync_file", full)
    names = sorted(one.name for one in backups.ledger.parent.iterdir())
    with pytest.raises(LedgerUnavailableError, match="is full") as caught:
        mend(backups, newest_good(backups).path, NOW, zone="UTC", who="x")
    assert_one_sentence(str(caught.value))
    assert backups.ledger.read_bytes() == b""
    left = {one.name for one in backups.ledger.parent.iterdir()} - set(names)
    assert all(name.startswith("season.damaged-") for name in left)


def test_the_journal_goes_aside_with_the_damaged_ledger(written, damaged):
    """Else SQLite would play it into the ledger that took its place."""
    backups = damaged(lambda data: data.clear())
    journal = backups.ledger.with_name("season.greenroom-journal")
    journal.write_bytes(b"\xd9\xd5\x05\xf9 \xa1c\xd7" + bytes(504))
    done, _, _, _ = mended(backups)
    assert not journal.exists()
    assert done.aside.with_name(done.aside.name + "-journal").exists()


def test_mending_twice_keeps_both_damaged_ledgers(written, damaged):
    backups = damaged(lambda data: data.clear())
    first, before, _, _ = mended(backups)
    backups.ledger.write_bytes(b"")
    second, after, _, _ = mended(backups)
    assert first.aside != second.aside
    assert before == after
    with Ledger.open(backups.ledger) as ledger:
        assert everything(ledger)[0]
