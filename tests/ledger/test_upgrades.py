"""An old ledger is brought up to date whole or not at all, and a copy of it as it was is kept."""

import re
import shutil
import sqlite3
from contextlib import closing

import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory

from greenroom.ledger import Ledger, opening
from greenroom.ledger.engines import file_engine, memory_engine
from greenroom.ledger.errors import DamagedLedgerError, LedgerUnavailableError
from greenroom.ledger.tables import SCHEMA, metadata
from greenroom.ledger.upgrades import HERE, upgrade
from greenroom.ledger.upgrades.draft import draft
from tests.ledger.checks import assert_one_sentence, digest, everything, sown
from tests.ledger.examples import all_examples
from tests.ledger.test_acts import InterruptionError, Saboteur

NEXT = f"{int(SCHEMA) + 1:04d}"
REDRAFT = f"draft it anew: python -m greenroom.ledger.upgrades.draft {SCHEMA} NAME"

# An upgrade as a later greenroom might have it: a new table, a new column, and a table built anew.
STEP = f'''
import sqlalchemy as sa
from alembic import op

revision = "{NEXT}"
down_revision = "{SCHEMA}"


def upgrade():
    op.create_table("tasted", sa.Column("number", sa.Integer, primary_key=True))
    op.add_column("act", sa.Column("device", sa.Text))
    op.execute("DROP TRIGGER never_update_held")
    op.execute("DROP TRIGGER never_delete_held")
    with op.batch_alter_table("held", recreate="always") as held:
        held.add_column(sa.Column("until", sa.Date))
    op.execute("UPDATE held SET until = '2025-05-01'")
    {{last}}
'''


@pytest.fixture
def scripts(tmp_path):
    """Return a function that gives a folder of upgrade scripts with one more step, ending as asked."""

    def with_step(last="pass"):
        folder = tmp_path / "scripts"
        shutil.copytree(HERE, folder, ignore=shutil.ignore_patterns("__pycache__"), dirs_exist_ok=True)
        (folder / "versions" / f"{NEXT}_more.py").write_text(STEP.format(last=last))
        return folder

    return with_step


@pytest.fixture
def old(tmp_path):
    """Return a closed ledger of today's version, in a folder of its own."""
    path = tmp_path / "kept" / "season.greenroom"
    with Ledger.open(path) as ledger:
        ledger.record(*all_examples())
        ledger.strike("sown-1")
    return path


def schema_of(engine):
    """Return what made each thing, in one spelling: its parts, sorted, without quotes and breaks."""
    with engine.connect() as connection:
        rows = connection.exec_driver_sql("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL").all()
    return {name: sorted(part.rstrip(")") for part in spelled(sql).split(",")) for name, sql in rows}


def spelled(sql):
    """Return a statement on one line, without quotes, spaces only between words."""
    return re.sub(r"\s*([(),;])\s*", r"\1", re.sub(r'["\s]+', " ", sql))


def test_a_new_ledger_and_one_brought_up_step_by_step_are_built_the_same():
    at_once, by_steps = memory_engine(), memory_engine()
    with at_once.begin() as connection:
        opening.make_tables(connection)
    assert upgrade(by_steps) is None
    expected, found = schema_of(at_once), schema_of(by_steps)
    assert set(found) == set(expected), REDRAFT
    for name, parts in expected.items():
        assert found[name] == parts, f"{name}: {REDRAFT}"
    with by_steps.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []
        assert connection.exec_driver_sql("SELECT version_num FROM alembic_version").all() == [(SCHEMA,)]
    for engine in (at_once, by_steps):
        engine.dispose()


def test_the_version_of_the_program_is_the_last_of_the_upgrades():
    config = Config()
    config.set_main_option("script_location", str(HERE))
    directory = ScriptDirectory.from_config(config)
    assert directory.get_heads() == [SCHEMA]
    assert [one.revision for one in directory.walk_revisions()] == [
        f"{number:04d}" for number in range(int(SCHEMA), 0, -1)
    ]


def test_a_draft_of_the_first_step_leads_to_the_same_tables(tmp_path):
    folder = tmp_path / "scripts"
    shutil.copytree(HERE, folder, ignore=shutil.ignore_patterns("0*", "__pycache__"))
    draft("0001", "first", folder)
    drafted, kept = memory_engine(), memory_engine()
    upgrade(drafted, "0001", folder)
    upgrade(kept)
    assert schema_of(drafted) == schema_of(kept)
    for engine in (drafted, kept):
        engine.dispose()


def test_a_draft_of_the_next_step_holds_only_what_differs(scripts):
    folder = scripts()
    path = draft(NEXT, "nothing_new", folder)
    assert path.name == f"{NEXT}_nothing_new.py"
    assert [one.name for one in path.parent.glob(f"{NEXT}_*")] == [path.name]
    assert "create_table" not in path.read_text()
    engine = memory_engine()
    upgrade(engine, NEXT, folder)
    engine.dispose()


def test_an_upgrade_keeps_a_copy_of_the_ledger_as_it_was(old, scripts):
    with Ledger.open(old) as ledger:
        before = everything(ledger)
    engine = file_engine(old)
    copy = upgrade(engine, NEXT, scripts())
    engine.dispose()
    assert copy == old.with_name(f"season.v{SCHEMA}.greenroom")
    assert sorted(one.name for one in old.parent.iterdir()) == ["season.greenroom", copy.name]
    with Ledger.open(copy) as ledger:
        assert everything(ledger) == before
    with closing(sqlite3.connect(old)) as raw:
        assert raw.execute("SELECT version_num FROM alembic_version").fetchall() == [(NEXT,)]
        assert raw.execute("SELECT DISTINCT until FROM held").fetchall() == [("2025-05-01",)]
        assert raw.execute("SELECT count(*) FROM fact").fetchone()[0] == len(all_examples())
        assert raw.execute("PRAGMA foreign_key_check").fetchall() == []


def test_an_older_copy_is_never_overwritten(old, scripts):
    first = old.with_name(f"season.v{SCHEMA}.greenroom")
    first.write_text("kept from an upgrade before")
    engine = file_engine(old)
    copy = upgrade(engine, NEXT, scripts())
    engine.dispose()
    assert copy.name == f"season.v{SCHEMA}-2.greenroom"
    assert first.read_text() == "kept from an upgrade before"


@pytest.mark.parametrize(
    ("last", "error", "words"),
    [
        ("raise ZeroDivisionError('by the script')", ZeroDivisionError, "by the script"),
        ("op.execute('INSERT INTO nowhere VALUES (1)')", sa.exc.OperationalError, "no such table"),
        (
            'op.execute("INSERT INTO strike (fact, act, restored) VALUES (9999, 1, 0)")',
            DamagedLedgerError,
            "row .* of strike points to nothing",
        ),
    ],
    ids=["the script fails", "the database refuses", "a row is left that points to nothing"],
)
def test_an_upgrade_that_fails_leaves_the_ledger_as_it_was(last, error, words, old, scripts):
    before = digest(old)
    engine = file_engine(old)
    with pytest.raises(error, match=words):
        upgrade(engine, NEXT, scripts(last))
    engine.dispose()
    assert digest(old) == before
    with Ledger.open(old) as ledger:
        assert len(ledger.facts()) == len(all_examples()) - 1


@pytest.mark.parametrize("n", [2, 12, 20, "commit"])
def test_an_upgrade_that_breaks_anywhere_leaves_the_ledger_as_it_was(n, old, scripts):
    before = digest(old)
    engine = file_engine(old)
    with Saboteur(n, InterruptionError()) as saboteur, pytest.raises(InterruptionError):
        upgrade(engine, NEXT, scripts())
    engine.dispose()
    assert saboteur.struck
    assert digest(old) == before


def test_without_a_copy_there_is_no_upgrade(old, scripts, monkeypatch):
    from greenroom.ledger import files

    def full(aside, place):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(files, "_put_in_place", full)
    before = digest(old)
    engine = file_engine(old)
    with pytest.raises(LedgerUnavailableError, match="is full, so nothing was written") as caught:
        upgrade(engine, NEXT, scripts())
    engine.dispose()
    assert_one_sentence(str(caught.value))
    assert digest(old) == before
    assert [one.name for one in old.parent.iterdir()] == [old.name]


def test_opening_an_old_ledger_brings_it_up_to_date(old, scripts, monkeypatch):
    """The program of a later day, played by a later version and its scripts."""
    from greenroom.ledger import upgrades

    later = scripts()
    monkeypatch.setattr(opening, "SCHEMA", NEXT)
    monkeypatch.setattr(upgrades, "upgrade", lambda engine, target: upgrade(engine, target, later))
    with Ledger.open(old) as ledger:
        assert len(ledger.facts()) == len(all_examples()) - 1
        ledger.record(sown())
        ledger.undo()
        assert ledger.undo().added[0].fact.id == "sown-1"
    assert old.with_name(f"season.v{SCHEMA}.greenroom").exists()
    with Ledger.open(old) as ledger:
        assert len(ledger.facts()) == len(all_examples())
    assert len(list(old.parent.iterdir())) == 2, "a ledger that is up to date is not copied"
