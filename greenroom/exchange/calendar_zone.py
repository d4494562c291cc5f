"""The clock of the place as a VTIMEZONE, by RFC 5545, section 3.6.5.

The rule of the zone is told change by change for the years that the calendar touches, so that whoever reads
it needs no table of zones of their own, nor the same one.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from greenroom.exchange.calendar_text import folded, local_value, offset_value, plain_property, text_property

ONE_DAY = timedelta(days=1)


def zone_lines(zone: ZoneInfo, first: datetime, last: datetime) -> Iterator[str]:
    """Yield a VTIMEZONE that holds for all moments between two.

    Parameters
    ----------
    zone : ZoneInfo
        The zone; its key is the TZID.
    first, last : datetime
        The earliest and the latest moment, aware.
    """
    start = datetime(first.astimezone(UTC).year - 1, 1, 1, tzinfo=UTC)
    end = datetime(last.astimezone(UTC).year + 1, 12, 31, tzinfo=UTC)
    yield folded("BEGIN:VTIMEZONE")
    yield text_property("TZID", zone.key)
    yield from _observance(zone, start, start)
    for moment in changes(zone, start, end):
        yield from _observance(zone, moment - timedelta(seconds=1), moment)
    yield folded("END:VTIMEZONE")


def changes(zone: ZoneInfo, start: datetime, end: datetime) -> Iterator[datetime]:
    """Yield the moments at which the clocks of a zone change, to the second, between two others."""
    moment = start
    while moment < end:
        after = moment + ONE_DAY
        if _told(zone, moment) != _told(zone, after):
            yield _change_between(zone, moment, after)
        moment = after


def _change_between(zone: ZoneInfo, early: datetime, late: datetime) -> datetime:
    """Return the first moment of the new time; the clocks change once between the two."""
    before = _told(zone, early)
    while late - early > timedelta(seconds=1):
        middle = early + timedelta(seconds=(late - early) // timedelta(seconds=2))
        if _told(zone, middle) == before:
            early = middle
        else:
            late = middle
    return late


def _told(zone: ZoneInfo, moment: datetime) -> tuple[timedelta | None, timedelta | None, str | None]:
    local = moment.astimezone(zone)
    return local.utcoffset(), local.dst(), local.tzname()


def _observance(zone: ZoneInfo, before: datetime, moment: datetime) -> Iterator[str]:
    """Yield one stretch of the zone's time: DTSTART is its first moment by the clock that went before."""
    offset_before, _, _ = _told(zone, before)
    offset, summer, name = _told(zone, moment)
    if offset_before is None or offset is None:
        return
    kind = "DAYLIGHT" if summer else "STANDARD"
    yield folded(f"BEGIN:{kind}")
    yield plain_property("DTSTART", local_value(moment.astimezone(UTC) + offset_before))
    yield plain_property("TZOFFSETFROM", offset_value(offset_before))
    yield plain_property("TZOFFSETTO", offset_value(offset))
    if name:
        yield text_property("TZNAME", name)
    yield folded(f"END:{kind}")
