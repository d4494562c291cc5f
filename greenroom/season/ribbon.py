"""The season's stages laid on the year: when each runs, and one live figure for it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from greenroom.ledger.facts import HolderMade, HolderRetired, Picked
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.hardening import going_out
from greenroom.season.holders import Holder
from greenroom.season.packets import packets
from greenroom.season.picking_year import JULY, season_of
from greenroom.season.place import place_of
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks
from greenroom.speech import many, tr, trn

SHORTEST = timedelta(days=10)
SETTING_OUT = timedelta(days=30)
SEED_LEAD = timedelta(days=30)
LEAST_ON_THE_SHELF = timedelta(days=30)
USUAL_HARDENING = timedelta(days=20)
LONGEST_SEASON = timedelta(days=300)
STILL_TIME = timedelta(days=60)
"""How long after the usual day of setting out the season is still this one."""

USUAL = {"sow": (2, 15), "grow": (3, 20), "harden": (5, 5), "set out": (5, 25), "end": (10, 15)}
"""Usual first days in the north (month, day), common practice, no source; the south is half a year off."""

TITLES = (
    tr("Seed", sense="name of a page"),
    tr("Sow", sense="name of a page"),
    tr("Grow on", sense="name of a page"),
    tr("Harden", sense="name of a page"),
    tr("Set out", sense="name of a page"),
    tr("Pick", sense="name of a page"),
)
QUARTER = timedelta(days=92)
KILO = 1000.0


@dataclass(frozen=True, slots=True)
class RibbonStage:
    """One stage: ``start`` up to but not including ``end``, its figure, and how its first day is known."""

    key: str
    title: str
    figure: str
    start: date
    end: date
    known: str = ""


def ribbon(season: Season, today: date, now: datetime, *, brief: bool = False) -> list[RibbonStage]:
    """Return the stages that have a page, in order, without gaps between them.

    ``brief`` leaves the figure of setting out open: it rests on the guide and on years of weather,
    for which the first sight of the window need not wait.
    """
    stands = [
        stand for key in going_out(season) if (stand := two_clocks(season, key, today, now)) is not None
    ]
    year = ribbon_year(season, today)
    days = _sowing_days(season, today, year)
    starts = _starts(season, today, stands, days, year)
    figures = {
        "seed": _seed_figure(season),
        "sow": _sow_figure(season, today),
        "grow": _grow_figure(season),
        "harden": _harden_figure(stands, begun=today >= starts[3]),
        "setout": "" if brief else _set_out_figure(season, stands, today, now),
        "pick": _pick_figure(season, today),
    }
    titles = dict(zip(figures, TITLES, strict=True))
    known = _known(sown=bool(days), begun=bool(stands))
    return [
        RibbonStage(key, titles[key], figures[key], starts[place], starts[place + 1], known[key])
        for place, key in enumerate(titles)
    ]


def _known(*, sown: bool, begun: bool) -> dict[str, str]:
    """Return how the first day of each stage is known; each stage is given ten days at the least."""
    usual = tr("from the day usual in gardens, until yours is known")
    return {
        "seed": tr("from a month before the first sowing"),
        "sow": tr("from your first sowing") if sown else usual,
        "grow": tr("from ten days after the middle one of your sowings") if sown else usual,
        "harden": tr("from the first day of the first ramp") if begun else usual,
        "setout": tr("from the day the last ramp is through") if begun else usual,
        "pick": tr("from a month after setting out, to the usual end of the season"),
    }


def season_year(season: Season, today: date) -> int:
    """Return the year the season is named by: that of its spring."""
    days = _sowing_days(season, today, _year_ahead(season, today))
    return _year_of(season, days[0]) if days else _year_ahead(season, today)


def ribbon_year(season: Season, today: date) -> int:
    """Return the year the ribbon shows: this season's while its plants stand in beds, else `season_year`."""
    if not any(season.counts(one.key).living for one in season.holders("bed")):
        return season_year(season, today)
    return season_of(today, southern=place_of(season).southern)


def _starts(season: Season, today: date, stands: list[TwoClocks], days: list[date], year: int) -> list[date]:
    """Return the first day of each stage, and the day the last one ends; ``days`` are those of sowing."""
    sow = days[0] if days else _usual(season, "sow", year)
    grow = days[len(days) // 2] + SHORTEST if days else _usual(season, "grow", year)
    begun = [stand.started_on for stand in stands]
    harden = min(begun, default=max(_usual(season, "harden", year), grow + LEAST_ON_THE_SHELF))
    grow = max(min(grow, harden - SHORTEST), sow + SHORTEST)
    harden = max(harden, grow + SHORTEST)
    end = _end(season, today, stands, harden, year)
    pick = end + SETTING_OUT
    last = max(_usual(season, "end", year), today + timedelta(days=1))
    return [min(sow - SEED_LEAD, today), sow, grow, harden, end, pick, max(last, pick + SHORTEST)]


def _end(season: Season, today: date, stands: list[TwoClocks], harden: date, year: int) -> date:
    """Return the day after hardening: when the last holder is ready, or today while one is not."""
    ready = [stand.ready_on for stand in stands if stand.ready_on is not None]
    end = max(ready, default=max(_usual(season, "set out", year), harden + USUAL_HARDENING))
    hardened = {stand.holder for stand in stands if stand.hardened}
    waiting = any(season.counts(one.key).living > 0 for one in _raised(season) if one.key not in hardened)
    return max(end, harden + SHORTEST, today + timedelta(days=1) if waiting else end)


def _sowing_days(season: Season, today: date, year: int) -> list[date]:
    """Return the first day of sowing of each tray of this season, in order.

    Trays in use count unless they were left from a year past, trays put away while their season lasts.
    """
    days = [day for day in _first_sown(season, season.holders("tray")) if day > today - LONGEST_SEASON]
    away = _put_away_since(season, date(year, 1, 1) - 2 * QUARTER)
    days += [day for day in _first_sown(season, away) if _year_of(season, day) == year]
    return sorted(days)


def _put_away_since(season: Season, first: date) -> list[Holder]:
    """Return the trays put away on a day or later: those of seasons long past need not be looked into."""
    away = season.memo("trays put away", (HolderMade, HolderRetired), lambda: _put_away(season))
    return [tray for day, tray in away if day >= first]


def _put_away(season: Season) -> list[tuple[date, Holder]]:
    trays = season.holders("tray", put_away=True)
    return [(max(entry.fact.day for entry in season.holder_facts(one.key)), one) for one in trays]


def _first_sown(season: Season, trays: Iterable[Holder]) -> list[date]:
    return [day for one in trays if (day := season.counts(one.key).first_sown) is not None]


def _year_of(season: Season, sowing: date) -> int:
    """Return the year of the spring that a sowing is for: the spring within the nine months from it."""
    return (sowing - QUARTER if place_of(season).southern else sowing + QUARTER).year


def _year_ahead(season: Season, today: date) -> int:
    """Return the year of the first spring whose setting out is not long past."""
    years = (today.year - 1, today.year, today.year + 1)
    return next(year for year in years if today <= _usual(season, "set out", year) + STILL_TIME)


def _usual(season: Season, stage: str, year: int) -> date:
    month, day = USUAL[stage]
    if not place_of(season).southern:
        return date(year, month, day)
    return date(year + (month >= JULY), (month + 5) % 12 + 1, day)


def _raised(season: Season) -> list[Holder]:
    """Return the holders in which plants are raised; what stands in a bed is set out."""
    return [one for one in season.holders() if one.form != "bed"]


def _set_out_figure(season: Season, stands: list[TwoClocks], today: date, now: datetime) -> str:
    # Here, not at the top: the gate brings the plan and the guide with it, which a brief look leaves out.
    from greenroom.season.set_out import set_out_figure

    return set_out_figure(season, stands, today, now)


def _seed_figure(season: Season) -> str:
    return many(len(packets(season)), "packet")


def _sow_figure(season: Season, today: date) -> str:
    trays = len(_sowing_days(season, today, ribbon_year(season, today)))
    return trn("{n:,} tray sown", "{n:,} trays sown", trays)


def _pick_figure(season: Season, today: date) -> str:
    """Return the live figure of picking: what was picked this season, in weight where all was weighed."""
    southern = place_of(season).southern
    year = season_of(today, southern=southern)
    picks = [
        f for f in season.facts(Picked) if f.day <= today and season_of(f.day, southern=southern) == year
    ]
    if not picks:
        return tr("none yet", sense="fruit")
    fruit = trn("{n:,} fruit", "{n:,} fruit", sum(fact.count for fact in picks))
    if any(fact.grams is None for fact in picks):
        return fruit
    weight = sum(fact.grams or 0.0 for fact in picks) / KILO
    return tr("{fruit}, {weight:,.1f} kg", fruit=fruit, weight=weight)


def _grow_figure(season: Season) -> str:
    return many(sum(season.counts(one.key).seedlings for one in _raised(season)), "seedling")


def _harden_figure(stands: list[TwoClocks], *, begun: bool) -> str:
    out = sum(stand.outing is not None for stand in stands)
    if out:
        return trn("{n} out now", "{n} out now", out)
    going = sum(not stand.hardened for stand in stands)
    if going:
        return trn("{n:,} holder on the ramp", "{n:,} holders on the ramp", going)
    if stands:
        return trn("{n} hardened", "{n} hardened", len(stands))
    return tr("none now", sense="holders") if begun else tr("none yet", sense="holders")
