"""Any copy comes back with one stroke, and what was there before can be brought back the same way."""

import os
import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta

import pytest

from greenroom.ledger import Ledger, LedgerError
from greenroom.ledger.backups import Backups
from greenroom.ledger.errors import DamagedLedgerError, LedgerUnavailableError, NotALedgerError
from greenroom.ledger.restore import restore
from tests.ledger.checks import assert_one_sentence, everything, refused, sown
from tests.ledger.make_sample import SAMPLES
from tests.ledger.test_surroundings import held_in_this_program

NOW = datetime(2027, 5, 14, 9, 54, 12, tzinfo=UTC)


@pytest.fixture(scope="module")
def ready(tmp_path_factory):
    """The copies of a closed ledger: the first holds one fact, the ledger two, one of them undone."""
    path = tmp_path_factory.mktemp("ready") / "season.greenroom"
    backups = Backups(path)
    with Ledger.open(path) as ledger:
        ledger.record(sown(0), name="the first")
        backups.keep(NOW - timedelta(days=1))
        ledger.record(sown(1), name="the second")
        ledger.undo()
    return backups


@pytest.fixture
def backups(ready, path):
    """Those copies and that ledger, for one test."""
    shutil.copy(ready.ledger, path)
    shutil.copytree(ready.folder, Backups(path).folder)
    return Backups(path)


def held(path):
    with Ledger.open(path) as ledger:
        return everything(ledger)


def test_a_copy_comes_back_and_what_was_there_is_kept_and_comes_back_too(backups, path):
    before, copy = held(path), backups.copies()[0]
    path.chmod(0o640)
    done = restore(backups, copy.path, NOW)
    assert (done.contents.facts, done.saved.number, done.saved.mark) == (1, 2, "before restoring")
    assert held(path) == held(copy.path)
    assert len(held(path)[1]) == 1
    assert path.stat().st_mode & 0o777 == 0o640
    assert sorted(one.name for one in path.parent.iterdir()) == [path.name, backups.folder.name]
    again = restore(backups, done.saved.path, NOW)
    assert held(path) == before
    assert again.saved.number == 3


def test_a_copy_that_is_not_sound_is_refused_and_the_ledger_stays(backups, path):
    bad = backups.folder / "season 0009 20270514T095412Z.greenroom"
    whole = backups.copies()[0].path.read_bytes()
    for content, error in (
        (whole[:-5000], DamagedLedgerError),
        (whole[:40960] + b"\xa5" * 64 + whole[41024:], DamagedLedgerError),
        (b"", DamagedLedgerError),
        (b"notes" * 100, NotALedgerError),
    ):
        bad.write_bytes(content)
        with refused(path, error, bad.name):
            restore(backups, bad, NOW)
    with refused(path, NotALedgerError, "is not there"):
        restore(backups, bad.with_name("season 0010 20270514T095412Z.greenroom"), NOW)


def test_a_ledger_another_program_writes_to_is_not_replaced(backups, path):
    with held_in_this_program(path, "BEGIN IMMEDIATE"), refused(path, LedgerUnavailableError, "in use"):
        restore(backups, backups.copies()[0].path, NOW)


def test_without_a_copy_of_what_is_there_nothing_is_replaced(backups, path, monkeypatch):
    def full(aside, place):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("greenroom.ledger.files._put_in_place", full)
    with refused(path, LedgerUnavailableError, "is full, so nothing was written"):
        restore(backups, backups.copies()[0].path, NOW)


@pytest.mark.parametrize("name", ["_sync_file", "sync_folder"])
def test_a_disk_that_fails_at_the_last_moment_leaves_one_of_the_two(name, backups, path, monkeypatch):
    before = held(path)

    def broken(_path):
        raise OSError(5, "Input/output error")

    monkeypatch.setattr(f"greenroom.ledger.files.{name}", broken)
    with pytest.raises(LedgerError, match="Input/output error") as caught:
        restore(backups, backups.copies()[0].path, NOW)
    assert_one_sentence(str(caught.value))
    monkeypatch.undo()
    assert held(path) in (before, held(backups.copies()[-1].path))


def test_a_copy_of_a_vanished_ledger_comes_back(backups, path):
    path.unlink()
    assert restore(backups, backups.copies()[0].path, NOW).saved is None
    assert len(held(path)[0]) == 1


def test_a_copy_taken_before_an_upgrade_comes_back_and_is_brought_up_to_date(path):
    shutil.copy(sorted(SAMPLES.glob("*.greenroom"))[0], path)
    now = held(path)
    backups = Backups(path)
    (copy,) = backups.copies()
    assert copy.mark == "before the upgrade from version 0001"
    with Ledger.open(path) as ledger:
        ledger.record(sown())
    restore(backups, copy.path, NOW)
    assert held(path) == now


# ---- a journal that is not the ledger's own ----


def broken_off(path, *, small_cache):
    """Leave a ledger and its journal as a program does that is killed in an act; return the file before."""
    before = path.read_bytes()
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        if small_cache:
            raw.execute("PRAGMA cache_size=10")
            raw.execute("PRAGMA cache_spill=10")
        raw.execute("BEGIN IMMEDIATE")
        raw.execute("INSERT INTO act VALUES (99, 'do', 'x', '2027-05-14 00:00:00.000000', 'UTC', 'x', NULL)")
        raw.execute(
            "WITH n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 3000) "
            "INSERT INTO fact SELECT 100000 + i, 'id' || i, 'none', '2027-05-14', 99 FROM n"
        )
        if small_cache:
            half = path.read_bytes(), path.with_name(path.name + "-journal").read_bytes()
        else:
            os.link(f"{path}-journal", path.with_name("kept"))
            raw.execute("COMMIT")
            half = path.read_bytes(), path.with_name("kept").read_bytes()
            path.with_name("kept").unlink()
            raw.execute("BEGIN")
        raw.execute("ROLLBACK")
    path.write_bytes(half[0])
    path.with_name(path.name + "-journal").write_bytes(half[1])
    return before


@pytest.mark.skipif(os.name != "posix", reason="elsewhere an open journal cannot be linked to")
@pytest.mark.parametrize("small_cache", [False, True], ids=["at its end", "in the midst of a large one"])
def test_an_act_that_broke_off_is_taken_back_but_its_journal_is_not_played_into_an_older_file(
    small_cache, backups, path
):
    older, before = backups.copies()[0].path.read_bytes(), held(path)
    with Ledger.open(path) as ledger:
        ledger.record(*(sown(column, row) for row in range(20) for column in range(50)))
        before = everything(ledger)
    broken_off(path, small_cache=small_cache)
    journal = path.with_name(path.name + "-journal").read_bytes()
    with Ledger.open(path) as ledger:
        assert everything(ledger) == before
    path.write_bytes(older)
    path.with_name(path.name + "-journal").write_bytes(journal)
    with refused(path, DamagedLedgerError, "was replaced while an act was being written"):
        Ledger.open(path)
    assert path.read_bytes() == older
    with refused(path, DamagedLedgerError, "was replaced"):
        restore(backups, backups.copies()[0].path, NOW)


@pytest.mark.parametrize("content", [b"", b"\x00" * 4096, b"no journal", bytes.fromhex("d9d505f920a163d7")])
def test_a_journal_that_has_nothing_to_take_back_is_no_hindrance(content, backups, path):
    before = held(path)
    path.with_name(path.name + "-journal").write_bytes(content)
    assert held(path) == before
