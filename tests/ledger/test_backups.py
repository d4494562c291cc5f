"""Copies are taken by themselves while the grower works, each checked, and a failure is never silent."""

import os
import sqlite3
import stat
import threading
import time
from contextlib import closing
from datetime import UTC, datetime, timedelta

import pytest

from greenroom.ledger import Ledger
from greenroom.ledger.backup_check import checked_contents
from greenroom.ledger.backups import BEFORE_RESTORING, Backups
from greenroom.ledger.errors import DamagedLedgerError, LedgerError, LedgerUnavailableError
from greenroom.ledger.files import UNDER_WAY
from greenroom.ledger.restore import restore
from tests.ledger.checks import assert_one_sentence, everything, newest_good, sown
from tests.ledger.examples import all_examples

NOW = datetime(2027, 5, 14, 9, 54, 12, tzinfo=UTC)
DAY = timedelta(days=1)


@pytest.fixture
def backups(path, tmp_path):
    return Backups(path, tmp_path / "elsewhere")


def names(folder):
    return sorted(one.name for one in folder.iterdir()) if folder.is_dir() else []


def test_a_copy_is_kept_beside_the_ledger_in_use_and_holds_all_of_it(ledger, backups, path):
    ledger.record(*all_examples(), name="all")
    ledger.strike("sown-1")
    kept = backups.keep(NOW)
    assert kept.new
    assert names(path.parent) == ["season.greenroom", "season.greenroom backups"]
    assert names(backups.folder) == ["season 0001 20270514T095412Z.greenroom"]
    assert (kept.copy.number, kept.copy.moment, kept.notice) == (1, NOW, "")
    assert checked_contents(kept.copy.path).facts == len(all_examples())
    ledger.record(sown())
    ledger.undo()
    with Ledger.open(kept.copy.path) as copied:
        assert copied.undo().added[0].fact.id == "sown-1"
        assert copied.facts() == all_examples()


def test_a_ledger_that_did_not_change_and_an_empty_one_are_not_copied(ledger, backups):
    assert backups.keep(NOW).copy is None
    ledger.record(sown())
    first = backups.keep(NOW).copy
    again = backups.keep(NOW + DAY)
    assert (again.copy, again.new) == (first, False)
    ledger.undo()
    assert backups.keep(NOW + DAY).copy.number == 2
    assert backups.keep(NOW + DAY, BEFORE_RESTORING).copy.number == 3
    assert [one.mark for one in backups.copies()] == ["before restoring", "", ""]


def test_a_copy_that_went_bad_does_not_count(ledger, backups):
    ledger.record(sown())
    first = backups.keep(NOW).copy
    first.path.write_bytes(first.path.read_bytes()[:5000])
    assert backups.keep(NOW + DAY).copy.number == 2
    assert newest_good(backups).number == 2
    newest = backups.copies()[0].path
    newest.write_bytes(b"")
    assert newest_good(backups) is None


def test_a_copy_that_lacks_a_fact_is_found_out(ledger, backups):
    ledger.record(*all_examples())
    copy = backups.keep(NOW).copy.path
    with closing(sqlite3.connect(copy)) as raw:
        raw.execute("DROP TRIGGER never_delete_sprouted")
        raw.execute("DELETE FROM sprouted WHERE number = (SELECT max(number) FROM sprouted)")
        raw.commit()
    with pytest.raises(DamagedLedgerError, match="of 2 facts of the kind sprouted it has 1") as caught:
        checked_contents(copy)
    assert_one_sentence(str(caught.value))


def test_copies_thin_out_and_those_asked_for_stay(ledger, backups):
    """Every third day from 1 April on: of the first days one a week, and the one that was asked for."""
    for step in range(16):
        ledger.record(sown())
        backups.keep(NOW + 3 * step * DAY, BEFORE_RESTORING if step == 1 else "")
    assert [one.number for one in backups.copies()] == [16, 15, 14, 13, 12, 11, 10, 9, 8, 7, 6, 4, 2, 1]


def test_a_clock_set_back_makes_the_next_copy_no_less_the_newest(ledger, backups):
    ledger.record(sown())
    backups.keep(NOW)
    ledger.record(sown(1))
    copy = backups.keep(NOW - 400 * DAY).copy
    assert newest_good(backups) == copy
    assert not backups.keep(NOW - 400 * DAY).new
    assert len(backups.copies()) == 2


def test_where_none_can_be_kept_beside_the_ledger_it_is_kept_elsewhere_and_told(ledger, backups, tmp_path):
    ledger.record(sown())
    backups.folder.write_text("a file in the way")
    kept = backups.keep(NOW)
    assert kept.copy.path.parent == tmp_path / "elsewhere"
    assert_one_sentence(kept.notice)
    assert kept.notice.startswith(f"Copies of season.greenroom are now kept in {tmp_path / 'elsewhere'}: ")
    assert "season.greenroom backups" in kept.notice
    assert [one.number for one in backups.copies()] == [1]
    (backups.folder).unlink()
    ledger.record(sown())
    assert backups.keep(NOW).copy.path.parent == backups.folder
    assert [one.number for one in backups.copies()] == [2, 1]


@pytest.mark.skipif(os.name != "posix", reason="only POSIX marks a folder read-only")
def test_where_no_folder_takes_a_copy_it_is_told_and_nothing_is_left(ledger, path):
    ledger.record(sown())
    backups = Backups(path)
    backups.folder.mkdir()
    backups.folder.chmod(stat.S_IRUSR | stat.S_IXUSR)
    try:
        with pytest.raises(LedgerUnavailableError, match="is read-only") as caught:
            backups.keep(NOW)
    finally:
        backups.folder.chmod(0o700)
    assert_one_sentence(str(caught.value))
    (path.parent / "file").write_text("")
    backups.folder.rmdir()
    backups.folder.write_text("")
    nowhere = Backups(path, path.parent / "file")
    with pytest.raises(LedgerUnavailableError, match=r"No copy of season\.greenroom was kept") as caught:
        nowhere.keep(NOW)
    assert_one_sentence(str(caught.value))


def test_a_damaged_ledger_is_told_and_not_copied(ledger, backups, path):
    ledger.record(*all_examples())
    backups.keep(NOW)
    ledger.record(sown())
    ledger.close()
    whole = path.read_bytes()
    path.write_bytes(whole[: 5 * 4096] + b"\xa5" * 64 + whole[5 * 4096 + 64 :])
    with pytest.raises(LedgerError, match=r"season\.greenroom is damaged") as caught:
        backups.keep(NOW + DAY)
    assert_one_sentence(str(caught.value))
    assert len(names(backups.folder)) == 1


def test_an_older_file_put_in_the_ledgers_place_is_told(ledger, backups, path):
    ledger.record(sown())
    ledger.close()
    older = path.read_bytes()
    with Ledger.open(path) as later:
        later.record(sown(1))
    backups.keep(NOW, "asked for")
    path.write_bytes(older)
    kept = backups.keep(NOW + DAY)
    assert kept.notice.startswith("season.greenroom holds less than the newest copy of it")
    assert_one_sentence(kept.notice)
    assert len(backups.copies()) == 2
    with Ledger.open(path) as later:
        later.record(sown(1), sown(2))
        later.record(sown(3))
    restore(backups, kept.copy.path, NOW)
    assert backups.keep(NOW + DAY).notice == "", "the grower went back"


def test_a_copy_taken_while_marks_are_made_is_one_state_of_the_ledger_and_holds_up_none(ledger, backups):
    ledger.record(*(sown(column, row) for row in range(20) for column in range(60)))
    marks, stop = [], threading.Event()

    def mark():
        while not stop.wait(0.005):
            start = time.monotonic()
            ledger.record(sown())
            marks.append(time.monotonic() - start)

    marking = threading.Thread(target=mark)
    marking.start()
    try:
        copies = [backups.keep(NOW + number * DAY).copy for number in range(2)]
    finally:
        stop.set()
        marking.join()
    assert all(spent < 1 for spent in marks)
    facts = [checked_contents(copy.path).facts for copy in copies]
    assert facts == sorted(facts)
    with Ledger.open(copies[-1].path) as copied:
        known = {entry.fact.id for entry in ledger.entries()}
        assert {entry.fact.id for entry in copied.entries()} <= known
        assert len(everything(copied)[0]) == facts[-1]


def test_what_a_killed_copying_left_is_swept_a_day_later(ledger, backups):
    ledger.record(sown())
    backups.folder.mkdir()
    left = [backups.folder / f".greenroom-{number:012x}.new" for number in (1, 2)]
    for one, age in zip(left, (2 * DAY, DAY / 2), strict=True):
        one.write_bytes(b"half")
        moment = (NOW - age).timestamp()
        os.utime(one, (moment, moment))
        assert UNDER_WAY.fullmatch(one.name)
    beside = ledger.file.with_name(".greenroom-00000000000a.v0001.new")
    beside.write_bytes(b"half")
    os.utime(beside, ((NOW - 2 * DAY).timestamp(),) * 2)
    backups.keep(NOW)
    assert not beside.exists()
    assert names(backups.folder) == [left[1].name, "season 0001 20270514T095412Z.greenroom"]


def test_names_of_other_things_are_no_copies(ledger, backups):
    ledger.record(sown())
    backups.keep(NOW)
    for name in (
        "season 0002 20279999T095412Z.greenroom",
        "season.greenroom",
        "other 0003 20270514T095412Z.greenroom",
        "season 0004 20270514T095412Z.txt",
    ):
        (backups.folder / name).write_bytes(b"")
    (backups.folder / "season 0005 20270514T095412Z.greenroom").mkdir()
    assert [one.number for one in backups.copies()] == [1]


def test_copies_of_two_ledgers_of_one_folder_are_kept_apart(ledger, backups, path):
    ledger.record(sown())
    backups.keep(NOW)
    with Ledger.open(path.with_name("season 0001.greenroom")) as other:
        other.record(sown())
        others = Backups(path.with_name("season 0001.greenroom"))
        others.keep(NOW)
    assert len(backups.copies()) == len(others.copies()) == 1
    assert backups.folder != others.folder
