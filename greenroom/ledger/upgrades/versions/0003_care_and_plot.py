"""Bring care, plants set out, the plot, the round and pictures.

Every kind of fact that came with it has a table of its own. A holder may be a bed from now on; nothing
in the tables had to change for that.
"""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"

NEW_TABLES = (
    "weighed",
    "basin_emptied",
    "mix_felt",
    "fed",
    "lamps_set",
    "looked_over",
    "finding",
    "pruned",
    "staked",
    "mulched",
    "flowered",
    "picked",
    "seed_saved",
    "covered",
    "soil_felt",
    "bed_laid",
    "obstacle",
    "obstacle_gone",
    "job_put_off",
    "job_struck",
    "picture_kept",
)
GUARD_WORDS = "facts are struck out, never changed"


def upgrade() -> None:
    """Take all steps; Alembic calls this."""
    _add_care()
    _add_plants()
    _add_plot()
    _add_rest()
    _guard(op.get_bind().dialect.name)


def _add_table(name: str, *columns: sa.Column) -> None:
    """Make the table of one kind of fact, with the number of the fact first."""
    op.create_table(
        name,
        sa.Column("number", sa.Integer(), nullable=False),
        *columns,
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f(f"fk_{name}_number")),
        sa.PrimaryKeyConstraint("number", name=op.f(f"pk_{name}")),
    )


def _add_care() -> None:
    _add_table(
        "weighed",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=False),
    )
    _add_table(
        "basin_emptied",
        sa.Column("holder", sa.Text(), nullable=False),
    )
    _add_table(
        "mix_felt",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("test", sa.Text(), nullable=False),
        sa.Column("level", sa.Text(), nullable=False),
    )
    _add_table(
        "fed",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("feed", sa.Text(), nullable=False),
        sa.Column("n_percent", sa.Float(), nullable=False),
        sa.Column("p2o5_percent", sa.Float(), nullable=False),
        sa.Column("k2o_percent", sa.Float(), nullable=False),
        sa.Column("ppm_n", sa.Float(), nullable=False),
        sa.Column("litres", sa.Float(), nullable=False),
    )
    _add_table(
        "lamps_set",
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("hours", sa.Float(), nullable=False),
        sa.Column("gap_cm", sa.Float(), nullable=True),
    )
    _add_table(
        "looked_over",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=True),
        sa.Column("column", sa.Integer(), nullable=True),
    )
    _add_table(
        "finding",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=True),
        sa.Column("column", sa.Integer(), nullable=True),
        sa.Column("sign", sa.Text(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=True),
        sa.Column("where", sa.Text(), nullable=False),
    )


def _add_plants() -> None:
    _add_table(
        "pruned",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("column", sa.Integer(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
    )
    _add_table(
        "staked",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=True),
        sa.Column("column", sa.Integer(), nullable=True),
    )
    _add_table(
        "mulched",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("material", sa.Text(), nullable=False),
    )
    _add_table(
        "flowered",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("column", sa.Integer(), nullable=False),
    )
    _add_table(
        "picked",
        sa.Column("holder", sa.Text(), nullable=True),
        sa.Column("row", sa.Integer(), nullable=True),
        sa.Column("column", sa.Integer(), nullable=True),
        sa.Column("variety", sa.Text(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=True),
        sa.Column("ripeness", sa.Text(), nullable=False),
    )
    _add_table(
        "seed_saved",
        sa.Column("holder", sa.Text(), nullable=True),
        sa.Column("row", sa.Integer(), nullable=True),
        sa.Column("column", sa.Integer(), nullable=True),
        sa.Column("variety", sa.Text(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=True),
    )
    _add_table(
        "covered",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("until", sa.DateTime(), nullable=True),
    )
    _add_table(
        "soil_felt",
        sa.Column("holder", sa.Text(), nullable=True),
        sa.Column("celsius", sa.Float(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
    )


def _add_plot() -> None:
    _add_table(
        "bed_laid",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("x_m", sa.Float(), nullable=False),
        sa.Column("y_m", sa.Float(), nullable=False),
        sa.Column("width_m", sa.Float(), nullable=False),
        sa.Column("depth_m", sa.Float(), nullable=False),
        sa.Column("turned_deg", sa.Float(), nullable=False),
        sa.Column("pot_litres", sa.Float(), nullable=True),
    )
    _add_table(
        "obstacle",
        sa.Column("obstacle", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("x_m", sa.Float(), nullable=False),
        sa.Column("y_m", sa.Float(), nullable=False),
        sa.Column("width_m", sa.Float(), nullable=False),
        sa.Column("depth_m", sa.Float(), nullable=False),
        sa.Column("height_m", sa.Float(), nullable=False),
    )
    _add_table(
        "obstacle_gone",
        sa.Column("obstacle", sa.Text(), nullable=False),
    )


def _add_rest() -> None:
    _add_table(
        "job_put_off",
        sa.Column("job", sa.Text(), nullable=False),
        sa.Column("until", sa.Date(), nullable=False),
    )
    _add_table(
        "job_struck",
        sa.Column("job", sa.Text(), nullable=False),
    )
    _add_table(
        "picture_kept",
        sa.Column("holder", sa.Text(), nullable=True),
        sa.Column("row", sa.Integer(), nullable=True),
        sa.Column("column", sa.Integer(), nullable=True),
        sa.Column("picture", sa.Text(), nullable=False),
        sa.Column("packet", sa.Text(), nullable=True),
        sa.Column("file", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
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
