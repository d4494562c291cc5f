"""Draft the script of the next upgrade: ``python -m greenroom.ledger.upgrades.draft 0002 what_it_brings``.

It compares what the scripts before lead to with the tables of today and writes the difference as
explicit statements. A script of the same number is written anew. It is a draft: read it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Literal

import sqlalchemy as sa
from alembic.autogenerate import produce_migrations, render_python_code
from alembic.autogenerate.api import AutogenContext
from alembic.operations import ops
from alembic.runtime.migration import MigrationContext

from greenroom.ledger.engines import memory_engine
from greenroom.ledger.tables import Moment, metadata
from greenroom.ledger.upgrades import HERE, upgrade

HEAD = '''"""{title}.

Drafted by ``python -m greenroom.ledger.upgrades.draft``; never changed once it is released.
"""

import sqlalchemy as sa
from alembic import op

revision = "{number}"
down_revision = {before}

NEW_TABLES = ({tables})
GUARD_WORDS = "facts are struck out, never changed"


def upgrade() -> None:
    """Take all steps; Alembic calls this."""
{calls}
    _guard(op.get_bind().dialect.name)


'''
GUARD = """def _guard(dialect: str) -> None:
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
"""


def draft(number: str, name: str, scripts: Path = HERE) -> Path:
    """Write ``versions/number_name.py`` and return its path."""
    for old in (scripts / "versions").glob(f"{number}_*.py"):
        old.unlink()
    before = f"{int(number) - 1:04d}" if int(number) > 1 else None
    engine = memory_engine()
    if before is not None:
        upgrade(engine, before, scripts)
    with engine.connect() as connection:
        steps = list(_steps(connection))
        new = set(metadata.tables) - set(sa.inspect(connection).get_table_names())
    engine.dispose()
    path = scripts / "versions" / f"{number}_{name}.py"
    path.write_text(
        _script(number, before, name, [table for table in metadata.tables if table in new], steps)
    )
    return path


def _steps(connection: sa.Connection) -> Iterator[tuple[str, str]]:
    """Yield the name of a function and its statements, for each table that differs."""
    context = MigrationContext.configure(connection, opts={"render_as_batch": True})
    found = produce_migrations(context, metadata).upgrade_ops
    gathered: dict[str, list[ops.MigrateOperation]] = {}
    for one in found.ops if found is not None else ():
        gathered.setdefault(getattr(one, "table_name", "rest"), []).append(one)
    for table, steps in gathered.items():
        code = render_python_code(ops.UpgradeOps(ops=steps), render_as_batch=True, render_item=_render_moment)
        lines = [line for line in code.splitlines() if not line.lstrip().startswith("#")]
        yield f"_change_{table}", "\n".join(lines)


def _script(
    number: str, before: str | None, name: str, tables: Sequence[str], steps: Sequence[tuple[str, str]]
) -> str:
    head = HEAD.format(
        title=name.replace("_", " ").capitalize(),
        number=number,
        before=f'"{before}"' if before else None,
        tables="".join(f'"{table}", ' for table in tables),
        calls="\n".join(f"    {function}()" for function, _ in steps),
    )
    bodies = "".join(f"def {function}() -> None:\n{body}\n\n\n" for function, body in steps)
    return head + bodies + GUARD


def _render_moment(kind: str, item: object, context: AutogenContext) -> str | Literal[False]:  # noqa: ARG001 Alembic's signature
    """Have a moment written as the plain type under it, so that no script needs today's classes."""
    return "sa.DateTime()" if kind == "type" and isinstance(item, Moment) else False


if __name__ == "__main__":
    draft(sys.argv[1], sys.argv[2])
