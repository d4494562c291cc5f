"""What a holder had outdoors, day by day: sun by the clock and by its light, shade, and the light itself."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

import numpy as np

from greenroom.agronomy.hardening import ChangingRamp, Ramp
from greenroom.agronomy.sun_minutes import clear_day_minutes, sun_minutes
from greenroom.agronomy.sunlight import sun_dose
from greenroom.ledger import Entry
from greenroom.ledger.facts import CountingSet
from greenroom.season.outings import Outing
from greenroom.season.place import Place
from greenroom.season.sky import Piece, Sky

SUN, CLOCK = "sun", "clock"
ROUND_TO_MINUTES = 5
FINE = timedelta(minutes=5)
A_DAY_MINUTES = 24 * 60.0
LONGEST_OUT = timedelta(
    days=200
)  # of what stays out longer only the last of it counts: common practice, no source


@dataclass(frozen=True, slots=True)
class Counted:
    """What a day gave [min], and its light in the sun [mol m-2].

    ``clock`` are minutes in direct sun, ``weighed`` the same weighed by the light then falling against
    the clear noon of the day, ``shade`` minutes outdoors out of it. ``weighed`` and ``light_mol_m2`` are
    None where no place is known. What falls on leaves in shade is not counted.
    """

    clock: float = 0.0
    weighed: float | None = None
    shade: float = 0.0
    light_mol_m2: float | None = None

    @property
    def outdoors(self) -> float:
        """Minutes outdoors by the clock, sun and shade."""
        return min(A_DAY_MINUTES, self.clock + self.shade)

    def sun(self, by: str) -> float:
        """Return the sun minutes by one way of counting; by the clock where the light is not known."""
        counted = self.clock if by == CLOCK or self.weighed is None else self.weighed
        return min(A_DAY_MINUTES, counted)


def counted_days(
    outings: Iterable[Outing],
    sky: Sky,
    holder: str,
    now: datetime,
    since: datetime | None = None,
) -> dict[date, Counted]:
    """Return what each local day gave, from ``since`` on, up to ``now``."""
    pieces: list[tuple[str, Piece]] = []
    for outing in outings:
        for stretch in outing.stretches:
            last = min(stretch.end or now, now)
            first = max(stretch.start, last - LONGEST_OUT, since or stretch.start)
            if first < last:
                pieces += [(stretch.light, piece) for piece in sky.pieces(first, last, holder)]
    return _summed(pieces, sky.place)


def counted_on(outings: Iterable[Outing], sky: Sky, holder: str, day: date, until: datetime) -> Counted:
    """Return what one local day gave up to a moment."""
    zone = sky.place.zone
    touching = [one for one in outings if one.start <= until and one.touches(day, zone)]
    return counted_days(touching, sky, holder, until).get(day, _nothing(sky.place))


def gone_on(counted: Counted, a_minute: Counted, minutes: float) -> Counted:
    """Return what a day gave once so many minutes more have gone on as one minute of them."""
    more = Counted(
        clock=a_minute.clock * minutes,
        weighed=None if a_minute.weighed is None else a_minute.weighed * minutes,
        shade=a_minute.shade * minutes,
        light_mol_m2=None if a_minute.light_mol_m2 is None else a_minute.light_mol_m2 * minutes,
    )
    return _added(counted, more)


def together(*told: Mapping[date, Counted]) -> dict[date, Counted]:
    """Return what the days gave in all, of outings that were counted apart."""
    found: dict[date, Counted] = {}
    for days in told:
        for day, counted in days.items():
            found[day] = _added(found[day], counted) if day in found else counted
    return found


def counting_on(entries: Iterable[Entry], day: date) -> str:
    """Return how the minutes of a day are counted: "clock", or "sun" since that was chosen."""
    chosen = [
        entry.fact.by for entry in entries if isinstance(entry.fact, CountingSet) and entry.fact.day <= day
    ]
    return chosen[-1] if chosen else CLOCK


def ramp_counted(ramp: Ramp, entries: Sequence[Entry], started_on: date, place: Place) -> ChangingRamp:
    """Return a holder's ramp by the way its minutes were counted on each day.

    In sun minutes a ramp cannot end at more than a whole clear day gives: its last outing is then that,
    on the day hardening began, and the steps before it shrink with it.
    """
    chosen = [entry.fact for entry in entries if isinstance(entry.fact, CountingSet)]
    if not chosen:
        return ChangingRamp(ramp, ())
    ways = {CLOCK: ramp, SUN: in_sun_minutes(ramp, started_on, place)}
    first = ways[counting_on(entries, started_on)]
    changed = {fact.day for fact in chosen if fact.day > started_on}
    return ChangingRamp(first, tuple((day, ways[counting_on(entries, day)]) for day in sorted(changed)))


def in_sun_minutes(ramp: Ramp, day: date, place: Place) -> Ramp:
    """Return a ramp that ends, in sun minutes, at a whole clear day if that is less than its own end."""
    if place.latitude is None or place.longitude is None:
        return ramp
    clear = clear_day_minutes(day, place.latitude, place.longitude)
    most = clear // ROUND_TO_MINUTES * ROUND_TO_MINUTES
    if most <= ramp.start_minutes:
        return ramp
    return replace(ramp, full_minutes=min(ramp.full_minutes, most))


def due_at(
    sky: Sky, holder: str, start: datetime, minutes: float, by: str, dark: datetime | None
) -> datetime | None:
    """Return when a holder in the sun since ``start`` will have had so many more minutes.

    By the sun's strength that is worked out with the sky as known and forecast; None if the sun sets
    first, at ``dark``, or within a day.
    """
    if minutes <= 0:
        return start
    if by == CLOCK or sky.place.latitude is None or sky.place.longitude is None:
        return start + timedelta(minutes=minutes)
    end = dark if dark is not None and dark > start else start + timedelta(days=1)
    pieces = _fine(sky.pieces(start, end, holder))
    if not pieces:
        return None
    had = np.cumsum(_weighed(pieces, sky.place))
    at = int(np.searchsorted(had, minutes))
    if at == len(pieces):
        return None
    piece, before = pieces[at], float(had[at - 1]) if at else 0.0
    part = (minutes - before) / (float(had[at]) - before)
    return piece.start + (piece.end - piece.start) * part


def _fine(pieces: Iterable[Piece]) -> list[Piece]:
    """Return the pieces cut so short that the sun moves little in each."""
    found = []
    for piece in pieces:
        start = piece.start
        while start < piece.end:
            end = min(start + FINE, piece.end)
            found.append(replace(piece, start=start, end=end))
            start = end
    return found


def _summed(pieces: Sequence[tuple[str, Piece]], place: Place) -> dict[date, Counted]:
    sums: dict[date, list[float]] = defaultdict(lambda: [0.0, 0.0, 0.0, 0.0])
    for light, piece in pieces:
        minutes = (piece.end - piece.start).total_seconds() / 60
        sums[_day(piece, place)][0 if light == SUN else 2] += minutes
    in_sun = [piece for light, piece in pieces if light == SUN]
    if place.known and in_sun:
        weighed, doses = _weighed(in_sun, place), _doses(in_sun, place)
        for piece, minutes, dose in zip(in_sun, weighed, doses, strict=True):
            sums[_day(piece, place)][1] += float(minutes)
            sums[_day(piece, place)][3] += float(dose)
    return {
        day: Counted(clock, weighed, shade, light) if place.known else Counted(clock, None, shade)
        for day, (clock, weighed, shade, light) in sums.items()
    }


def _added(one: Counted, other: Counted) -> Counted:
    return Counted(
        clock=one.clock + other.clock,
        weighed=_sum(one.weighed, other.weighed),
        shade=one.shade + other.shade,
        light_mol_m2=_sum(one.light_mol_m2, other.light_mol_m2),
    )


def _sum(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else one + other


def _nothing(place: Place) -> Counted:
    return Counted(weighed=0.0, light_mol_m2=0.0) if place.known else Counted()


def _day(piece: Piece, place: Place) -> date:
    return place.local(piece.start).date()


def _weighed(pieces: Sequence[Piece], place: Place) -> np.ndarray:
    starts, ends, shares = zip(*((one.start, one.end, one.share) for one in pieces), strict=True)
    where = place.latitude or 0.0, place.longitude or 0.0
    return np.atleast_1d(sun_minutes(list(starts), list(ends), *where, list(shares)))


def _doses(pieces: Sequence[Piece], place: Place) -> np.ndarray:
    starts, ends, shares = zip(*((one.start, one.end, one.share) for one in pieces), strict=True)
    where = place.latitude or 0.0, place.longitude or 0.0
    return np.atleast_1d(sun_dose(list(starts), list(ends), *where)) * np.array(shares)
