"""First.

Drafted by ``python -m greenroom.ledger.upgrades.draft``; never changed once it is released.
"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

NEW_TABLES = (
    "act",
    "fact",
    "strike",
    "variety",
    "packet",
    "holder_made",
    "holder_placed",
    "holder_retired",
    "sown",
    "sprouted",
    "leaf_stage",
    "lost",
    "moved",
    "hardening_started",
    "outing_started",
    "outing_switched",
    "outing_ended",
    "setback_seen",
    "held",
    "note",
    "place_set",
    "units_set",
    "weather_record",
    "weather_day",
)
GUARD_WORDS = "facts are struck out, never changed"


def upgrade() -> None:
    """Take all steps; Alembic calls this."""
    _change_act()
    _change_fact()
    _change_hardening_started()
    _change_held()
    _change_holder_made()
    _change_holder_placed()
    _change_holder_retired()
    _change_leaf_stage()
    _change_lost()
    _change_moved()
    _change_note()
    _change_outing_ended()
    _change_outing_started()
    _change_outing_switched()
    _change_packet()
    _change_place_set()
    _change_setback_seen()
    _change_sown()
    _change_sprouted()
    _change_strike()
    _change_units_set()
    _change_variety()
    _change_weather_day()
    _change_weather_record()
    _guard(op.get_bind().dialect.name)


def _change_act() -> None:
    op.create_table(
        "act",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("deed", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("written", sa.DateTime(), nullable=False),
        sa.Column("zone", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("reverses", sa.Integer(), nullable=True),
        sa.CheckConstraint("(deed = 'do') = (reverses IS NULL)", name=op.f("ck_act_reverses")),
        sa.CheckConstraint("deed IN ('do', 'undo', 'redo')", name=op.f("ck_act_deed")),
        sa.ForeignKeyConstraint(["reverses"], ["act.number"], name=op.f("fk_act_reverses")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_act")),
    )
    with op.batch_alter_table("act", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_act_reverses"), ["reverses"], unique=False)


def _change_fact() -> None:
    op.create_table(
        "fact",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("act", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["act"], ["act.number"], name=op.f("fk_fact_act")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_fact")),
        sa.UniqueConstraint("id", name=op.f("uq_fact_id")),
    )
    with op.batch_alter_table("fact", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_fact_act"), ["act"], unique=False)


def _change_hardening_started() -> None:
    op.create_table(
        "hardening_started",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("start_minutes", sa.Float(), nullable=False),
        sa.Column("full_minutes", sa.Float(), nullable=False),
        sa.Column("outings", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_hardening_started_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_hardening_started")),
    )


def _change_held() -> None:
    op.create_table(
        "held",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_held_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_held")),
    )


def _change_holder_made() -> None:
    op.create_table(
        "holder_made",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("form", sa.Text(), nullable=False),
        sa.Column("rows", sa.Integer(), nullable=False),
        sa.Column("columns", sa.Integer(), nullable=False),
        sa.Column("cell_ml", sa.Float(), nullable=True),
        sa.Column("size", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_holder_made_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_holder_made")),
    )


def _change_holder_placed() -> None:
    op.create_table(
        "holder_placed",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("mix_c", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_holder_placed_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_holder_placed")),
    )


def _change_holder_retired() -> None:
    op.create_table(
        "holder_retired",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_holder_retired_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_holder_retired")),
    )


def _change_leaf_stage() -> None:
    op.create_table(
        "leaf_stage",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("column", sa.Integer(), nullable=False),
        sa.Column("leaves", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_leaf_stage_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_leaf_stage")),
    )


def _change_lost() -> None:
    op.create_table(
        "lost",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("column", sa.Integer(), nullable=False),
        sa.Column("cause", sa.Text(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_lost_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_lost")),
    )


def _change_moved() -> None:
    op.create_table(
        "moved",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("column", sa.Integer(), nullable=False),
        sa.Column("to_holder", sa.Text(), nullable=False),
        sa.Column("to_row", sa.Integer(), nullable=False),
        sa.Column("to_column", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_moved_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_moved")),
    )


def _change_note() -> None:
    op.create_table(
        "note",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=True),
        sa.Column("column", sa.Integer(), nullable=True),
        sa.Column("text", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_note_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_note")),
    )


def _change_outing_ended() -> None:
    op.create_table(
        "outing_ended",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("outing", sa.Text(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_outing_ended_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_outing_ended")),
    )


def _change_outing_started() -> None:
    op.create_table(
        "outing_started",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("outing", sa.Text(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.Column("light", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_outing_started_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_outing_started")),
    )


def _change_outing_switched() -> None:
    op.create_table(
        "outing_switched",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("outing", sa.Text(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.Column("light", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_outing_switched_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_outing_switched")),
    )


def _change_packet() -> None:
    op.create_table(
        "packet",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("packet", sa.Text(), nullable=False),
        sa.Column("variety", sa.Text(), nullable=False),
        sa.Column("lot", sa.Text(), nullable=False),
        sa.Column("packed", sa.Integer(), nullable=True),
        sa.Column("seeds", sa.Integer(), nullable=True),
        sa.Column("germination", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_packet_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_packet")),
    )


def _change_place_set() -> None:
    op.create_table(
        "place_set",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("latitude", sa.Float(), nullable=False),
        sa.Column("longitude", sa.Float(), nullable=False),
        sa.Column("zone", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_place_set_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_place_set")),
    )


def _change_setback_seen() -> None:
    op.create_table(
        "setback_seen",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_setback_seen_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_setback_seen")),
    )


def _change_sown() -> None:
    op.create_table(
        "sown",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("column", sa.Integer(), nullable=False),
        sa.Column("packet", sa.Text(), nullable=False),
        sa.Column("seeds", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_sown_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_sown")),
    )


def _change_sprouted() -> None:
    op.create_table(
        "sprouted",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("holder", sa.Text(), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("column", sa.Integer(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_sprouted_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_sprouted")),
    )


def _change_strike() -> None:
    op.create_table(
        "strike",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("fact", sa.Integer(), nullable=False),
        sa.Column("act", sa.Integer(), nullable=False),
        sa.Column("restored", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["act"], ["act.number"], name=op.f("fk_strike_act")),
        sa.ForeignKeyConstraint(["fact"], ["fact.number"], name=op.f("fk_strike_fact")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_strike")),
    )
    with op.batch_alter_table("strike", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_strike_act"), ["act"], unique=False)
        batch_op.create_index(batch_op.f("ix_strike_fact"), ["fact"], unique=False)


def _change_units_set() -> None:
    op.create_table(
        "units_set",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("temperature", sa.Text(), nullable=False),
        sa.Column("volume", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_units_set_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_units_set")),
    )


def _change_variety() -> None:
    op.create_table(
        "variety",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("variety", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("crop", sa.Text(), nullable=True),
        sa.Column("days_to_ripe", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_variety_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_variety")),
    )


def _change_weather_day() -> None:
    op.create_table(
        "weather_day",
        sa.Column("record", sa.Integer(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("tmin_c", sa.Float(), nullable=True),
        sa.Column("tmax_c", sa.Float(), nullable=True),
        sa.Column("rain_mm", sa.Float(), nullable=True),
        sa.Column("gust_ms", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(["record"], ["fact.number"], name=op.f("fk_weather_day_record")),
        sa.PrimaryKeyConstraint("record", "day", name=op.f("pk_weather_day")),
    )


def _change_weather_record() -> None:
    op.create_table(
        "weather_record",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column("station", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["number"], ["fact.number"], name=op.f("fk_weather_record_number")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_weather_record")),
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
