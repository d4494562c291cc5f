"""The season's stages laid on the year: when each runs, and one live figure for it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from greenroom.season.hardening import going_out, hardening_since, standing
from greenroom.season.packets import packets
from greenroom.season.place import place_of
from greenroom.season.state import Season

SHORTEST = timedelta(days=10)
USUAL = {"sow": (2, 15), "grow": (3, 20), "harden": (5, 5), "set out": (5, 25)}
"""Usual first days in the north (month, day), common practice, no source; the south is half a year off."""


@dataclass(frozen=True, slots=True)
class RibbonStage:
    """One stage: ``start`` up to but not including ``end``, and its live figure in words."""

    key: str
    title: str
    figure: str
    start: date
    end: date


def ribbon(season: Season, today: date, now: datetime) -> list[RibbonStage]:
    """Return the stages that have a page, in order, without gaps between them."""
    starts = _starts(season, today, now)
    figures = {
        "seed": _seed_figure(season),
        "sow": _sow_figure(season),
        "grow": _grow_figure(season),
        "harden": _harden_figure(season, today, now),
    }
    titles = {"seed": "Seed", "sow": "Sow", "grow": "Grow on", "harden": "Harden"}
    keys = list(titles)
    return [
        RibbonStage(key, titles[key], figures[key], starts[place], starts[place + 1])
        for place, key in enumerate(keys)
    ]


def season_year(season: Season, today: date) -> int:
    """Return the year the season is named by: that of its summer."""
    first = _first_sowing(season, today)
    return (first + timedelta(days=92)).year


def _starts(season: Season, today: date, now: datetime) -> list[date]:
    """Return the first day of each stage, and the day the last one ends."""
    sowing = _first_sowing(season, today)
    year = (sowing + timedelta(days=92)).year
    begun = [day for key in going_out(season) if (day := hardening_since(season, key)) is not None]
    ready = [
        stand.ready_on
        for key in going_out(season)
        if (stand := standing(season, key, today, now)) is not None and stand.ready_on is not None
    ]
    starts = [
        sowing - timedelta(days=30),
        sowing,
        _middle(_sowing_days(season), sowing) + SHORTEST,
        min(begun, default=_usual(season, "harden", year)),
        max(ready, default=_usual(season, "set out", year)),
    ]
    for place in range(1, len(starts)):
        starts[place] = max(starts[place], starts[place - 1] + SHORTEST)
    return starts


def _first_sowing(season: Season, today: date) -> date:
    return min(_sowing_days(season), default=_usual(season, "sow", today.year))


def _sowing_days(season: Season) -> list[date]:
    """Return the first day of sowing of each tray in use, in order."""
    days = (season.counts(one.key).first_sown for one in season.holders("tray"))
    return sorted(day for day in days if day is not None)


def _middle(days: list[date], usual: date) -> date:
    """Return the day by which half of the trays were sown."""
    return days[len(days) // 2] if days else usual


def _usual(season: Season, stage: str, year: int) -> date:
    month, day = USUAL[stage]
    usual = date(year, month, day)
    return usual - timedelta(days=184) if place_of(season).southern else usual


def _seed_figure(season: Season) -> str:
    return _many(len(packets(season)), "packet")


def _sow_figure(season: Season) -> str:
    sown = sum(season.counts(tray.key).sown > 0 for tray in season.holders("tray"))
    return f"{_many(sown, 'tray')} sown"


def _grow_figure(season: Season) -> str:
    return _many(sum(season.counts(one.key).seedlings for one in season.holders()), "seedling")


def _harden_figure(season: Season, today: date, now: datetime) -> str:
    stands = [stand for key in going_out(season) if (stand := standing(season, key, today, now)) is not None]
    out = sum(stand.outing is not None for stand in stands)
    if out:
        return f"{out} out now"
    return f"{_many(len(stands), 'holder')} on the ramp" if stands else "none yet"


def _many(number: int, what: str) -> str:
    return f"{number:,} {what}" if number == 1 else f"{number:,} {what}s"
