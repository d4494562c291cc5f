"""The days of the week, written out."""

from __future__ import annotations

from datetime import date

from greenroom.season.hardening_words import day_words
from greenroom.speech import tr

WEEKDAYS = (
    tr("Monday"),
    tr("Tuesday"),
    tr("Wednesday"),
    tr("Thursday"),
    tr("Friday"),
    tr("Saturday"),
    tr("Sunday"),
)


def weekday_words(day: date) -> str:
    """Return a day with the day of the week: Monday 14 May."""
    return tr("{weekday} {day}", sense="Monday, 14 May", weekday=WEEKDAYS[day.weekday()], day=day_words(day))


def dated_words(day: date) -> str:
    """Return a day with its month written out and its year: 14 May 2027."""
    return tr("{day} {year}", sense="day and month, year", day=day_words(day), year=day.year)
