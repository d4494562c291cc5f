"""The alarm and its minutes are right whatever the clock does: changes of the hour, midnight, sleep, setting.

A fake clock is moved minute by minute. The changes of the hour are those of the law: in Slovenia on the
last Sundays of March and October at 1:00 UTC (Directive 2000/84/EC), in Winnipeg on the second Sunday of
March and the first of November at 2:00 by the clock (The Official Time Act of Manitoba, from memory; both
as in the IANA time zone database). Twenty minutes are the first step of the default ramp.
"""

from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.desk.harden.alarm import AGAIN, SNOOZE, Alarm
from greenroom.ledger.facts import OutingEnded, OutingStarted
from greenroom.season.door import at_door
from greenroom.season.two_clocks import two_clocks
from tests.desk.harden_door import FakeBell
from tests.season._yard import RIDGE, TRAY, WINNIPEG, Yard

MINUTE = timedelta(minutes=1)
FIRST_STEP = timedelta(minutes=20)
TROMSO, INUVIK = ("Europe/Oslo", 69.65, 18.96), ("America/Inuvik", 68.36, -133.72)
"""Where the sun does not set in early June, so that a tray is in the sun at midnight."""
CHANGES = [
    (RIDGE, datetime(2027, 3, 28, 1, tzinfo=UTC), +1),
    (RIDGE, datetime(2027, 10, 31, 1, tzinfo=UTC), -1),
    (WINNIPEG, datetime(2027, 3, 14, 8, tzinfo=UTC), +1),
    (WINNIPEG, datetime(2027, 11, 7, 7, tzinfo=UTC), -1),
]


class Watch:
    """A tray on its first step, put into the sun at a moment, and the alarm that is shown it."""

    def __init__(self, place, start):
        self.start = start
        self.yard = Yard(place, begun=None)
        self.zone = self.yard.zone
        day = start.astimezone(self.zone).date()
        self.yard = Yard(place, begun=day)
        self.yard.write(OutingStarted(day=day, outing="out", holder=TRAY, at=start, light="sun"))
        self.bell = FakeBell()
        self.alarm = Alarm(self.bell)

    def here(self, now):
        today = now.astimezone(self.zone).date()
        return at_door(self.yard.season, two_clocks(self.yard.season, TRAY, today, now), now)

    def tick(self, now):
        """Show the alarm the tray at a moment; whether it rang."""
        before = len(self.bell.rung)
        self.alarm.tick(now, [self.here(now)])
        return len(self.bell.rung) > before

    def first_ring(self, start, minutes):
        """The first moment it rings, the clock moved on by one minute at a time; None if it does not."""
        moments = (start + number * MINUTE for number in range(minutes + 1))
        return next((now for now in moments if self.tick(now)), None)


@pytest.fixture(autouse=True)
def application(qapp):
    return qapp


@pytest.mark.parametrize(("place", "change", "hours"), CHANGES)
@pytest.mark.parametrize("before", [5, 19, 25])
def test_it_is_due_after_the_minutes_that_passed_when_the_hour_changes(place, change, hours, before):
    """Out five, nineteen or twenty-five minutes before the change: in any case twenty true minutes."""
    start = change - before * MINUTE
    watch = Watch(place, start)
    wall = [(change + side * MINUTE).astimezone(watch.zone).utcoffset() for side in (-1, 1)]
    assert wall[1] - wall[0] == timedelta(hours=hours), "the clocks change at that moment"
    for number in range(60):
        here = watch.here(start + number * MINUTE)
        assert (here.due, here.sun) == (start + FIRST_STEP, number)


@pytest.mark.parametrize(("place", "change", "hours"), CHANGES)
def test_it_goes_on_ringing_and_is_left_longer_over_a_change_of_the_hour(place, change, hours):
    """Every twenty seconds, and ten true minutes after it was left longer, whatever the clock shows."""
    watch = Watch(place, change - 60 * MINUTE)
    tens = [change - 2 * MINUTE + number * AGAIN / 2 for number in range(24)]
    assert [now for now in tens if watch.tick(now)] == tens[::2]
    left = change - MINUTE / 2
    watch.alarm.snooze(left, [watch.here(left)])
    assert watch.first_ring(left, 30) == left + SNOOZE


@pytest.mark.parametrize("place", [TROMSO, INUVIK])
def test_over_midnight_each_day_has_its_own_minutes_and_none_is_lost(place):
    """In the midnight sun, out at 23:50: ten minutes are of that day, the next rings at its own twenty."""
    midnight = Yard(place, begun=None).at(date(2027, 6, 2), "0:00")
    watch = Watch(place, midnight - 10 * MINUTE)
    assert watch.first_ring(watch.start, 60) == midnight + FIRST_STEP
    end = midnight + 7 * MINUTE
    watch.yard.write(OutingEnded(day=date(2027, 6, 1), outing="out", holder=TRAY, at=end))
    stand = two_clocks(watch.yard.season, TRAY, date(2027, 6, 2), end)
    assert [stand.counted_on(date(2027, 6, day)).clock for day in (1, 2)] == [10, 7]


@pytest.mark.parametrize("place", [RIDGE, WINNIPEG])
def test_a_laptop_that_slept_rings_when_it_wakes_and_counts_the_time_asleep(place):
    start = Yard(place, begun=None).at(date(2027, 6, 2), "9:00")
    watch = Watch(place, start)
    assert not watch.tick(start + 5 * MINUTE)
    woken = start + timedelta(hours=3)
    assert watch.tick(woken), "at once, not after another twenty minutes"
    assert watch.here(woken).sun == 180
    assert not watch.tick(woken + AGAIN / 2)
    assert watch.tick(woken + AGAIN)


@pytest.mark.parametrize("place", [RIDGE, WINNIPEG])
@pytest.mark.parametrize("hours", [1, 30])
def test_a_clock_set_wrong_and_right_again_rings_when_it_is_due(place, hours):
    """Set forward it believes the clock and rings; put right it is hushed, and rings in time again."""
    start = Yard(place, begun=None).at(date(2027, 6, 2), "9:00")
    watch = Watch(place, start)
    assert watch.tick(start + timedelta(hours=hours))
    hushed = watch.bell.hushed
    assert not watch.tick(start + 5 * MINUTE)
    assert watch.bell.hushed == hushed + 1
    assert watch.first_ring(start + 5 * MINUTE, 60) == start + FIRST_STEP


@pytest.mark.parametrize("place", [RIDGE, WINNIPEG])
def test_a_clock_set_back_before_the_outing_takes_no_minutes_and_none_too_many(place):
    start = Yard(place, begun=None).at(date(2027, 6, 2), "9:00")
    watch = Watch(place, start)
    assert watch.here(start - 2 * timedelta(hours=1)).sun == 0
    assert not watch.tick(start - timedelta(hours=2))
    assert watch.first_ring(start - 30 * MINUTE, 90) == start + FIRST_STEP
