"""Time zones: those there are, the system's own, and whether one fits a longitude."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo, available_timezones

from PySide6.QtCore import QTimeZone

from greenroom.speech import tr

OTHER_TREES = ("posix/", "right/", "SystemV/", "US/", "Etc/")
WORLD = "UTC"
DEGREES_AN_HOUR = 15.0
FARTHEST_H = 3.5  # from the sun's own time; the widest zone in use is some 3 hours off at its edge


def zones() -> list[str]:
    """Return the names of the time zones to choose from."""
    named = (zone for zone in available_timezones() if "/" in zone and not zone.startswith(OTHER_TREES))
    return [*sorted(named), WORLD]


def system_zone() -> str:
    """Return the zone this machine is set to, or UTC where it cannot be told."""
    name = bytes(QTimeZone.systemTimeZoneId().data()).decode("ascii", "replace")
    return name if name in available_timezones() else WORLD


def zone_doubt(zone: str, longitude: float, now: datetime) -> str:
    """Return a sentence if a zone's clock is far from the sun's time at a longitude, else nothing."""
    offset = now.astimezone(ZoneInfo(zone)).utcoffset()
    if offset is None:
        return ""
    apart = (offset.total_seconds() / 3600 - longitude / DEGREES_AN_HOUR + 12) % 24 - 12
    if abs(apart) <= FARTHEST_H:
        return ""
    return tr(
        "Clocks in {zone} are {hours:.0f} hours from the sun's time at that longitude; check both.",
        zone=zone,
        hours=abs(apart),
    )
