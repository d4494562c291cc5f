"""The description of the facts' CSV files, by the W3C's Metadata Vocabulary for Tabular Data (2015)."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from greenroom.exchange.facts_csv_kinds import OWNER, FactTable
from greenroom.exchange.tables.table import Column, Kind
from greenroom.speech import tr

METADATA_FILE = "csv-metadata.json"
"""Where readers look for it first: Model for Tabular Data, section 5.3."""

CONTEXT = "http://www.w3.org/ns/csvw"
DATATYPES = {
    Kind.TEXT: "string",
    Kind.WHOLE: "integer",
    Kind.NUMBER: "double",
    Kind.YES_NO: "boolean",
    Kind.DATE: "date",
    Kind.MOMENT: "dateTimeStamp",
}
REFERENCES = {
    "variety": ("variety.csv", "variety"),
    "packet": ("packet.csv", "packet"),
    "holder": ("holder_made.csv", "holder"),
    "to_holder": ("holder_made.csv", "holder"),
    "test": ("germination_test.csv", "test"),
    "outing": ("outing_started.csv", "outing"),
    "obstacle": ("obstacle.csv", "obstacle"),
}
"""Which column of which file a key of that name comes from."""

ABOUT = tr(
    "Every fact in force, one file a kind. id is the fact's own, number the order of writing, day the day it "
    "happened. Text that begins with = + - @, a tab or a line end, and is no plain number, has an apostrophe "
    "before it, so that no spreadsheet takes it for a formula."
)


UNITS = {
    "days": tr("days", sense="unit of a column"),
    "degrees clockwise": tr("degrees clockwise"),
    "degrees north": tr("degrees north"),
    "degrees east": tr("degrees east"),
}
"""How units that are words read in the description; signs stand as they are."""


def metadata(tables: Sequence[FactTable], now: datetime) -> dict[str, Any]:
    """Return the description as it is written to JSON."""
    return {
        "@context": CONTEXT,
        "dc:title": tr("greenroom: all facts"),
        "dc:description": ABOUT,
        "dc:created": now.date().isoformat(),
        "dialect": {"encoding": "utf-8", "lineTerminators": ["\r\n"], "quoteChar": '"', "header": True},
        "tables": [_table(one, tables) for one in tables],
    }


def _table(one: FactTable, tables: Sequence[FactTable]) -> dict[str, Any]:
    schema: dict[str, Any] = {
        "columns": [_column(column, one) for column in one.table.columns],
        "primaryKey": list(one.key),
    }
    references = [*_owner(one), *_references(one, tables)]
    if references:
        schema["foreignKeys"] = references
    return {"url": one.file, "dc:title": one.words, "tableSchema": schema}


def _column(column: Column, one: FactTable) -> dict[str, Any]:
    told: dict[str, Any] = {
        "name": column.key,
        "datatype": DATATYPES[column.kind],
        "required": column.key in one.needed or column.key in one.key,
    }
    if column.unit:
        told["dc:description"] = tr("in {unit}", unit=UNITS.get(column.unit, column.unit))
    return told


def _owner(one: FactTable) -> list[dict[str, Any]]:
    return [] if one.owner is None else [_reference(OWNER, one.owner, "id")]


def _references(one: FactTable, tables: Sequence[FactTable]) -> list[dict[str, Any]]:
    """Return the references that hold: every row speaks of something, which is in force and written once.

    One that some rows leave empty is left out: validators differ on whether it may be.
    """
    files = {other.file: other for other in tables}
    keys = {column.key for column in one.table.columns}
    found = []
    for name, (file, key) in REFERENCES.items():
        other = files.get(file)
        if name in keys and other is not None and (file, key) != (one.file, name):
            there = other.table.column(key)
            spoken_of = set(one.table.column(name))
            if len(set(there)) == len(there) and spoken_of <= set(there):
                found.append(_reference(name, file, key))
    return found


def _reference(column: str, file: str, key: str) -> dict[str, Any]:
    return {"columnReference": column, "reference": {"resource": file, "columnReference": key}}
