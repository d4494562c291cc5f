"""A holder at the door, at this moment: where it is, what its counter shows, and what comes next.

Everything is worked out from when it went out and came in, so it is right after a restart, after the
machine slept, and after its clock was set.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from enum import Enum

from greenroom.season.clock_faces import TwoClocks
from greenroom.season.counted import CLOCK, Counted, counted_days, counted_on, gone_on
from greenroom.season.hardening import WORST_FIRST, sun_of
from greenroom.season.hardening_words import SETBACK_WORDS, day_words, moment_words, time_words, whole_minutes
from greenroom.season.outings import Outing, Stretch
from greenroom.season.place import Place
from greenroom.season.reasons import kept_words
from greenroom.season.sky import sky_of
from greenroom.season.state import Season
from greenroom.speech import many, tr

A_NIGHT = timedelta(hours=4)
"""Out longer than this before sunrise, a holder stood out at night; else somebody is up early."""

SAME_LIGHT_MINUTES = 2.0
"""For so long the light is taken to stay as it is."""

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

    stand: TwoClocks
    name: str
    pots: str
    where: Where
    counted: Counted
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
    def sun(self) -> float:
        """Sun minutes of today so far, by the way they are counted."""
        return self.counted.sun(self.stand.by)

    @property
    def left(self) -> float:
        """Sun minutes left of today's step; below 0 when over."""
        return self.stand.sun.limit - self.sun

    @property
    def shade_left(self) -> float:
        """Minutes in shade that today still asks for, beside its sun."""
        if not self.stand.shade_target or self.stand.over:
            return 0.0
        return max(0.0, self.stand.air.limit - self.counted.outdoors - max(0.0, self.left))


def at_door(season: Season, stand: TwoClocks, now: datetime) -> AtDoor:
    """Return a holder as it is now."""
    made = season.holder(stand.holder)
    outing, counted = stand.outing, _counted(season, stand, now)
    living = season.counts(stand.holder).living
    pots = many(living, "pot") if made.form == "rack" else many(living, "cell")
    where = _where(stand, counted)
    since = outing.start if outing else None
    left = stand.sun.limit - counted.sun(stand.by)
    due = _due(season, stand, left, now) if where is Where.SUN else None
    dark = where is Where.SUN and _has_set(season, stand.today, since, now)
    return AtDoor(stand, made.name, pots, where, counted, since, due, dark)


def light_until(season: Season, here: AtDoor, now: datetime) -> float:
    """Return the light [mol m-2] a holder in the sun will get until its minutes are full, within a day."""
    if here.due is None or here.due <= now:
        return 0.0
    until = min(here.due, now + timedelta(days=1))
    coming = Outing("", here.key, (Stretch("sun", now, until),))
    found = counted_days([coming], sky_of(season), here.key, until)
    return sum(one.light_mol_m2 or 0.0 for one in found.values())


def by_urgency(found: list[AtDoor]) -> list[AtDoor]:
    """Return holders with the next to come in first, then those in shade, waiting, and back in."""
    order = {where: place for place, where in enumerate(Where)}
    return sorted(found, key=lambda one: (order[one.where], one.due or FAR_OFF, one.name.casefold()))


def state_words(here: AtDoor, place: Place) -> str:
    """Return where a holder is in a few words."""
    stand = here.stand
    if here.since is not None:
        moment = moment_words(here.since, place, stand.today)
        if here.where is Where.SUN:
            return tr("out since {moment}", moment=moment)
        return tr("out since {moment}, in shade", moment=moment)
    if here.where is Where.KEPT_IN:
        why = stand.held[stand.today]
        return tr("kept in: {reason}", reason=kept_words(why)) if why else tr("kept in")
    if here.where is Where.BACK:
        return _back_words(stand)
    words = {Where.RESTING: tr("rest after leaf scorch"), Where.HARDENED: tr("hardened off")}
    return words.get(here.where, tr("waiting"))


def next_words(here: AtDoor, place: Place) -> str:
    """Return what comes next for a holder that is out, or an empty text."""
    if here.where is Where.SHADE:
        return _left_words(here)
    if here.due is None:
        return ""
    shade = whole_minutes(here.shade_left) > 0
    if here.left > 0:
        if here.dark:
            return tr("the sun has set: bring it in")
        due = time_words(here.due, place)
        return tr("shade from {time}", time=due) if shade else tr("back in at {time}", time=due)
    over, then = whole_minutes(-here.left), tr("into shade or in") if shade else tr("bring it in")
    return (
        tr("{minutes} over: {then}", minutes=_length(over), then=then)
        if over
        else tr("time is up: {then}", then=then)
    )


def in_words(here: AtDoor) -> str:
    """Return how soon a holder must come in: "in 6 min", or an empty text."""
    if here.due is None or here.over:
        return ""
    return tr("in {minutes}", minutes=_length(int(-(-here.left // 1))))  # a minute that has begun counts


def ready_words(stand: TwoClocks) -> str:
    """Return the ready date against the first plan."""
    if stand.ready_on is None:
        return tr("no ready date within 60 days: the weather holds it back")
    day, later = day_words(stand.ready_on), later_words(stand.days_later)
    if stand.hardened:
        return tr("hardened off on {day}, {later}", day=day, later=later)
    return tr("ready to set out {day}, {later}", day=day, later=later)


def later_words(days: int) -> str:
    """Return how a ready date lies against the first plan."""
    if days == 0:
        return tr("as first planned")
    if days > 0:
        return tr("{days} later than first planned", days=many(days, "day"))
    return tr("{days} earlier than first planned", days=many(-days, "day"))


def _counted(season: Season, stand: TwoClocks, now: datetime) -> Counted:
    """Return what today gave up to now; within a minute of the standing it goes on as it went."""
    way = stand.on_the_way
    if way is None:
        return stand.counted
    passed = (now - way.at).total_seconds() / 60
    if not 0 <= passed <= SAME_LIGHT_MINUTES:
        return counted_on(stand.outings, sky_of(season), stand.holder, stand.today, now)
    return gone_on(stand.counted, way.a_minute, passed)


def _due(season: Season, stand: TwoClocks, left: float, now: datetime) -> datetime:
    """Return when its sun minutes are full: by the sun's strength at sunset if the sun goes before that."""
    if left <= 0 or stand.by == CLOCK:
        return now + timedelta(seconds=round(left * 60))
    told = stand.on_the_way.due if stand.on_the_way else None
    sun = sun_of(season, stand.today)
    dark = sun[1] if sun is not None and sun[1] > now else now + timedelta(minutes=left)
    return told if told is not None and told > now else dark


def _left_words(here: AtDoor) -> str:
    sun, shade = whole_minutes(max(0.0, here.left)), whole_minutes(here.shade_left)
    if sun and not here.stand.resting:
        return tr("{minutes} of sun left today", minutes=many(sun, "minute"))
    return (
        tr("{minutes} of shade left today", minutes=many(shade, "minute"))
        if shade
        else tr("all done today: bring it in")
    )


def _has_set(season: Season, today: date, since: datetime | None, now: datetime) -> bool:
    """Whether the sun has set since a holder went out: this evening, or before this morning's sunrise."""
    sun = sun_of(season, today)
    if sun is None or since is None:
        return False
    rise, fall = sun
    return now > fall or (now < rise and since < rise - A_NIGHT)


def _length(minutes: int) -> str:
    return (
        tr("{minutes} min", minutes=minutes)
        if minutes < 60
        else tr("{hours} h {minutes:02d} min", hours=minutes // 60, minutes=minutes % 60)
    )


def _where(stand: TwoClocks, counted: Counted) -> Where:
    if stand.outing is not None:
        return Where.SUN if stand.outing.light == "sun" else Where.SHADE
    if stand.today in stand.held:
        return Where.KEPT_IN
    if counted.outdoors > 0:
        return Where.BACK
    if stand.resting:
        return Where.RESTING
    return Where.HARDENED if stand.hardened else Where.WAITING


def _back_words(stand: TwoClocks) -> str:
    seen = {one.what for one in stand.today_setbacks}
    worst = next((kind for kind in WORST_FIRST if kind in seen), None)
    if worst is not None:
        return tr("back in, {setback}", setback=SETBACK_WORDS[worst])
    settled = stand.sun.settled
    if settled is None:
        return tr("back in, not yet a step")
    done = settled.after > settled.before or settled.before >= stand.sun.ramp.outings
    return tr("back in, step done") if done else tr("back in, same step again")
