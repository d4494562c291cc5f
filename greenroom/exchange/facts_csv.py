"""Every fact in force as CSV files, one a kind, in one zip, with a description that programs read.

The description is ``csv-metadata.json``, as in the W3C recommendations "Model for Tabular Data and Metadata
on the Web" and "Metadata Vocabulary for Tabular Data" (17 December 2015). The files are UTF-8 without a byte
order mark, since the description names the encoding. Kinds of which nothing is in force have no file.
"""

from __future__ import annotations

import json
import zipfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import datetime
from pathlib import Path

from greenroom.exchange.errors import Cancelled
from greenroom.exchange.facts_csv_kinds import FactTable, fact_tables
from greenroom.exchange.facts_csv_metadata import METADATA_FILE, metadata
from greenroom.exchange.tables.csv_text import csv_lines
from greenroom.exchange.tables_file import whole_file
from greenroom.ledger import Entry

ROWS_BETWEEN_LOOKS = 500
FILE_MODE = 0o644 << 16


def _no_progress(_share: float) -> None:
    """Tell nobody."""


def _never() -> bool:
    return False


def write_facts(
    path: str | Path,
    entries: Sequence[Entry],
    now: datetime,
    progress: Callable[[float], object] = _no_progress,
    cancelled: Callable[[], bool] = _never,
) -> Path:
    """Write all facts to a zip, whole or not at all.

    Parameters
    ----------
    path : str or Path
        Where the zip is to be; what stood there before is replaced once all is written.
    entries : sequence of Entry
        The facts in force, with their numbers.
    now : datetime
        The moment it is, aware; it dates the zip.
    progress : callable
        Takes the share done, 0 to 1.
    cancelled : callable
        Tells whether to stop.

    Raises
    ------
    BadFileError
        If it cannot be written; one sentence says why.
    Cancelled
        If it was called off; nothing is left behind.
    """
    tables = fact_tables(entries)
    told = _Told(sum(len(one.table.rows) for one in tables), progress, cancelled)
    with (
        whole_file(path) as file,
        zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed,
    ):
        for one in tables:
            _pack(packed, one.file, _chunks(one, told), now)
        described = json.dumps(metadata(tables, now), ensure_ascii=False, indent=1)
        _pack(packed, METADATA_FILE, [described + "\n"], now)
    return Path(path)


def _pack(packed: zipfile.ZipFile, name: str, chunks: Iterable[str], now: datetime) -> None:
    info = zipfile.ZipInfo(name, now.timetuple()[:6])
    info.compress_type = zipfile.ZIP_DEFLATED
    info.external_attr = FILE_MODE
    with packed.open(info, "w") as file:
        for chunk in chunks:
            file.write(chunk.encode("utf-8"))


def _chunks(one: FactTable, told: _Told) -> Iterator[str]:
    keys = [column.key for column in one.table.columns]
    for line in csv_lines(keys, one.table.columns, one.table.rows):
        told.line()
        yield line


class _Told:
    """Tells how far the writing is, and stops it when it is called off."""

    def __init__(self, rows: int, progress: Callable[[float], object], cancelled: Callable[[], bool]) -> None:
        self._rows = max(1, rows)
        self._done = 0
        self._progress = progress
        self._cancelled = cancelled

    def line(self) -> None:
        """Count a line."""
        if self._done % ROWS_BETWEEN_LOOKS == 0:
            if self._cancelled():
                raise Cancelled
            self._progress(min(1.0, self._done / self._rows))
        self._done += 1
