"""What the ledger took is on the disk: no mark is lost when the program is killed between two words."""

import os
import random
import sqlite3
import subprocess
import sys
import time

import pytest

from greenroom.ledger import Ledger
from tests.ledger.checks import everything, sown
from tests.ledger.marking import FACTS_AN_ACT

KILLS = int(os.environ.get("GREENROOM_KILLS", "10"))  # a thorough run takes 500


def kill_while_marking(path, acts, delay):
    """Let another process mark, kill it ``delay`` seconds after its act ``acts``; return what it told."""
    with subprocess.Popen(
        [sys.executable, "-m", "tests.ledger.marking", str(path)], stdout=subprocess.PIPE, text=True
    ) as other:
        told = [other.stdout.readline() for _ in range(acts)]
        time.sleep(delay)
        other.kill()
        told += other.stdout.readlines()
    return [line.split() for line in told if line.endswith("\n")]


@pytest.mark.timeout(60 + 10 * KILLS)
def test_no_mark_that_was_acknowledged_is_lost_when_the_program_is_killed(path):
    chance = random.Random(KILLS)
    in_force: set[str] = set()
    acts = 0
    for _ in range(KILLS):
        told = kill_while_marking(path, chance.randrange(1, 25), chance.uniform(0, 0.03))
        for deed, *ids in told:
            in_force = in_force | set(ids) if deed == "did" else in_force - set(ids)
        with Ledger.open(path) as ledger:
            found = {entry.fact.id for entry in ledger.entries()}
            written = len(ledger.acts(1_000_000))
        acts += len(told)
        if written == acts:
            assert found == in_force
        else:  # the one act that was under way, whole
            assert written == acts + 1
            assert len(found ^ in_force) == FACTS_AN_ACT
        acts, in_force = written, found
    assert acts > KILLS


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
