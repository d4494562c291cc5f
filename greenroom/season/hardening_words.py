"""Days, times, minutes and weather of hardening in words."""

from __future__ import annotations

from datetime import date, datetime

from greenroom.season.place import Place
from greenroom.season.temperatures import temperature
from greenroom.speech import tr

MONTHS = (
    tr("January"),
    tr("February"),
    tr("March"),
    tr("April"),
    tr("May"),
    tr("June"),
    tr("July"),
    tr("August"),
    tr("September"),
    tr("October"),
    tr("November"),
    tr("December"),
)
MONTHS_SHORT = (
    tr("Jan", sense="short month"),
    tr("Feb", sense="short month"),
    tr("Mar", sense="short month"),
    tr("Apr", sense="short month"),
    tr("May", sense="short month"),
    tr("Jun", sense="short month"),
    tr("Jul", sense="short month"),
    tr("Aug", sense="short month"),
    tr("Sep", sense="short month"),
    tr("Oct", sense="short month"),
    tr("Nov", sense="short month"),
    tr("Dec", sense="short month"),
)
WEEKDAYS = (
    tr("Mon", sense="short day of the week"),
    tr("Tue", sense="short day of the week"),
    tr("Wed", sense="short day of the week"),
    tr("Thu", sense="short day of the week"),
    tr("Fri", sense="short day of the week"),
    tr("Sat", sense="short day of the week"),
    tr("Sun", sense="short day of the week"),
)
MILES_PER_HOUR = 1 / 0.44704  # exact: the international mile of 1609.344 m
KILOMETRES_PER_HOUR = 3.6
MILLIMETRES_PER_INCH = 25.4

SETBACK_WORDS = {"droop": tr("drooping"), "wilt": tr("wilted"), "scorch": tr("leaf scorch")}
SETBACK_CAUSES = {"sun": tr("the sun"), "wind": tr("the wind"), "thirst": tr("thirst")}
FROM_A_CAUSE = {"sun": tr("from the sun"), "wind": tr("from the wind"), "thirst": tr("from thirst")}


def day_words(day: date) -> str:
    """Return a day as 14 May."""
    month = MONTHS[day.month - 1]
    if day.day == 1:  # an ordinal in some languages
        return tr("1 {month}", month=month)
    return tr("{day} {month}", day=day.day, month=month)


def ready_day_words(day: date | None) -> str:
    """Return the day plants are ready; None is later than a plan looks ahead."""
    return tr("not within 60 days") if day is None else day_words(day)


def short_day_words(day: date) -> str:
    """Return a day as 14 Mar, where room is short."""
    month = MONTHS_SHORT[day.month - 1]
    if day.day == 1:
        return tr("1 {month}", sense="short month", month=month)
    return tr("{day} {month}", sense="short month", day=day.day, month=month)


def day_year_words(day: date) -> str:
    """Return a day with its year, as 14 Mar 2027."""
    return tr("{day} {year}", sense="day and month, year", day=short_day_words(day), year=day.year)


def time_words(moment: datetime, place: Place) -> str:
    """Return a moment on the place's clock as 8:10."""
    local = place.local(moment)
    return f"{local.hour}:{local.minute:02d}"


def moment_words(moment: datetime, place: Place, today: date | None = None) -> str:
    """Return a moment as 8:10, with its day unless that is ``today``."""
    day = place.local(moment).date()
    time = time_words(moment, place)
    return time if day == today else tr("{time} on {day}", time=time, day=day_words(day))


def whole_minutes(minutes: float) -> int:
    """Return the minutes that are full, as a counter shows them."""
    return int(minutes + 1e-6)


def temperature_words(celsius: float | None, place: Place, decimals: int = 0) -> str:
    """Return a temperature in the grower's unit, in whole degrees or to so many decimals."""
    return tr("not known") if celsius is None else temperature(celsius, place.temperature, decimals)


def gust_words(metres_per_second: float | None, place: Place) -> str:
    """Return a gust in km/h, or in miles an hour for those who read °F."""
    if metres_per_second is None:
        return tr("not known")
    if place.temperature == "f":
        return tr("{speed:.0f} mph", speed=metres_per_second * MILES_PER_HOUR)
    return tr("{speed:.0f} km/h", speed=metres_per_second * KILOMETRES_PER_HOUR)


def rain_words(millimetres: float | None, place: Place) -> str:
    """Return a day's rain in mm, or in inches for those who read °F."""
    if millimetres is None:
        return tr("not known")
    if place.temperature == "f":
        return tr("{depth:.2f} in", depth=millimetres / MILLIMETRES_PER_INCH)
    return tr("{depth:.0f} mm", depth=millimetres)
