"""Bring the leaf cover read from photographs, and the hour of a weighing and of a watering.

Weighings and waterings told before have no hour.
"""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"

NEW_TABLES = ("canopy_seen", "cell_cover")
GUARD_WORDS = "facts are struck out, never changed"


def upgrade() -> None:
    """Take all steps; Alembic calls this."""
    _add_canopy()
    for table in ("watered", "weighed"):
        op.add_column(table, sa.Column("at", sa.DateTime(), nullable=True))
    _guard(op.get_bind().dialect.name)


def _add_canopy() -> None:
    op.create_table(
        "canopy_seen",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("picture", sa.Text(), nullable=True),
        sa.Column("threshold", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_canopy_seen_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_canopy_seen")),
    )
    op.create_table(
        "cell_cover",
        sa.Column("record", sa.Integer(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("column", sa.Integer(), nullable=False),
        sa.Column("cover", sa.Float(), nullable=False),
        sa.ForeignKeyConstraint(["record"], ["fact.number"], name=op.f("fk_cell_cover_record")),
        sa.PrimaryKeyConstraint("record", "row", "column", name=op.f("pk_cell_cover")),
    )


def _guard(dialect: str) -> None:
    if dialect == "sqlite":
        for table in NEW_TABLES:
            for verb in ("UPDATE", "DELETE"):
                op.execute(
                    f"CREATE TRIGGER never_{verb.lower()}_{table} BEFORE {verb} ON {table} "
                    f"BEGIN SELECT RAISE(ABORT, '{GUARD_WORDS}'); END"
                )
    elif dialect == "postgresql":
        op.execute(
            f"CREATE OR REPLACE FUNCTION never_change() RETURNS trigger LANGUAGE plpgsql AS "
            f"$$ BEGIN RAISE EXCEPTION '{GUARD_WORDS}'; END $$"
        )
        for table in NEW_TABLES:
            op.execute(
                f"CREATE TRIGGER never_change_{table} BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
                f"FOR EACH STATEMENT EXECUTE FUNCTION never_change()"
            )
