"""The tables, derived from the fact classes so that each kind is described once.

``act`` is one thing the grower did, with its name, moment, zone and hand; ``fact`` numbers every
fact and ties it to its act; each kind has a table of its own with typed columns; ``strike`` says
that a fact was struck out, or restored, and by which act. Rows are only ever added: triggers refuse
every change and deletion.
"""

from __future__ import annotations

import typing
from collections.abc import Callable, Iterator
from dataclasses import fields
from datetime import UTC, date, datetime
from typing import Any

import sqlalchemy as sa

from greenroom.ledger.facts import KINDS, Fact, WeatherDay
from greenroom.ledger.soundness import plain_type

SCHEMA = "0001"
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
        if entry.name in BASE_FIELDS or hints[entry.name] == tuple[WeatherDay, ...]:
            continue
        plain, optional = plain_type(hints[entry.name])
        yield sa.Column(entry.name, COLUMN_TYPES[plain](), nullable=optional)


def _detail_table(cls: type[Fact]) -> sa.Table:
    number = sa.Column("number", sa.Integer, sa.ForeignKey("fact.number"), primary_key=True)
    return sa.Table(cls.kind, metadata, number, *_detail_columns(cls))


detail_tables: dict[str, sa.Table] = {kind: _detail_table(cls) for kind, cls in KINDS.items()}

weather_day_table = sa.Table(
    "weather_day",
    metadata,
    sa.Column("record", sa.Integer, sa.ForeignKey("fact.number"), primary_key=True),
    sa.Column("day", sa.Date, primary_key=True),
    sa.Column("tmin_c", sa.Float),
    sa.Column("tmax_c", sa.Float),
    sa.Column("rain_mm", sa.Float),
    sa.Column("gust_ms", sa.Float),
)


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
