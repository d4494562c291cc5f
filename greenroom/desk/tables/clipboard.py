"""A table on the clipboard, in the forms that spreadsheets, editors and word processors take."""

from __future__ import annotations

from PySide6.QtCore import QMimeData
from PySide6.QtGui import QGuiApplication, QStandardItem, QStandardItemModel

from greenroom.exchange.tables.csv_text import csv_text, html_text, tsv_text
from greenroom.exchange.tables.table import Table
from greenroom.speech import trn

CSV = "text/csv"
"""The media type that RFC 4180 registers, and RFC 7111 keeps."""


def mime_of(table: Table) -> QMimeData:
    """Return a table as tabbed text, as CSV and as HTML."""
    data = _made_by_qt()
    data.setText(tsv_text(table))
    data.setHtml(html_text(table))
    data.setData(CSV, csv_text(table).encode("utf-8"))
    return data


def copy(table: Table) -> str:
    """Put a table on the clipboard and return what was done, in a sentence."""
    QGuiApplication.clipboard().setMimeData(mime_of(table))
    return trn("{table}: {n} row copied.", "{table}: {n} rows copied.", len(table.rows), table=table.name)


def _made_by_qt() -> QMimeData:
    """Return something to put on the clipboard that outlives Python.

    The clipboard may hold it until Qt goes, after Python; one that Python made would then be undone
    by an interpreter that is no more, and the program would end in a crash.
    """
    model = QStandardItemModel()
    model.appendRow(QStandardItem())
    data = model.mimeData([model.index(0, 0)])
    data.clear()
    return data
