"""What stands in the cells of a seed list, read the way growers and seed houses write it.

Decimal points and commas are both understood. A number in groups of three, such as 1,000 or 1.000, is a
whole number. Each reader returns None where nothing is known and raises ``UnfitError``, which says
what is allowed, where it cannot tell.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence

from greenroom.speech import tr

UNKNOWN = frozenset(
    ("", "-", "–", "—", "?", "n/a", "na", "nan", "none", "unknown", "unbekannt", "inconnu", "desconocido")
)
LONGEST_NAME = 200
EARLIEST_YEAR, LATEST_YEAR = 1900, 2200
MOST_SEEDS = 1_000_000
FEWEST_DAYS, MOST_DAYS = 20, 400
COUNT = re.compile(
    r"(?:~|≈|ca\.?|c\.|approx\.?|about|etwa)?\s*"
    r"(?P<number>[0-9]{1,3}(?:[.,'’ \u00a0\u202f][0-9]{3})+|[0-9]{1,9})(?:[.,]0{1,2})?\s*\+?\s*"
    r"(?:seeds?|pcs\.?|pc\.?|ct\.?|count|korn|k\.?|körner|samen|stk\.?|st\.?|stück|graines?|semillas?)?"
)
PERCENT = re.compile(
    r"(?P<number>[0-9]{1,4}(?:[.,][0-9]{0,6})?|[.,][0-9]{1,6})\s*(?P<sign>%|percent|pct|prozent)?"
)
DAYS = re.compile(
    r"(?P<low>[0-9]{1,4})(?:[.,]0+)?(?:\s*(?:-|–|—|to|bis|à|a)\s*(?P<high>[0-9]{1,4}))?\s*"
    r"(?:d|days?|tagen?|tage|jours?|días?|dias?)?\.?"
)
YEAR = re.compile(r"(?P<year>[0-9]{4})(?:[.,]0+)?")
YEAR_FIRST = re.compile(r"(?P<year>[0-9]{4})[-./](?P<a>[0-9]{1,2})(?:[-./](?P<b>[0-9]{1,2}))?")
YEAR_LAST = re.compile(r"(?:(?P<b>[0-9]{1,2})[-./])?(?P<a>[0-9]{1,2})[-./](?P<year>[0-9]{4})")


def read_text(text: str) -> str:
    """Return words, with single spaces and composed letters, so that equal names are equal."""
    return unicodedata.normalize("NFC", " ".join(text.split()))


def read_year(text: str) -> int | None:
    """Return the year of "2023", "2023-11", "11/2023" or a whole date."""
    if _is_unknown(text):
        return None
    for form in (YEAR, YEAR_FIRST, YEAR_LAST):
        found = form.fullmatch(text.strip())
        if found and _is_calendar(found) and EARLIEST_YEAR <= int(found["year"]) <= LATEST_YEAR:
            return int(found["year"])
    raise UnfitError(
        tr(
            "a year such as 2023 or a date such as 2023-11-30, {first} to {last}, or nothing",
            first=EARLIEST_YEAR,
            last=LATEST_YEAR,
        )
    )


def read_count(text: str) -> int | None:
    """Return a number of seeds: "25", "25 seeds", "ca. 25", "1,000"."""
    if _is_unknown(text):
        return None
    found = COUNT.fullmatch(text.strip().casefold())
    if found:
        count = int(re.sub("[^0-9]", "", found["number"]))
        if count <= MOST_SEEDS:
            return count
    raise UnfitError(tr("a whole number of seeds, 0 to {most:,}, or nothing", most=MOST_SEEDS))


def read_days(text: str) -> int | None:
    """Return days to ripe: "80", "80 days"; of "70-80" the middle, the half day up."""
    if _is_unknown(text):
        return None
    found = DAYS.fullmatch(text.strip().casefold())
    if found:
        low = int(found["low"])
        high = int(found["high"] or low)
        if FEWEST_DAYS <= low <= high <= MOST_DAYS:
            return (low + high + 1) // 2
    raise UnfitError(
        tr(
            "a number of days such as 80, or a range such as 70-80, {fewest} to {most}, or nothing",
            fewest=FEWEST_DAYS,
            most=MOST_DAYS,
        )
    )


def read_germinations(texts: Sequence[str]) -> list[float | None]:
    """Return a whole column of germination as shares, 0 to 1.

    Notes
    -----
    One rule for the whole column. A number with a % sign is a percentage. If any number has one, or any
    is above 1, all numbers are percentages: "85" is 0.85. If none is, all are shares: "0.85" is 0.85 and
    "1" is 1. A fraction below 1 among percentages could be either and is refused.

    Raises
    ------
    UnfitCellError
        If a cell is neither, with the place of the cell in ``texts``.
    """
    read = [_read_percent(place, text) for place, text in enumerate(texts)]
    percentages = any(cell is not None and (cell[1] or cell[0] > 1) for cell in read)
    return [
        None if cell is None else _share(place, cell[0], cell[1], percentages)
        for place, cell in enumerate(read)
    ]


def _is_unknown(text: str) -> bool:
    return text.strip().casefold() in UNKNOWN


def _is_calendar(found: re.Match[str]) -> bool:
    """Whether the month, or the month and day in either order, can be such."""
    parts = found.groupdict()
    small = [int(parts[name]) for name in ("a", "b") if parts.get(name)]
    return all(1 <= part <= 31 for part in small) and (not small or min(small) <= 12)


def _read_percent(place: int, text: str) -> tuple[float, bool] | None:
    """Return the number and whether it has a % sign."""
    if _is_unknown(text):
        return None
    found = PERCENT.fullmatch(text.strip().casefold())
    if not found:
        raise UnfitCellError(tr("a percentage such as 85 or 85 %, a share such as 0.85, or nothing"), place)
    return float(found["number"].replace(",", ".")), found["sign"] is not None


def _share(place: int, number: float, signed: bool, percentages: bool) -> float:
    if number > 100:
        raise UnfitCellError(tr("a germination of 0 to 100 %"), place)
    if percentages and not signed and 0 < number < 1:
        raise UnfitCellError(tr("a percentage such as 85, as the rest of the column is in percent,"), place)
    return round(number / 100, 6) if percentages else number


class UnfitError(ValueError):
    """A cell that cannot be read; the message says what is allowed."""


class UnfitCellError(UnfitError):
    """A cell of a column that cannot be read, and its place in the column."""

    def __init__(self, allowed: str, place: int) -> None:
        super().__init__(allowed)
        self.place = place
