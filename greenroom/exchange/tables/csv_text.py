"""Tables as text that any program reads: CSV files, and what goes on the clipboard.

The rules: RFC 4180 for commas, quotes and line ends (CRLF); RFC 3629 for UTF-8; ISO 8601 for dates and
moments; a point in numbers, whatever the machine's language. Text that a spreadsheet would take for a
formula has an apostrophe before it, as the OWASP Foundation's page on CSV injection asks for: text that
begins with = + - @, a tab or a line end. A plain number is none and stays as it is. ``unguarded`` takes the
apostrophe off again, so that nothing is lost on the way out and back.
"""

from __future__ import annotations

import csv
import html
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime

from greenroom.exchange.tables.table import Cell, Column, Kind, Table

BOM = "\ufeff"
"""Written first in a file for spreadsheets: without it some read UTF-8 as the machine's old code page and
spoil accents. Files for programs, whose encoding is told beside them, go without."""

LINE_END = "\r\n"
FORMULA = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")
GUARDED = re.compile(r"'+[=+\-@\t\r\n＝＋－＠]")
PLAIN_NUMBER = re.compile(r"[+-]?[0-9]+(?:[.,][0-9]+)?")
TRUTH = {True: "true", False: "false"}


def guarded(text: str) -> str:
    """Return text so that no spreadsheet takes it for a formula."""
    return f"'{text}" if FORMULA.match(text) and not PLAIN_NUMBER.fullmatch(text) else text


def unguarded(text: str) -> str:
    """Return text as it was before it was guarded."""
    return text[1:] if text.startswith("'") and GUARDED.match(text) else text


def cell_text(value: Cell, column: Column) -> str:
    """Return a cell as it stands in a file; nothing where nothing is known."""
    if value is None:
        return ""
    if column.kind is Kind.TEXT:
        return guarded(str(value))
    if isinstance(value, bool):
        return TRUTH[value]
    if isinstance(value, datetime):
        return value.isoformat().replace("+00:00", "Z")
    if isinstance(value, date):
        return value.isoformat()
    return str(value)


def csv_lines(
    header: Sequence[str], columns: Sequence[Column], rows: Iterable[Sequence[Cell]]
) -> Iterator[str]:
    """Yield the lines of a CSV file, each with its line end, the header first."""
    held = io.StringIO()
    writer = csv.writer(held, lineterminator=LINE_END)
    yield _taken(held, writer.writerow([guarded(one) for one in header]))
    for row in rows:
        cells = [cell_text(value, column) for value, column in zip(row, columns, strict=True)]
        yield _taken(held, writer.writerow(cells))


def csv_text(table: Table, *, bom: bool = False) -> str:
    """Return a table as the text of a CSV file; ``bom`` is for spreadsheets."""
    return (BOM if bom else "") + "".join(csv_lines(table.headers, table.columns, table.rows))


def tsv_text(table: Table) -> str:
    """Return a table with tabs between the cells, as spreadsheets take it from the clipboard.

    Tabs and line ends inside a cell become spaces: the form has no way to hold them.
    """
    rows = (map(cell_text, row, table.columns) for row in table.rows)
    lines = [map(guarded, table.headers), *rows]
    return LINE_END.join("\t".join(" ".join(cell.split()) for cell in line) for line in lines) + LINE_END


def html_text(table: Table) -> str:
    """Return a table as HTML, as word processors take it from the clipboard."""
    head = "".join(f'<th scope="col">{html.escape(one)}</th>' for one in table.headers)
    rows = "".join(f"<tr>{''.join(_html_cells(row, table))}</tr>" for row in table.rows)
    caption = html.escape(table.name)
    return f"<table><caption>{caption}</caption><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"


def _html_cells(row: Sequence[Cell], table: Table) -> Iterator[str]:
    for value, column in zip(row, table.columns, strict=True):
        yield f"<td>{html.escape(cell_text(value, column))}</td>"


def _taken(held: io.StringIO, _written: int) -> str:
    """Return what was written, and make room for the next line."""
    line = held.getvalue()
    held.seek(0)
    held.truncate()
    return line
