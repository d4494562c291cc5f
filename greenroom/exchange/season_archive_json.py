"""A ledger's book as plain JSON and back; the form is described in resources/schema.

Dates are written as YYYY-MM-DD, moments in UTC as ISO 8601 with a Z. A fact has the fields of its kind.
"""

from __future__ import annotations

import typing
from collections.abc import Callable, Mapping
from dataclasses import fields
from datetime import UTC, date, datetime
from functools import cache
from typing import Any

from greenroom.exchange.errors import BadFileError
from greenroom.ledger import Act, Book, Entry
from greenroom.ledger.book import Strike
from greenroom.ledger.facts import KINDS, Fact
from greenroom.ledger.soundness import ROW_FIELDS, plain_type, row_type

FORMAT = "greenroom season archive"
VERSION = 1
HEAD = ("format", "version", "made", "program", "acts", "facts", "strikes", "pictures")
OF_FACT = ("number", "act", "kind", "struck")
OF_ACT = ("number", "deed", "name", "written", "zone", "who", "reverses")
OF_STRIKE = ("fact", "act", "restored")


def book_to_json(book: Book) -> dict[str, Any]:
    """Return acts, facts and strikes as JSON's own values."""
    struck = book.struck
    return {
        "acts": [_act_to_json(act) for act in book.acts],
        "facts": [_fact_to_json(entry, struck=entry.number in struck) for entry in book.entries],
        "strikes": [strike._asdict() for strike in book.strikes],
    }


def book_from_json(table: Mapping[str, Any]) -> Book:
    """Return the book that JSON's values tell of; what a fact may be is checked by the ledger.

    Raises
    ------
    BadFileError
        With one sentence: which part, and what is wrong with it.
    """
    told = _list(table, "facts")
    acts = tuple(_act(place, one) for place, one in enumerate(_list(table, "acts"), start=1))
    entries = tuple(_entry(place, one) for place, one in enumerate(told, start=1))
    strikes = tuple(_strike(place, one) for place, one in enumerate(_list(table, "strikes"), start=1))
    book = Book(acts, entries, strikes)
    out = book.struck
    for place, (entry, one) in enumerate(zip(entries, told, strict=True), start=1):
        if one["struck"] is not (entry.number in out):
            raise BadFileError(
                f"fact {place} of the archive is struck out by one part of it and not by another."
            )
    return book


def moment_to_json(moment: datetime) -> str:
    """Return a moment in UTC with a Z."""
    return moment.astimezone(UTC).isoformat().replace("+00:00", "Z")


def moment_from_json(value: object, where: str) -> datetime:
    """Return a moment written with its zone."""
    return typing.cast(datetime, _read(datetime, value, where))


def _act_to_json(act: Act) -> dict[str, Any]:
    return {name: getattr(act, name) for name in OF_ACT} | {"written": moment_to_json(act.written)}


def _fact_to_json(entry: Entry, *, struck: bool) -> dict[str, Any]:
    fact = entry.fact
    told = {"number": entry.number, "act": entry.act, "kind": fact.kind, "struck": struck}
    return told | {one.name: _to_json(getattr(fact, one.name)) for one in fields(fact)}


def _to_json(value: object) -> object:
    if isinstance(value, datetime):
        return moment_to_json(value)
    if isinstance(value, date):
        return value.isoformat()
    return [_to_json(one) for one in value] if isinstance(value, tuple) else value


def _act(place: int, told: object) -> Act:
    where = f"act {place}"
    table = _table(told, where, OF_ACT)
    number = _read(int, table["number"], f"the number of {where}")
    reverses = table["reverses"]
    return Act(
        number,
        _read(str, table["deed"], f"the deed of {where}"),
        _read(str, table["name"], f"the name of {where}"),
        moment_from_json(table["written"], f"the time of {where}"),
        _read(str, table["zone"], f"the zone of {where}"),
        _read(str, table["who"], f"the hand of {where}"),
        None if reverses is None else _read(int, reverses, f"what {where} reverses"),
    )


def _strike(place: int, told: object) -> Strike:
    where = f"strike {place}"
    table = _table(told, where, OF_STRIKE)
    return Strike(
        _read(int, table["fact"], f"the fact of {where}"),
        _read(int, table["act"], f"the act of {where}"),
        _read(bool, table["restored"], f"the word of {where}"),
    )


def _entry(place: int, told: object) -> Entry:
    where = f"fact {place}"
    kind = told.get("kind") if isinstance(told, dict) else None
    if not isinstance(kind, str) or kind not in KINDS:
        shown = repr(kind)[:60]
        raise BadFileError(
            f"{where} of the archive is of the kind {shown}, which this greenroom does not know."
        )
    cls, forms = KINDS[kind], _forms(kind)
    table = _table(told, where, (*OF_FACT, *forms), may_lack=_added_later(kind))
    values = {
        name: _field(form, table[name], f"the {name} of {where}")
        for name, form in forms.items()
        if name in table
    }
    number, act = (_read(int, table[name], f"the {name} of {where}") for name in ("number", "act"))
    _read(bool, table["struck"], f"the struck of {where}")
    return Entry(number, act, _made(cls, values, where))


def _made(cls: type[Fact], values: dict[str, Any], where: str) -> Fact:
    try:
        return cls(**values)
    except (TypeError, ValueError) as error:
        raise BadFileError(f"{where} of the archive cannot be read: {str(error)[:200]}.") from error


@cache
def _forms(kind: str) -> dict[str, tuple[Any, bool]]:
    """Return the plain type of each field of a kind and whether it may be null."""
    hints = typing.get_type_hints(KINDS[kind])
    return {one.name: plain_type(hints[one.name]) for one in fields(KINDS[kind])}


@cache
def _added_later(kind: str) -> frozenset[str]:
    return frozenset(one.name for one in fields(KINDS[kind]) if "added_later" in one.metadata)


def _field(form: tuple[Any, bool], value: object, where: str) -> object:
    plain, optional = form
    if value is None and optional:
        return None
    row = row_type(plain)
    return _read(plain, value, where) if row is None else _rows(row, value, where)


def _rows(row: type[Any], value: object, where: str) -> tuple[Any, ...]:
    forms = ROW_FIELDS[row]
    if not isinstance(value, list):
        raise BadFileError(f"{where} of the archive is no list.")
    found = []
    for one in value:
        if not isinstance(one, list) or len(one) != len(forms):
            raise BadFileError(f"{where} of the archive has a row without its {len(forms)} values.")
        parts = zip(forms, one, strict=True)
        found.append(row(*(_field((plain, optional), part, where) for (_, plain, optional), part in parts)))
    return tuple(found)


def _table(
    told: object, where: str, names: tuple[str, ...], may_lack: frozenset[str] = frozenset()
) -> dict[str, Any]:
    """Return an object that has just these names."""
    if not isinstance(told, dict):
        raise BadFileError(f"{where} of the archive is no object.")
    lacking = [name for name in names if name not in told and name not in may_lack]
    if lacking:
        raise BadFileError(f"{where} of the archive has no {lacking[0]}.")
    odd = [name for name in told if name not in names]
    if odd:
        raise BadFileError(f"{where} of the archive has {odd[0][:60]!r}, which this greenroom does not know.")
    return told


def _list(table: Mapping[str, Any], name: str) -> list[Any]:
    found = table.get(name)
    if not isinstance(found, list):
        raise BadFileError(f"The archive has no list of {name}.")
    return found


def _read(plain: Any, value: object, where: str) -> Any:  # noqa: ANN401 the type is what is asked for
    read, allowed = _READ[plain]
    try:
        found = read(value)
    except (ValueError, OverflowError):
        found = None
    if found is None:
        raise BadFileError(f"{where} of the archive is {repr(value)[:60]}; {allowed} is allowed.")
    return found


def _day(value: object) -> date | None:
    return date.fromisoformat(value) if isinstance(value, str) and len(value) == 10 else None


def _moment(value: object) -> datetime | None:
    found = datetime.fromisoformat(value) if isinstance(value, str) else None
    return found.astimezone(UTC) if found is not None and found.tzinfo is not None else None


def _whole(value: object) -> int | None:
    return value if isinstance(value, int) and not isinstance(value, bool) else None


def _number(value: object) -> float | None:
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


_READ: dict[Any, tuple[Callable[[object], Any], str]] = {
    str: (lambda value: value if isinstance(value, str) else None, "text"),
    int: (_whole, "a whole number"),
    float: (_number, "a number"),
    bool: (lambda value: value if isinstance(value, bool) else None, "true or false"),
    date: (_day, "a date such as 2027-03-12"),
    datetime: (_moment, "a moment such as 2027-03-12T08:00:00Z"),
}
