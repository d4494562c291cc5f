"""A disk that is full, a file that may grow no further, a clock that was set back: nothing half written."""

import os
import shutil
import subprocess
import sys
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta

import pytest

from greenroom.exchange.mending import mend
from greenroom.ledger import Ledger
from greenroom.ledger.backup_check import checked_contents
from greenroom.ledger.backups import Backups
from greenroom.ledger.errors import LedgerError, LedgerUnavailableError
from greenroom.ledger.restore import restore
from tests.ledger.checks import assert_one_sentence, everything, sown
from tests.ledger.make_sample import SAMPLES

NOW = datetime(2027, 5, 14, 9, 54, tzinfo=UTC)
SMALL_KB = 3000
LIMITED = """
import resource, signal, sys
from greenroom.ledger import Ledger, LedgerError
from tests.ledger.checks import sown
path = sys.argv[1]
ledger = Ledger.open(path)
ledger.record(sown())
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]), hard))
try:
    ledger.record(*(sown(column, row) for row in range(60) for column in range(60)))
except LedgerError as error:
    print(error)
resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
ledger.record(sown(1))
print(len(ledger.facts()), len(ledger.acts()))
"""


@contextmanager
def small_disk(folder):
    """Give a disk of 3 MB, where the system lets one be mounted."""
    folder.mkdir()
    mount = shutil.which("mount")
    options = ["-t", "tmpfs", "-o", f"size={SMALL_KB}k", "tmpfs", str(folder)]
    made = mount and subprocess.run([mount, *options], capture_output=True, check=False).returncode == 0
    if not made:
        pytest.skip("this user may not mount a small disk")
    try:
        yield folder
    finally:
        subprocess.run(["umount", "-l", str(folder)], check=True)


def filled(folder, left_kb):
    """Fill a disk up to so many kilobytes; return the file that does it."""
    filler = folder / "other files"
    disk = os.statvfs(folder)
    with filler.open("wb") as out:
        out.write(bytes(max(0, disk.f_bavail * disk.f_frsize - left_kb * 1024)))
    return filler


def told(act):
    """Carry out what a full disk refuses; return nothing, once it was told in one sentence."""
    with pytest.raises(LedgerError, match="is full") as caught:
        act()
    assert_one_sentence(str(caught.value))


@pytest.mark.skipif(os.name != "posix", reason="only POSIX mounts a disk into a folder")
def test_on_a_full_disk_nothing_is_half_written_and_with_room_again_all_goes_on(tmp_path):
    """A mark, a copy, going back, an upgrade and mending, each refused whole, then done."""
    with small_disk(tmp_path / "small") as disk:
        path = disk / "season.greenroom"
        backups = Backups(path, disk / "elsewhere")
        with Ledger.open(path) as ledger:
            ledger.record(*(sown(column) for column in range(50)))
            copy = backups.keep(NOW).copy
            before = everything(ledger)
            filler = filled(disk, 8)
            told(lambda: ledger.record(*(sown(column, row) for row in range(20) for column in range(50))))
            assert everything(ledger) == before
            told(lambda: backups.keep(NOW, "asked for"))
        told(lambda: restore(backups, copy.path, NOW))
        assert [one.number for one in backups.copies()] == [1]
        with Ledger.open(path) as ledger:
            assert everything(ledger) == before
        damaged = path.read_bytes()[:-4096]
        path.write_bytes(damaged)
        told(lambda: mend(backups, copy.path, NOW, zone="UTC", who="x"))
        assert path.read_bytes() == damaged
        filler.unlink()
        assert mend(backups, copy.path, NOW, zone="UTC", who="x").copied == 50
        with Ledger.open(path) as ledger:
            ledger.record(sown(1))
        assert restore(backups, copy.path, NOW).saved.number == 2
        assert checked_contents(path).facts == 50


@pytest.mark.skipif(os.name != "posix", reason="only POSIX mounts a disk into a folder")
def test_an_old_ledger_on_a_full_disk_stays_old_and_is_upgraded_once_there_is_room(tmp_path):
    sample = sorted(SAMPLES.glob("*.greenroom"))[0]
    with small_disk(tmp_path / "small") as disk:
        path = disk / sample.name
        shutil.copy(sample, path)
        filler = filled(disk, 100)
        told(lambda: Ledger.open(path))
        assert path.read_bytes() == sample.read_bytes()
        assert sorted(one.name for one in disk.iterdir()) == [filler.name, path.name]
        filler.unlink()
        with Ledger.open(path) as ledger:
            assert ledger.facts()


@pytest.mark.skipif(os.name != "posix", reason="only POSIX limits the size of files")
@pytest.mark.parametrize("over", [0, 50_000])
def test_a_file_that_may_grow_no_further_takes_no_half_act(over, path):
    """A quota of the system (setrlimit) in place of a full disk: on the journal first, then on the ledger."""
    Ledger.open(path).close()
    limit = str(path.stat().st_size + over if over else 4096)
    done = subprocess.run(
        [sys.executable, "-c", LIMITED, str(path), limit], capture_output=True, text=True, check=True
    )
    words, counts = done.stdout.splitlines()
    assert_one_sentence(words)
    assert counts == "2 2"
    with Ledger.open(path) as ledger:
        assert len(ledger.facts()) == 2


def test_a_clock_set_back_changes_neither_the_order_of_facts_nor_what_undo_takes_back(path):
    moments = iter([NOW, NOW - timedelta(days=3650), NOW - timedelta(days=1), NOW, NOW])
    with Ledger.open(path, clock=lambda: next(moments)) as ledger:
        for column in range(3):
            ledger.record(sown(column), name=f"act {column}")
        assert [act.name for act in ledger.acts()] == ["act 2", "act 1", "act 0"]
        assert ledger.acts()[1].written == NOW - timedelta(days=3650)
        assert [fact.column for fact in ledger.facts()] == [0, 1, 2]
        assert (ledger.undo().removed[0].fact.column, ledger.undo_name) == (2, "act 1")
        assert ledger.redo().added[0].fact.column == 2


def test_a_vanished_folder_is_told_and_a_new_one_is_not_written_to(path, tmp_path):
    folder = tmp_path / "garden"
    ledger = Ledger.open(folder / path.name)
    ledger.record(sown())
    folder.rename(tmp_path / "moved")
    folder.mkdir()
    with pytest.raises(LedgerUnavailableError, match="was moved, replaced or deleted") as caught:
        ledger.record(sown(1))
    assert_one_sentence(str(caught.value))
    with pytest.raises(LedgerError) as caught:
        Backups(folder / path.name).keep(NOW)
    assert_one_sentence(str(caught.value))
    ledger.close()
    assert list(folder.iterdir()) == []
    with Ledger.open(tmp_path / "moved" / path.name) as again:
        assert len(again.facts()) == 1
