"""Sheets are what they were measured to be, or are refused in one sentence."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from greenroom.exchange.paper.sizes import A4, LETTER, SHEETS, SheetSize, SizeError

MAKERS = re.compile(r"[A-Z][a-z]{2,}")


def test_the_papers_are_those_of_the_standards():
    """Expected: ISO 216 (A4, 210 x 297 mm) and ANSI/ASME Y14.1 (size A, 8.5 x 11 in)."""
    assert (A4.width_mm, A4.height_mm) == (210.0, 297.0)
    assert (LETTER.width_mm, LETTER.height_mm) == pytest.approx((8.5 * 25.4, 11 * 25.4))


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_every_label_lies_on_its_sheet_and_on_no_other(sheet):
    places = [sheet.place(number) for number in range(sheet.places)]
    for place in places:
        assert 0 <= place.left <= sheet.paper.width_mm - place.width + 0.05
        assert 0 <= place.top <= sheet.paper.height_mm - place.height + 0.05
    for one, other in pairwise(places):
        assert other.left >= one.left + one.width - 0.05 or other.top >= one.top + one.height - 0.05


def test_a_sheet_is_named_by_its_measures_and_by_no_maker():
    assert SHEETS[0].name == "70 x 37 mm, 3 x 8, A4"
    assert {word for sheet in SHEETS for word in MAKERS.findall(sheet.name)} == {"Letter"}


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"across_mm": 60.0}, "overlap"),
        ({"down_mm": 36.0}, "overlap"),
        ({"left_mm": 1.0}, "only 210 mm wide"),
        ({"top_mm": -1.0}, "from -1 to"),
        ({"rows": 9}, "only 297 mm high"),
        ({"rows": 0}, "1 to 500 labels"),
        ({"width_mm": 2.0}, "at least 8 mm"),
        ({"height_mm": float("nan")}, "at least 8 mm"),
    ],
)
def test_a_sheet_that_cannot_be_is_refused_in_one_sentence(change, told):
    with pytest.raises(SizeError, match=told) as refused:
        replace(SHEETS[0], **change)
    assert str(refused.value).count(". ") == 0


def test_any_measured_sheet_can_be_used():
    own = SheetSize(LETTER, 4, 2, 90.5, 55.25, 12.3, 20.1, 95.0, 60.0)
    assert own.place(3) == pytest.approx((12.3 + 95.0, 20.1 + 60.0, 90.5, 55.25))
