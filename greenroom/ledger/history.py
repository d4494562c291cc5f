"""What was done and undone: the two directions are worked out from the acts, so they outlive a restart."""

from __future__ import annotations

import sqlalchemy as sa

from greenroom.ledger.change import Act
from greenroom.ledger.errors import UnknownFactError
from greenroom.ledger.facts import KINDS
from greenroom.ledger.tables import act_table, fact_table, strike_table

_later = act_table.alias("later")
_columns = [act_table.c[name] for name in Act.__slots__]
_HEARD = [kind for kind, cls in KINDS.items() if cls.heard]


def _last_word(target: sa.Column[int]) -> sa.ScalarSelect[str]:
    """Select the deed of the latest undo or redo of an act."""
    return (
        sa.select(_later.c.deed)
        .where(_later.c.reverses == target)
        .order_by(_later.c.number.desc())
        .limit(1)
        .scalar_subquery()
    )


def _by_hand() -> sa.ColumnElement[bool]:
    """Select the acts somebody did: all but those that wrote nothing but what a service told."""
    wrote = sa.exists().where(fact_table.c.act == act_table.c.number)
    heard = wrote.where(fact_table.c.kind.in_(_HEARD))
    done = wrote.where(fact_table.c.kind.not_in(_HEARD))
    return sa.and_(act_table.c.deed == "do", sa.or_(~heard, done))


class History:
    """The acts of a ledger, read on the ledger's own connection inside its transactions."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def act(self, number: int) -> Act:
        """Return one act by its number; raise UnknownFactError if there is none."""
        row = self._connection.execute(sa.select(*_columns).where(act_table.c.number == number)).first()
        if row is None:
            raise UnknownFactError(f"The ledger holds no act of the number {number}.")
        return Act(*row)

    def latest(self, last: int) -> list[Act]:
        """Return the latest acts, newest first."""
        query = sa.select(*_columns).order_by(act_table.c.number.desc()).limit(last)
        return [Act(*row) for row in self._connection.execute(query)]

    def to_undo(self) -> Act | None:
        """Return the latest act that is done and not undone."""
        in_force = sa.func.coalesce(_last_word(act_table.c.number), "redo") == "redo"
        query = sa.select(*_columns).where(_by_hand(), in_force).order_by(act_table.c.number.desc()).limit(1)
        row = self._connection.execute(query).first()
        return Act(*row) if row else None

    def to_redo(self) -> Act | None:
        """Return the act undone last, unless something new was done since."""
        latest_do = (
            sa.select(act_table.c.number).where(_by_hand()).order_by(act_table.c.number.desc()).limit(1)
        )
        undone_last = (
            sa.select(act_table.c.reverses)
            .where(
                act_table.c.deed == "undo",
                act_table.c.number > latest_do.scalar_subquery(),
                _last_word(act_table.c.reverses) == "undo",
            )
            .order_by(act_table.c.number.desc())
            .limit(1)
        )
        target = self._connection.execute(undone_last).scalar()
        return self.act(target) if target is not None else None

    def effect(self, number: int) -> tuple[list[int], list[int], list[int]]:
        """Return the numbers of the facts an act wrote, struck out and restored."""
        written = sa.select(fact_table.c.number).where(fact_table.c.act == number)
        strikes = sa.select(strike_table.c.fact, strike_table.c.restored).where(strike_table.c.act == number)
        rows = list(self._connection.execute(strikes))
        struck = [fact for fact, restored in rows if not restored]
        restored = [fact for fact, restored in rows if restored]
        return list(self._connection.execute(written).scalars()), struck, restored
