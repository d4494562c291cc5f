"""What a job is: where one stands, what is to be done, why, and what doing it writes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import IntEnum

from greenroom.ledger.facts import GerminationCount, GerminationTest, Packet, Variety
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import tr

SHELF, DOOR, PLOT, DESK = tr("At the shelf"), tr("At the door"), tr("In the plot"), tr("At the desk")
WHERE = (SHELF, DOOR, PLOT, DESK)
WHERE_KEYS = {SHELF: "At the shelf", DOOR: "At the door", PLOT: "In the plot", DESK: "At the desk"}
"""What stands for a place in the key of a job, which is kept: the same in every language."""
BOX = (Packet, Variety, GerminationTest, GerminationCount)


class Urgency(IntEnum):
    """How soon a job wants doing."""

    NOW = 0
    TODAY = 1
    THIS_WEEK = 2


@dataclass(frozen=True, slots=True)
class Ask:
    """A number that doing a job needs: what it is, the value proposed, and what is allowed."""

    words: str
    value: float
    least: float
    most: float
    unit: str = ""
    decimals: int = 0


Doing = Callable[[float], Proposal]


@dataclass(frozen=True, slots=True)
class Job:
    """One thing to do.

    ``key`` stays the same for as long as the job is the same one. ``doing`` writes what doing it means,
    with the number asked for in ``ask`` if there is one; None where it needs hands on a page, which
    ``page`` names; ``care`` is the holder and the tab of its care that the page is to show, ``about`` the
    keys of what it is to have chosen: a holder, or a variety and the bed it stands in. ``button`` says
    what was done, in a word or two. ``due`` is the first day it was to be done, if that can be told.
    """

    where: str
    what: str
    reason: str
    key: str = ""
    urgency: Urgency = Urgency.TODAY
    button: str = tr("Done", sense="a job")
    page: str = ""
    ahead: str = ""
    care: tuple[str, str] | None = None
    about: tuple[str, ...] = ()
    due: date | None = None
    ask: Ask | None = None
    why: Why | None = field(default=None, compare=False)
    doing: Doing | None = field(default=None, compare=False, repr=False)

    def done(self, value: float | None = None) -> Proposal:
        """Return what doing it writes; ``value`` stands for the number proposed if it differs."""
        if self.doing is None:
            return Proposal(tr("{job} needs hands", job=self.what))
        proposed = self.ask.value if self.ask is not None else 0.0
        return self.doing(proposed if value is None else value)


@dataclass(frozen=True, slots=True)
class Walk:
    """What the jobs are worked out from: the season, the day, the moment.

    ``box`` is the number of the latest word on what is in the seed box: what is kept for a holder is
    worked out anew when that changes. ``known_on`` is the day from which a day to come is looked at.
    """

    season: Season
    today: date
    now: datetime
    box: tuple[int, int] = (0, 0)
    known_on: date | None = None

    @classmethod
    def of(cls, season: Season, today: date, now: datetime) -> Walk:
        """Return the walk of a day."""
        numbers = [number for kind in BOX for number, _ in season.numbered(kind)]
        return cls(season, today, now, (len(numbers), max(numbers, default=0)))

    @property
    def place(self) -> Place:
        """The place."""
        return place_of(self.season)


def names_of(names: list[str]) -> str:
    """Return names in a row, the longer ones counted: "Tray A, Tray B and 3 more"."""
    if len(names) <= 3:
        if len(names) == 1:
            return names[0]
        return tr("{first} and {last}", first=", ".join(names[:-1]), last=names[-1])
    return tr("{names} and {number} more", names=", ".join(names[:2]), number=len(names) - 2)
