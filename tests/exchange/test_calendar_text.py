"""Calendar text by the rules and worked examples of RFC 5545 (Desruisseaux, B. 2009).

Each expected value stands in the section named beside it. Read back by the icalendar library (BSD) and, for
the zone, by dateutil: both are independent of this project.
"""

import io
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import icalendar
import pytest
from dateutil import tz
from hypothesis import given
from hypothesis import strategies as st

from greenroom.exchange.calendar_text import (
    date_value,
    duration_value,
    escaped,
    folded,
    local_value,
    offset_value,
    unescaped,
    unfolded,
    utc_value,
)
from greenroom.exchange.calendar_zone import changes, zone_lines

NEW_YORK = ZoneInfo("America/New_York")
PRINTED = st.text(st.characters(blacklist_categories=("Cs", "Cc")), max_size=200)


def test_values_are_those_of_the_worked_examples():
    assert date_value(date(1997, 7, 14)) == "19970714"  # 3.3.4
    assert utc_value(datetime(1998, 1, 19, 7, tzinfo=UTC)) == "19980119T070000Z"  # 3.3.5, form 2
    assert (
        local_value(datetime(1998, 1, 19, 7, tzinfo=UTC).astimezone(NEW_YORK)) == "19980119T020000"
    )  # form 3
    assert offset_value(timedelta(hours=-5)) == "-0500"  # 3.3.14
    assert offset_value(timedelta(hours=1)) == "+0100"  # 3.3.14
    assert duration_value(timedelta(minutes=-15)) == "-PT15M"  # 3.8.6.3
    text = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
    assert escaped(text) == r"Project XYZ Final Review\nConference Room - 3B\nCome Prepared."  # 3.3.11
    assert escaped(r"a;b,c\d") == r"a\;b\,c\\d"  # 3.3.11


@given(PRINTED)
def test_no_line_is_longer_than_75_octets_and_none_is_lost(text):
    """Section 3.1: lines of text should not be longer than 75 octets, the line end left out."""
    out = folded(f"SUMMARY:{text}")
    assert out.endswith("\r\n")
    assert all(len(line.encode()) <= 75 for line in out.removesuffix("\r\n").split("\r\n"))
    assert list(unfolded(out)) == [f"SUMMARY:{text}"] or "\x85" in text


@given(st.text(st.characters(blacklist_categories=("Cs",)), max_size=60))
def test_text_comes_back_with_its_signs(text):
    out = escaped(text)
    assert "\n" not in out
    back = unescaped(out)
    assert escaped(back) == out


def test_the_clock_of_new_york_changes_as_the_example_tells():
    """Section 3.6.5, the zone of New York since 2007: 11 March 2007 from -0500 to -0400 at 2:00, and
    4 November 2007 back at 2:00."""
    text = "".join(zone_lines(NEW_YORK, datetime(2007, 1, 1, tzinfo=UTC), datetime(2007, 12, 31, tzinfo=UTC)))
    begun = (
        "BEGIN:DAYLIGHT\r\nDTSTART:20070311T020000\r\nTZOFFSETFROM:-0500\r\nTZOFFSETTO:-0400\r\nTZNAME:EDT"
    )
    ended = (
        "BEGIN:STANDARD\r\nDTSTART:20071104T020000\r\nTZOFFSETFROM:-0400\r\nTZOFFSETTO:-0500\r\nTZNAME:EST"
    )
    assert begun in text
    assert ended in text


@pytest.mark.parametrize(
    "name",
    ["Europe/Ljubljana", "America/New_York", "Australia/Lord_Howe", "Asia/Kolkata", "Pacific/Apia", "UTC"],
)
def test_another_reader_takes_from_the_zone_the_time_of_every_day(name):
    """Reference: dateutil's reader of VTIMEZONE, against the time zone database itself."""
    zone = ZoneInfo(name)
    first = datetime(2027, 1, 1, tzinfo=UTC)
    text = "".join(zone_lines(zone, first, first + timedelta(days=365)))
    calendar = f"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n{text}END:VCALENDAR\r\n"
    read = tz.tzical(io.StringIO(calendar)).get(name)
    for day in range(365):
        moment = first + timedelta(days=day, hours=11)
        local = moment.astimezone(zone).replace(tzinfo=None)
        assert local.replace(tzinfo=read).utcoffset() == moment.astimezone(zone).utcoffset(), local


def test_a_change_is_found_to_the_second():
    """Directive 2000/84/EC, article 2 and 3: at 1:00 GMT on the last Sundays of March and October."""
    found = list(
        changes(ZoneInfo("Europe/Oslo"), datetime(2027, 1, 1, tzinfo=UTC), datetime(2028, 1, 1, tzinfo=UTC))
    )
    assert found == [datetime(2027, 3, 28, 1, tzinfo=UTC), datetime(2027, 10, 31, 1, tzinfo=UTC)]


def test_the_library_of_calendars_reads_what_is_folded_and_escaped():
    title = "Sow Ñandú; “hot”, 7 \\ pots 🌶 " * 6
    summary = folded(f"SUMMARY:{escaped(title)}")
    text = f"BEGIN:VEVENT\r\nUID:a\r\nDTSTAMP:20270514T075400Z\r\n{summary}END:VEVENT\r\n"
    assert str(icalendar.Event.from_ical(text)["SUMMARY"]) == title
