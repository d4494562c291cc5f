"""Why the plan says what it says: the sowing window, the odds, the seeds, and the dates without a record."""

from __future__ import annotations

from datetime import date

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
from greenroom.season.replay import Odds, Spread
from greenroom.season.ripening_heat import COOL
from greenroom.season.sprouting import SayC, chance_words, in_celsius
from greenroom.season.state import Season
from greenroom.season.wants import Span
from greenroom.season.why import Why
from greenroom.speech import many

MCMASTER = (
    "McMaster, G. S. and Wilhelm, W. W. 1997. Growing degree-days: one equation, two interpretations. "
    "Agricultural and Forest Meteorology 87:291-300."
)
FAO_PEPPER = "FAO: crop information, pepper (best days 18 to 27 °C, nights 15 to 18 °C)."
WILSON = "Wilson, E. B. 1927. Journal of the American Statistical Association 22:209-212 (score interval)."
BINOMIAL = (
    "Abramowitz, M. and Stegun, I. A. 1964. Handbook of Mathematical Functions, 26.5.24 (binomial law)."
)
NURSERY = (
    "USDA Forest Service container nursery manuals: seeds a cell by germination (from memory; it agrees with "
    "the binomial law)."
)


def window_why(season: Season, plan: Plan, row: PlanRow, say_c: SayC = in_celsius) -> Why:
    """Return why a variety is to be sown when the plan says; ``say_c`` puts a temperature into words."""
    needs = row.needs
    told = [("crop", crop_words(season.guide, needs.crop)), *_raising_words(needs, say_c)]
    if row.sowing is not None and row.sowing.set_out is not None:
        told.append(("set out", spread_words(row.sowing.set_out)))
    if row.latest is not None:
        told.append((f"latest day that keeps {chance_words(plan.rules.odds)}", day_words(row.latest)))
    elif row.sowing is not None:
        told.append((f"latest day that keeps {chance_words(plan.rules.odds)}", "none does"))
    rule = (
        "The weeks indoors are counted back from the usual first day of nights that stay warm enough, which "
        "had come in half the years. They run from sowing in good warmth, coming up and hardening included; "
        "what coming up takes longer in your mix is added. The window ends no later than the last day that "
        "keeps the odds you want."
    )
    return Why(_window_words(row.window), rule, tuple(told), _raising_sources(season, needs))


def odds_why(season: Season, plan: Plan, row: PlanRow, say_c: SayC = in_celsius) -> Why | None:
    """Return how the odds of a row came about, or None where there are none."""
    needs, sowing = row.needs, row.sowing
    if sowing is None or needs.heat_need is None or plan.chart is None:
        return None
    years = plan.chart.years
    told = [
        ("sown", day_words(sowing.on)),
        ("fit to be set out", day_words(sowing.ready)),
        *_heat_words(season, needs, say_c),
        (f"nights at or above {say_c(needs.floor_c)}", f"{needs.run_nights} running"),
        *((name, spread_words(spread)) for name, spread in _spreads(row, say_c)),
        ("years counted", f"{len(years)}, {years[0]} to {years[-1]}"),
        ("so the chance lies", f"between {_percent(sowing.odds)} (95 % score interval)"),
    ]
    rule = (
        "Each year of the record is played: plants go out on the first day, not before they are ready, from "
        "which nights stay warm enough; heat is gathered from then on; they are ripe on the day it reaches "
        f"the need, if that comes before the first night at or below {say_c(needs.killing_c)}. "
        f"{_heat_rule(needs)}"
    )
    sources = [MCMASTER, WILSON, *_raising_sources(season, needs)]
    if needs.ripe is not None and needs.ripe.own is not None:
        sources.append(GELMAN)
    if needs.heat is not COOL:
        sources.insert(1, FAO_PEPPER)
    crop = crop_of(season.guide, needs.crop)
    if not needs.ripe_on_label and crop is not None and crop.days_to_pick is not None:
        sources.append(cite(crop.days_to_pick))
    return Why(f"Ripe in {sowing.odds.words}", rule, tuple(told), tuple(dict.fromkeys(sources)))


def seeds_why(season: Season, row: PlanRow, today: date) -> Why | None:
    """Return how many seeds a row takes and why, or None without a packet worth sowing."""
    need = row.seeds
    expected = germination(season, need.packet, today) if need else None
    if need is None or expected is None:
        return None
    told = [
        ("plants wanted", str(need.plants)),
        ("of the packet", share_words(expected)),
        ("left of that by the mix's warmth", chance_words(need.warm)),
        ("seedlings that live to be set out", chance_words(need.lives)),
        ("seeds a cell", str(need.a_cell)),
        ("cells expected to stay bare", f"{need.blanks:.1f} of {need.cells}"),
        ("how sure", chance_words(need.confidence)),
        ("were the packet as good, or as bad, as it may be", f"{need.fewest} or {need.most} seeds"),
        ("seeds left", "not counted" if need.left is None else str(need.left)),
    ]
    if not need.enough:
        told.append(("how sure with the seeds left", chance_words(need.sure)))
    rule = (
        "The fewest cells that give the plants wanted as surely as you asked, each filling by itself: a cell "
        "is blank if none of its seeds comes up. Seeds go singly while two cells in three fill, or where the "
        "packet holds too few, and in twos and threes for poorer seed."
    )
    return Why(f"{need.seeds} seeds in {many(need.cells, 'cell')}", rule, tuple(told), (BINOMIAL, NURSERY))


def frosts_why(season: Season, row: PlanRow, say_c: SayC = in_celsius) -> Why | None:
    """Return how the dates of a row came about without a weather record, or None where they did not so."""
    told, needs = row.frosts, row.needs
    if told is None:
        return None
    inputs = [
        ("sown", day_words(told.on)),
        *_raising_words(needs, say_c),
        ("set out", day_words(told.set_out)),
        ("days to ripe", f"{needs.days_to_ripe:.0f}"),
        ("usual first frost", day_words(told.end)),
        ("days to spare", str(told.spare_days)),
    ]
    rule = (
        f"Tender plants go out {AFTER_LAST_FROST_DAYS} days after the usual last frost, hardy ones "
        f"{BEFORE_LAST_FROST_DAYS} days before it; days to ripe are counted from there as they stand. With "
        f"{ONE_YEAR_IN_TEN_DAYS} days to spare it ripens in most years, for a frost comes about so much "
        "earlier in one of ten. How warm the summer is, is not in it: a weather record would tell."
    )
    figure = f"Ripe {day_words(told.ripe)}, {told.verdict}"
    return Why(figure, rule, tuple(inputs), _raising_sources(season, needs))


def spread_words(spread: Spread) -> str:
    """Return a spread in words: 28 May (19 May to 9 June, in 33 years)."""
    ends = f"{day_words(spread.early)} to {day_words(spread.late)}"
    return f"{day_words(spread.usual)} ({ends} in eight of ten; {many(spread.years, 'year')})"


def pace_words(pace: Learned) -> str:
    """Return what own sowings make of the guide's days: 1.2 times the guide's days, and of how many."""
    if pace.own is None:
        return "none of your own yet"
    return (
        f"{pace.own:.2f} times the guide's days over {many(pace.seeds, 'seedling')}; "
        f"{pace.figure:.2f} is taken ({pace.low:.2f} to {pace.high:.2f})"
    )


def ripe_words(ripe: Learned | None) -> str:
    """Return what own picks make of the heat to ripe, and of how many plants."""
    if ripe is None or ripe.own is None:
        return "none of your own yet"
    plants = many(ripe.seeds, "plant")
    return (
        f"{ripe.own:.0f} °C·d over {plants}; {ripe.figure:.0f} is taken ({ripe.low:.0f} to {ripe.high:.0f})"
    )


def _window_words(window: Span | None) -> str:
    if window is None:
        return "No sowing window can be told"
    return f"Sow between {day_words(window.first)} and {day_words(window.last)}"


def _raising_words(needs: Needs, say_c: SayC) -> list[tuple[str, str]]:
    weeks = f"{needs.weeks.low:g} to {needs.weeks.high:g}"
    mix = "not known; the warmth it likes best is taken" if needs.mix_c is None else say_c(needs.mix_c)
    if needs.unfit:
        mix += "; none is known to come up in that, so the warmth it likes best is taken"
    return [
        ("weeks from sowing to setting out", weeks if needs.weeks_known else f"{weeks}, not in the guide"),
        ("temperature of the mix", mix),
        ("half up", f"day {needs.days_up:.0f} (day {needs.best_days:.0f} in the best warmth by the guide)"),
        ("your own sowings", pace_words(needs.pace)),
        ("days from sowing to setting out", str(needs.days_to_ready)),
        ("hardening, the last of them", many(needs.hardening_days, "day")),
    ]


def _heat_words(season: Season, needs: Needs, say_c: SayC) -> list[tuple[str, str]]:
    if needs.days_to_ripe is None:
        return []
    days, over = f"{needs.days_to_ripe:.0f} from setting out", f" over {say_c(needs.heat.base_c)}"
    said = "the packet" if needs.ripe_on_label else f"the guide for {crop_words(season.guide, needs.crop)}"
    told = [
        ("days to ripe", f"{days}, by {said}"),
        ("a stated day is worth", f"{needs.heat.a_day:.1f} °C·d, as at {_day_words(needs, say_c)}"),
        ("heat to ripe", f"{needs.days_to_ripe * needs.heat.a_day:.0f} °C·d{over}"),
        ("your own picks", ripe_words(needs.ripe)),
    ]
    if needs.ripe is not None and needs.ripe.own is not None:
        told.append(("heat to ripe, together", f"{needs.heat_need:.0f} °C·d{over}"))
    return told


def _day_words(needs: Needs, say_c: SayC) -> str:
    return f"{say_c(needs.heat.day_c)} by day and {say_c(needs.heat.night_c)} by night"


def _heat_rule(needs: Needs) -> str:
    return (
        "Packets state days, not heat: a working rule of this program makes heat of them by the warmth in "
        "which such days are counted. Whoever grows in a cooler summer needs more days for the same heat. "
        "Your own ripe picks from beds correct it, as far as they bear it out."
        if needs.heat is not COOL
        else "Packets state days, not heat: a working rule of this program makes heat of them."
    )


def _spreads(row: PlanRow, say_c: SayC) -> list[tuple[str, Spread]]:
    sowing = row.sowing
    if sowing is None:
        return []
    cold = f"first night at or below {say_c(row.needs.killing_c)}"
    named = [("set out", sowing.set_out), ("ripe, where it was", sowing.ripe), (cold, sowing.end)]
    return [(name, spread) for name, spread in named if spread is not None]


def _percent(odds: Odds) -> str:
    return f"{odds.low * 100:.0f} and {odds.high * 100:.0f} %"


def _raising_sources(season: Season, needs: Needs) -> tuple[str, ...]:
    crop = crop_of(season.guide, needs.crop)
    if crop is None:
        return ()
    cited = (crop.weeks_indoors, crop.days_to_emerge or crop.emergence_days, crop.night_floor_c)
    return tuple(dict.fromkeys(cite(one) for one in cited if one is not None))
