"""Days, times, minutes and weather of hardening in words, the same in every locale."""

from __future__ import annotations

from datetime import date, datetime

from greenroom.season.place import Place

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MILES_PER_HOUR = 1 / 0.44704  # exact: the international mile of 1609.344 m
KILOMETRES_PER_HOUR = 3.6
MILLIMETRES_PER_INCH = 25.4

SETBACK_WORDS = {"droop": "drooping", "wilt": "wilted", "scorch": "leaf scorch"}


def day_words(day: date) -> str:
    """Return a day as 14 May."""
    return f"{day.day} {MONTHS[day.month - 1]}"


def time_words(moment: datetime, place: Place) -> str:
    """Return a moment on the place's clock as 8:10."""
    local = place.local(moment)
    return f"{local.hour}:{local.minute:02d}"


def moment_words(moment: datetime, place: Place, today: date | None = None) -> str:
    """Return a moment as 8:10, with its day unless that is ``today``."""
    day = place.local(moment).date()
    return time_words(moment, place) if day == today else f"{time_words(moment, place)} on {day_words(day)}"


def whole_minutes(minutes: float) -> int:
    """Return the minutes that are full, as a counter shows them."""
    return int(minutes + 1e-6)


def many(number: int, what: str) -> str:
    """Return a number with its noun: 1 day, 2 days."""
    return f"{number:,} {what}" if number == 1 else f"{number:,} {what}s"


def temperature_words(celsius: float | None, place: Place) -> str:
    """Return a temperature in the grower's unit, whole degrees."""
    if celsius is None:
        return "not known"
    value, unit = (celsius * 9 / 5 + 32, "F") if place.temperature == "f" else (celsius, "C")
    return f"{round(value) + 0} °{unit}"


def gust_words(metres_per_second: float | None, place: Place) -> str:
    """Return a gust in km/h, or in miles an hour for those who read °F."""
    if metres_per_second is None:
        return "not known"
    if place.temperature == "f":
        return f"{metres_per_second * MILES_PER_HOUR:.0f} mph"
    return f"{metres_per_second * KILOMETRES_PER_HOUR:.0f} km/h"


def rain_words(millimetres: float | None, place: Place) -> str:
    """Return a day's rain in mm, or in inches for those who read °F."""
    if millimetres is None:
        return "not known"
    if place.temperature == "f":
        return f"{millimetres / MILLIMETRES_PER_INCH:.2f} in"
    return f"{millimetres:.0f} mm"
