"""A calendar file by RFC 5545: events with alarms, that replace those of an earlier file when read again.

The same thing has the same UID in every file (section 3.8.4.7), so that a calendar program takes it for
what it has already; SEQUENCE (3.8.7.4) and DTSTAMP (3.8.7.2) of a later file are higher, so that it takes the
later word. What is off again is written once more as cancelled (3.8.1.11), so that it goes away there, too.
No METHOD is given: without one no invitation is meant (3.7.2).
"""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from greenroom.exchange.calendar_text import (
    date_value,
    duration_value,
    folded,
    local_value,
    plain_property,
    text_property,
    unescaped,
    unfolded,
    utc_value,
)
from greenroom.exchange.calendar_zone import zone_lines
from greenroom.exchange.tables_file import write_text

PRODUCT = "-//greenroom//season calendar//EN"
NAMESPACE = uuid.UUID("6b2f63d4-2c0b-5d8e-9a38-0f6a1c0c7e15")
EPOCH = datetime(2020, 1, 1, tzinfo=UTC)
LARGEST_FILE = 5_000_000
DAY_FORMAT, MOMENT_FORMAT = "%Y%m%d", "%Y%m%dT%H%M%S"
ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Event:
    """One thing in a calendar.

    ``key`` tells it from all others and stays the same for as long as it is the same thing. ``start`` and
    ``end`` are days, the last one included, or moments. ``alarm`` is how long after the start, or before
    it if negative, it rings; None for not at all.
    """

    key: str
    title: str
    start: date
    end: date
    note: str = ""
    alarm: timedelta | None = None
    cancelled: bool = False

    @property
    def uid(self) -> str:
        """The UID: a name-based UUID, as RFC 7986, section 5.3, asks for."""
        return str(uuid.uuid5(NAMESPACE, self.key))

    @property
    def timed(self) -> bool:
        """Whether it has times, not only days."""
        return isinstance(self.start, datetime)


@dataclass(frozen=True, slots=True)
class Former:
    """An event as an earlier file has it."""

    uid: str
    title: str
    start: date
    end: date


def calendar_text(
    name: str, events: Sequence[Event], now: datetime, zone: ZoneInfo | None, former: Iterable[Former] = ()
) -> str:
    """Return a calendar.

    Parameters
    ----------
    name : str
        What it is called.
    events : sequence of Event
        What is in it; of several with one key the first counts.
    now : datetime
        This moment, aware; later files have to have a later one.
    zone : ZoneInfo or None
        The clock of the place; without one, moments are told in UTC.
    former : iterable of Former
        What an earlier file holds; what is to come of it and is no longer told of is cancelled.

    Returns
    -------
    str
        The calendar, its lines folded and ended as RFC 5545 asks.
    """
    by_uid: dict[str, Event] = {}
    for event in events:
        by_uid.setdefault(event.uid, event)
    gone = [one for one in former if one.uid not in by_uid and _to_come(one, now, zone)]
    return "".join(_lines(name, by_uid, gone, now, zone))


def write_calendar(
    path: str | Path, name: str, events: Sequence[Event], now: datetime, zone: ZoneInfo | None
) -> Path:
    """Write a calendar, whole or not at all; what the file held before and is off again is cancelled.

    Raises
    ------
    BadFileError
        If it cannot be written; one sentence says why.
    """
    return write_text(path, calendar_text(name, events, now, zone, read_former(path)))


def read_former(path: str | Path) -> list[Former]:
    """Return the events of an earlier calendar of this program; nothing where none is there to be read."""
    file = Path(path)
    try:
        if not file.is_file() or file.stat().st_size > LARGEST_FILE:
            return []
        text = file.read_text(encoding="utf-8")
    except (OSError, ValueError):
        return []
    return list(_former(text)) if f"PRODID:{PRODUCT}" in text else []


def sequence_of(now: datetime) -> int:
    """Return the number of a file's revision: whole minutes since 2020, within the 31 bits of an integer."""
    return max(0, int((now - EPOCH) / timedelta(minutes=1)))


def _lines(
    name: str, events: dict[str, Event], gone: list[Former], now: datetime, zone: ZoneInfo | None
) -> Iterator[str]:
    yield folded("BEGIN:VCALENDAR")
    yield folded("VERSION:2.0")
    yield folded(f"PRODID:{PRODUCT}")
    yield folded("CALSCALE:GREGORIAN")
    yield text_property("NAME", name)
    timed = [event for event in events.values() if event.timed]
    if zone is not None and timed:
        moments = [moment for one in timed for moment in (one.start, one.end) if isinstance(moment, datetime)]
        yield from zone_lines(zone, min(moments), max(moments))
    for event in events.values():
        yield from _event(event, event.uid, now, zone)
    for one in gone:
        yield from _event(Event("", one.title, one.start, one.end, cancelled=True), one.uid, now, zone)
    yield folded("END:VCALENDAR")


def _event(event: Event, uid: str, now: datetime, zone: ZoneInfo | None) -> Iterator[str]:
    yield folded("BEGIN:VEVENT")
    yield text_property("UID", uid)
    yield plain_property("DTSTAMP", utc_value(now))
    yield plain_property("LAST-MODIFIED", utc_value(now))
    yield plain_property("SEQUENCE", str(sequence_of(now)))
    yield from _times(event, zone)
    yield text_property("SUMMARY", event.title)
    if event.note:
        yield text_property("DESCRIPTION", event.note)
    yield plain_property("STATUS", "CANCELLED" if event.cancelled else "CONFIRMED")
    yield plain_property("TRANSP", "TRANSPARENT")
    if event.alarm is not None and not event.cancelled:
        yield from _alarm(event.title, event.alarm)
    yield folded("END:VEVENT")


def _times(event: Event, zone: ZoneInfo | None) -> Iterator[str]:
    """Yield start and end; the end of a day is the day after it (section 3.6.1: DTEND is not included)."""
    if isinstance(event.start, datetime) and isinstance(event.end, datetime):
        for name, moment in (("DTSTART", event.start), ("DTEND", event.end)):
            if zone is None:
                yield plain_property(name, utc_value(moment))
            else:
                yield plain_property(name, local_value(moment.astimezone(zone)), {"TZID": zone.key})
        return
    for name, day in (("DTSTART", event.start), ("DTEND", event.end + ONE_DAY)):
        yield plain_property(name, date_value(day), {"VALUE": "DATE"})


def _alarm(title: str, after: timedelta) -> Iterator[str]:
    yield folded("BEGIN:VALARM")
    yield plain_property("ACTION", "DISPLAY")
    yield text_property("DESCRIPTION", title)
    yield plain_property("TRIGGER", duration_value(after))
    yield folded("END:VALARM")


def _former(text: str) -> Iterator[Former]:
    told: dict[str, str] = {}
    inside = 0
    for line in unfolded(text):
        name, _, value = line.partition(":")
        if line == "BEGIN:VEVENT":
            told, inside = {}, 1
        elif line == "END:VEVENT":
            inside = 0
            found = _of(told)
            if found is not None:
                yield found
        elif name == "BEGIN":
            inside += 1
        elif name == "END":
            inside -= 1
        elif inside == 1:
            told[name.partition(";")[0]] = value
            told[f"{name.partition(';')[0]} told as"] = name


def _of(told: dict[str, str]) -> Former | None:
    """Return an event as it was told, or None where it is not whole."""
    needed = ("UID", "SUMMARY", "DTSTART", "DTEND")
    if any(name not in told for name in needed):
        return None
    try:
        start, end = (_when(told[name], told[f"{name} told as"]) for name in ("DTSTART", "DTEND"))
    except (ValueError, LookupError):
        return None
    if not isinstance(end, datetime):
        end -= ONE_DAY
    return Former(unescaped(told["UID"]), unescaped(told["SUMMARY"]), start, end)


def _when(value: str, told_as: str) -> date:
    if "VALUE=DATE" in told_as.split(";"):
        return datetime.strptime(value, DAY_FORMAT).replace(tzinfo=UTC).date()
    if value.endswith("Z"):
        return datetime.strptime(value, f"{MOMENT_FORMAT}Z").replace(tzinfo=UTC)
    zone = next((one.partition("=")[2] for one in told_as.split(";") if one.startswith("TZID=")), "")
    return datetime.strptime(value, MOMENT_FORMAT).replace(tzinfo=ZoneInfo(zone))


def _to_come(event: Former, now: datetime, zone: ZoneInfo | None) -> bool:
    """Whether an event is still to come: what has begun, or is past, stays in the calendar as it was."""
    if isinstance(event.start, datetime):
        return event.start > now
    return event.end >= now.astimezone(zone or UTC).date()


def cancelled(event: Event) -> Event:
    """Return an event that is off."""
    return replace(event, cancelled=True)
