"""Every list and chart as a table: what stands behind it, to read, to copy, and to save."""

from __future__ import annotations

from greenroom.exchange.tables.table import Cell, Column, Kind, Table, TableError

__all__ = ["Cell", "Column", "Kind", "Table", "TableError"]
