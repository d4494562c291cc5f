"""The columns of a table chosen for its fields, whatever the table is of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields

from greenroom.exchange.text_table import TextTable
from greenroom.speech import tr


@dataclass(frozen=True, slots=True)
class Match:
    """The column, counted from 0, of each field; None where the table has none."""

    def used(self) -> dict[str, int]:
        """Return the fields that have a column, and which."""
        columns = {field.name: getattr(self, field.name) for field in fields(self)}
        return {name: column for name, column in columns.items() if column is not None}


def refuse_columns(table: TextTable, columns: Mapping[str, int], words: Mapping[str, str]) -> None:
    """Refuse columns that are not there or chosen twice; ``words`` are the names of the fields.

    Raises
    ------
    BadFileError
        With one sentence: which column, and what is allowed.
    """
    width = len(table.header)
    for field, column in columns.items():
        if not 0 <= column < width:
            raise table.refusal(
                tr(
                    "there is no column {column} for the {field}; 1 to {width} are there",
                    column=column + 1,
                    field=words[field],
                    width=width,
                )
            )
        first, *others = [words[other] for other in columns if columns[other] == column]
        if others:
            raise table.refusal(
                tr(
                    "column {column} is chosen for the {first} and the {second}; a column for each is needed",
                    column=table.column_name(column),
                    first=first,
                    second=others[0],
                )
            )
