"""A damaged ledger made good: the newest sound copy, and what can be read of the damaged one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from greenroom.exchange.season_archive_merge import merge_of
from greenroom.ledger import Ledger
from greenroom.ledger.backup import copy_file
from greenroom.ledger.backup_check import checked_contents
from greenroom.ledger.backups import Backups
from greenroom.ledger.restore import set_aside
from greenroom.ledger.salvage import Salvaged, salvage
from greenroom.speech import tr

NAME = tr("salvaged from the damaged ledger")


@dataclass(frozen=True, slots=True)
class Mended:
    """What a ledger was made of: facts of the copy, facts added to them, facts that are lost.

    ``aside`` is where the damaged one is now.
    """

    copied: int
    added: int
    lost: int
    aside: Path


def mend(backups: Backups, copy: Path | None, moment: datetime, *, zone: str, who: str) -> Mended:
    """Put a sound ledger in the place of a damaged one, which is set aside and never written to.

    Parameters
    ----------
    backups : Backups
        The ledger's, which nothing has open.
    copy : Path or None
        The copy to begin from; None begins with what can be read of the damaged one alone.
    moment : datetime
        When it is done.
    zone, who : str
        What is said of the act that adds what was read.

    Raises
    ------
    LedgerError
        With one sentence, if the disk refuses or the copy is not sound; the damaged ledger is then
        where it was.
    """
    ledger = backups.ledger
    found = salvage(ledger, moment, zone, who)
    told: list[tuple[int, int, int]] = []

    def fill(new: Path) -> None:
        if copy is None:
            new.unlink()
        else:
            copy_file(copy, new)
        try:
            with Ledger.open(new, clock=lambda: moment, who=who, zone=zone) as mended:
                told.append(_bring_in(mended, found))
        finally:
            for left in new.parent.glob(f"{new.stem}.v*{new.suffix}"):  # what an upgrade of it kept
                left.unlink()
        checked_contents(new, ledger.name)

    aside = set_aside(ledger, moment, fill)
    return Mended(*told[-1], aside)


def _bring_in(mended: Ledger, found: Salvaged) -> tuple[int, int, int]:
    """Add what was read and is not there; return what was there, what was added and what is lost."""
    before = mended.book()
    merge = merge_of(before, found.book)
    if found.book.acts and not merge.nothing:
        mended.bring_in(NAME, found.book, aside=merge.aside, strike=merge.strike, restore=merge.restore)
    return len(before.entries), merge.new, found.lost_to(before)
