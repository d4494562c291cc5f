"""Dates in a plain table: in which order day, month and year stand, and what date that makes."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from typing import NamedTuple

from greenroom.exchange.weather_days import FIRST_YEAR, LAST_YEAR
from greenroom.speech import tr

ORDERS = ("ymd", "dmy", "mdy")
ORDER_WORDS = {
    "ymd": tr("year, month, day, as 2001-05-31"),
    "dmy": tr("day, month, year, as 31.5.2001"),
    "mdy": tr("month, day, year, as 5/31/2001"),
}
PARTED = re.compile(r"([0-9]{1,4})([-/. ]) ?([0-9]{1,2})\2 ?([0-9]{1,4})")
COMPACT = re.compile(r"([0-9]{4})([0-9]{2})([0-9]{2})")
# A time of day behind the date; it is not used.
TIME = re.compile(
    r"[T ]\s*[0-9]{1,2}:[0-9]{2}(:[0-9]{2}(\.[0-9]+)?)?\s*([AaPp][Mm])?\s*(Z|[+-][0-9]{2}:?[0-9]{2})?$"
)
PLACES = {"ymd": (0, 1, 2), "dmy": (2, 1, 0), "mdy": (2, 0, 1)}


def parse_date(text: str, order: str) -> date | None:
    """Return the date that ``text`` gives in one of ``ORDERS``, None for anything else.

    The year needs four figures. A time of day behind the date is passed over.
    """
    bare = TIME.sub("", text.strip()).rstrip(".")
    parted = PARTED.fullmatch(bare)
    if parted is not None:
        parts = parted.group(1, 3, 4)
    else:
        compact = COMPACT.fullmatch(bare) if order == "ymd" else None
        if compact is None:
            return None
        parts = compact.groups()
    year, month, day = (parts[place] for place in PLACES[order])
    return make_date(year, month, day)


def make_date(year: str, month: str, day: str) -> date | None:
    """Return the date of three numbers as text, None if they make none."""
    texts = [text.strip() for text in (year, month, day)]
    if len(texts[0]) != 4 or not all(
        text.isascii() and text.isdecimal() and len(text) <= 4 for text in texts
    ):
        return None
    try:
        made = date(*map(int, texts))
    except ValueError:
        return None
    return made if FIRST_YEAR <= made.year <= LAST_YEAR else None


def guess_order(texts: Sequence[str]) -> DateGuess | None:
    """Tell in which order dates are written, None if no text is a date in any order.

    The order wins in which most are dates. Between equals the one in which most days follow the one
    before; that is sure if it holds for half of them and more than twice as many as in
    any other order.
    """
    best, second = sorted((_fit(texts, order) for order in ORDERS), reverse=True)[:2]
    if best.dates == 0:
        return None
    words = ORDER_WORDS[best.order]
    if best.dates > second.dates:
        return DateGuess(
            best.order, tr("The dates are {words}; no other order fits as well.", words=words), sure=True
        )
    if 2 * best.following >= best.dates and best.following > 2 * second.following:
        return DateGuess(best.order, tr("Read as {words}, day follows day.", words=words), sure=True)
    return DateGuess(
        best.order, tr("The dates may be {words}, but another order fits too.", words=words), sure=False
    )


def _fit(texts: Sequence[str], order: str) -> _Fit:
    dates = [day for day in (parse_date(text, order) for text in texts) if day is not None]
    following = sum(abs((later - earlier).days) == 1 for earlier, later in pairwise(dates))
    return _Fit(len(dates), following, order)


class _Fit(NamedTuple):
    """How many texts are dates in an order, and how many of those follow the one before."""

    dates: int
    following: int
    order: str


@dataclass(frozen=True, slots=True)
class DateGuess:
    """In which order dates seem to be written, why in one sentence, and whether that can be relied on."""

    order: str
    reason: str
    sure: bool
