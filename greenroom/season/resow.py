"""Bare cells of a tray: how likely seed in them still comes up, and whether to sow them again."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from datetime import date
from math import prod

from greenroom.agronomy.sprouting import chance_still_up, seeds_to_sow
from greenroom.season.crops import Pace, crop_words
from greenroom.season.home_tests import home_tests_of
from greenroom.season.lots import LABEL_SEEDS, Share, due_days, half_day, lot_in, tally
from greenroom.season.packets import packet_view, variety_name
from greenroom.season.resow_why import resow_why
from greenroom.season.spots import Spot, SpotKey
from greenroom.season.sprouting import SPREAD, chance_words, expected_pace, expected_share, tabled_spread
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.why import Why
from greenroom.speech import tr

TOO_LATE = 0.15
"""A bare cell with less chance than this is worth sowing again: a working rule of this program."""


@dataclass(frozen=True, slots=True)
class Resow:
    """Bare cells of one packet in one tray, and whether sowing again is worth it.

    ``chance`` is the chance that any of them still comes up, ``each`` that of the likeliest cell;
    ``expected_days`` is when half of those to come are up [d]; ``seeds`` are what would fill the cells
    with 95 % confidence.
    """

    packet: str
    name: str
    cells: tuple[SpotKey, ...]
    day: int
    expected_days: float
    chance: float
    each: float
    seeds: int
    worth_it: bool
    why: Why


@dataclass(frozen=True, slots=True)
class _Outlook:
    """What is to be expected of one lot in one tray: ``shown`` is when half of it was up here, if it was."""

    pace: Pace
    shown: float | None
    share: Share

    @property
    def median(self) -> float:
        """Day by which half of the seeds that ever come up are up [d]: as shown here, else as tabled."""
        return self.pace.days if self.shown is None else self.shown

    @property
    def spread(self) -> float:
        """Spread of one seed's days: that within a lot, and until the lot has shown, that between lots."""
        return SPREAD if self.shown is not None else tabled_spread(self.pace)


def resow_advice(season: Season, holder: str, today: date, say_c: SayC = in_celsius) -> list[Resow]:
    """Return the packets with bare cells in a tray, the least likely to come first.

    ``say_c`` puts a temperature [°C] into the words of the reasons, in the reader's own unit.
    """
    waiting: dict[str, list[Spot]] = defaultdict(list)
    for spot in season.spots(holder):
        if spot.waiting > 0 and spot.up == 0 and spot.packet is not None:
            waiting[spot.packet].append(spot)
    found = [_advice(season, holder, packet, spots, today, say_c) for packet, spots in waiting.items()]
    return sorted((one for one in found if one is not None), key=lambda one: one.chance)


def _advice(
    season: Season, holder: str, packet: str, spots: list[Spot], today: date, say_c: SayC
) -> Resow | None:
    outlook = _outlook(season, holder, packet, today)
    ages = [
        (today - spot.sown_on).days for spot in spots if spot.sown_on is not None and spot.sown_on <= today
    ]
    if outlook is None or not ages:
        return None
    share = outlook.share.expected
    each = [chance_still_up(float(age), outlook.median, outlook.spread, share) for age in ages]
    any_up = 1.0 - prod(1.0 - one for one in each)
    told = [(tr("bare cells"), str(len(spots))), (tr("days since sowing"), str(max(ages)))]
    told += _outlook_words(season, holder, packet, outlook, say_c)
    told += [(tr("chance for one cell"), chance_words(max(each)))]
    return Resow(
        packet,
        variety_name(season, packet),
        tuple(spot.key for spot in spots),
        max(ages),
        outlook.median,
        any_up,
        max(each),
        seeds_to_sow(len(spots), share) if share > 0 else 0,
        max(each) < TOO_LATE,
        resow_why(
            tr("{chance} that any of {cells} still comes up", chance=chance_words(any_up), cells=len(spots)),
            outlook.pace.rule,
            outlook.pace.sources,
            told,
            spread=outlook.spread,
            seeds=LABEL_SEEDS,
            chance=chance_words(TOO_LATE),
        ),
    )


def _outlook(season: Season, holder: str, packet: str, today: date) -> _Outlook | None:
    """Put the tabled pace, the label, and what the lot itself has shown together."""
    pace = expected_pace(season, holder, packet)
    if pace is None:
        return None
    label = expected_share(season, holder, packet)
    here = lot_in(season, holder, packet, today)
    outlook = _Outlook(pace, half_day(here, label), Share(label, 0, 0))
    share = tally(here, label, due_days(outlook.median, outlook.spread))
    for other in season.holders_sown(packet):
        if other != holder:
            share = share.with_more(_shown_in(season, other, packet, today))
    for test in home_tests_of(season, packet):
        if test.over:
            share = share.with_more(Share(label, test.germinated, test.seeds))
    return replace(outlook, share=share)


def _shown_in(season: Season, holder: str, packet: str, today: date) -> Share:
    """Return what a lot has shown in one tray, at that tray's own pace."""
    pace = expected_pace(season, holder, packet)
    if pace is None:
        return Share(0.0, 0, 0)
    due = due_days(pace.days, tabled_spread(pace))

    def count() -> Share:
        return tally(lot_in(season, holder, packet, today), 0.0, due)

    return season.holder_memo(holder, ("shown", packet, today, due), count)


def _outlook_words(
    season: Season, holder: str, packet: str, outlook: _Outlook, say_c: SayC
) -> list[tuple[str, str]]:
    view, pace, share = packet_view(season, packet), outlook.pace, outlook.share
    shown = tr("not yet") if outlook.shown is None else tr("day {day:.0f}", day=outlook.shown)
    came = (
        tr("{came} of {tried} came up", came=share.came, tried=share.tried)
        if share.tried
        else tr("none had yet", sense="seeds that had time to come up")
    )
    return [
        (tr("temperature of the mix"), say_c(season.holder(holder).mix_c or 0.0)),
        (tr("crop"), crop_words(season.guide, view.crop if view else None)),
        (
            tr("half up at that temperature"),
            tr("day {day:.1f} ({early:.0f} to {late:.0f})", day=pace.days, early=pace.early, late=pace.late),
        ),
        (tr("half of what was expected was up here"), shown),
        (tr("share expected by the label and the warmth"), chance_words(share.label)),
        (tr("of the lot's own seeds that had time"), came),
        (tr("share expected ever to come up"), chance_words(share.expected)),
    ]
