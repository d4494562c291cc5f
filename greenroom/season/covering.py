"""Covering beds tonight: which want it by the rule of the warning, and until when the covers stay on."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from math import ceil

from greenroom.ledger.facts import Covered
from greenroom.season.cold_snap import Level, cold_night, cold_snaps, snap_why, warm_again
from greenroom.season.deeds_plants import cover
from greenroom.season.deeds_plot import BED
from greenroom.season.few_words import and_words
from greenroom.season.hardening_words import moment_words, temperature_words
from greenroom.season.holders import Holder
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal
from greenroom.season.ramp_rules import careful, crops_in, rules_of
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import tr

HALF_HOUR_S = 1800


@dataclass(frozen=True, slots=True)
class Cover:
    """Beds to be covered tonight, how cold it gets, and until when the covers stay on."""

    beds: tuple[Holder, ...]
    plants: int
    low_c: float
    until: datetime
    why: Why

    def until_words(self, place: Place) -> str:
        """Return until when, on the place's clock."""
        return tr("keep covered until {moment}", moment=moment_words(self.until, place))

    def low_words(self, place: Place) -> str:
        """Return how cold it gets."""
        return tr("low {temperature}", sense="of a night", temperature=temperature_words(self.low_c, place))


def cover_tonight(season: Season, today: date, now: datetime) -> Cover | None:
    """Return the beds that are to be covered tonight and are not yet; None where there is none."""
    covered = covered_tonight(season, today, now)
    cold = [bed for bed in season.holders(BED) if bed.key not in covered and _cold(season, bed, today)]
    if not cold:
        return None
    crops = [crop for bed in cold for crop in crops_in(season, bed.key)]
    snap, place = cold_snaps(season, crops, today)[0], place_of(season)
    rules = careful(rules_of(season, crop) for crop in dict.fromkeys(crops))
    return Cover(
        beds=tuple(cold),
        plants=sum(season.counts(bed.key).living for bed in cold),
        low_c=snap.nights[0].low_c,
        until=_half_hour_after(warm_again(season, today, rules.night_floor_c)),
        why=replace(
            snap_why(snap, place), figure=tr("Cover {beds} tonight", beds=and_words(bed.name for bed in cold))
        ),
    )


def covered_tonight(season: Season, today: date, now: datetime) -> frozenset[str]:
    """Return the holders that are covered for tonight, or until later."""
    return frozenset(fact.holder for fact in season.facts(Covered) if _stays_on(fact, today, now))


def covers_off(season: Season, today: date, now: datetime) -> datetime | None:
    """Return until when the covers of tonight stay on, the longest of them; None where none was told."""
    told = (fact.until for fact in season.facts(Covered) if _stays_on(fact, today, now))
    return max((until for until in told if until is not None), default=None)


def cover_beds(season: Season, wanted: Cover, today: date) -> Proposal:
    """Note that the beds that want it were covered."""
    return cover(season, [bed.key for bed in wanted.beds], today, wanted.until)


def _half_hour_after(moment: datetime) -> datetime:
    """Return the next full half hour: no forecast tells a minute."""
    return datetime.fromtimestamp(ceil(moment.timestamp() / HALF_HOUR_S) * HALF_HOUR_S, UTC)


def _cold(season: Season, bed: Holder, today: date) -> bool:
    night = cold_night(season, crops_in(season, bed.key), today)
    return night is not None and night.level >= Level.CHILL


def _stays_on(fact: Covered, today: date, now: datetime) -> bool:
    later = fact.until is not None and fact.day < today and fact.until > now
    return fact.day == today or later
