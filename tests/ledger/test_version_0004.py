"""What the fourth version made of ledgers of the third: leaf cover kept, hours where there were none."""

import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import date

import pytest

from greenroom.ledger import BadFactError, Ledger
from greenroom.ledger.facts import CanopySeen, CellCover
from tests.ledger.examples import EXAMPLES
from tests.ledger.make_sample import SAMPLES


@pytest.fixture
def brought_up(path):
    """Return the path of a ledger of the third version that was opened since."""
    shutil.copy(SAMPLES / "v0003.greenroom", path)
    with Ledger.open(path) as ledger:
        assert ledger.facts("weighed")
    return path


def new(kind):
    return [replace(fact, id=f"new-{fact.id}") for fact in EXAMPLES[kind]]


@pytest.mark.parametrize("kind", ["canopy_seen", "weighed", "watered"])
def test_a_season_begun_with_the_third_version_takes_leaf_cover_and_hours(kind, brought_up):
    with Ledger.open(brought_up) as ledger:
        before = ledger.facts(kind)
        ledger.record(*new(kind), name="told")
    with Ledger.open(brought_up) as ledger:
        assert ledger.facts(kind) == [*before, *new(kind)]
        ledger.undo()
        assert ledger.facts(kind) == before


def test_weighings_and_waterings_told_before_have_no_hour(brought_up):
    with Ledger.open(brought_up) as ledger:
        told = [*ledger.facts("weighed"), *ledger.facts("watered")]
    assert len(told) == 5  # as in the sample
    assert {fact.at for fact in told} == {None}


@pytest.mark.parametrize("table", ["canopy_seen", "cell_cover"])
def test_leaf_cover_cannot_be_wiped_out(table, brought_up):
    with Ledger.open(brought_up) as ledger:
        ledger.record(*new("canopy_seen"))
    with (
        closing(sqlite3.connect(brought_up)) as raw,
        pytest.raises(sqlite3.IntegrityError, match="facts are struck out, never changed"),
    ):
        raw.execute(f"DELETE FROM {table}")


@pytest.mark.parametrize(
    ("cells", "said"),
    [
        ((), "at least one cell is needed"),
        ((CellCover(0, 1, 0.5), CellCover(0, 1, 0.5)), "each cell once, in order"),
        ((CellCover(1, 0, 0.5), CellCover(0, 1, 0.5)), "each cell once, in order"),
        ((CellCover(0, 100, 0.5),), "0 to 99 are allowed"),
        ((CellCover(-1, 0, 0.5),), "0 to 99 are allowed"),
        ((CellCover(0, 0, 1.01),), "0 to 1 is allowed"),
        ((CellCover(0, 0, None),), "a tuple of cells with numbers or nothing is allowed"),
    ],
)
def test_a_cover_that_cannot_be_is_refused_in_one_sentence(cells, said, ledger):
    fact = CanopySeen(day=date(2025, 3, 14), holder="tray-a", cells=cells)
    with pytest.raises(BadFactError, match=said):
        ledger.record(fact)
    assert ledger.facts() == []
