"""Marks for an earlier day, and marks taken back, never leave a seedling that cannot have been."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.season import deeds_spots
from greenroom.season.coherence import coherent, misfits
from greenroom.season.proposal import RefusedError
from tests.season.told import SOWN_ON, Told, spot

UP_ON = date(2027, 3, 21)
POTTED_ON = date(2027, 4, 20)
CELLS = [spot("Tray A", label) for label in ("A1", "A2")]
POTS = [spot("Rack 1", label) for label in ("A1", "A2")]


def season_told():
    told = Told()
    told.packet("Brass Bell")
    told.holder("Tray A", rows=1, columns=2)
    told.holder("Rack 1", form="rack", rows=1, columns=2)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", CELLS, SOWN_ON))
    return told


@pytest.fixture
def told():
    made = season_told()
    made.do(deeds_spots.mark_up(made.season, CELLS, UP_ON))
    return made


def test_nothing_is_lost_before_it_came_up(told):
    with pytest.raises(RefusedError, match=r"The sprout of 21 March in A1 of Tray A came later"):
        deeds_spots.mark_lost(told.season, CELLS[:1], UP_ON - timedelta(2), "cold")


def test_a_pot_that_was_taken_on_that_day_takes_no_second_seedling(told):
    told.do(deeds_spots.move(told.season, CELLS[:1], POTS[0], POTTED_ON))
    told.do(deeds_spots.mark_lost(told.season, POTS[:1], POTTED_ON + timedelta(9), "eaten"))
    late = deeds_spots.move(told.season, CELLS[1:], POTS[0], POTTED_ON + timedelta(9))
    assert coherent(told.season, late) is late
    with pytest.raises(RefusedError, match=r"A1 of Rack 1 was not empty on 23 April"):
        deeds_spots.move(told.season, CELLS[1:], POTS[0], POTTED_ON + timedelta(3))


def test_a_seedling_that_has_moved_on_cannot_be_lost_where_it_stood(told):
    told.do(deeds_spots.move(told.season, CELLS[:1], POTS[0], POTTED_ON))
    back = deeds_spots.take_back_up(told.season, CELLS[1:])
    assert coherent(told.season, back, CELLS[1:]) is back
    with pytest.raises(RefusedError, match="no sprout mark to take back"):
        deeds_spots.take_back_up(told.season, CELLS[:1])


def test_backspace_on_a_cell_sown_again_leaves_the_first_seedlings_mark_alone(told):
    told.do(deeds_spots.move(told.season, CELLS[:1], POTS[0], POTTED_ON))
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", CELLS[:1], POTTED_ON))
    with pytest.raises(RefusedError, match="no sprout mark to take back"):
        deeds_spots.take_back_up(told.season, CELLS[:1])
    assert told.season.spot(POTS[0]).first_up == UP_ON


ACTS = {
    "up": lambda season, key, day: deeds_spots.mark_up(season, [key], day),
    "back": lambda season, key, day: deeds_spots.take_back_up(season, [key]),
    "lost": lambda season, key, day: deeds_spots.mark_lost(season, [key], day, "cold"),
    "sow": lambda season, key, day: deeds_spots.sow(season, "p-Brass Bell", [key], day),
    "move": lambda season, key, day: deeds_spots.move(season, [key], POTS[0], day),
    "on": lambda season, key, day: deeds_spots.move(season, [POTS[0]], POTS[1], day),
}


@given(st.lists(st.tuples(st.sampled_from(sorted(ACTS)), st.integers(0, 1), st.integers(0, 30)), max_size=14))
def test_whatever_is_done_on_whatever_day_every_spot_makes_sense(acts):
    """A law: an act that is let through never makes a spot hold what it cannot have held."""
    told = season_told()
    for name, cell, days in acts:
        key = CELLS[cell]
        try:
            told.do(ACTS[name](told.season, key, SOWN_ON + timedelta(days)))
        except RefusedError:
            continue
    for key in [*CELLS, *POTS]:
        assert list(misfits(key, told.season.spot_facts(key))) == []
