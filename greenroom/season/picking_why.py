"""Why fruit is looked for on a day, and what the figures of a harvest are made of."""

from __future__ import annotations

from greenroom.ledger.facts import Variety
from greenroom.season.citations import DEGREE_DAYS
from greenroom.season.crops import cite, crop_of
from greenroom.season.hardening_words import day_words
from greenroom.season.learning import Learned
from greenroom.season.picking import Harvest, Yield
from greenroom.season.picking_ahead import PICK_EVERY_DAYS, RipeAhead, RipeDays
from greenroom.season.ripe_learning import Ripening
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import figure, many, tr, trn

KILO = 1000.0

LEARNED_FROM = tr(
    "Gelman, A. et al. 2013. Bayesian Data Analysis, 3rd ed., section 2.5 (own picks brought in)."
)
QUANTILE_FROM = tr(
    "Hyndman, R. J. and Fan, Y. 1996. Sample quantiles in statistical packages. The "
    "American Statistician 50(4): 361-365 (type 1: the first day that so many cases had "
    "reached)."
)
ODDS_FROM = tr(
    "Wilson, E. B. 1927. Journal of the American Statistical Association 22: 209-212 (band of the odds)."
)
OFTEN_FROM = tr(
    "Every five days: common practice, no source. HortScience 31: 345 (1996) found the "
    "other way about that one late picking gave half as much again of marketable fruit "
    "as several."
)

AHEAD_RULE = tr(
    "Heat is gathered from the day of setting out: of the days that record and forecast "
    "tell by what they tell, of those after them as each year of your record had them. "
    "It is ripe on the day the heat reaches the need, if no killing night comes before. "
    "The need is spread as far as label and own picks leave it open: nine likely needs "
    "in each year, and of all those cases one in ten is ripe by the early day, half by "
    "the middle one, nine in ten by the late one."
)
PLAN_RULE = tr(
    "Not set out yet, so this is the plan's: set out when the nights are warm enough in "
    "each year of your record, ripe when the heat reaches the need. One year in ten by "
    "the early day, half by the middle one, nine in ten by the late one; years in which "
    "frost comes first come to none of them."
)
STATED_RULE = tr(
    "There is no weather record, so no heat can be gathered: the day of setting out and "
    "the days to ripe as stated, in average warmth. Bring a record in at The place to "
    "see how far it may lie off."
)
FROSTS_RULE = tr(
    "Not set out yet and no weather record: the usual last frost, the days until nights "
    "are warm, and the days to ripe as stated."
)
SHARE_RULE = tr(
    "Everything picked of a variety in a season, whatever place was told, over the "
    "plants of it that stood in beds, those that died among them. A square metre is "
    "their share of the bed: its length times its width over its positions. Fruit that "
    "were not weighed count as the others of the season weighed."
)
LEARNED_RULE = tr(
    "The stated heat need counts as one opinion, your own plants of each season as "
    "another; the more plants and seasons, the nearer the result lies to yours. Next "
    "year's plan reckons with the result."
)


def ahead_why(season: Season, one: RipeAhead) -> Why | None:
    """Return why a variety is expected ripe when it is; None where nothing is expected."""
    days = one.days
    if days is None:
        return None
    if one.lot is None:
        return _planned_why(one, days)
    inputs = [
        (
            tr("set out", sense="stage of a plant"),
            f"{day_words(one.lot.out)}, {many(len(one.lot.spots), 'plant')}",
        )
    ]
    inputs += _need_lines(one.ripening)
    if days.gathered is not None and days.known_to is not None:
        inputs.append((tr("gathered by today"), f"{figure(days.gathered, '.0f')} °C·d"))
        inputs.append((tr("weather told to"), day_words(days.known_to)))
    inputs += _day_lines(days)
    inputs += _flower_lines(season, one)
    if days.odds is None:
        return Why(_said(f"{one.name}, {one.lot.bed}", ripe_words(one)), STATED_RULE, tuple(inputs))
    sources = (DEGREE_DAYS, LEARNED_FROM, QUANTILE_FROM, ODDS_FROM)
    return Why(_said(f"{one.name}, {one.lot.bed}", ripe_words(one)), AHEAD_RULE, tuple(inputs), sources)


def due_why(one: RipeAhead) -> Why:
    """Return why a variety is next looked over when it is."""
    last = max((fact.day for fact in one.picks), default=None)
    told = day_words(last) if last is not None else tr("none yet")
    rule = tr(
        "{days} days after the last pick, whatever its colour; before the first "
        "one, when half of the cases are ripe. A plant that is picked sets more; fruit left "
        "to ripen on it holds the next back.",
        days=PICK_EVERY_DAYS,
    )
    due = day_words(one.due) if one.due is not None else tr("not known")
    return Why(
        tr("Look over {variety}: {day}", variety=one.name, day=due),
        rule,
        ((tr("last picked"), told),),
        (OFTEN_FROM,),
    )


def harvest_why(one: Harvest) -> Why:
    """Return what the figures of a variety in a season are made of."""
    inputs = [
        (
            tr("fruit picked"),
            tr("{count:,} in {picks}", count=one.picked.count, picks=many(one.picked.picks, "pick")),
        ),
        (
            tr("weighed"),
            tr(
                "{fruit}, {weight}",
                fruit=_fruit_words(one.picked.weighed),
                weight=weight_words(one.picked.grams),
            ),
        ),
        (tr("plants"), tr("not known") if one.plants is None else f"{one.plants}"),
        (tr("share of the beds"), tr("not measured") if one.m2 is None else f"{figure(one.m2, '.2f')} m²"),
        (tr("a plant"), _or_none(one.grams_a_plant)),
        (tr("a square metre"), _or_none(one.grams_a_m2)),
    ]
    return Why(_said(f"{one.name} {one.year}", yield_words(one.picked)), SHARE_RULE, tuple(inputs))


def learned_why(name: str, ripening: Ripening) -> Why:
    """Return how far own picks moved the heat that next year's plan reckons with."""
    learned = ripening.learned
    inputs = [
        (
            tr("stated"),
            tr("{heat:.0f} °C·d, on the packet", heat=learned.guide)
            if ripening.on_label
            else tr("{heat:.0f} °C·d, by the guide", heat=learned.guide),
        ),
        (tr("a stated day counts"), f"{figure(ripening.heat.a_day, 'g')} °C·d"),
    ]
    if learned.own is not None:
        inputs.append(
            (
                tr("your own"),
                tr("{heat:.0f} °C·d over {plants}", heat=learned.own, plants=many(learned.seeds, "plant")),
            )
        )
    inputs += [
        (
            tr("set out {day} {year}", day=day_words(plant.set_out), year=plant.set_out.year),
            _plant_words(plant.days, plant.heat),
        )
        for plant in ripening.plants
    ]
    inputs.append(
        (tr("nine times in ten"), tr("{low:.0f} to {high:.0f} °C·d", low=learned.low, high=learned.high))
    )
    said = tr("{variety}: {heat:.0f} °C·d to ripe", variety=name, heat=learned.figure)
    return Why(said, LEARNED_RULE, tuple(inputs), (LEARNED_FROM, DEGREE_DAYS))


def ripe_words(one: RipeAhead) -> str:
    """Return when a variety is ripe, in words: "ripe about 24 July"."""
    if one.first_ripe is not None:
        return tr("ripe since {day}", day=day_words(one.first_ripe))
    days = one.days
    if days is None:
        return tr("days to ripe not known") if one.ripening is None else tr("set out in another season")
    if days.killed_on is not None:
        return tr("ended by frost on {day}", day=day_words(days.killed_on))
    if days.usual is None:
        return tr("frost comes first in most cases")
    return tr("ripe about {day}", day=day_words(days.usual))


def span_words(days: RipeDays) -> str:
    """Return the spread in words: "8 July to 2 August", or from when on where frost may come first."""
    if days.early is None:
        return ""
    if days.late is None:
        return tr("from {day}; frost comes first in over one case in ten", day=day_words(days.early))
    return tr("{first} to {last}", first=day_words(days.early), last=day_words(days.late))


def weight_words(grams: float) -> str:
    """Return a weight: grams below a kilogram, else kilograms."""
    return f"{figure(grams / KILO, ',.2f')} kg" if grams >= KILO else f"{figure(grams, ',.0f')} g"


def yield_words(picked: Yield) -> str:
    """Return what some picks come to: "34 fruit, about 1.20 kg"."""
    fruit = _fruit_words(picked.count)
    if picked.whole_grams is None:
        return fruit
    weight = weight_words(picked.whole_grams)
    if picked.estimated:
        return tr("{fruit}, about {weight}", fruit=fruit, weight=weight)
    return tr("{fruit}, {weight}", fruit=fruit, weight=weight)


def _fruit_words(count: int) -> str:
    return trn("{n:,} fruit", "{n:,} fruit", count)


def _planned_why(one: RipeAhead, days: RipeDays) -> Why:
    row, inputs = one.row, list[tuple[str, str]]()
    if row is not None:
        inputs.append((tr("sown") if row.sown else tr("to be sown"), day_words(row.on)))
        if row.sowing is not None:
            inputs.append((tr("set out, usually"), day_words(row.sowing.set_out_on)))
    inputs += [*_need_lines(one.ripening), *_day_lines(days)]
    if days.odds is None:
        return Why(_said(one.name, ripe_words(one)), FROSTS_RULE, tuple(inputs))
    sources = (DEGREE_DAYS, LEARNED_FROM, QUANTILE_FROM, ODDS_FROM)
    return Why(_said(one.name, ripe_words(one)), PLAN_RULE, tuple(inputs), sources)


def _need_lines(ripening: Ripening | None) -> list[tuple[str, str]]:
    if ripening is None:
        return []
    need = ripening.learned
    counted = tr("between {low:g} and {high:g} °C", low=ripening.heat.base_c, high=ripening.heat.cap_c)
    return [
        (tr("heat it needs"), _need_words(need)),
        (tr("nine times in ten"), tr("{low:.0f} to {high:.0f} °C·d", low=need.low, high=need.high)),
        (tr("heat counts"), counted),
    ]


def _need_words(need: Learned) -> str:
    if not need.seeds:
        return tr("{heat:.0f} °C·d, as stated", heat=need.figure)
    return trn(
        "{heat:.0f} °C·d, {n:,} own plant in it",
        "{heat:.0f} °C·d, {n:,} own plants in it",
        need.seeds,
        heat=need.figure,
    )


def _day_lines(days: RipeDays) -> list[tuple[str, str]]:
    lines = []
    if days.odds is not None:
        shown = (
            (tr("one in ten by"), days.early),
            (tr("half by"), days.usual),
            (tr("nine in ten by"), days.late),
        )
        lines += [(name, day_words(day) if day else tr("frost comes first")) for name, day in shown]
        lines.append((tr("before the killing night"), tr("in {odds}", odds=days.odds.words)))
        lines.append(
            (
                tr("so the chance is"),
                tr("{low:.0f} to {high:.0f} %", low=days.odds.low * 100, high=days.odds.high * 100),
            )
        )
    return lines


def _flower_lines(season: Season, one: RipeAhead) -> list[tuple[str, str]]:
    """Return the first flower, and the guide's days from it to ripe fruit, for the grower to compare."""
    if one.flowered is None:
        return []
    fact = season.thing(Variety, one.variety)
    crop = crop_of(season.guide, fact.crop) if fact else None
    lines = [(tr("first flower"), day_words(one.flowered))]
    span = crop.flower_to_ripe_days if crop is not None else None
    if span is not None:
        lines.append(
            (
                tr("flower to ripe, by the guide"),
                tr("{low:g} to {high:g} days", low=span.value.low, high=span.value.high),
            )
        )
        lines.append((tr("that from"), cite(span)))
    return lines


def _or_none(grams: float | None) -> str:
    return tr("not known") if grams is None else weight_words(grams)


def _plant_words(days: int, heat: float | None) -> str:
    if heat is None:
        return tr("{days} days, weather not known", days=days)
    return tr("{days} days, {heat:.0f} °C·d", days=days, heat=heat)


def _said(name: str, words: str) -> str:
    """Return what is said of a thing behind its name."""
    return tr("{name}: {what}", name=name, what=words)
