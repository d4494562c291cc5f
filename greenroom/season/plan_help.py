"""What would help a variety that does not ripen here often enough, each way tried on its own years."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from greenroom.guide import Crop, Guide, Rank
from greenroom.ledger.facts import Variety
from greenroom.season.crops import crop_of
from greenroom.season.hardening_words import day_words
from greenroom.season.plan import Plan, PlanRow
from greenroom.season.plan_chart import PlanChart
from greenroom.season.plan_needs import Needs, needs_as, ready_after
from greenroom.season.replay import Odds, Replay, replay_of
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.why import Why
from greenroom.speech import many, tr, trn

COVER_C = 2.0
"""A light fleece keeps the air beneath it so much warmer at night: extension services, from memory.
What it adds by day is left out."""

SOONER_DAYS = 1.0
"""Warmer mix is worth a word if it saves so many days."""

EARLIER_KINDS = 2
"""So many earlier kinds are named at most, the best first."""


@dataclass(frozen=True, slots=True)
class Help:
    """One thing that would raise the odds: what it is, in a sentence, and the odds with it."""

    what: str
    words: str
    odds: Odds


@dataclass(frozen=True, slots=True)
class Shortfall:
    """A plain sentence about a variety that falls short of the odds wanted, and what would help."""

    words: str
    helps: tuple[Help, ...]


def shortfall(
    season: Season, plan: Plan, row: PlanRow, today: date, say_c: SayC = in_celsius
) -> Shortfall | None:
    """Return in how far a row of the plan falls short of the odds wanted; None where it does not.

    Each help is played on the place's years and told only if it raises the odds: sowing earlier, warmer
    mix to come up in, cover on cold nights, and earlier kinds of the same species, or of its genus where
    the species has none.
    """
    replay = replay_of(season)
    if plan.chart is None or row.sowing is None or not row.short or replay is None:
        return None
    tried = [
        *_earlier(plan, row, today),
        *_warmer(plan, row, replay, say_c),
        *_covered(plan, row, replay),
        *_other_kinds(season, plan, row, replay),
    ]
    now = row.sowing.odds.share
    return Shortfall(short_words(plan, row), tuple(one for one in tried if one.odds.share > now))


def short_words(plan: Plan, row: PlanRow) -> str:
    """Return in how far a row falls short, in a sentence; nothing where it does not."""
    if row.frosts is not None and row.short:
        late = many(-row.frosts.spare_days, "day")
        return tr(
            "{variety} would ripen {days} after the usual first frost, counted by the calendar.",
            variety=row.name,
            days=late,
        )
    if plan.chart is None or row.sowing is None or not row.short:
        return ""
    wanted, now = f"{plan.rules.odds * 100:.0f} %", row.sowing.odds
    day, best = plan.chart.best(row.variety)
    if best.share < plan.rules.odds:
        return tr(
            "{variety} ripens here in {odds} at best, however early it is sown; you asked for "
            "{share} of them.",
            variety=row.name,
            odds=best.words,
            share=wanted,
        )
    latest = row.latest or day
    return tr(
        "Sown on {day}, {variety} ripens in {odds}; sown by {latest} it would in {latest_odds}.",
        day=day_words(row.on),
        variety=row.name,
        odds=now.words,
        latest=day_words(latest),
        latest_odds=plan.chart.odds_on(row.variety, latest).words,
    )


def short_why(plan: Plan) -> Why | None:
    """Return which varieties of a plan fall short and by how much; None where none does."""
    told = [(row.name, _odds_or_frosts(row)) for row in plan.rows if row.short]
    if not told:
        return None
    rule = tr(
        "A variety falls short if, sown on its day, it ripens in fewer of the place's years than you asked "
        "for; where there is no weather record, if it would ripen after the usual first frost. Each line of "
        "the table says what would help."
    )
    share = tr("{percent:.0f} % of the years", percent=plan.rules.odds * 100)
    figure = trn("1 variety falls short", "{n} varieties fall short", len(told))
    return Why(
        figure, rule, ((tr("asked for"), share), *told), (tr("Own rule; the odds have their own why."),)
    )


def _odds_or_frosts(row: PlanRow) -> str:
    if row.sowing is not None:
        return tr("ripe in {odds}", odds=row.sowing.odds.words)
    late = -row.frosts.spare_days if row.frosts is not None else 0
    return trn("{n} day after the usual first frost", "{n} days after the usual first frost", late)


def _earlier(plan: Plan, row: PlanRow, today: date) -> Iterator[Help]:
    """Sow on the latest day that keeps the odds, or that has the best there are, if it is still to come."""
    if plan.chart is None or row.sown:
        return
    day = row.latest or plan.chart.best(row.variety)[0]
    if today <= day < row.on:
        odds = plan.chart.odds_on(row.variety, day)
        yield Help(
            "earlier", tr("Sown on {day} it ripens in {odds}.", day=day_words(day), odds=odds.words), odds
        )


def _warmer(plan: Plan, row: PlanRow, replay: Replay, say_c: SayC) -> Iterator[Help]:
    needs = row.needs
    up = needs.best_days * needs.pace.figure
    saved = needs.days_up - up
    if row.sown or needs.mix_c is None or needs.best_c is None or saved < SOONER_DAYS:
        return
    ready = ready_after(needs.weeks, up, needs.best_days, needs.hardening_days)
    odds = _played(plan, row, replay, replace(needs, days_to_ready=ready))
    if odds is not None:
        words = trn(
            "In mix at {warm} instead of {now} it is up {n} day sooner and ripens in {odds}.",
            "In mix at {warm} instead of {now} it is up {n} days sooner and ripens in {odds}.",
            round(saved),
            warm=say_c(needs.best_c),
            now=say_c(needs.mix_c),
            odds=odds.words,
        )
        yield Help("warmer mix", words, odds)


def _covered(plan: Plan, row: PlanRow, replay: Replay) -> Iterator[Help]:
    needs = row.needs
    under = replace(needs, floor_c=needs.floor_c - COVER_C, killing_c=needs.killing_c - COVER_C)
    odds = _played(plan, row, replay, under)
    if odds is not None:
        words = tr(
            "Under a light fleece on cold nights, about 2 °C (4 °F) warmer, it goes out sooner "
            "and lasts longer: ripe in {odds}.",
            odds=odds.words,
        )
        yield Help("cover", words, odds)


def _other_kinds(season: Season, plan: Plan, row: PlanRow, replay: Replay) -> Iterator[Help]:
    for ancestor in _ancestors(season.guide, row.needs.crop):
        found = [
            (odds, crop)
            for crop in season.guide.types_of(ancestor)
            if (odds := _kind_odds(season, plan, row, replay, crop)) is not None
        ]
        better = [one for one in found if row.sowing and one[0].share > row.sowing.odds.share]
        better.sort(key=lambda one: (-one[0].share, -_days(one[1])))
        for odds, crop in better[:EARLIER_KINDS]:
            words = tr(
                "An earlier kind: {crop} ({days:.0f} days to ripe) in {odds}.",
                crop=crop.name,
                days=_days(crop),
                odds=odds.words,
            )
            yield Help("earlier kind", words, odds)
        if any(odds.share >= plan.rules.odds for odds, _ in better):
            return


def _ancestors(guide: Guide, key: str | None) -> list[str]:
    """Return the species and then the genus a crop belongs to, as far as the guide has them."""
    crop = crop_of(guide, key)
    if crop is None:
        return []
    return [one for one in guide.lineage(crop.key) if guide.entries[one].rank in (Rank.SPECIES, Rank.GENUS)]


def _kind_odds(season: Season, plan: Plan, row: PlanRow, replay: Replay, crop: Crop) -> Odds | None:
    """Return the odds of an earlier kind sown on the same day, raised as the guide says."""
    own = row.needs
    if crop.days_to_ripe is None or own.days_to_ripe is None or _days(crop) >= own.days_to_ripe:
        return None
    variety = Variety(day=row.on, variety=crop.key, name=crop.name, crop=crop.key)
    return _played(plan, row, replay, needs_as(season, variety, own.mix_c, own.pace, plan.rules))


def _days(crop: Crop) -> float:
    return crop.days_to_ripe.value.middle if crop.days_to_ripe else 0.0


def _played(plan: Plan, row: PlanRow, replay: Replay, needs: Needs) -> Odds | None:
    chart = PlanChart(replay, [needs], plan.year)
    return chart.odds_on(needs.variety, row.on) if needs.variety in chart else None
