"""What Alembic runs for each upgrade: the scripts, on the connection and in the transaction given to it."""

from alembic import context

from greenroom.ledger.tables import metadata


def run() -> None:
    """Run the scripts that lead from the version found to the one asked for."""
    context.configure(connection=context.config.attributes["connection"], target_metadata=metadata)
    with context.begin_transaction():  # does nothing of its own inside the transaction that is open
        context.run_migrations()


if not __name__.startswith("greenroom."):  # Alembic runs this file under a name of its own
    run()
