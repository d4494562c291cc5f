"""Beds and what throws shade are laid, moved and taken off the plot; plants are set out into beds only."""

from datetime import date, timedelta

import pytest

from greenroom.season import deeds_plot, deeds_spots
from greenroom.season.deeds_plot import Rectangle, bed_laid, next_bed_name, obstacles
from greenroom.season.proposal import RefusedError
from greenroom.season.spots import SpotKey
from tests.season.told import SOWN_ON, Told

DAY = date(2027, 5, 28)
GROUND = Rectangle(1, 2, 1.2, 4, 10)


@pytest.fixture
def told():
    told = Told()
    told.packet("Brass Bell")
    told.holder("Tray A", rows=1, columns=6, mix_c=25.0)
    cells = [SpotKey("Tray A", 0, column) for column in range(3)]
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", cells, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, cells, SOWN_ON + timedelta(8)))
    told.do(deeds_plot.lay_bed(told.season, "", 2, 2, GROUND, SOWN_ON))
    return told


def the_bed(told):
    return told.season.holders("bed")[0]


def refused(make):
    with pytest.raises(RefusedError) as caught:
        make()
    assert str(caught.value).endswith(".")
    return str(caught.value)


def test_a_bed_is_named_laid_and_in_use(told):
    bed = the_bed(told)
    assert (bed.name, bed.form, bed.rows, bed.columns) == ("Bed 1", "bed", 2, 2)
    laid = bed_laid(told.season, bed.key)
    assert (laid.x_m, laid.y_m, laid.width_m, laid.depth_m, laid.turned_deg) == (1, 2, 1.2, 4, 10)
    assert next_bed_name(told.season) == "Bed 2"
    again = refused(lambda: deeds_plot.lay_bed(told.season, "bed 1", 1, 1, GROUND, DAY))
    assert "bed 1 is in use already" in again


def test_the_last_word_on_where_a_bed_lies_counts(told):
    key = the_bed(told).key
    assert deeds_plot.move_bed(told.season, key, GROUND, DAY).empty
    told.do(deeds_plot.move_bed(told.season, key, Rectangle(5, 5, 2, 2), DAY, pot_litres=11))
    laid = bed_laid(told.season, key)
    assert (laid.x_m, laid.pot_litres) == (5, 11)


def test_plants_are_set_out_into_a_bed_and_nowhere_else(told):
    season, key = told.season, the_bed(told).key
    cells = [SpotKey("Tray A", 0, column) for column in range(3)]
    proposal = deeds_plot.set_out(season, cells, SpotKey(key, 0, 0), DAY)
    assert proposal.name == "set 3 plants out into Bed 1"
    told.do(proposal)
    assert season.counts(key).living == 3
    assert season.spot(SpotKey(key, 1, 0)).origin == cells[2]
    words = refused(lambda: deeds_plot.set_out(season, cells, SpotKey("Tray A", 0, 5), DAY))
    assert "set out into a bed" in words
    assert "still holds" in refused(lambda: deeds_plot.remove_bed(season, key, DAY))


def test_an_empty_bed_can_be_taken_off_the_plot(told):
    told.do(deeds_plot.remove_bed(told.season, the_bed(told).key, DAY))
    assert told.season.holders("bed") == []


def test_what_throws_shade_comes_moves_and_goes(told):
    season = told.season
    told.do(deeds_plot.add_obstacle("hedge", Rectangle(0, 0, 8, 0.6), 1.8, DAY))
    told.do(deeds_plot.add_obstacle("house", Rectangle(-9, 0, 8, 10), 7, DAY))
    hedge, _ = obstacles(season)
    same = deeds_plot.move_obstacle(season, hedge.obstacle, "hedge", Rectangle(0, 0, 8, 0.6), 1.8, DAY)
    assert same.empty
    told.do(deeds_plot.move_obstacle(season, hedge.obstacle, "hedge", Rectangle(0, 1, 8, 0.6), 2.2, DAY))
    assert [(one.name, one.height_m) for one in obstacles(season)] == [("hedge", 2.2), ("house", 7)]
    told.do(deeds_plot.remove_obstacle(season, hedge.obstacle, DAY))
    assert [one.name for one in obstacles(season)] == ["house"]
    assert "not on the plot" in refused(lambda: deeds_plot.remove_obstacle(season, hedge.obstacle, DAY))


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda s: deeds_plot.lay_bed(s, "x", 1, 1, Rectangle(0, 0, 0, 1), DAY), "0.05 to 500 m"),
        (lambda s: deeds_plot.lay_bed(s, "x", 1, 1, Rectangle(0, 0, 1, 501), DAY), "0.05 to 500 m"),
        (lambda s: deeds_plot.lay_bed(s, "x", 1, 1, Rectangle(0, -1001, 1, 1), DAY), "up to 1,000 m"),
        (lambda s: deeds_plot.lay_bed(s, "x", 1, 1, GROUND, DAY, 0.01), "0.1 to 2,000 L"),
        (lambda s: deeds_plot.lay_bed(s, "x", 0, 1, GROUND, DAY), "1 to 100 rows and columns"),
        (lambda s: deeds_plot.move_bed(s, "Tray A", GROUND, DAY), "only beds lie on the plot"),
        (lambda s: deeds_plot.add_obstacle(" ", GROUND, 2, DAY), "needs a name"),
        (lambda s: deeds_plot.add_obstacle("wall", GROUND, 0, DAY), "0.05 to 500 m"),
    ],
)
def test_ground_that_cannot_be_is_refused(told, make, words):
    assert words in refused(lambda: make(told.season))
