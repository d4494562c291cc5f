"""What the second version made of ledgers of the first: nothing lost, one field more, all guarded."""

import shutil
import sqlite3
from contextlib import closing

import pytest

from greenroom.ledger import Ledger
from greenroom.ledger.tables import metadata
from tests.ledger.make_sample import SAMPLES

TRIGGERS = "SELECT name, tbl_name, sql FROM sqlite_master WHERE type = 'trigger'"


@pytest.fixture
def brought_up(path):
    """Return the path of a ledger of the first version that was opened since."""
    shutil.copy(SAMPLES / "v0001.greenroom", path)
    with Ledger.open(path) as ledger:
        assert ledger.facts()
    return path


def test_setbacks_seen_before_causes_were_told_were_of_the_sun(brought_up):
    with Ledger.open(brought_up) as ledger:
        (setback,) = ledger.facts("setback_seen")
    assert (setback.what, setback.cause) == ("scorch", "sun")


def test_every_table_of_a_ledger_brought_up_is_as_guarded_as_a_new_one(brought_up, tmp_path):
    with Ledger.open(tmp_path / "new.greenroom"):
        pass
    guards = []
    for one in (brought_up, tmp_path / "new.greenroom"):
        with closing(sqlite3.connect(one)) as raw:
            guards.append(
                set(raw.execute("SELECT name, tbl_name, sql FROM sqlite_master WHERE type = 'trigger'"))
            )
    assert guards[0] == guards[1]
    assert {table for _, table, _ in guards[0]} == set(metadata.tables)


def test_an_old_setback_cannot_be_given_another_cause(brought_up):
    with (
        closing(sqlite3.connect(brought_up)) as raw,
        pytest.raises(sqlite3.IntegrityError, match="facts are struck out, never changed"),
    ):
        raw.execute("UPDATE setback_seen SET cause = 'wind'")
