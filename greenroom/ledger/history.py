"""What was done and undone: the two directions are worked out from the acts, so they outlive a restart."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

import sqlalchemy as sa

from greenroom.ledger.change import Act
from greenroom.ledger.errors import UnknownFactError
from greenroom.ledger.facts import KINDS
from greenroom.ledger.tables import act_table, fact_table, strike_table
from greenroom.speech import tr

Effect = tuple[list[int], list[int], list[int]]
"""The numbers of the facts that an act wrote, struck out and restored."""

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
    """The acts of a ledger, read on the ledger's own connection inside its transactions.

    Where several hands write, ``who`` is the one whose acts are undone and done again; None is all.
    """

    def __init__(self, connection: sa.Connection, who: str | None = None) -> None:
        self._connection = connection
        self._own = sa.true() if who is None else act_table.c.who == who

    def act(self, number: int) -> Act:
        """Return one act by its number; raise UnknownFactError if there is none."""
        row = self._connection.execute(sa.select(*_columns).where(act_table.c.number == number)).first()
        if row is None:
            raise UnknownFactError(tr("The ledger holds no act of the number {number}.", number=number))
        return Act(*row)

    def latest(self, last: int) -> list[Act]:
        """Return the latest acts, newest first."""
        query = sa.select(*_columns).order_by(act_table.c.number.desc()).limit(last)
        return [Act(*row) for row in self._connection.execute(query)]

    def to_undo(self) -> Act | None:
        """Return the latest act that is done and not undone."""
        in_force = sa.func.coalesce(_last_word(act_table.c.number), "redo") == "redo"
        query = sa.select(*_columns).where(_by_hand(), self._own, in_force)
        row = self._connection.execute(query.order_by(act_table.c.number.desc()).limit(1)).first()
        return Act(*row) if row else None

    def to_redo(self) -> Act | None:
        """Return the act undone last, unless something new was done since."""
        latest_do = (
            sa.select(act_table.c.number)
            .where(_by_hand(), self._own)
            .order_by(act_table.c.number.desc())
            .limit(1)
        )
        undone_last = (
            sa.select(act_table.c.reverses)
            .where(
                act_table.c.deed == "undo",
                self._own,
                act_table.c.number > latest_do.scalar_subquery(),
                _last_word(act_table.c.reverses) == "undo",
            )
            .order_by(act_table.c.number.desc())
            .limit(1)
        )
        target = self._connection.execute(undone_last).scalar()
        return self.act(target) if target is not None else None

    def last_hand(self, facts: Sequence[int]) -> str | None:
        """Return who struck out or restored any of some facts last, by their numbers."""
        query = (
            sa.select(act_table.c.who)
            .join(strike_table, strike_table.c.act == act_table.c.number)
            .where(strike_table.c.fact.in_(facts))
            .order_by(strike_table.c.number.desc())
            .limit(1)
        )
        return self._connection.execute(query).scalar()

    def since(self, number: int) -> list[Act]:
        """Return the acts after one, the oldest first."""
        query = sa.select(*_columns).where(act_table.c.number > number).order_by(act_table.c.number)
        return [Act(*row) for row in self._connection.execute(query)]

    def effects(self, first: int, last: int) -> defaultdict[int, Effect]:
        """Return the effect of each act of a run of acts."""
        found: defaultdict[int, Effect] = defaultdict(lambda: ([], [], []))
        facts = sa.select(fact_table.c.act, fact_table.c.number).where(fact_table.c.act.between(first, last))
        for act, number in self._connection.execute(facts.order_by(fact_table.c.number)):
            found[act][0].append(number)
        strikes = sa.select(strike_table.c.act, strike_table.c.fact, strike_table.c.restored)
        strikes = strikes.where(strike_table.c.act.between(first, last)).order_by(strike_table.c.number)
        for act, number, restored in self._connection.execute(strikes):
            found[act][2 if restored else 1].append(number)
        return found

    def effect(self, number: int) -> Effect:
        """Return the numbers of the facts an act wrote, struck out and restored."""
        return self.effects(number, number)[number]
