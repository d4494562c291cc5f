"""What the third version made of ledgers of the second: nothing lost, every new table there and guarded."""

import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest

from greenroom.ledger import Ledger
from greenroom.ledger.facts import KINDS
from tests.ledger.examples import EXAMPLES
from tests.ledger.make_sample import SAMPLES

NEW = (
    "weighed",
    "basin_emptied",
    "mix_felt",
    "fed",
    "lamps_set",
    "looked_over",
    "finding",
    "pruned",
    "staked",
    "mulched",
    "flowered",
    "picked",
    "seed_saved",
    "covered",
    "soil_felt",
    "bed_laid",
    "obstacle",
    "obstacle_gone",
    "job_put_off",
    "job_struck",
    "picture_kept",
)


@pytest.fixture
def brought_up(path):
    """Return the path of a ledger of the second version that was opened since."""
    shutil.copy(SAMPLES / "v0002.greenroom", path)
    with Ledger.open(path) as ledger:
        assert ledger.facts("watered")
    return path


@pytest.mark.parametrize("kind", NEW)
def test_a_season_begun_with_the_second_version_takes_each_new_kind_of_fact(kind, brought_up):
    told = [replace(fact, id=f"new-{fact.id}") for fact in EXAMPLES[kind]]
    assert all(type(fact) is KINDS[kind] for fact in told)
    with Ledger.open(brought_up) as ledger:
        ledger.record(*told, name="told")
    with Ledger.open(brought_up) as ledger:
        assert ledger.facts(kind) == told
        ledger.undo()
        assert ledger.facts(kind) == []


@pytest.mark.parametrize("table", NEW)
def test_what_was_told_since_cannot_be_wiped_out(table, brought_up):
    with Ledger.open(brought_up) as ledger:
        ledger.record(*(replace(fact, id=f"new-{fact.id}") for fact in EXAMPLES[table]))
    with (
        closing(sqlite3.connect(brought_up)) as raw,
        pytest.raises(sqlite3.IntegrityError, match="facts are struck out, never changed"),
    ):
        raw.execute(f"DELETE FROM {table}")


def test_a_bed_can_be_made_in_a_season_begun_before_there_were_beds(brought_up):
    bed = replace(EXAMPLES["holder_made"][2], id="bed", holder="bed-9")
    with Ledger.open(brought_up) as ledger:
        ledger.record(bed)
        assert bed in ledger.facts("holder_made")
