"""The calendar of plan and round: read by other programs, replaced by a later one, rid of what is off.

Rules: RFC 5545 (Desruisseaux 2009) and RFC 7986 (Daboo 2016), the section named beside each. Reader: the
icalendar library (BSD), independent of this project.
"""

import uuid
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import icalendar
import pytest

from greenroom.exchange.calendar_file import (
    Event,
    calendar_text,
    cancelled,
    read_former,
    sequence_of,
    write_calendar,
)
from greenroom.exchange.calendar_plan import plan_events, round_events
from greenroom.exchange.errors import BadFileError
from greenroom.season.deeds_plan import choose_sowing, want
from greenroom.season.jobs.door import standings
from greenroom.season.jobs.job import Walk
from greenroom.season.plan import plan_of
from greenroom.season.plan_stages import stages
from greenroom.season.round import the_round
from tests.season.demo_season import NOW, TODAY, demo_season
from tests.season.told import Told

ZONE = ZoneInfo("Europe/Ljubljana")
SEASON = demo_season()
DAYS = Event("a", "Sow Brass Bell", date(2027, 3, 1), date(2027, 3, 14), "Any day; of these, 40 seeds")
TIMED = Event(
    "b",
    "Tray A out",
    datetime(2027, 5, 15, 6, tzinfo=UTC),
    datetime(2027, 5, 15, 7, 30, tzinfo=UTC),
    alarm=timedelta(minutes=-10),
)


def read(text):
    """The events of a calendar by their UID, read by the library."""
    calendar = icalendar.Calendar.from_ical(text)
    events = calendar.walk("VEVENT")
    assert [event.errors for event in events if event.errors] == []
    found = {str(event["UID"]): event for event in events}
    assert len(found) == len(events)
    return found


def test_a_whole_day_ends_on_the_day_after_it():
    """3.6.1: DTEND is not included; for days it is the day after the last."""
    event = read(calendar_text("Plan", [DAYS], NOW, ZONE))[DAYS.uid]
    assert (event.decoded("DTSTART"), event.decoded("DTEND")) == (date(2027, 3, 1), date(2027, 3, 15))
    assert str(event["DESCRIPTION"]) == DAYS.note
    assert event["TRANSP"] == "TRANSPARENT"


def test_an_outing_is_told_by_the_clock_of_the_place_with_its_rule():
    """3.2.19: a TZID needs its VTIMEZONE in the same file. At 46° N, 15 May 2027 is in summer time, UTC+2."""
    text = calendar_text("Round", [TIMED], NOW, ZONE)
    assert "DTSTART;TZID=Europe/Ljubljana:20270515T080000\r\n" in text
    event = read(text)[TIMED.uid]
    assert event.decoded("DTSTART") == TIMED.start
    assert event.decoded("DTEND") == TIMED.end
    zones = icalendar.Calendar.from_ical(text).walk("VTIMEZONE")
    assert [str(zone["TZID"]) for zone in zones] == ["Europe/Ljubljana"]


def test_without_a_place_moments_are_told_in_utc():
    text = calendar_text("Round", [TIMED], NOW, None)
    assert "DTSTART:20270515T060000Z\r\n" in text
    assert "VTIMEZONE" not in text


def of_plan(season, today):
    return plan_events(season, plan_of(season, 2027, today))


def test_an_alarm_rings_before_the_outing():
    """3.6.6: a display alarm needs ACTION, DESCRIPTION and TRIGGER."""
    (alarm,) = read(calendar_text("Round", [TIMED], NOW, ZONE))[TIMED.uid].walk("VALARM")
    assert (alarm["ACTION"], str(alarm["DESCRIPTION"])) == ("DISPLAY", TIMED.title)
    assert alarm.decoded("TRIGGER") == timedelta(minutes=-10)


def test_the_file_is_what_the_rules_ask_for():
    """3.1 (CRLF, 75 octets), 3.4 (BEGIN and END), 3.6 (VERSION and PRODID once), 3.7.4 (VERSION 2.0)."""
    text = calendar_text("Plan", of_plan(SEASON, TODAY), NOW, ZONE)
    lines = text.split("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert (lines[0], lines[-2], lines[-1]) == ("BEGIN:VCALENDAR", "END:VCALENDAR", "")
    assert sum(line.startswith("PRODID:") for line in lines) == 1
    assert "VERSION:2.0" in lines
    assert max(len(line.encode()) for line in lines) <= 75
    for needed in ("UID", "DTSTAMP"):  # 3.6.1: each event needs both, once
        assert sum(line.startswith(f"{needed}:") for line in lines) == lines.count("BEGIN:VEVENT")


def test_the_plan_stands_in_the_calendar_day_by_day():
    plan = plan_of(SEASON, 2027, TODAY)
    found = {
        (str(one["SUMMARY"]), one.decoded("DTSTART"))
        for one in read(calendar_text("Plan", of_plan(SEASON, TODAY), NOW, ZONE)).values()
    }
    for row in plan.rows:
        known = stages(SEASON.guide, row)
        assert (f"{row.name} sown" if row.sown else f"Sow {row.name}", row.on) in found
        for words, day in (
            (f"Pot up {row.name}", known.pot_up),
            (f"Begin hardening {row.name}", known.hardens),
            (f"Set out {row.name}", known.set_out),
        ):
            assert day is None or (words, day) in found


def test_a_thing_keeps_its_uid_when_its_day_moves_and_the_later_file_wins():
    """3.8.4.7 and RFC 7986, 5.3 (a UUID); 3.8.7.4: a revision has a higher SEQUENCE, within 0 to 2^31 - 1
    (3.3.8)."""
    told, later = planned_season(), NOW + timedelta(hours=1)
    before = read(calendar_text("Plan", of_plan(told.season, EARLY), NOW, ZONE))
    told.do(choose_sowing(told.season, "v-Brass Bell", 2027, date(2027, 4, 4), EARLY))
    after = read(calendar_text("Plan", of_plan(told.season, EARLY), later, ZONE))
    sown = [uid for uid, one in after.items() if str(one["SUMMARY"]) == "Sow Brass Bell"]
    assert len(sown) == 1
    assert uuid.UUID(sown[0]).version == 5
    assert after[sown[0]].decoded("DTSTART") == date(2027, 4, 4) != before[sown[0]].decoded("DTSTART")
    assert set(before) == set(after)
    assert 0 <= before[sown[0]]["SEQUENCE"] < after[sown[0]]["SEQUENCE"] < 2**31
    assert before[sown[0]].decoded("DTSTAMP") < after[sown[0]].decoded("DTSTAMP")
    assert sequence_of(datetime(2099, 1, 1, tzinfo=UTC)) < 2**31


def test_what_is_no_longer_wanted_is_cancelled_and_so_goes_away():
    """3.8.1.11: STATUS:CANCELLED."""
    told = planned_season()
    before = read(calendar_text("Plan", of_plan(told.season, EARLY), NOW, ZONE))
    told.do(want(told.season, "v-Brass Bell", 2027, 0, EARLY))
    after = read(calendar_text("Plan", of_plan(told.season, EARLY), NOW, ZONE))
    assert set(before) <= set(after)
    assert {str(one["STATUS"]) for one in after.values()} == {"CANCELLED"}


EARLY = date(2027, 1, 10)


def planned_season():
    """One variety on the plan of 2027."""
    told = Told()
    told.packet("Brass Bell", seeds=60, germination=0.9)
    told.do(want(told.season, "v-Brass Bell", 2027, 6, EARLY))
    return told


def test_what_stood_in_the_file_that_is_replaced_and_is_off_is_cancelled(tmp_path):
    path = tmp_path / "round.ics"
    past = Event("past", "Water Tray A", date(2027, 5, 1), date(2027, 5, 1))
    gone = Event("gone", "Feed; Tray, A", date(2027, 5, 20), date(2027, 5, 20))
    begun = Event("begun", "Tray B out", NOW - timedelta(minutes=5), NOW + timedelta(hours=1))
    write_calendar(path, "Round", [past, gone, begun, TIMED], NOW - timedelta(days=20), ZONE)
    write_calendar(path, "Round", [DAYS], NOW, ZONE)
    found = read(path.read_bytes())
    assert set(found) == {gone.uid, TIMED.uid, DAYS.uid}
    assert str(found[gone.uid]["SUMMARY"]) == gone.title
    assert [str(found[one.uid]["STATUS"]) for one in (gone, TIMED, DAYS)] == [
        "CANCELLED",
        "CANCELLED",
        "CONFIRMED",
    ]
    assert found[TIMED.uid].decoded("DTSTART") == TIMED.start
    assert found[gone.uid].walk("VALARM") == []


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\xff\xfe not text",
        b"BEGIN:VCALENDAR\r\nPRODID:-//somebody else//EN\r\nBEGIN:VEVENT\r\nUID:x\r\nEND:VEVENT\r\n",
        b"PRODID:-//greenroom//season calendar//EN\r\nBEGIN:VEVENT\r\nUID:x\r\nSUMMARY:y\r\n"
        b"DTSTART:nonsense\r\nDTEND:19990230\r\nEND:VEVENT\r\nEND:VEVENT\r\nEND",
        b"PRODID:-//greenroom//season calendar//EN\r\nBEGIN:VEVENT\r\nUID:x\r\nSUMMARY:y\r\n"
        b"DTSTART;TZID=Nowhere/At_All:20270514T080000\r\nDTEND:20270514T080000Z\r\nEND:VEVENT\r\n",
    ],
)
def test_a_file_that_is_no_calendar_of_ours_is_just_replaced(tmp_path, content):
    path = tmp_path / "plan.ics"
    path.write_bytes(content)
    assert read_former(path) == []
    assert set(read(write_calendar(path, "Plan", [DAYS], NOW, ZONE).read_bytes())) == {DAYS.uid}


def test_a_calendar_that_cannot_be_written_is_told_in_one_sentence(tmp_path):
    with pytest.raises(BadFileError, match=r"^plan\.ics was not written: there is no such folder; .*\.$"):
        write_calendar(tmp_path / "none" / "plan.ics", "Plan", [DAYS], NOW, ZONE)


def test_the_round_brings_todays_jobs_and_the_outings_of_the_week():
    events = round_events(SEASON, TODAY, NOW)
    found = read(calendar_text("Round", events, NOW, ZONE))
    titles = {str(one["SUMMARY"]) for one in found.values()}
    others = [job for job in the_round(SEASON, TODAY, NOW).jobs if job.where != "At the door"]
    assert {job.what for job in others} <= titles
    names = {
        SEASON.holder(one.holder).name for one in standings(Walk.of(SEASON, TODAY, NOW)) if not one.hardened
    }
    timed = [one for one in events if one.timed]
    assert timed
    for one in timed:
        assert one.start < one.end
        assert (
            TODAY
            <= one.start.astimezone(ZONE).date()
            == one.end.astimezone(ZONE).date()
            <= TODAY + timedelta(7)
        )
        assert one.title.removesuffix(" out") in names
        assert one.note.startswith("In ")
    (rack,) = [one for one in standings(Walk.of(SEASON, TODAY, NOW)) if one.outing is not None]
    brought_in = [
        title for title in titles if title.startswith(f"Bring {SEASON.holder(rack.holder).name} in")
    ]
    assert len(brought_in) == 1


def test_sowing_is_one_thing_in_the_plan_and_on_the_round():
    plan = {one.uid: one for one in of_plan(SEASON, TODAY)}
    shared = [one for one in round_events(SEASON, TODAY, NOW) if one.uid in plan]
    assert shared
    assert all(one.title.startswith("Sow ") for one in shared)


def test_an_event_called_off_has_no_alarm():
    assert "VALARM" not in calendar_text("Round", [cancelled(TIMED)], NOW, ZONE)
