"""Bring the season plan, germination tests, forecasts, lamps and what is seen at the door.

Every kind of fact that came with it has a table of its own; the hours of a forecast have one too. A
setback may name its cause from now on: those seen before were of the sun.
"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

NEW_TABLES = (
    "germination_test",
    "germination_count",
    "wanted",
    "sowing_planned",
    "forecast",
    "frost_dates_given",
    "online_choice",
    "plan_rules",
    "lamp_measured",
    "ramp_set",
    "counting_set",
    "sky_seen",
    "yard_sun",
    "cool_night",
    "watered",
    "hour_ahead",
)
GUARD_WORDS = "facts are struck out, never changed"


def upgrade() -> None:
    """Take all steps; Alembic calls this."""
    _add_plan()
    _add_place()
    _add_hours()
    _add_door()
    op.add_column("setback_seen", sa.Column("cause", sa.Text(), server_default="sun", nullable=False))
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


def _add_plan() -> None:
    _add_table(
        "germination_test",
        sa.Column("test", sa.Text(), nullable=False),
        sa.Column("packet", sa.Text(), nullable=False),
        sa.Column("seeds", sa.Integer(), nullable=False),
        sa.Column("warmth_c", sa.Float(), nullable=True),
    )
    _add_table(
        "germination_count",
        sa.Column("test", sa.Text(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
    )
    _add_table(
        "wanted",
        sa.Column("variety", sa.Text(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("plants", sa.Integer(), nullable=False),
    )
    _add_table(
        "sowing_planned",
        sa.Column("variety", sa.Text(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
    )


def _add_place() -> None:
    _add_table(
        "forecast",
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column("taken", sa.DateTime(), nullable=False),
    )
    _add_table(
        "frost_dates_given",
        sa.Column("last", sa.Date(), nullable=False),
        sa.Column("first", sa.Date(), nullable=False),
    )
    _add_table(
        "online_choice",
        sa.Column("allowed", sa.Boolean(), nullable=False),
    )
    _add_table(
        "plan_rules",
        sa.Column("odds", sa.Float(), nullable=False),
        sa.Column("confidence", sa.Float(), nullable=False),
        sa.Column("floor_c", sa.Float(), nullable=False),
        sa.Column("run_nights", sa.Integer(), nullable=False),
        sa.Column("killing_c", sa.Float(), nullable=False),
        sa.Column("hardening_days", sa.Integer(), nullable=False),
    )
    _add_table(
        "lamp_measured",
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("ppfd", sa.Float(), nullable=True),
        sa.Column("lux", sa.Float(), nullable=True),
        sa.Column("lamp", sa.Text(), nullable=False),
        sa.Column("hours", sa.Float(), nullable=False),
    )


def _add_hours() -> None:
    op.create_table(
        "hour_ahead",
        sa.Column("record", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.Column("temperature_c", sa.Float(), nullable=True),
        sa.Column("cloud", sa.Float(), nullable=True),
        sa.Column("gust_ms", sa.Float(), nullable=True),
        sa.Column("rain_mm", sa.Float(), nullable=True),
        sa.Column("light_w_m2", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(["record"], ["fact.number"], name=op.f("fk_hour_ahead_record")),
        sa.PrimaryKeyConstraint("record", "at", name=op.f("pk_hour_ahead")),
    )


def _add_door() -> None:
    _add_table(
        "ramp_set",
        sa.Column("crop", sa.Text(), nullable=False),
        sa.Column("start_minutes", sa.Float(), nullable=False),
        sa.Column("full_minutes", sa.Float(), nullable=False),
        sa.Column("outings", sa.Integer(), nullable=False),
        sa.Column("cold_c", sa.Float(), nullable=False),
        sa.Column("gust_ms", sa.Float(), nullable=False),
        sa.Column("rain_mm", sa.Float(), nullable=False),
    )
    _add_table(
        "counting_set",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
    )
    _add_table(
        "sky_seen",
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.Column("cloud", sa.Float(), nullable=False),
        sa.Column("cloth", sa.Float(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=True),
    )
    _add_table(
        "yard_sun",
        sa.Column("first", sa.Integer(), nullable=False),
        sa.Column("last", sa.Integer(), nullable=False),
    )
    _add_table(
        "cool_night",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("low_c", sa.Float(), nullable=False),
    )
    _add_table(
        "watered",
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("how", sa.Text(), nullable=False),
        sa.Column("weight_g", sa.Float(), nullable=True),
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
