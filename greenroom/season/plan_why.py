"""Why the plan says what it says: the sowing window, the odds, the seeds, and the dates without a record."""

from __future__ import annotations

from datetime import date

from greenroom.season.citations import DEGREE_DAYS, SCORE_INTERVAL
from greenroom.season.coming_up import GELMAN
from greenroom.season.crops import cite, crop_of, crop_words
from greenroom.season.frost_plan import (
    AFTER_LAST_FROST_DAYS,
    BEFORE_LAST_FROST_DAYS,
    ONE_YEAR_IN_TEN_DAYS,
)
from greenroom.season.germination import germination
from greenroom.season.germination_why import share_words
from greenroom.season.hardening_words import day_words
from greenroom.season.learning import Learned
from greenroom.season.plan import Plan, PlanRow
from greenroom.season.plan_needs import Needs
from greenroom.season.replay import Spread
from greenroom.season.ripening_heat import COOL
from greenroom.season.sprouting import chance_words
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.wants import Span
from greenroom.season.why import Why
from greenroom.speech import figure, many, tr, trn

FAO_PEPPER = tr("FAO: crop information, pepper (best days 18 to 27 °C, nights 15 to 18 °C).")
BINOMIAL = tr(
    "Abramowitz, M. and Stegun, I. A. 1964. Handbook of Mathematical Functions, 26.5.24 (binomial law)."
)
NURSERY = tr(
    "USDA Forest Service container nursery manuals: seeds a cell by germination (from "
    "memory; it agrees with the binomial law)."
)


def window_why(season: Season, plan: Plan, row: PlanRow, say_c: SayC = in_celsius) -> Why:
    """Return why a variety is to be sown when the plan says; ``say_c`` puts a temperature into words."""
    needs = row.needs
    told = [(tr("crop"), crop_words(season.guide, needs.crop)), *_raising_words(needs, say_c)]
    if row.sowing is not None and row.sowing.set_out is not None:
        told.append((tr("set out", sense="stage of a plant"), spread_words(row.sowing.set_out)))
    if row.latest is not None or row.sowing is not None:
        keeps = tr("latest day that keeps {odds}", odds=chance_words(plan.rules.odds))
        told.append((keeps, tr("none does") if row.latest is None else day_words(row.latest)))
    rule = tr(
        "The weeks indoors are counted back from the usual first day of nights that stay "
        "warm enough, which had come in half the years. They run from sowing in good warmth, "
        "coming up and hardening included; what coming up takes longer in your mix is added. "
        "The window ends no later than the last day that keeps the odds you want."
    )
    return Why(_window_words(row.window), rule, tuple(told), _raising_sources(season, needs))


def odds_why(season: Season, plan: Plan, row: PlanRow, say_c: SayC = in_celsius) -> Why | None:
    """Return how the odds of a row came about, or None where there are none."""
    needs, sowing = row.needs, row.sowing
    if sowing is None or needs.heat_need is None or plan.chart is None:
        return None
    years = plan.chart.years
    told = [
        (tr("sown"), day_words(sowing.on)),
        (tr("fit to be set out"), day_words(sowing.ready)),
        *_heat_words(season, needs, say_c),
        (
            tr("nights at or above {temperature}", temperature=say_c(needs.floor_c)),
            tr("{nights} running", nights=needs.run_nights),
        ),
        *((name, spread_words(spread)) for name, spread in _spreads(row, say_c)),
        (
            tr("years counted"),
            tr("{count}, {first} to {last}", count=len(years), first=years[0], last=years[-1]),
        ),
        (
            tr("so the chance lies"),
            tr(
                "between {low:.0f} and {high:.0f} % (95 % score interval)",
                low=sowing.odds.low * 100,
                high=sowing.odds.high * 100,
            ),
        ),
    ]
    rule = tr(
        "Each year of the record is played: plants go out on the first day, not before they "
        "are ready, from which nights stay warm enough; heat is gathered from then on; they "
        "are ripe on the day it reaches the need, if that comes before the first night at or "
        "below {temperature}.",
        temperature=say_c(needs.killing_c),
    )
    sources = [DEGREE_DAYS, SCORE_INTERVAL, *_raising_sources(season, needs)]
    if needs.ripe is not None and needs.ripe.own is not None:
        sources.append(GELMAN)
    if needs.heat is not COOL:
        sources.insert(1, FAO_PEPPER)
    crop = crop_of(season.guide, needs.crop)
    if not needs.ripe_on_label and crop is not None and crop.days_to_pick is not None:
        sources.append(cite(crop.days_to_pick))
    return Why(
        tr("Ripe in {odds}", odds=sowing.odds.words),
        f"{rule} {_heat_rule(needs)}",
        tuple(told),
        tuple(dict.fromkeys(sources)),
    )


def seeds_why(season: Season, row: PlanRow, today: date) -> Why | None:
    """Return how many seeds a row takes and why, or None without a packet worth sowing."""
    need = row.seeds
    expected = germination(season, need.packet, today) if need else None
    if need is None or expected is None:
        return None
    told = [
        (tr("plants wanted"), str(need.plants)),
        (tr("of the packet"), share_words(expected)),
        (tr("left of that by the mix's warmth"), chance_words(need.warm)),
        (tr("seedlings that live to be set out"), chance_words(need.lives)),
        (tr("seeds a cell"), str(need.a_cell)),
        (
            tr("cells expected to stay bare"),
            tr("{blanks:.1f} of {cells}", blanks=need.blanks, cells=need.cells),
        ),
        (tr("how sure"), chance_words(need.confidence)),
        (
            tr("were the packet as good, or as bad, as it may be"),
            tr("{fewest} or {most} seeds", fewest=need.fewest, most=need.most),
        ),
        (tr("seeds left"), tr("not counted") if need.left is None else str(need.left)),
    ]
    if not need.enough:
        told.append((tr("how sure with the seeds left"), chance_words(need.sure)))
    rule = tr(
        "The fewest cells that give the plants wanted as surely as you asked, each filling "
        "by itself: a cell is blank if none of its seeds comes up. Seeds go singly while two "
        "cells in three fill, or where the packet holds too few, and in twos and threes for "
        "poorer seed."
    )
    return Why(
        trn("{n} seed in {cells}", "{n} seeds in {cells}", need.seeds, cells=many(need.cells, "cell")),
        rule,
        tuple(told),
        (BINOMIAL, NURSERY),
    )


def frosts_why(season: Season, row: PlanRow, say_c: SayC = in_celsius) -> Why | None:
    """Return how the dates of a row came about without a weather record, or None where they did not so."""
    told, needs = row.frosts, row.needs
    if told is None or needs.days_to_ripe is None:
        return None
    inputs = [
        (tr("sown"), day_words(told.on)),
        *_raising_words(needs, say_c),
        (tr("set out", sense="stage of a plant"), day_words(told.set_out)),
        (tr("days to ripe"), figure(needs.days_to_ripe, ".0f")),
        (tr("usual first frost"), day_words(told.end)),
        (tr("days to spare"), str(told.spare_days)),
    ]
    rule = tr(
        "Tender plants go out {after} days after the usual last frost, hardy "
        "ones {before} days before it; days to ripe are counted from there "
        "as they stand. With {spare} days to spare it ripens in most years, "
        "for a frost comes about so much earlier in one of ten. How warm the summer is, is "
        "not in it: a weather record would tell.",
        after=AFTER_LAST_FROST_DAYS,
        before=BEFORE_LAST_FROST_DAYS,
        spare=ONE_YEAR_IN_TEN_DAYS,
    )
    said = tr("Ripe {day}, {verdict}", day=day_words(told.ripe), verdict=told.verdict)
    return Why(said, rule, tuple(inputs), _raising_sources(season, needs))


def spread_words(spread: Spread) -> str:
    """Return a spread in words: 28 May (19 May to 9 June, in 33 years)."""
    return tr(
        "{usual} ({early} to {late} in eight of ten; {years})",
        usual=day_words(spread.usual),
        early=day_words(spread.early),
        late=day_words(spread.late),
        years=many(spread.years, "year"),
    )


def pace_words(pace: Learned) -> str:
    """Return what own sowings make of the guide's days: 1.2 times the guide's days, and of how many."""
    if pace.own is None:
        return tr("none of your own yet")
    return tr(
        "{own:.2f} times the guide's days over {seedlings}; {taken:.2f} is taken ({low:.2f} to {high:.2f})",
        own=pace.own,
        seedlings=many(pace.seeds, "seedling"),
        taken=pace.figure,
        low=pace.low,
        high=pace.high,
    )


def ripe_words(ripe: Learned | None) -> str:
    """Return what own picks make of the heat to ripe, and of how many plants."""
    if ripe is None or ripe.own is None:
        return tr("none of your own yet")
    plants = many(ripe.seeds, "plant")
    return tr(
        "{own:.0f} °C·d over {plants}; {taken:.0f} is taken ({low:.0f} to {high:.0f})",
        own=ripe.own,
        plants=plants,
        taken=ripe.figure,
        low=ripe.low,
        high=ripe.high,
    )


def _window_words(window: Span | None) -> str:
    if window is None:
        return tr("No sowing window can be told")
    return tr("Sow between {first} and {last}", first=day_words(window.first), last=day_words(window.last))


def _raising_words(needs: Needs, say_c: SayC) -> list[tuple[str, str]]:
    weeks = tr("{low:g} to {high:g}", low=needs.weeks.low, high=needs.weeks.high)
    return [
        (
            tr("weeks from sowing to setting out"),
            weeks if needs.weeks_known else tr("{weeks}, not in the guide", weeks=weeks),
        ),
        (tr("temperature of the mix"), _mix_words(needs, say_c)),
        (
            tr("half up"),
            tr(
                "day {day:.0f} (day {best:.0f} in the best warmth by the guide)",
                day=needs.days_up,
                best=needs.best_days,
            ),
        ),
        (tr("your own sowings"), pace_words(needs.pace)),
        (tr("days from sowing to setting out"), str(needs.days_to_ready)),
        (tr("hardening, the last of them"), many(needs.hardening_days, "day")),
    ]


def _mix_words(needs: Needs, say_c: SayC) -> str:
    if needs.mix_c is None:
        return tr("not known; the warmth it likes best is taken")
    mix = say_c(needs.mix_c)
    if not needs.unfit:
        return mix
    return tr(
        "{temperature}; none is known to come up in that, so the warmth it likes best is taken",
        temperature=mix,
    )


def _heat_words(season: Season, needs: Needs, say_c: SayC) -> list[tuple[str, str]]:
    if needs.days_to_ripe is None:
        return []
    if needs.ripe_on_label:
        said = tr("{days:.0f} from setting out, by the packet", days=needs.days_to_ripe)
    else:
        said = tr(
            "{days:.0f} from setting out, by the guide for {crop}",
            days=needs.days_to_ripe,
            crop=crop_words(season.guide, needs.crop),
        )
    worth = tr(
        "{heat:.1f} °C·d, as at {warm} by day and {cool} by night",
        heat=needs.heat.a_day,
        warm=say_c(needs.heat.day_c),
        cool=say_c(needs.heat.night_c),
    )
    told = [
        (tr("days to ripe"), said),
        (tr("a stated day is worth"), worth),
        (tr("heat to ripe"), _heat_over(needs.days_to_ripe * needs.heat.a_day, needs, say_c)),
        (tr("your own picks"), ripe_words(needs.ripe)),
    ]
    if needs.ripe is not None and needs.ripe.own is not None and needs.heat_need is not None:
        told.append((tr("heat to ripe, together"), _heat_over(needs.heat_need, needs, say_c)))
    return told


def _heat_over(heat: float, needs: Needs, say_c: SayC) -> str:
    return tr("{heat:.0f} °C·d over {temperature}", heat=heat, temperature=say_c(needs.heat.base_c))


def _heat_rule(needs: Needs) -> str:
    return (
        tr(
            "Packets state days, not heat: a working rule of this program makes heat of them by "
            "the warmth in which such days are counted. Whoever grows in a cooler summer needs "
            "more days for the same heat. Your own ripe picks from beds correct it, as far as "
            "they bear it out."
        )
        if needs.heat is not COOL
        else tr("Packets state days, not heat: a working rule of this program makes heat of them.")
    )


def _spreads(row: PlanRow, say_c: SayC) -> list[tuple[str, Spread]]:
    sowing = row.sowing
    if sowing is None:
        return []
    cold = tr("first night at or below {temperature}", temperature=say_c(row.needs.killing_c))
    named = [
        (tr("set out", sense="stage of a plant"), sowing.set_out),
        (tr("ripe, where it was"), sowing.ripe),
        (cold, sowing.end),
    ]
    return [(name, spread) for name, spread in named if spread is not None]


def _raising_sources(season: Season, needs: Needs) -> tuple[str, ...]:
    crop = crop_of(season.guide, needs.crop)
    if crop is None:
        return ()
    cited = (crop.weeks_indoors, crop.days_to_emerge or crop.emergence_days, crop.night_floor_c)
    return tuple(dict.fromkeys(cite(one) for one in cited if one is not None))
