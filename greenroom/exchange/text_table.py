"""A table in a text file: its delimiter found, its header read, its rows checked one at a time."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.tables.csv_text import unguarded
from greenroom.exchange.text_lines import Limits, TextLines, shown
from greenroom.speech import tr, trn

DELIMITERS = (",", ";", "\t", "|")
SAMPLE_LINES = 50
LONGEST_CELL = 2_000
LONGEST_RECORD_LINES = 50


@contextmanager
def open_table(path: str | Path, limits: Limits, legacy: str | None = None) -> Iterator[TextTable]:
    """Open a text file as a table and read its header; close it at the end.

    Parameters
    ----------
    path : str or Path
        The file.
    limits : Limits
        How large it may be.
    legacy : str, optional
        The encoding to fall back on when the file is not UTF-8.

    Raises
    ------
    BadFileError
        If the file cannot be read, is not text, or is too large.
    """
    with TextLines(path, limits, legacy) as lines:
        yield TextTable(lines)


def choose_delimiter(lines: list[str]) -> str:
    """Return the delimiter that splits the header, and the lines under it most alike.

    Of the delimiters found in the header, the one wins for which most lines have as many fields as
    the header; between equals, the one that gives more columns. A header that none of them splits is
    a table of one column.
    """
    best = (0.0, 1, DELIMITERS[0])
    for delimiter in DELIMITERS:
        counts = _field_counts(lines[:SAMPLE_LINES], delimiter)
        if counts and counts[0] > 1:
            alike = counts.count(counts[0]) / len(counts)
            best = max(best, (alike, counts[0], delimiter), key=lambda entry: entry[:2])
    return best[2]


def _field_counts(lines: list[str], delimiter: str) -> list[int]:
    """Count the fields of each row; rows after one that cannot be split are left out."""
    counts = []
    try:
        for cells in csv.reader(lines, delimiter=delimiter, skipinitialspace=True):
            counts.append(len(cells))  # noqa: PERF401 - what was counted before an error still counts
    except csv.Error:
        return counts
    return counts


class TextTable:
    """The header and rows of a delimited text file, read once from top to bottom."""

    def __init__(self, lines: TextLines) -> None:
        """Settle the delimiter and read the header."""
        self._lines = lines
        self._begun = 1
        self._pulled_characters = 0
        self.name = lines.name
        self.encoding = lines.encoding
        self.delimiter = choose_delimiter(lines.head())
        self._records = self._read_records()
        self.header = self._read_header()

    @property
    def unended(self) -> bool:
        """Whether the file stopped without ending its last line."""
        return self._lines.unended

    def share_done(self) -> float:
        """Return how much of the file has been read, 0 to 1."""
        return self._lines.share_done()

    def column_name(self, index: int) -> str:
        """Return what a column is called in a sentence."""
        return shown(self.header[index]) if self.header[index] else tr("number {place}", place=index + 1)

    def refusal(self, sentence: str, line: int | None = None, column: int | None = None) -> BadFileError:
        """Return the error that says where in this table what is wrong."""
        named = None if column is None else self.column_name(column)
        return self._lines.refusal(sentence, line, named)

    def rows(self) -> Iterator[tuple[int, list[str]]]:
        """Yield each row that is not blank, with the line it begins on and as many cells as the header.

        Raises
        ------
        BadFileError
            If a row has too few or too many cells, if quotation marks do not match, or if there are
            no rows at all.
        """
        width = len(self.header)
        found = False
        for line, cells in self._records:
            found = True
            yield line, cells if len(cells) == width else self._fitted(line, cells)
        if not found:
            raise self.refusal(tr("there is a header line but no row below it; at least one is needed"))

    def _read_header(self) -> tuple[str, ...]:
        first = next(self._records, None)
        if first is None:
            raise self.refusal(tr("the file holds only blank lines; a header line and rows are needed"))
        header = tuple(" ".join(cell.split()) for cell in first[1])
        allowed = self._lines.limits.columns
        if len(header) > allowed:
            raise self.refusal(
                tr(
                    "the header has {count} columns; up to {most} are allowed",
                    count=len(header),
                    most=allowed,
                ),
                first[0],
            )
        return header

    def _fitted(self, line: int, cells: list[str]) -> list[str]:
        width = len(self.header)
        if len(cells) > width and not any(cell.strip() for cell in cells[width:]):
            return cells[:width]
        count = trn("{n} cell", "{n} cells", len(cells), sense="of a table")
        if len(cells) < width and next(self._records, None) is None:
            raise self.refusal(
                tr(
                    "the file seems cut off, as its last line has {cells}; {width} are needed, as in the "
                    "header",
                    cells=count,
                    width=width,
                ),
                line,
            )
        raise self.refusal(
            tr("the line has {cells}; {width} are needed, as in the header", cells=count, width=width), line
        )

    def _read_records(self) -> Iterator[tuple[int, list[str]]]:
        reader = csv.reader(self._feed(), delimiter=self.delimiter, skipinitialspace=True, strict=True)
        while True:
            self._begun = self._lines.number + 1
            self._pulled_characters = 0
            try:
                cells = next(reader, None)
            except csv.Error as error:
                raise self._quotation_refusal(str(error)) from error
            if cells is None:
                return
            if self._pulled_characters > LONGEST_CELL:
                self._refuse_long_cells(cells)
            if any(cell.strip() for cell in cells):
                yield self._begun, [unguarded(cell) for cell in cells]

    def _feed(self) -> Iterator[str]:
        for text in self._lines:
            self._pulled_characters += len(text)
            if self._lines.number - self._begun >= LONGEST_RECORD_LINES:
                raise self._quotation_refusal("unexpected end")
            yield text + "\n"

    def _quotation_refusal(self, problem: str) -> BadFileError:
        if "unexpected end" in problem or "limit" in problem:
            return self.refusal(
                tr(
                    "a quotation mark that opens here is never closed, so the file may be cut off; "
                    "quotation marks are needed in pairs"
                ),
                self._begun,
            )
        if "new-line" in problem:
            return self.refusal(
                tr("there is a stray line end inside the line; one kind is needed"), self._begun
            )
        return self.refusal(
            tr("there is text after a closing quotation mark; one inside a quoted cell is written twice"),
            self._begun,
        )

    def _refuse_long_cells(self, cells: list[str]) -> None:
        longest = max(cells, key=len, default="")  # a line of line ends alone has no cell
        if len(longest) > LONGEST_CELL:
            raise self._lines.refusal(
                tr(
                    "cell {place} has {count:,} characters; up to {most:,} are allowed",
                    place=cells.index(longest) + 1,
                    count=len(longest),
                    most=LONGEST_CELL,
                ),
                self._begun,
            )
