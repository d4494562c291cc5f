"""Minutes outdoors come from the facts alone: by midnight, by the clocks' changes, by sun and shade.

Expected minutes are clock arithmetic on the changes of the IANA time zone data: Europe/Ljubljana goes
forward on 28 March 2027 at 2:00 and back on 31 October 2027 at 3:00 (Directive 2000/84/EC: 1:00 UTC on
the last Sundays of March and October); Australia/Sydney goes back on 4 April 2027 at 3:00 and forward
on 3 October 2027 at 2:00 (first Sundays of April and October); Africa/Cairo goes forward at midnight on
the last Friday of April.
"""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.ledger import Entry
from greenroom.ledger.facts import OutingEnded, OutingStarted, OutingSwitched
from greenroom.season.counted import counted_days, counted_on
from greenroom.season.outings import (
    Outing,
    Stretch,
    fold_outings,
    midnight,
    open_outing,
    stretches_on,
)
from greenroom.season.place import Place
from greenroom.season.sky import Sky

LJUBLJANA, SYDNEY = ZoneInfo("Europe/Ljubljana"), ZoneInfo("Australia/Sydney")
CAIRO, APIA = ZoneInfo("Africa/Cairo"), ZoneInfo("Pacific/Apia")
DAY = date(2027, 5, 14)
LATER = datetime(2028, 1, 1, tzinfo=UTC)


def at(zone, day, clock, fold=0):
    hour, minute = (int(part) for part in clock.split(":"))
    local = datetime(day.year, day.month, day.day, hour, minute, tzinfo=zone, fold=fold)
    return local.astimezone(UTC)


def outing(*moments, lights=("sun",), key="o"):
    """An outing whose stretches run from each moment to the next; None as last is still out."""
    stretches = [
        Stretch(light, start, end)
        for light, start, end in zip(lights, moments[:-1], moments[1:], strict=True)
    ]
    return Outing(key, "tray", tuple(stretches))


def minutes_by_day(outings, zone, now):
    """Minutes in sun and in shade of each local day, by the clock."""
    found = counted_days(outings, Sky(Place(zone=zone), (), (), ()), "tray", now)
    return {day: (one.clock, one.shade) for day, one in found.items()}


def sun_until(outings, zone, moment):
    """The sun minutes of the local day of a moment, up to it."""
    day = moment.astimezone(zone).date()
    return counted_on(outings, Sky(Place(zone=zone), (), (), ()), "tray", day, moment).clock


def entries(*facts):
    return [Entry(number, number, fact) for number, fact in enumerate(facts, start=1)]


def started(moment, light="sun", day=DAY, key="o"):
    return OutingStarted(day=day, outing=key, holder="tray", at=moment, light=light)


def switched(moment, light, day=DAY, key="o"):
    return OutingSwitched(day=day, outing=key, holder="tray", at=moment, light=light)


def ended(moment, day=DAY, key="o"):
    return OutingEnded(day=day, outing=key, holder="tray", at=moment)


def test_sun_and_shade_run_on_two_clocks():
    one = outing(
        at(LJUBLJANA, DAY, "8:10"),
        at(LJUBLJANA, DAY, "9:00"),
        at(LJUBLJANA, DAY, "9:25"),
        at(LJUBLJANA, DAY, "10:00"),
        lights=("sun", "shade", "sun"),
    )
    assert minutes_by_day([one], LJUBLJANA, at(LJUBLJANA, DAY, "18:00")) == {DAY: (85.0, 25.0)}


def test_an_outing_that_goes_on_counts_up_to_now():
    one = outing(at(LJUBLJANA, DAY, "8:10"), None)
    for clock, minutes in (("8:10", 0), ("9:54", 104), ("10:01", 111)):
        now = at(LJUBLJANA, DAY, clock)
        assert minutes_by_day([one], LJUBLJANA, now).get(DAY, (0, 0))[0] == minutes


def test_a_clock_set_back_before_the_start_gives_no_minutes_rather_than_negative_ones():
    one = outing(at(LJUBLJANA, DAY, "8:10"), None)
    assert minutes_by_day([one], LJUBLJANA, at(LJUBLJANA, DAY, "7:00")) == {}


def test_an_outing_past_midnight_gives_each_day_its_own_minutes():
    one = outing(at(LJUBLJANA, DAY, "23:15"), at(LJUBLJANA, date(2027, 5, 15), "0:20"))
    assert minutes_by_day([one], LJUBLJANA, LATER) == {
        DAY: (45.0, 0.0),
        date(2027, 5, 15): (20.0, 0.0),
    }


def test_a_tray_forgotten_for_three_nights_gives_whole_days_between():
    one = outing(at(LJUBLJANA, DAY, "10:00"), at(LJUBLJANA, date(2027, 5, 17), "6:00"))
    minutes = minutes_by_day([one], LJUBLJANA, LATER)
    assert [minutes[DAY + timedelta(days=more)][0] for more in range(4)] == [840, 1440, 1440, 360]


@pytest.mark.parametrize(
    ("zone", "day", "whole_day"),
    [
        (LJUBLJANA, date(2027, 3, 28), 1380),
        (LJUBLJANA, date(2027, 10, 31), 1500),
        (SYDNEY, date(2027, 10, 3), 1380),
        (SYDNEY, date(2027, 4, 4), 1500),
        (CAIRO, date(2027, 4, 30), 1380),
    ],
)
def test_the_day_the_clocks_change_has_its_true_length(zone, day, whole_day):
    before, after = day - timedelta(days=1), day + timedelta(days=1)
    one = outing(midnight(before, zone), midnight(after + timedelta(days=1), zone))
    minutes = minutes_by_day([one], zone, LATER)
    assert (minutes[before][0], minutes[day][0], minutes[after][0]) == (1440, whole_day, 1440)


@pytest.mark.parametrize(
    ("zone", "day", "start", "end", "minutes"),
    [
        (LJUBLJANA, date(2027, 3, 28), "1:30", "3:30", 60),
        (LJUBLJANA, date(2027, 10, 31), "1:30", "3:30", 180),
        (SYDNEY, date(2027, 10, 3), "1:30", "3:30", 60),
        (SYDNEY, date(2027, 4, 4), "1:30", "3:30", 180),
    ],
)
def test_minutes_over_a_change_of_the_clocks_are_those_that_passed(zone, day, start, end, minutes):
    one = outing(at(zone, day, start), at(zone, day, end))
    assert minutes_by_day([one], zone, LATER) == {day: (float(minutes), 0.0)}


def test_the_hour_that_comes_twice_is_told_apart():
    """2:30 comes twice in Ljubljana on 31 October 2027, an hour apart."""
    day = date(2027, 10, 31)
    one = outing(at(LJUBLJANA, day, "2:30"), at(LJUBLJANA, day, "2:30", fold=1))
    assert minutes_by_day([one], LJUBLJANA, LATER) == {day: (60.0, 0.0)}


def test_a_date_that_a_place_skips_has_no_minutes():
    """Samoa went from 29 to 31 December 2011 over midnight (IANA time zone data, Pacific/Apia)."""
    one = outing(at(APIA, date(2011, 12, 29), "23:00"), at(APIA, date(2011, 12, 31), "1:00"))
    assert minutes_by_day([one], APIA, LATER) == {
        date(2011, 12, 29): (60.0, 0.0),
        date(2011, 12, 31): (60.0, 0.0),
    }


moments = st.integers(0, 330 * 1440).map(
    lambda minutes: datetime(2027, 3, 1, tzinfo=UTC) + timedelta(minutes=minutes)
)
spans = st.integers(0, 72 * 60).map(lambda minutes: timedelta(minutes=minutes))


@given(moments, spans, spans, st.sampled_from([LJUBLJANA, SYDNEY, CAIRO]))
def test_no_minute_is_lost_or_counted_twice_whatever_the_clocks_do(start, first, second, zone):
    one = outing(start, start + first, start + first + second, lights=("sun", "shade"))
    days = minutes_by_day([one], zone, start + first + second).values()
    assert sum(sun for sun, _ in days) == pytest.approx(first.total_seconds() / 60)
    assert sum(shade for _, shade in days) == pytest.approx(second.total_seconds() / 60)


@given(moments, spans, st.sampled_from([LJUBLJANA, SYDNEY, CAIRO]))
def test_the_sun_borne_by_the_end_of_the_day_is_all_of_the_days_sun(start, span, zone):
    one = outing(start, start + span)
    for day, (minutes, _) in minutes_by_day([one], zone, start + span).items():
        last = midnight(day + timedelta(days=1), zone) - timedelta(seconds=1)
        assert sun_until([one], zone, last) == pytest.approx(minutes, abs=0.02)


def test_the_sun_borne_when_a_setback_showed_leaves_out_shade_and_what_came_after():
    morning = outing(
        at(LJUBLJANA, DAY, "8:00"),
        at(LJUBLJANA, DAY, "8:30"),
        at(LJUBLJANA, DAY, "9:00"),
        lights=("sun", "shade"),
    )
    noon = outing(at(LJUBLJANA, DAY, "12:00"), None, key="n")
    outings = [morning, noon]
    for clock, borne in (("8:20", 20), ("8:45", 30), ("11:00", 30), ("12:15", 45)):
        assert sun_until(outings, LJUBLJANA, at(LJUBLJANA, DAY, clock)) == borne
    assert sun_until(outings, LJUBLJANA, at(LJUBLJANA, DAY, "7:00")) == 0


def test_the_sun_of_the_evening_before_is_not_borne_today():
    one = outing(at(LJUBLJANA, date(2027, 5, 13), "23:00"), None)
    assert sun_until([one], LJUBLJANA, at(LJUBLJANA, DAY, "0:10")) == 10


def test_the_facts_of_an_outing_make_its_stretches():
    eight, nine, ten = (at(LJUBLJANA, DAY, clock) for clock in ("8:00", "9:00", "10:00"))
    (one,) = fold_outings(entries(started(eight), switched(nine, "shade"), ended(ten)))
    assert one.stretches == (Stretch("sun", eight, nine), Stretch("shade", nine, ten))
    assert (one.start, one.end, one.light) == (eight, ten, "shade")
    assert open_outing([one]) is None


def test_an_outing_stays_whole_though_the_place_was_set_while_it_was_out():
    """Begun under UTC on the 15th, ended under Winnipeg's clock still on the 14th: filed end first."""
    begun, over = datetime(2027, 5, 15, 1, 0, tzinfo=UTC), datetime(2027, 5, 15, 2, 0, tzinfo=UTC)
    filed = entries(started(begun, day=date(2027, 5, 15)), ended(over, day=DAY))
    (one,) = fold_outings(sorted(filed, key=lambda entry: (entry.fact.day, entry.number)))
    assert (one.start, one.end) == (begun, over)


def test_facts_that_two_machines_wrote_of_one_outing_do_not_open_it_again():
    eight, nine, ten = (at(LJUBLJANA, DAY, clock) for clock in ("8:00", "9:00", "10:00"))
    (one,) = fold_outings(entries(started(eight), ended(nine), switched(ten, "shade"), ended(ten)))
    assert one.end == nine


def test_an_end_without_its_start_is_no_outing():
    assert fold_outings(entries(ended(at(LJUBLJANA, DAY, "9:00")))) == []


def test_the_stretches_of_a_day_are_cut_at_midnight_and_at_now():
    overnight = outing(
        at(LJUBLJANA, date(2027, 5, 13), "22:00"), at(LJUBLJANA, DAY, "6:00"), lights=("shade",)
    )
    morning = outing(at(LJUBLJANA, DAY, "8:10"), None, key="m")
    now = at(LJUBLJANA, DAY, "9:54")
    assert stretches_on([morning, overnight], DAY, LJUBLJANA, now) == [
        Stretch("shade", midnight(DAY, LJUBLJANA), at(LJUBLJANA, DAY, "6:00")),
        Stretch("sun", at(LJUBLJANA, DAY, "8:10"), now),
    ]
