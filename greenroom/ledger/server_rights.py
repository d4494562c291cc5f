"""Who may do what with the tables of a ledger on a server: given each time its owner makes or upgrades them.

The roles are made by whoever runs the server (``packaging/server/roles.sql``); where there are none,
nothing is given away. A writer adds and reads. Striking out adds too, so nobody needs the right to change.
"""

from __future__ import annotations

import sqlalchemy as sa

from greenroom.ledger.tables import VERSION_TABLE, metadata

WRITER, READER = "greenroom_writer", "greenroom_reader"


def give_rights(connection: sa.Connection) -> None:
    """Let the writers and readers of the server use the tables, as far as there are such roles."""
    if connection.dialect.name != "postgresql":
        return
    query = sa.text("SELECT rolname FROM pg_roles WHERE rolname IN (:writer, :reader)")
    roles = set(connection.execute(query, {"writer": WRITER, "reader": READER}).scalars())
    facts = ", ".join(metadata.tables)
    for role in sorted(roles):
        connection.exec_driver_sql(f"GRANT SELECT ON {facts}, {VERSION_TABLE} TO {role}")
    if WRITER in roles:
        connection.exec_driver_sql(f"GRANT INSERT ON {facts} TO {WRITER}")
        connection.exec_driver_sql(f"GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO {WRITER}")
