"""The tables, derived from the fact classes so that each kind is described once.

``act`` is one thing the grower did, with its name, moment, zone and hand; ``fact`` numbers every
fact and ties it to its act; each kind has a table of its own with typed columns; each named tuple
of which facts hold many has one too, with the number of its fact; ``strike`` says that a fact was
struck out, or restored, and by which act. Rows are only ever added: triggers refuse every change and
deletion.
"""

from __future__ import annotations

import typing
from collections.abc import Callable, Iterator
from dataclasses import Field, fields
from datetime import UTC, date, datetime
from typing import Any

import sqlalchemy as sa

from greenroom.ledger.facts import KINDS, ROW_KEYS, ROWS, Fact
from greenroom.ledger.soundness import ROW_FIELDS, plain_type, row_type

SCHEMA = "0004"
VERSION_TABLE = "alembic_version"
BASE_FIELDS = ("id", "day")
GUARD_WORDS = "facts are struck out, never changed"


class Moment(sa.types.TypeDecorator[datetime]):
    """An aware datetime, kept in UTC without its zone."""

    impl = sa.DateTime
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: sa.Dialect) -> datetime | None:  # noqa: ARG002 SQLAlchemy's signature
        return None if value is None else value.astimezone(UTC).replace(tzinfo=None)

    def process_result_value(self, value: datetime | None, dialect: sa.Dialect) -> datetime | None:  # noqa: ARG002 SQLAlchemy's signature
        return None if value is None else value.replace(tzinfo=UTC)


COLUMN_TYPES: dict[type, Callable[[], sa.types.TypeEngine[Any]]] = {
    str: sa.Text,
    int: sa.Integer,
    float: sa.Float,
    date: sa.Date,
    datetime: Moment,
    bool: sa.Boolean,
}

metadata = sa.MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "ix": "ix_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
    }
)

act_table = sa.Table(
    "act",
    metadata,
    sa.Column("number", sa.Integer, primary_key=True),
    sa.Column("deed", sa.Text, nullable=False),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("written", Moment, nullable=False),
    sa.Column("zone", sa.Text, nullable=False),
    sa.Column("who", sa.Text, nullable=False),
    sa.Column("reverses", sa.Integer, sa.ForeignKey("act.number"), index=True),
    sa.CheckConstraint("deed IN ('do', 'undo', 'redo')", name="deed"),
    sa.CheckConstraint("(deed = 'do') = (reverses IS NULL)", name="reverses"),
)

fact_table = sa.Table(
    "fact",
    metadata,
    sa.Column("number", sa.Integer, primary_key=True),
    sa.Column("id", sa.Text, nullable=False, unique=True),
    sa.Column("kind", sa.Text, nullable=False),
    sa.Column("day", sa.Date, nullable=False),
    sa.Column("act", sa.Integer, sa.ForeignKey("act.number"), nullable=False, index=True),
)

strike_table = sa.Table(
    "strike",
    metadata,
    sa.Column("number", sa.Integer, primary_key=True),
    sa.Column("fact", sa.Integer, sa.ForeignKey("fact.number"), nullable=False, index=True),
    sa.Column("act", sa.Integer, sa.ForeignKey("act.number"), nullable=False, index=True),
    sa.Column("restored", sa.Boolean, nullable=False),
)


def _detail_columns(cls: type[Fact]) -> Iterator[sa.Column[Any]]:
    hints = typing.get_type_hints(cls)
    for entry in fields(cls):
        if entry.name in BASE_FIELDS or row_type(hints[entry.name]) is not None:
            continue
        plain, optional = plain_type(hints[entry.name])
        older = _default_of_older(entry)
        yield sa.Column(entry.name, COLUMN_TYPES[plain](), nullable=optional, server_default=older)


def _default_of_older(entry: Field[Any]) -> str | None:
    """Return what stands in the rows written before a field was added; None where that is nothing."""
    later = "added_later" in entry.metadata and entry.default is not None
    return str(entry.default) if later else None


def _detail_table(cls: type[Fact]) -> sa.Table:
    number = sa.Column("number", sa.Integer, sa.ForeignKey("fact.number"), primary_key=True)
    return sa.Table(cls.kind, metadata, number, *_detail_columns(cls))


detail_tables: dict[str, sa.Table] = {kind: _detail_table(cls) for kind, cls in KINDS.items()}


def _row_table(name: str, row: type[Any]) -> sa.Table:
    record = sa.Column("record", sa.Integer, sa.ForeignKey("fact.number"), primary_key=True)
    keys = ROW_KEYS[name]
    columns = (
        sa.Column(one, COLUMN_TYPES[plain](), nullable=optional, primary_key=one in keys)
        for one, plain, optional in ROW_FIELDS[row]
    )
    return sa.Table(name, metadata, record, *columns)


row_tables: dict[type[Any], sa.Table] = {row: _row_table(name, row) for name, row in ROWS.items()}


def _row_fields_of(cls: type[Fact]) -> dict[str, type[Any]]:
    hints = typing.get_type_hints(cls)
    rows = {entry.name: row_type(hints[entry.name]) for entry in fields(cls)}
    return {name: row for name, row in rows.items() if row is not None}


rows_of_kind: dict[str, dict[str, type[Any]]] = {kind: _row_fields_of(cls) for kind, cls in KINDS.items()}
"""For each kind the fields that hold many rows, and the named tuple they are rows of."""


def guard_statements(dialect: str) -> Iterator[str]:
    """Yield the statements that make every table append-only in ``dialect``."""
    if dialect == "sqlite":
        for name in metadata.tables:
            for verb in ("UPDATE", "DELETE"):
                yield (
                    f"CREATE TRIGGER never_{verb.lower()}_{name} BEFORE {verb} ON {name} "
                    f"BEGIN SELECT RAISE(ABORT, '{GUARD_WORDS}'); END"
                )
    elif dialect == "postgresql":
        yield (
            f"CREATE FUNCTION never_change() RETURNS trigger LANGUAGE plpgsql AS "
            f"$$ BEGIN RAISE EXCEPTION '{GUARD_WORDS}'; END $$"
        )
        for name in metadata.tables:
            yield (
                f"CREATE TRIGGER never_change_{name} BEFORE UPDATE OR DELETE OR TRUNCATE ON {name} "
                f"FOR EACH STATEMENT EXECUTE FUNCTION never_change()"
            )
