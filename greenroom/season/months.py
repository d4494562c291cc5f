"""The firsts of months, which every picture of a season is ruled by."""

from __future__ import annotations

from datetime import date

from dateutil.relativedelta import relativedelta


def month_starts(first: date, last: date) -> list[date]:
    """Return the firsts of the months from one day to another, both counted."""
    found, day = [], first.replace(day=1)
    while day <= last:
        if day >= first:
            found.append(day)
        day += relativedelta(months=1)
    return found
