"""Where a code, or a place typed in words, leads in the season as it stands now."""

from __future__ import annotations

import re
from datetime import date

from greenroom.exchange.paper.codes import LONGEST, BadCodeError, Code, is_code, read_code
from greenroom.exchange.text_lines import clean, shown
from greenroom.ledger.facts import Moved
from greenroom.season.holders import Holder
from greenroom.season.packets import folded
from greenroom.season.spots import SpotKey, keys_of, row_label
from greenroom.season.state import Season
from greenroom.speech import tr

PLACE = re.compile(r"(?P<name>.*?)[\s,]*\b(?P<row>[A-Za-z]{1,2})(?P<column>[0-9]{1,3})")


def find(season: Season, text: str) -> Code:
    """Return what a text leads to: the spot where the seedling of a tag stands now, or a whole tray.

    The text is a code, or a place as it is written on the shelf: "Tray A B3", "Tray A".

    Raises
    ------
    BadCodeError
        If it leads nowhere.
    """
    code = read_code(text) if is_code(text) else _place(season, text)
    made = _holder(season, code.holder)
    if code.row is None or code.column is None:
        return code
    if not (0 <= code.row < made.rows and 0 <= code.column < made.columns):
        raise BadCodeError(
            tr(
                "{holder} has rows A to {row} and columns 1 to {column}; there is no {place}.",
                holder=clean(made.name),
                row=row_label(made.rows - 1),
                column=made.columns,
                place=f"{row_label(code.row)}{code.column + 1}",
            )
        )
    here = now_at(season, SpotKey(code.holder, code.row, code.column), code.sown)
    return Code(here.holder, here.row, here.column, code.sown)


def now_at(season: Season, key: SpotKey, sown: date | None) -> SpotKey:
    """Return where a seedling stands that stood in a spot, sown on a day.

    Where it is not known, or where several went different ways, it is the spot itself, whose story
    tells of them.
    """
    ends = set(_ends(season, key, sown)) if sown is not None else set()
    return ends.pop() if len(ends) == 1 else key


def _ends(season: Season, key: SpotKey, sown: date) -> list[SpotKey]:
    """Return where what was sown on a day and went through a spot stands now."""
    found, waiting, seen = [], [key], {key}
    while waiting:
        here = waiting.pop()
        spot = season.spot(here)
        if spot.sown_on == sown and (spot.up > 0 or spot.waiting > 0):
            found.append(here)
        for entry in season.spot_facts(here):
            if not isinstance(entry.fact, Moved):
                continue
            start, end = keys_of(entry.fact)
            if start == here and end not in seen and season.spot(end).sown_on == sown:
                seen.add(end)
                waiting.append(end)
    return found


def _place(season: Season, text: str) -> Code:
    words = " ".join(text[:LONGEST].split())
    if not words:
        raise BadCodeError(tr("Scan the code of a tag, or type a place: Tray A B3."))
    whole = _named(season, words)
    if whole is not None:
        return Code(whole.key)
    found = PLACE.fullmatch(words)
    made = _named(season, found["name"]) if found else None
    if found is None or made is None:
        raise BadCodeError(
            tr(
                "There is no place {place}; scan the code of a tag, or type a tray and a cell: Tray A B3.",
                place=shown(words),
            )
        )
    return Code(made.key, _row(found["row"]), int(found["column"]) - 1)


def _row(letters: str) -> int:
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1


def _named(season: Season, name: str) -> Holder | None:
    return next((one for one in season.holders() if folded(one.name) == folded(name)), None)


def _holder(season: Season, key: str) -> Holder:
    if not season.holder_facts(key):
        raise BadCodeError(tr("The tray of this code is not in this ledger; it may be of another season's."))
    return season.holder(key)
