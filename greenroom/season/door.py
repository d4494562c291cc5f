"""A holder at the door, at this moment: where it is, what its counter shows, and what comes next.

Everything is worked out from when it went out and came in, so it is right after a restart, after the
machine slept, and after its clock was set.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from enum import Enum

from greenroom.season.hardening import Standing, sun_of
from greenroom.season.hardening_words import (
    SETBACK_WORDS,
    day_words,
    many,
    moment_words,
    time_words,
    whole_minutes,
)
from greenroom.season.outings import Minutes, minutes_on
from greenroom.season.place import Place, place_of
from greenroom.season.state import Season

A_NIGHT = timedelta(hours=4)
"""Out longer than this before sunrise, a holder stood out at night; else somebody is up early."""

FAR_OFF = datetime.max.replace(tzinfo=UTC)


class Where(Enum):
    """Where a holder is, by the order in which it wants attention."""

    SUN = "in the sun"
    SHADE = "in the shade"
    WAITING = "waiting"
    BACK = "back in"
    RESTING = "resting"
    KEPT_IN = "kept in"
    HARDENED = "hardened off"


@dataclass(frozen=True, slots=True)
class AtDoor:
    """One holder now; ``due`` is when its sun minutes are full, while it stands in the sun.

    ``dark`` tells that it was put into the sun and the sun has set since.
    """

    stand: Standing
    name: str
    pots: str
    where: Where
    minutes: Minutes
    since: datetime | None = None
    due: datetime | None = None
    dark: bool = False

    @property
    def over(self) -> bool:
        """Whether it is to come in: its minutes of sun are full, or the sun has set on it."""
        return self.where is Where.SUN and (self.left <= 0 or self.dark)

    @property
    def key(self) -> str:
        """The holder's key."""
        return self.stand.holder

    @property
    def out(self) -> bool:
        """Whether it is out now."""
        return self.where in (Where.SUN, Where.SHADE)

    @property
    def left(self) -> float:
        """Sun minutes left of today's step; below 0 when over."""
        return self.stand.limit - self.minutes.sun


def at_door(season: Season, stand: Standing, now: datetime) -> AtDoor:
    """Return a holder as it is now."""
    made = season.holder(stand.holder)
    zone = place_of(season).zone
    minutes = minutes_on(stand.outings, stand.today, zone, now)
    pots = many(season.counts(stand.holder).living, "pot" if made.form == "rack" else "cell")
    where = _where(stand, minutes)
    outing = stand.outing
    since = outing.start if outing else None
    left = timedelta(seconds=round((stand.limit - minutes.sun) * 60))
    due = now + left if where is Where.SUN else None
    dark = where is Where.SUN and _has_set(season, stand.today, since, now)
    return AtDoor(stand, made.name, pots, where, minutes, since, due, dark)


def by_urgency(found: list[AtDoor]) -> list[AtDoor]:
    """Return holders with the next to come in first, then those in shade, waiting, and back in."""
    order = {where: place for place, where in enumerate(Where)}
    return sorted(found, key=lambda one: (order[one.where], one.due or FAR_OFF, one.name.casefold()))


def state_words(here: AtDoor, place: Place) -> str:
    """Return where a holder is in a few words."""
    stand = here.stand
    if here.since is not None:
        light = "" if here.where is Where.SUN else ", in shade"
        return f"out since {moment_words(here.since, place, stand.today)}{light}"
    if here.where is Where.KEPT_IN:
        why = stand.held[stand.today]
        return f"kept in: {why}" if why else "kept in"
    if here.where is Where.BACK:
        return _back_words(stand)
    words = {Where.RESTING: "rest after leaf scorch", Where.HARDENED: "hardened off"}
    return words.get(here.where, "waiting")


def next_words(here: AtDoor, place: Place) -> str:
    """Return what comes next for a holder that is out, or an empty text."""
    if here.where is Where.SHADE:
        left = whole_minutes(max(0.0, here.left))
        return f"{many(left, 'minute')} of sun left today" if left else "no sun left today"
    if here.due is None:
        return ""
    if here.left > 0:
        return "the sun has set: bring it in" if here.dark else f"back in at {time_words(here.due, place)}"
    over = whole_minutes(-here.left)
    return f"{_length(over)} over: bring it in" if over else "time is up: bring it in"


def in_words(here: AtDoor) -> str:
    """Return how soon a holder must come in: "in 6 min", or an empty text."""
    if here.due is None or here.over:
        return ""
    return f"in {_length(int(-(-here.left // 1)))}"  # a minute that has begun counts


def ready_words(stand: Standing) -> str:
    """Return the ready date against the first plan."""
    if stand.ready_on is None:
        return "no ready date within 60 days: the weather holds it back"
    verb = "hardened off on" if stand.hardened else "ready to set out"
    return f"{verb} {day_words(stand.ready_on)}, {later_words(stand.days_later)}"


def later_words(days: int) -> str:
    """Return how a ready date lies against the first plan."""
    if days == 0:
        return "as first planned"
    return f"{many(abs(days), 'day')} {'later' if days > 0 else 'earlier'} than first planned"


def effect_words(before: Standing, after: Standing, seen_on: date) -> list[str]:
    """Return what an act would do to the plan, a sentence a change."""
    if seen_on < before.today:
        lines = [_step_change("Today", before.step, after.step, after)]
    else:
        lines = [_step_change("Tomorrow", before.next_step, after.next_step, after)]
    if after.settled is not None and after.settled.day.setback == "scorch":
        lines.append("Tomorrow is a day of rest, in.")
    lines.append(_ready_change(before.ready_on, after.ready_on))
    return lines


def _has_set(season: Season, today: date, since: datetime | None, now: datetime) -> bool:
    """Whether the sun has set since a holder went out: this evening, or before this morning's sunrise."""
    sun = sun_of(season, today)
    if sun is None or since is None:
        return False
    rise, fall = sun
    return now > fall or (now < rise and since < rise - A_NIGHT)


def _length(minutes: int) -> str:
    return f"{minutes} min" if minutes < 60 else f"{minutes // 60} h {minutes % 60:02d} min"


def _where(stand: Standing, minutes: Minutes) -> Where:
    if stand.outing is not None:
        return Where.SUN if stand.outing.light == "sun" else Where.SHADE
    if stand.today in stand.held:
        return Where.KEPT_IN
    if minutes.outdoors > 0:
        return Where.BACK
    if stand.resting:
        return Where.RESTING
    return Where.HARDENED if stand.hardened else Where.WAITING


def _back_words(stand: Standing) -> str:
    settled = stand.settled
    if settled is None:
        return "back in, not yet a step"
    if settled.day.setback is not None:
        return f"back in, {SETBACK_WORDS[settled.day.setback]}"
    done = settled.after > settled.before or settled.before >= stand.ramp.outings
    return "back in, step done" if done else "back in, same step again"


def _step_change(day: str, old: int, new: int, stand: Standing) -> str:
    if old == new:
        return f"{day}: {_step(new, stand)}, as before."
    return f"{day}: {_step(old, stand)} becomes {_step(new, stand)}."


def _step(step: int, stand: Standing) -> str:
    if step >= stand.ramp.outings:
        return "hardened off"
    return f"step {step + 1} ({stand.ramp.minutes(step)} minutes)"


def _ready_change(old: date | None, new: date | None) -> str:
    if old == new:
        return "The ready date stays." if new is None else f"Ready {day_words(new)}, as before."
    words = ["not within 60 days" if day is None else day_words(day) for day in (old, new)]
    if old is None or new is None:
        return f"Ready {words[0]} becomes {words[1]}."
    days = (new - old).days
    return (
        f"Ready {words[0]} becomes {words[1]}, {many(abs(days), 'day')} {'later' if days > 0 else 'earlier'}."
    )
