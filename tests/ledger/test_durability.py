"""What the ledger took is on the disk: no mark is lost when the program is killed between two words."""

import os
import sqlite3
import subprocess
import sys

import pytest

from greenroom.ledger import Ledger
from tests.ledger.checks import everything, sown

KILLS = int(os.environ.get("GREENROOM_KILLS", "21"))  # a thorough run takes 1000


@pytest.mark.skipif(os.name != "posix", reason="only POSIX forks a program")
@pytest.mark.timeout(100 + 2 * KILLS)
def test_nothing_acknowledged_is_lost_when_the_program_is_killed_at_any_work():
    """In a process of its own, since it forks: see ``tests/ledger/crashing.py`` for the kinds of work."""
    command = [sys.executable, "-m", "tests.speed.crash", "--kills", str(KILLS)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, ""), done.stdout
    kills, told, *bad = (int(word.replace(",", "")) for word in done.stdout.splitlines()[-1].split()[1:])
    assert (kills, bad) == (KILLS, [0, 0, 0])
    assert told > KILLS


def test_the_ledger_waits_for_the_disk_and_stays_one_file(ledger, path):
    raw = ledger._connection.connection.driver_connection
    ask = {
        name: raw.execute(f"PRAGMA {name}").fetchone()[0]
        for name in (
            "journal_mode",
            "synchronous",
            "foreign_keys",
            "recursive_triggers",
            "trusted_schema",
            "busy_timeout",
        )
    }
    assert ask == {
        "journal_mode": "delete",
        "synchronous": 2,  # FULL, https://www.sqlite.org/pragma.html#pragma_synchronous
        "foreign_keys": 1,
        "recursive_triggers": 1,
        "trusted_schema": 0,
        "busy_timeout": 1000,
    }
    ledger.record(sown())
    assert [one.name for one in path.parent.iterdir()] == [path.name]


def test_a_ledger_another_program_set_to_a_write_ahead_log_is_set_back(open_ledger, path):
    open_ledger().record(sown())
    before = everything(open_ledger())
    open_ledger().close()
    other = sqlite3.connect(path)
    assert other.execute("PRAGMA journal_mode=WAL").fetchone()[0] == "wal"
    other.close()
    ledger = open_ledger()
    assert everything(ledger) == before
    ledger.record(sown(1))
    assert [one.name for one in path.parent.iterdir()] == [path.name]
    assert path.read_bytes()[18:20] == b"\x01\x01"  # https://www.sqlite.org/fileformat.html, 1.3.3


@pytest.fixture
def commit(open_ledger, path):
    """Return the bytes before and after one act, its journal, and what was known before."""
    ledger = open_ledger()
    ledger.record(*(sown(column) for column in range(50)))
    known, old = everything(ledger), path.read_bytes()
    kept = path.with_name("kept")
    raw = ledger._connection.connection.driver_connection
    raw.execute("BEGIN IMMEDIATE")
    raw.execute("INSERT INTO strike (fact, act, restored) SELECT number, 1, 0 FROM fact")
    raw.execute("INSERT INTO note SELECT number, 'tray-a', 0, 0, hex(zeroblob(4000)) FROM fact")
    os.link(f"{path}-journal", kept)  # the commit unlinks the journal's name; its bytes stay
    raw.execute("COMMIT")
    ledger.close()
    return old, path.read_bytes(), kept.read_bytes(), known


@pytest.mark.skipif(os.name != "posix", reason="elsewhere an open journal cannot be linked to")
def test_an_act_cut_short_anywhere_by_a_power_cut_is_taken_back_at_the_next_opening(commit, tmp_path):
    """The disk as a power cut may leave it: the first pages of an act written, the others not."""
    old, new, journal, known = commit
    assert len(new) > len(old)
    size = int.from_bytes(new[16:18], "big")
    torn = tmp_path / "torn" / "season.greenroom"
    torn.parent.mkdir()
    for written in {0, 1, 2, len(old) // size - 1, len(old) // size, len(new) // size - 1, len(new) // size}:
        torn.write_bytes(new[: written * size] + old[written * size :])
        torn.with_name("season.greenroom-journal").write_bytes(journal)
        with Ledger.open(torn) as ledger:
            assert everything(ledger) == known
        assert torn.read_bytes() == old
        assert [one.name for one in torn.parent.iterdir()] == [torn.name]
