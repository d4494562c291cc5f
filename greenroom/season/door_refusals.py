"""What cannot be at the door: refusals in one sentence each, of times that do not fit a holder's outings.

``now``, where it is given, is this moment: a time after it is refused.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from greenroom.season.few_words import IN_LIGHT
from greenroom.season.hardening import hardening_since
from greenroom.season.hardening_words import day_words, moment_words
from greenroom.season.outings import Outing, fold_outings
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import RefusedError
from greenroom.season.state import Season
from greenroom.speech import tr


def never_out(name: str, day: date, begun: Sequence[Outing], place: Place) -> str:
    """Return that a holder was not out on a day, and when its last outing ended."""
    shown = day_words(day)
    if not begun or begun[-1].end is None:
        return tr(
            "{holder} has not been out on {day}; a setback belongs to an outing of the same day.",
            holder=name,
            day=shown,
        )
    return tr(
        "{holder} has not been out on {day}; a setback belongs to an outing of the same day, and its last "
        "ended at {moment}.",
        holder=name,
        day=shown,
        moment=moment_words(begun[-1].end, place),
    )


def refuse_unhardened(season: Season, holder: str) -> None:
    """Refuse a holder that is not on its ramp."""
    if hardening_since(season, holder) is None:
        raise RefusedError(
            tr("{holder} is not being hardened; start hardening it first.", holder=season.holder(holder).name)
        )


def refuse_before_ramp(season: Season, holder: str, at: datetime) -> None:
    """Refuse a moment on a day before the ramp began."""
    refuse_unhardened(season, holder)
    since = hardening_since(season, holder)
    if since is not None and place_of(season).local(at).date() < since:
        name = season.holder(holder).name
        raise RefusedError(
            tr(
                "{holder} is being hardened since {day}; choose a time on that day or later.",
                holder=name,
                day=day_words(since),
            )
        )


def refuse_future(name: str, at: datetime, now: datetime | None, place: Place) -> None:
    """Refuse a moment that is still to come."""
    if now is not None and at > now:
        raise RefusedError(
            tr(
                "{moment} is still to come for {holder}; enter a time that is past.",
                moment=moment_words(at, place),
                holder=name,
            )
        )


def refuse_before_latest(name: str, outing: Outing, at: datetime, place: Place) -> None:
    """Refuse a moment that is not after the start of the outing's latest stretch."""
    if at <= outing.start:
        raise RefusedError(
            tr(
                "{holder} is out since {moment}; an outing cannot end before it started.",
                holder=name,
                moment=moment_words(outing.start, place),
            )
        )
    since = outing.stretches[-1].start
    if at <= since:
        raise RefusedError(
            tr(
                "{holder} stands {in_light} since {moment}; choose a later time.",
                holder=name,
                in_light=IN_LIGHT[outing.light],
                moment=moment_words(since, place),
            )
        )


def refuse_overlap(
    season: Season, holder: str, start: datetime, end: datetime | None, but: str | None = None
) -> None:
    """Refuse an outing that would run over another one, save that with the key ``but``."""
    name, place = season.holder(holder).name, place_of(season)
    for other in fold_outings(season.holder_facts(holder)):
        ends_before = other.end is not None and other.end <= start
        starts_after = end is not None and other.start >= end
        if other.key == but or ends_before or starts_after:
            continue
        until = tr("now") if other.end is None else moment_words(other.end, place)
        raise RefusedError(
            tr(
                "{holder} was out from {start} to {until} already; two outings cannot overlap.",
                holder=name,
                start=moment_words(other.start, place),
                until=until,
            )
        )
