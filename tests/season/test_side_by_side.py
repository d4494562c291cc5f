"""Trays side by side tell what each tray's own card tells, and the strip below them tells the weather known.

The weather is laid out in the tests; what keeps a pepper in (10 °C, 11 m/s, 15 mm) are the program's own
limits, checked elsewhere.
"""

from datetime import timedelta

import pytest

from greenroom.ledger.facts import Held, SkySeen
from greenroom.season.place import place_of
from greenroom.season.ready_history import spread_of
from greenroom.season.side_by_side import (
    COLUMNS,
    LONGEST_AHEAD,
    Span,
    cells,
    line_words,
    span_of,
    tray_line,
)
from greenroom.season.weather_strip import strip_days, strip_words
from tests.season._yard import FIRST, STEPS, TRAY, Yard, day

TODAY = day(6)
WINDY = {"gust_ms": 15.0, "rain_mm": 4.0}


@pytest.fixture
def yard():
    """Five mornings: two outings, one set back by droop, one kept in, one outing; a gale on the ninth day."""
    made = Yard()
    for number, minutes in ((1, 20), (2, 30), (3, 40), (5, 30)):
        made.out(day(number), "9:00", minutes, 100)
    made.setback(day(3), "9:30")
    made.write(Held(day=day(4), holder=TRAY, why="nobody at home"))
    made.weather({day(number): {} for number in range(1, 9)})
    ahead = {day(number): {} for number in range(6, 14)} | {day(9): WINDY}
    hours = [(made.at(TODAY, f"{hour}:00"), 15.0, 0.25, 3.0, 0.0) for hour in range(24)]
    made.forecast(made.at(TODAY, "7:00"), ahead, hours)
    return made


def line_of(yard, today=TODAY):
    return tray_line(yard.season, yard.stand(today))


def test_a_line_is_the_holders_own_standing(yard):
    stand, line = yard.stand(TODAY), line_of(yard)
    assert (line.name, line.ready_on, line.hardened) == ("Tray C", stand.ready_on, False)
    assert line.sun == (stand.sun.step, len(STEPS))
    assert [one.date for one in line.setbacks] == [day(3)]
    assert [one.date for one in line.kept_in] == [day(4)]
    assert [one.date for one in line.holds] == [day(9)]
    done = {one.date: one.done for one in line.days if one.done}
    assert done == {day(1): 20, day(2): 30, day(3): 40, day(5): 30}


def test_a_line_in_words_tells_what_the_bars_show(yard):
    words = line_words(line_of(yard))
    assert words.startswith("Tray C: step ")
    for part in ("set back drooping 10 May", "in on 1 day", "next hold 16 May", "today 0 of "):
        assert part in words
    row = dict(zip(COLUMNS, cells(line_of(yard)), strict=True))
    assert row["Setbacks"] == "drooping 10 May"
    assert row["Next hold"].startswith("16 May, ")
    assert row["Spread"] == "not known", "no year of the record, no spread"
    assert spread_of(yard.season, yard.stand(TODAY)) is None


def test_the_axis_holds_every_day_and_no_more_than_four_weeks_ahead(yard):
    line = line_of(yard)
    span = span_of([line], TODAY)
    assert (span.first, span.last) == (FIRST, line.ready_on + timedelta(1))
    assert span.days()[-1] == span.last
    assert len(span.days()) == span.count
    yard.weather({day(number): WINDY for number in range(6, 70)}, told=TODAY)
    assert line_of(yard).ready_on is None or line_of(yard).ready_on > TODAY + LONGEST_AHEAD
    assert span_of([line_of(yard)], TODAY).last <= TODAY + LONGEST_AHEAD + timedelta(1)
    assert span_of([], TODAY) == Span(TODAY, TODAY + timedelta(1))


def test_the_strip_tells_measured_days_from_forecast_ones_and_what_kept_in(yard):
    strip = strip_days(yard.season, Span(day(0), day(15)), [yard.stand(TODAY)])
    told = {one.date: one for one in strip}
    assert len(strip) == 16
    assert [one.date for one in strip if one.told == "measured"] == [day(number) for number in range(1, 9)]
    assert (told[day(9)].told, told[day(9)].gust_ms, told[day(9)].rain_mm) == ("forecast", 15.0, 4.0)
    assert (told[day(14)].told, told[day(14)].low_c) == ("", None)
    assert {one.date for one in strip if one.kept} == {day(4), day(9)}
    assert told[day(4)].kept == "nobody at home"
    place = place_of(yard.season)
    assert strip_words(told[day(9)], place).startswith(
        "16 May, forecast: 8 °C to 20 °C, rain 4 mm, gusts 54 km/h, in: "
    )
    assert strip_words(told[day(15)], place) == "22 May: not known"


def test_cloud_is_as_seen_else_as_the_hours_of_daylight_are_forecast(yard):
    span = Span(day(5), day(7))
    assert [one.cloud for one in strip_days(yard.season, span, [])] == [None, 0.25, None]
    for clock, cloud in (("10:00", 1.0), ("14:00", 0.5)):
        yard.write(SkySeen(day=TODAY, at=yard.at(TODAY, clock), cloud=cloud))
    assert [one.cloud for one in strip_days(yard.season, span, [])] == [None, 0.75, None]
