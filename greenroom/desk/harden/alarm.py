"""The alarm: rings when a holder has had its sun, or the sun has set on it, until somebody answers."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from PySide6.QtCore import QObject, Signal

from greenroom.desk.harden.bell import Bell
from greenroom.season.door import AtDoor
from greenroom.season.hardening_words import whole_minutes
from greenroom.speech import many, tr

AGAIN = timedelta(seconds=20)
SNOOZE = timedelta(minutes=10)


class Alarm(QObject):
    """Is shown the holders at each tick; nothing is counted from tick to tick.

    ``changed`` carries the holders that are due and not answered for, the longest due first.
    """

    changed = Signal(object)

    def __init__(self, bell: Bell, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bell = bell
        self._quiet_until: dict[str, datetime] = {}
        self._rang: datetime | None = None
        self._shown: tuple[str, ...] = ()
        self._quiet = False

    def set_quiet(self, quiet: bool, now: datetime, found: Sequence[AtDoor]) -> None:
        """Ring no more, or ring again from now on for those that are due."""
        self._quiet = quiet
        if quiet:
            self._bell.hush()
        else:
            self._rang = None
        self.tick(now, found)

    def snoozed(self, now: datetime, found: Sequence[AtDoor]) -> list[tuple[AtDoor, datetime]]:
        """Return the holders that were left longer, each with when it is due again."""
        until = [(here, self._snoozed_until(here, now)) for here in found]
        return [(here, moment) for here, moment in until if moment is not None]

    def tick(self, now: datetime, found: Sequence[AtDoor]) -> None:
        """Ring if a holder is due and the last ringing is some time ago."""
        due = [here for here in found if self._is_due(here, now)]
        keys = tuple(here.key for here in due)
        fresh = not set(keys) <= set(self._shown)
        # A clock set back leaves the last ringing in the future; it rings then, too.
        if (
            due
            and not self._quiet
            and (fresh or self._rang is None or not timedelta() <= now - self._rang < AGAIN)
        ):
            self._bell.ring(*message(due))
            self._rang = now
        if not due and self._shown:
            self._bell.hush()
            self._rang = None
        if keys != self._shown:
            self._shown = keys
            self.changed.emit(due)

    def snooze(self, now: datetime, found: Sequence[AtDoor]) -> None:
        """Leave those that are due ten minutes more."""
        for here in found:
            if self._is_due(here, now) and here.stand.outing is not None:
                self._quiet_until[here.stand.outing.key] = now + SNOOZE
        self.tick(now, found)

    def stop(self) -> None:
        """Take the message from the desktop."""
        self._bell.hush()

    def _is_due(self, here: AtDoor, now: datetime) -> bool:
        if not here.over or here.stand.outing is None:
            return False
        return self._snoozed_until(here, now) is None

    def _snoozed_until(self, here: AtDoor, now: datetime) -> datetime | None:
        if not here.over or here.stand.outing is None:
            return None
        until = self._quiet_until.get(here.stand.outing.key)
        # a clock set back ends it, too
        return until if until is not None and timedelta() < until - now <= SNOOZE else None


def message(due: Sequence[AtDoor]) -> tuple[str, str]:
    """Return the title and the text of what rings."""
    names = joined([here.name for here in due])
    return tr("Bring {names} in", names=names), " ".join(_reason(here) for here in due)


def _reason(here: AtDoor) -> str:
    if here.left > 0:
        return tr("The sun has set and {name} is still out.", name=here.name)
    shade = whole_minutes(here.shade_left)
    had = tr("{name} has had its {limit} minutes of sun.", name=here.name, limit=here.stand.sun.limit)
    left = tr("{minutes} of shade are left today.", minutes=many(shade, "minute"))
    return f"{had} {left}" if shade > 1 else had


def joined(parts: Sequence[str]) -> str:
    """Return parts as "a", "a and b" or "a, b and c"."""
    *first, last = parts
    return tr("{first} and {last}", first=", ".join(first), last=last) if first else last
