"""The published schedules stand as they were read, day by day; what is worked out says so."""

import pytest

from greenroom.season.outdoors_why import shade_why
from greenroom.season.schedules import SCHEDULES, SHADE, SUN, Band, envelope, schedules
from tests.season._yard import FIRST, Yard, day


def schedule(start):
    return next(one for one in SCHEDULES if one.source.startswith(start))


@pytest.mark.parametrize(
    ("source", "number", "low", "high", "read"),
    [
        # University of Florida: 60 to 120 minutes, about 60 more a day.
        ("University of Florida", 1, 60, 120, True),
        ("University of Florida", 4, 240, 300, False),
        ("University of Florida", 14, 600, 600, False),
        # Beltrami County: 180 to 240 minutes of shade, 60 to 120 more a day.
        ("Beltrami", 1, 180, 240, True),
        ("Beltrami", 3, 300, 480, False),
        # Illinois: 120 to 180, then 600 to 720, then day and night twice.
        ("University of Illinois", 1, 120, 180, True),
        ("University of Illinois", 12, 600, 720, True),
        ("University of Illinois", 14, 1440, 1440, True),
        # Hennepin County: about 60, all day on day 14.
        ("Hennepin", 1, 60, 60, True),
        ("Hennepin", 14, 600, 600, True),
        # A growers' forum: noon sun for 30 minutes on day 6, all day on day 7; a thread: 15, then 20.
        ("Growers' forum", 6, 30, 30, True),
        ("Growers' discussion", 1, 15, 15, True),
        ("Growers' discussion", 2, 20, 20, True),
    ],
)
def test_a_day_is_as_its_source_gives_it(source, number, low, high, read):
    assert schedule(source).band(number) == Band(low, high, read)


@pytest.mark.parametrize(
    ("source", "number"),
    [
        ("University of Illinois", 5),
        ("Hennepin", 7),
        ("University of Maryland", 1),
        ("Growers' forum", 8),
        ("Toronto", 2),
        ("University of Florida", 0),
        ("University of Florida", 15),
    ],
)
def test_days_of_which_a_source_says_nothing_have_no_band(source, number):
    assert schedule(source).band(number) is None


def test_no_schedule_that_begins_in_shade_begins_as_low_as_a_ramp_of_direct_sun():
    first = [one.band(1) for one in schedules(SHADE)]
    assert min(band.low for band in first if band) == 60
    assert envelope(1, SHADE) == Band(60, 240)
    assert envelope(1, SUN) == Band(15, 180)
    assert envelope(12) == Band(600, 720, read=False)
    assert envelope(99) is None


def test_the_envelope_of_a_day_holds_every_schedule():
    for number in range(1, 15):
        around = envelope(number)
        for one in SCHEDULES:
            band = one.band(number)
            assert band is None or around.low <= band.low <= band.high <= around.high


def test_minutes_never_fall_from_day_to_day_where_a_step_is_given():
    for one in SCHEDULES:
        if one.step is not None:
            bands = one.bands()
            assert [band.low for band in bands] == sorted(band.low for band in bands)


def test_every_schedule_says_what_it_counts_and_how_it_was_read():
    assert all(one.light and one.seen and one.source for one in SCHEDULES)
    assert len({one.source for one in SCHEDULES}) == len(SCHEDULES)


def test_the_reason_for_shade_holds_the_day_against_the_schedules():
    yard = Yard()
    why = shade_why(yard.stand(FIRST))
    assert why.figure == "100 minutes of shade still to come today"
    assert ("schedules that begin in shade, day 1", "60 to 240 minutes") in why.inputs
    yard.out(FIRST, "8:00", 20, 100)
    assert ("step", "2 of 9") in shade_why(yard.stand(day(2))).inputs
