"""A ledger's book as plain JSON and back; the form is described in resources/schema.

Dates are written as YYYY-MM-DD, moments in UTC as ISO 8601 with a Z. A fact has the fields of its kind.
"""

from __future__ import annotations

import typing
from collections.abc import Callable, Mapping
from dataclasses import fields
from datetime import UTC, date, datetime
from functools import cache
from typing import Any, NamedTuple

from greenroom.exchange.errors import BadFileError
from greenroom.ledger import Act, Book, Entry
from greenroom.ledger.book import Strike
from greenroom.ledger.facts import KINDS, Fact
from greenroom.ledger.soundness import ROW_FIELDS, forms_of, row_type
from greenroom.speech import tr

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
                tr(
                    "fact {place} of the archive is struck out by one part of it and not by another.",
                    place=place,
                )
            )
    return book


def moment_to_json(moment: datetime) -> str:
    """Return a moment in UTC with a Z."""
    return moment.astimezone(UTC).isoformat().replace("+00:00", "Z")


def moment_from_json(value: object, where: object) -> datetime:
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
    where = _Where("act", place)
    table = _table(told, where, OF_ACT)
    number = _read(int, table["number"], where.part("number"))
    reverses = table["reverses"]
    return Act(
        number,
        _read(str, table["deed"], where.part("deed")),
        _read(str, table["name"], where.part("name")),
        moment_from_json(table["written"], where.part("written")),
        _read(str, table["zone"], where.part("zone")),
        _read(str, table["who"], where.part("who")),
        None if reverses is None else _read(int, reverses, where.part("reverses")),
    )


def _strike(place: int, told: object) -> Strike:
    where = _Where("strike", place)
    table = _table(told, where, OF_STRIKE)
    return Strike(
        _read(int, table["fact"], where.part("fact")),
        _read(int, table["act"], where.part("act")),
        _read(bool, table["restored"], where.part("restored")),
    )


def _entry(place: int, told: object) -> Entry:
    where = _Where("fact", place)
    kind = told.get("kind") if isinstance(told, dict) else None
    if not isinstance(kind, str) or kind not in KINDS:
        shown = repr(kind)[:60]
        raise BadFileError(
            tr(
                "{where} of the archive is of the kind {kind}, which this greenroom does not know.",
                where=where,
                kind=shown,
            )
        )
    cls, forms = KINDS[kind], forms_of(kind)
    table = _table(told, where, (*OF_FACT, *forms), may_lack=_added_later(kind))
    values = {
        name: _field(form, table[name], where.part(name)) for name, form in forms.items() if name in table
    }
    number, act = (_read(int, table[name], where.part(name)) for name in ("number", "act"))
    _read(bool, table["struck"], where.part("struck"))
    return Entry(number, act, _made(cls, values, where))


def _made(cls: type[Fact], values: dict[str, Any], where: object) -> Fact:
    try:
        return cls(**values)
    except (TypeError, ValueError) as error:
        raise BadFileError(
            tr("{where} of the archive cannot be read: {error}.", where=where, error=str(error)[:200])
        ) from error


@cache
def _added_later(kind: str) -> frozenset[str]:
    return frozenset(one.name for one in fields(KINDS[kind]) if "added_later" in one.metadata)


def _field(form: tuple[Any, bool], value: object, where: object) -> object:
    plain, optional = form
    if value is None and optional:
        return None
    row = row_type(plain)
    return _read(plain, value, where) if row is None else _rows(row, value, where)


def _rows(row: type[Any], value: object, where: object) -> tuple[Any, ...]:
    forms = ROW_FIELDS[row]
    if not isinstance(value, list):
        raise BadFileError(tr("{where} of the archive is no list.", where=where))
    found = []
    for one in value:
        if not isinstance(one, list) or len(one) != len(forms):
            raise BadFileError(
                tr(
                    "{where} of the archive has a row without its {count} values.",
                    where=where,
                    count=len(forms),
                )
            )
        parts = zip(forms, one, strict=True)
        found.append(row(*(_field((plain, optional), part, where) for (_, plain, optional), part in parts)))
    return tuple(found)


def _table(
    told: object, where: object, names: tuple[str, ...], may_lack: frozenset[str] = frozenset()
) -> dict[str, Any]:
    """Return an object that has just these names."""
    if not isinstance(told, dict):
        raise BadFileError(tr("{where} of the archive is no object.", where=where))
    lacking = [name for name in names if name not in told and name not in may_lack]
    if lacking:
        raise BadFileError(tr("{where} of the archive has no {lacking}.", where=where, lacking=lacking[0]))
    odd = [name for name in told if name not in names]
    if odd:
        raise BadFileError(
            tr(
                "{where} of the archive has {odd!r}, which this greenroom does not know.",
                where=where,
                odd=odd[0][:60],
            )
        )
    return told


class _Where(NamedTuple):
    """An act, strike or fact by its place in the archive, or a part of it; in words only where it is told."""

    what: str
    place: int
    name: str = ""

    def part(self, name: str) -> _Where:
        """Return one part of it, by its name in the archive."""
        return _Where(self.what, self.place, name)

    def __str__(self) -> str:
        whole = self._whole()
        known = (self.what, self.name)
        if known == ("act", "written"):
            return tr("the time of {where}", where=whole)
        if known == ("act", "who"):
            return tr("the hand of {where}", where=whole)
        if known == ("act", "reverses"):
            return tr("what {where} reverses", where=whole)
        if known == ("strike", "restored"):
            return tr("the word of {where}", where=whole)
        return tr("the {part} of {where}", part=self.name, where=whole) if self.name else whole

    def _whole(self) -> str:
        if self.what == "act":
            return tr("act {place}", place=self.place)
        if self.what == "strike":
            return tr("strike {place}", place=self.place)
        return tr("fact {place}", place=self.place)


def _list(table: Mapping[str, Any], name: str) -> list[Any]:
    found = table.get(name)
    if not isinstance(found, list):
        raise BadFileError(tr("The archive has no list of {name}.", name=name))
    return found


def _read(plain: Any, value: object, where: object) -> Any:  # noqa: ANN401 the type is what is asked for
    read, allowed = _READ[plain]
    try:
        found = read(value)
    except (ValueError, OverflowError):
        found = None
    if found is None:
        raise BadFileError(
            tr(
                "{where} of the archive is {value}; {allowed} is allowed.",
                where=where,
                value=repr(value)[:60],
                allowed=allowed,
            )
        )
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
    str: (lambda value: value if isinstance(value, str) else None, tr("text")),
    int: (_whole, tr("a whole number")),
    float: (_number, tr("a number")),
    bool: (lambda value: value if isinstance(value, bool) else None, tr("true or false")),
    date: (_day, tr("a date such as 2027-03-12")),
    datetime: (_moment, tr("a moment such as 2027-03-12T08:00:00Z")),
}
