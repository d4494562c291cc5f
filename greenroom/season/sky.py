"""How much of the clear sky's light came through: as somebody saw it, as it was forecast, or all of it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import pairwise

import numpy as np

from greenroom.agronomy.sun_minutes import share_of_clear, share_passed
from greenroom.agronomy.sunlight import CLOUD_POWER, CLOUD_SHARE
from greenroom.ledger.facts import Forecast, HourAhead, PlaceSet, SkySeen
from greenroom.season.hardening_words import time_words
from greenroom.season.outings import midnight
from greenroom.season.place import Place, hours_ahead, latest_forecast, place_of
from greenroom.season.state import Season
from greenroom.speech import tr

ONE_HOUR = timedelta(hours=1)
SEEN, FORECAST, NOT_KNOWN = tr("as seen"), tr("as forecast"), tr("not known, taken as clear")

SKIES: Mapping[str, float] = {"clear": 0.0, "hazy": 0.63, "overcast": 1.0}
"""Share of sky covered that a word stands for. Hazy is thin high cloud, which lets 84 % through (Haurwitz
1948, Journal of Meteorology 5:110-113, cirrostratus, from memory): the cover of which Kasten and Czeplak's
curve says the same. Their overcast lets 25 % through, as Haurwitz's stratus does."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of time in which the share of the clear light that came through stayed the same."""

    start: datetime
    end: datetime
    share: float
    told: str


@dataclass(frozen=True, slots=True)
class Sky:
    """What is known of the sky at a place, past and to come."""

    place: Place
    looks: tuple[SkySeen, ...]
    hours: tuple[HourAhead, ...]
    shares: tuple[float | None, ...]

    def pieces(self, start: datetime, end: datetime, holder: str | None = None) -> Iterator[Piece]:
        """Yield the pieces of a span, in order, cut at full hours, local midnights and looks at the sky."""
        for first, last in pairwise(self._cuts(start, end)):
            yield Piece(first, last, *self.share(first, holder))

    def share(self, moment: datetime, holder: str | None = None) -> tuple[float, str]:
        """Return the share of the clear light that came through at a moment, and how it is known.

        A look at the sky holds until the next or to the end of its local day; the cloth over a holder is
        that of the last look at it or at all of them.
        """
        looks = self.looks_until(moment)
        if looks:
            return share_passed(looks[-1].cloud, _cloth(looks, holder)), SEEN
        told = self._forecast(moment)
        return (1.0, NOT_KNOWN) if told is None else (told, FORECAST)

    def looks_until(self, moment: datetime) -> tuple[SkySeen, ...]:
        """Return the looks at the sky of a local day up to a moment, in order."""
        day = self.place.local(moment).date()
        until = bisect_right(self.looks, moment, key=lambda look: look.at)
        first = bisect_left(self.looks, midnight(day, self.place.zone), key=lambda look: look.at)
        return self.looks[first:until]

    def _forecast(self, moment: datetime) -> float | None:
        at = bisect_right(self.hours, moment, key=lambda hour: hour.at) - 1
        return self.shares[at] if at >= 0 and moment < self.hours[at].at + ONE_HOUR else None

    def _cuts(self, start: datetime, end: datetime) -> list[datetime]:
        cuts = {start, end}
        hour = start.astimezone(UTC).replace(minute=0, second=0, microsecond=0)
        while (hour := hour + ONE_HOUR) < end:
            cuts.add(hour)
        day = self.place.local(start).date()
        while (cut := midnight(day := day + timedelta(days=1), self.place.zone)) < end:
            cuts.add(cut)
        cuts.update(look.at for look in self.looks if start < look.at < end)
        first = bisect_left(self.hours, start - ONE_HOUR, key=lambda hour: hour.at)
        last = bisect_right(self.hours, end, key=lambda hour: hour.at)
        edges = (edge for told in self.hours[first:last] for edge in (told.at, told.at + ONE_HOUR))
        cuts.update(edge for edge in edges if start < edge < end)
        return sorted(cuts)


@dataclass(frozen=True, slots=True)
class SkyNow:
    """The sky over a holder at a moment: the cover, the cloth and the share of clear light let through.

    ``seen`` is the last look of the day, None where the forecast is gone by, or nothing is known; ``told``
    says which. ``word`` is the word for a cover that was seen, or an empty text.
    """

    cloud: float
    cloth: float
    share: float
    told: str
    seen: SkySeen | None = None

    @property
    def word(self) -> str:
        """The word for what was seen."""
        return (sky_word(self.seen.cloud) or "") if self.seen is not None else ""


def sky_now(season: Season, holder: str, now: datetime) -> SkyNow:
    """Return the sky over a holder at a moment, and how it is known."""
    sky = sky_of(season)
    looks, (share, told) = sky.looks_until(now), sky.share(now, holder)
    if not looks:
        return SkyNow(_cover(share), 0.0, share, told)
    return SkyNow(looks[-1].cloud, _cloth(looks, holder), share, told, looks[-1])


def sky_now_words(found: SkyNow, place: Place) -> str:
    """Return how the sky is known, and how much of the clear light comes through."""
    through = tr("{percent:.0f}% of the light", percent=found.share * 100)
    if found.seen is not None:
        return tr("Seen {time}: {through}", time=time_words(found.seen.at, place), through=through)
    return (
        tr("Forecast's cloud: {through}", through=through)
        if found.told == FORECAST
        else tr("Not known, taken as clear")
    )


def sky_of(season: Season) -> Sky:
    """Return what is known of the sky at the place."""
    return season.memo("sky", (SkySeen, Forecast, PlaceSet), lambda: _sky(season))


def sky_word(cloud: float) -> str | None:
    """Return the word for a cover, or None where none is meant by it."""
    return next((word for word, cover in SKIES.items() if abs(cover - cloud) < 0.005), None)


def _sky(season: Season) -> Sky:
    place = place_of(season)
    hours = _hours(season)
    looks = sorted(season.facts(SkySeen), key=lambda look: look.at)
    return Sky(place, tuple(looks), hours, _shares(place, hours))


def _cloth(looks: Sequence[SkySeen], holder: str | None) -> float:
    """Return the cloth over a holder: that of the last look at it or at all of them."""
    return next((look.cloth for look in reversed(looks) if look.holder in (None, holder)), 0.0)


def _cover(share: float) -> float:
    """Return the cover that lets a share of the light through: Kasten and Czeplak's curve, backwards."""
    taken = min(1.0, max(0.0, (1 - share) / CLOUD_SHARE))
    return float(taken ** (1 / CLOUD_POWER))


def _hours(season: Season) -> tuple[HourAhead, ...]:
    """Return the hours told: ahead by the newest forecast, and those past by the newest that told of them.

    A place may have been moved since; what an old forecast told of hours to come there is left out.
    """
    newest = latest_forecast(season)
    told = {hour.at: hour for fact in season.facts(Forecast) for hour in fact.hours}
    until = newest.taken if newest else max((fact.taken for fact in season.facts(Forecast)), default=None)
    past = {at: hour for at, hour in told.items() if until is not None and at < until}
    ahead = {hour.at: hour for hour in hours_ahead(season)}
    return tuple(sorted((past | ahead).values(), key=lambda hour: hour.at))


def _shares(place: Place, hours: Sequence[HourAhead]) -> tuple[float | None, ...]:
    lights = _by_light(place, hours)
    clouds = [None if hour.cloud is None else share_passed(hour.cloud) for hour in hours]
    return tuple(cloud if light is None else light for light, cloud in zip(lights, clouds, strict=True))


def _by_light(place: Place, hours: Sequence[HourAhead]) -> list[float | None]:
    """Return the share of the clear light that each hour is forecast to have; None where none is told."""
    told = [hour for hour in hours if hour.light_w_m2 is not None]
    if not told or place.latitude is None or place.longitude is None:
        return [None] * len(hours)
    starts = [hour.at for hour in told]
    ends = [at + ONE_HOUR for at in starts]
    light = [max(0.0, hour.light_w_m2 or 0.0) for hour in told]
    found = np.atleast_1d(share_of_clear(starts, ends, place.latitude, place.longitude, light))
    known = {hour.at: float(share) for hour, share in zip(told, found, strict=True) if not np.isnan(share)}
    return [known.get(hour.at) for hour in hours]
