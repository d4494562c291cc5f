"""When a seedling is potted up: by its true leaves, and not once it hardens."""

from datetime import date, timedelta

import pytest

from greenroom.season.crops import crop_of
from greenroom.season.pot_up import pot_up_day
from tests.season.told import the_guide

UP, LATE = date(2027, 3, 1), date(2027, 8, 1)


@pytest.mark.parametrize("crop", ["bell", "habanero", "tomato", "aubergine", None])
def test_it_waits_for_the_pairs_of_leaves_that_the_guide_names(crop):
    """11 days to the first pair and 9 to each after it: common practice, no source."""
    pairs = crop_of(the_guide(), crop).pot_up_leaf_sets
    wanted = 11 + 9 * ((pairs.value.middle if pairs else 2) - 1)
    assert pot_up_day(the_guide(), crop, UP, LATE) == UP + timedelta(days=round(wanted))


def test_what_hardens_before_that_is_not_potted_up():
    assert pot_up_day(the_guide(), "bell", UP, UP + timedelta(days=9)) is None


@pytest.mark.parametrize("days", [0, 10, 40])
def test_what_comes_up_later_is_potted_up_as_much_later(days):
    way = timedelta(days=days)
    first, later = (pot_up_day(the_guide(), "bell", one, LATE) for one in (UP, UP + way))
    assert later - first == way
