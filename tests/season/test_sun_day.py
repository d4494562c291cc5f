"""The sun's path of a day as the arc shows it, against the sun's position itself and known days."""

from datetime import date, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from greenroom.agronomy.sunlight import sun_position
from greenroom.season.place import Place
from greenroom.season.sun_day import sun_day

LJUBLJANA = Place("Ridge Lane", 46.05, 14.51, ZoneInfo("Europe/Ljubljana"))
SYDNEY = Place("Bay", -33.87, 151.21, ZoneInfo("Australia/Sydney"))
SINGAPORE = Place("Straits", 1.35, 103.82, ZoneInfo("Asia/Singapore"))
TROMSO = Place("North", 69.65, 18.96, ZoneInfo("Europe/Oslo"))
DAY = date(2027, 5, 14)


def test_without_a_place_there_is_no_path():
    assert sun_day(Place(), DAY) is None


@pytest.mark.parametrize("place", [LJUBLJANA, SYDNEY, SINGAPORE])
def test_the_path_starts_and_ends_at_the_horizon_and_is_highest_at_noon(place):
    sun = sun_day(place, DAY)
    assert sun.height(sun.rise) == sun.height(sun.fall) == 0
    assert sun.height(sun.noon) == pytest.approx(1, abs=0.001)
    assert (sun.share(sun.rise), sun.share(sun.fall)) == (0, 1)
    assert sun.rise < sun.noon < sun.fall


@pytest.mark.parametrize("place", [LJUBLJANA, SYDNEY, SINGAPORE])
def test_the_sun_only_ever_moves_on_along_the_path(place):
    sun = sun_day(place, DAY)
    moments = [sun.rise + (sun.fall - sun.rise) * part / 200 for part in range(201)]
    assert np.all(np.diff([sun.share(moment) for moment in moments]) > 0)


@pytest.mark.parametrize("place", [LJUBLJANA, SYDNEY, SINGAPORE])
def test_the_height_is_the_sine_of_the_elevation_against_that_of_noon(place):
    """The share of an overhead sun's direct light on level ground is the sine of its elevation."""
    sun = sun_day(place, DAY)
    noon = np.sin(np.radians(sun_position(sun.noon, place.latitude, place.longitude)[0]))
    for part in (0.1, 0.3, 0.6, 0.9):
        moment = sun.rise + (sun.fall - sun.rise) * part
        elevation, _ = sun_position(moment, place.latitude, place.longitude)
        assert sun.height(moment) == pytest.approx(np.sin(np.radians(elevation)) / noon, abs=0.002)


def test_the_points_of_the_compass_stand_where_the_sun_passes_them():
    """North of the tropics the sun passes east, south and west; south of them east, north and west."""
    north, south = sun_day(LJUBLJANA, DAY), sun_day(SYDNEY, DAY)
    assert [name for _, name in north.points()] == ["E", "S", "W"]
    assert [name for _, name in south.points()] == ["N"]  # in its late autumn it rises north of east
    places = [share for share, _ in north.points()]
    assert places == sorted(places)
    assert places[1] == pytest.approx(north.share(north.noon), abs=0.01)


def test_where_the_sun_does_not_set_the_path_runs_from_midnight_to_midnight():
    """Tromsø: midnight sun from 20 May to 22 July, polar night in December (almanac, from memory)."""
    summer, winter = sun_day(TROMSO, date(2027, 6, 21)), sun_day(TROMSO, date(2027, 12, 21))
    assert (summer.rise, summer.fall, summer.up) == (None, None, True)
    assert summer.end - summer.start == timedelta(days=1)
    assert summer.height(summer.start) > 0
    assert not winter.up
    assert winter.height(winter.noon) == 0


def test_a_moment_before_sunrise_lies_at_the_start_of_the_path():
    sun = sun_day(LJUBLJANA, DAY)
    assert sun.share(sun.rise - timedelta(hours=1)) == 0
    assert sun.height(sun.rise - timedelta(hours=1)) == 0
