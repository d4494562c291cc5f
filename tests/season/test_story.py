"""What the grower relies on: variety, sowing date and story go with a seedling wherever it is put."""

from datetime import date, timedelta

import pytest

from greenroom.season import deeds_spots
from greenroom.season.proposal import RefusedError
from greenroom.season.story import glance_words, spoken_words, take_back
from greenroom.season.story_deeds import About, note_on
from tests.season.told import SOWN_ON, Told, spot, story

UP_ON = date(2027, 3, 21)
POTTED_ON = date(2027, 4, 20)
B3 = spot("Tray A", "B3")
POT = spot("Rack 1", "A2")


@pytest.fixture
def told():
    told = Told()
    told.packet("Cinder Lantern")
    told.packet("Brass Bell")
    told.holder("Tray A")
    told.holder("Rack 1", form="rack", rows=3, columns=6)
    told.holder("Rack 2", form="rack", rows=3, columns=6)
    told.do(deeds_spots.sow(told.season, "p-Cinder Lantern", [B3], SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, [B3], UP_ON))
    return told


def words(told, key):
    return [line.words for line in story(told.season, key)]


def test_the_story_of_a_cell_tells_its_marks_in_order_of_their_days(told):
    told.do(deeds_spots.set_leaves(told.season, [B3], date(2027, 4, 10), 4))
    told.do(note_on(told.season, About(spot=B3), "leaning", date(2027, 4, 1)))
    assert words(told, B3) == [
        "sown, 1 seed of Cinder Lantern, in B3 of Tray A",
        "up",
        "note: leaning",
        "4 true leaves",
    ]
    assert [line.day for line in story(told.season, B3)][:2] == [SOWN_ON, UP_ON]


def test_a_seedling_takes_its_story_along_to_its_pot(told):
    told.do(deeds_spots.move(told.season, [B3], POT, POTTED_ON))
    told.do(deeds_spots.set_leaves(told.season, [POT], date(2027, 5, 1), 6))
    assert words(told, POT) == [
        "sown, 1 seed of Cinder Lantern, in B3 of Tray A",
        "up",
        "moved to A2 of Rack 1, from B3 of Tray A",
        "6 true leaves",
    ]
    assert words(told, B3)[-1] == "one moved on to A2 of Rack 1"


def test_the_story_follows_a_seedling_through_two_moves(told):
    third = spot("Rack 2", "C6")
    told.do(deeds_spots.move(told.season, [B3], POT, POTTED_ON))
    told.do(deeds_spots.move(told.season, [POT], third, POTTED_ON + timedelta(10)))
    lines = story(told.season, third)
    assert [line.spot for line in lines] == [B3, B3, POT, third]
    assert not any(line.earlier for line in lines)


def test_what_befell_its_neighbour_after_the_move_is_not_in_its_story(told):
    told.do(deeds_spots.move(told.season, [B3], POT, POTTED_ON))
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", [B3], POTTED_ON))
    assert not any("Brass Bell" in line for line in words(told, POT))


def test_what_stood_in_the_cell_before_is_told_apart(told):
    told.do(deeds_spots.move(told.season, [B3], POT, POTTED_ON))
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", [B3], POTTED_ON))
    lines = story(told.season, B3)
    assert [line.earlier for line in lines] == [True, True, True, False]
    assert lines[-1].words == "sown, 1 seed of Brass Bell, in B3 of Tray A"


def test_a_seedling_that_takes_the_place_of_a_lost_one_keeps_only_its_own_story(told):
    c1 = spot("Tray A", "C1")
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", [c1], SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, [c1], UP_ON))
    told.do(deeds_spots.move(told.season, [B3], POT, POTTED_ON))
    told.do(deeds_spots.mark_lost(told.season, [POT], POTTED_ON + timedelta(2), "dried out"))
    told.do(deeds_spots.move(told.season, [c1], POT, POTTED_ON + timedelta(3)))
    now = [line.words for line in story(told.season, POT) if not line.earlier]
    assert now == [
        "sown, 1 seed of Brass Bell, in C1 of Tray A",
        "up",
        "moved to A2 of Rack 1, from C1 of Tray A",
    ]


def test_each_line_names_the_act_that_wrote_it_so_that_it_can_be_dated(told):
    acts = [line.act for line in story(told.season, B3)]
    assert acts == sorted(acts)
    assert len(set(acts)) == 2


def test_a_mark_can_be_taken_back_on_its_own(told):
    up = story(told.season, B3)[1]
    told.do(take_back(told.season, up))
    assert words(told, B3) == ["sown, 1 seed of Cinder Lantern, in B3 of Tray A"]
    assert told.season.spot(B3).waiting == 1


def test_a_sowing_is_not_taken_back_from_under_its_seedling(told):
    with pytest.raises(RefusedError, match=r"The sprout of 21 March in B3 of Tray A rests on this"):
        take_back(told.season, story(told.season, B3)[0])


def test_a_sprout_is_not_taken_back_once_its_seedling_has_moved_on(told):
    told.do(deeds_spots.move(told.season, [B3], POT, POTTED_ON))
    with pytest.raises(RefusedError, match=r"The move of 20 April in B3 of Tray A rests on this"):
        take_back(told.season, story(told.season, POT)[1])


def test_a_move_taken_back_puts_the_seedling_where_it_came_from(told):
    told.do(deeds_spots.move(told.season, [B3], POT, POTTED_ON))
    told.do(take_back(told.season, story(told.season, POT)[-1]))
    assert told.season.spot(B3).up == 1
    assert told.season.spot(POT).free


def test_a_move_is_not_taken_back_into_a_cell_that_was_sown_again(told):
    told.do(deeds_spots.move(told.season, [B3], POT, POTTED_ON))
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", [B3], POTTED_ON))
    with pytest.raises(RefusedError, match="The sowing of 20 April in B3 of Tray A rests on this"):
        take_back(told.season, story(told.season, POT)[-1])


def test_one_line_says_what_stands_in_a_cell(told):
    assert glance_words(told.season, B3) == "B3, Cinder Lantern: up since 21 March, sown 12 March"
    assert glance_words(told.season, spot("Tray A", "A1")) == "A1: nothing sown"
    told.do(deeds_spots.move(told.season, [B3], POT, POTTED_ON))
    assert glance_words(told.season, POT) == (
        "A2, Cinder Lantern: up since 21 March, sown 12 March, from B3 of Tray A"
    )
    assert glance_words(told.season, B3) == "B3, Cinder Lantern: moved on, sown 12 March"


def test_one_line_counts_the_seeds_of_a_cell_with_several(told):
    two = spot("Tray A", "D1")
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", [two], SOWN_ON, seeds=3))
    told.do(deeds_spots.mark_up(told.season, [two], UP_ON))
    told.do(deeds_spots.mark_up(told.season, [two], UP_ON))
    assert glance_words(told.season, two) == (
        "D1, Brass Bell: 2 up since 21 March, 1 seed still to come, sown 12 March"
    )


def test_a_reader_that_speaks_hears_row_and_column(told):
    assert spoken_words(told.season, B3) == (
        "row B, column 3, Cinder Lantern: up since 21 March, sown 12 March"
    )
