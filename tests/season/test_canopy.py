"""What a photograph of a tray leaves behind: marks where seed waited, leaf cover everywhere, one act."""

from datetime import date, timedelta

import pytest

from greenroom.ledger.facts import CanopySeen, CellCover, PictureKept, Sprouted
from greenroom.season.canopy import canopy_days, middle_cover
from greenroom.season.canopy_deeds import keep_reading, sort_out
from greenroom.season.canopy_why import RULES, canopy_why, reading_why
from greenroom.season.deeds_spots import mark_up, sow
from greenroom.season.proposal import RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.story_deeds import PictureFile
from tests.season.told import SOWN_ON, Told

SEEN_ON = SOWN_ON + timedelta(days=9)
ROW_A = [SpotKey("Tray A", 0, column) for column in range(4)]
COVER = [CellCover(0, 3, 0.25), CellCover(0, 0, 0.5), CellCover(0, 1, 0.1), CellCover(0, 2, 0.0)]
PICTURE = PictureFile("a.jpg", "0" * 64, 40, 30)


@pytest.fixture
def told():
    """A tray of one row of four: the first three sown, the first of them up."""
    told = Told()
    told.packet("Cinder Lantern")
    told.holder("Tray A", rows=1, columns=4)
    told.do(sow(told.season, "p-Cinder Lantern", ROW_A[:3], SOWN_ON))
    told.do(mark_up(told.season, ROW_A[:1], SOWN_ON + timedelta(days=7)))
    return told


def test_green_cells_are_sorted_by_what_is_known_of_them(told):
    green = sort_out(told.season, [ROW_A[0], ROW_A[1], ROW_A[3]])
    assert (green.known, green.new, green.unsown) == ((ROW_A[0],), (ROW_A[1],), (ROW_A[3],))


def test_one_act_marks_what_is_new_and_keeps_the_cover_and_the_picture(told):
    green = [ROW_A[0], ROW_A[1], ROW_A[3]]
    proposal = keep_reading(told.season, "Tray A", green, COVER, SEEN_ON, 0.2, PICTURE)
    assert proposal.name == "marked 1 cell of Tray A up, from a photo"
    marks = [fact for fact in proposal.record if isinstance(fact, Sprouted)]
    (picture,) = [fact for fact in proposal.record if isinstance(fact, PictureKept)]
    (seen,) = [fact for fact in proposal.record if isinstance(fact, CanopySeen)]
    assert [(one.row, one.column, one.day) for one in marks] == [(0, 1, SEEN_ON)]
    assert (seen.picture, seen.threshold) == (picture.picture, 0.2)
    assert [cell.column for cell in seen.cells] == [0, 1, 2, 3]
    told.do(proposal)
    assert told.season.spot(ROW_A[1]).up == 1
    assert told.season.spot(ROW_A[0]).up == 1  # as it was
    assert told.season.spot(ROW_A[3]).up == 0  # never sown


def test_where_nothing_is_new_the_cover_is_kept_all_the_same(told):
    proposal = keep_reading(told.season, "Tray A", [ROW_A[0]], COVER, SEEN_ON)
    assert proposal.name == "leaf cover of Tray A, from a photo"
    assert [type(fact) for fact in proposal.record] == [CanopySeen]


@pytest.mark.parametrize(
    ("holder", "cells", "day", "said"),
    [
        ("Tray B", COVER, SEEN_ON, "is not there any more"),
        ("Tray A", [CellCover(1, 0, 0.5)], SEEN_ON, "has 1 × 4 cells; the photo was read for another tray"),
        ("Tray A", COVER, SOWN_ON - timedelta(days=1), "is in use since 12 March"),
    ],
)
def test_what_does_not_fit_the_tray_is_refused(holder, cells, day, said, told):
    with pytest.raises(RefusedError, match=said):
        keep_reading(told.season, holder, [], cells, day)


def test_the_cover_of_a_day_is_the_median_of_the_cells_with_leaf_and_the_last_reading_counts(told):
    told.do(keep_reading(told.season, "Tray A", [], [CellCover(0, 0, 0.9)], SEEN_ON))
    told.do(keep_reading(told.season, "Tray A", [], COVER, SEEN_ON))
    told.do(keep_reading(told.season, "Tray A", [], [CellCover(0, 0, 0.0)], date(2027, 3, 14)))
    early, late = canopy_days(told.season, "Tray A")
    assert (early.day, early.middle, early.leafy) == (date(2027, 3, 14), 0.0, 0)
    assert (late.day, late.middle, late.leafy) == (SEEN_ON, 0.25, 3)  # the median of 0.1, 0.25 and 0.5
    assert late.cover[ROW_A[0]] == 0.5
    assert canopy_days(told.season, "Tray B") == ()
    assert middle_cover([CellCover(0, 0, 0.2), CellCover(0, 1, 0.4)]) == (pytest.approx(0.3), 2)
    why = canopy_why((early, late))
    assert why.figure == "leaf cover 25 %"
    assert why.sources


@pytest.mark.parametrize("rule", RULES)
def test_a_reading_says_by_which_rule_and_whose(rule):
    why = reading_why(12, 2, 72, None if rule == "none" else 0.19, rule, (0.003, 0.012))
    assert why.figure == "12 of 72 up"
    assert why.inputs[0] == ("corners", "marked by hand")
    assert RULES[rule] in why.rule
    assert any("Woebbecke" in source for source in why.sources)
    assert any("Otsu" in source for source in why.sources)
