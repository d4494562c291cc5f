"""Why fruit is looked for on a day, and what the figures of a harvest are made of."""

from __future__ import annotations

from greenroom.ledger.facts import Variety
from greenroom.season.crops import cite, crop_of
from greenroom.season.hardening_words import day_words
from greenroom.season.picking import Harvest, Yield
from greenroom.season.picking_ahead import PICK_EVERY_DAYS, RipeAhead, RipeDays
from greenroom.season.ripe_learning import Ripening
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import many

KILO = 1000.0

HEAT_FROM = (
    "McMaster, G. S., Wilhelm, W. W. 1997. Growing degree-days: one equation, two interpretations. "
    "Agricultural and Forest Meteorology 87: 291-300."
)
LEARNED_FROM = "Gelman, A. et al. 2013. Bayesian Data Analysis, 3rd ed., section 2.5 (own picks brought in)."
QUANTILE_FROM = (
    "Hyndman, R. J. and Fan, Y. 1996. Sample quantiles in statistical packages. The American Statistician "
    "50(4): 361-365 (type 1: the first day that so many cases had reached)."
)
ODDS_FROM = (
    "Wilson, E. B. 1927. Journal of the American Statistical Association 22: 209-212 (band of the odds)."
)
OFTEN_FROM = (
    "Every five days: common practice, no source. HortScience 31: 345 (1996) found the other way about that "
    "one late picking gave half as much again of marketable fruit as several."
)

AHEAD_RULE = (
    "Heat is gathered from the day of setting out: of the days that record and forecast tell by what they "
    "tell, of those after them as each year of your record had them. It is ripe on the day the heat reaches "
    "the need, if no killing night comes before. The need is spread as far as label and own picks leave it "
    "open: nine likely needs in each year, and of all those cases one in ten is ripe by the early day, half "
    "by the middle one, nine in ten by the late one."
)
PLAN_RULE = (
    "Not set out yet, so this is the plan's: set out when the nights are warm enough in each year of your "
    "record, ripe when the heat reaches the need. One year in ten by the early day, half by the middle one, "
    "nine in ten by the late one; years in which frost comes first come to none of them."
)
STATED_RULE = (
    "There is no weather record, so no heat can be gathered: the day of setting out and the days to ripe as "
    "stated, in average warmth. Bring a record in at The place to see how far it may lie off."
)
FROSTS_RULE = (
    "Not set out yet and no weather record: the usual last frost, the days until nights are warm, and the "
    "days to ripe as stated."
)
SHARE_RULE = (
    "Everything picked of a variety in a season, whatever place was told, over the plants of it that stood "
    "in beds, those that died among them. A square metre is their share of the bed: its length times its "
    "width over its positions. Fruit that were not weighed count as the others of the season weighed."
)
LEARNED_RULE = (
    "The stated heat need counts as one opinion, your own plants of each season as another; the more plants "
    "and seasons, the nearer the result lies to yours. Next year's plan reckons with the result."
)


def ahead_why(season: Season, one: RipeAhead) -> Why | None:
    """Return why a variety is expected ripe when it is; None where nothing is expected."""
    days = one.days
    if days is None:
        return None
    if one.lot is None:
        return _planned_why(one, days)
    inputs = [("set out", f"{day_words(one.lot.out)}, {many(len(one.lot.spots), 'plant')}")]
    inputs += _need_lines(one.ripening)
    if days.gathered is not None and days.known_to is not None:
        inputs.append(("gathered by today", f"{days.gathered:.0f} °C·d"))
        inputs.append(("weather told to", day_words(days.known_to)))
    inputs += _day_lines(days)
    inputs += _flower_lines(season, one)
    if days.odds is None:
        return Why(f"{one.name}, {one.lot.bed}: {ripe_words(one)}", STATED_RULE, tuple(inputs))
    sources = (HEAT_FROM, LEARNED_FROM, QUANTILE_FROM, ODDS_FROM)
    return Why(f"{one.name}, {one.lot.bed}: {ripe_words(one)}", AHEAD_RULE, tuple(inputs), sources)


def due_why(one: RipeAhead) -> Why:
    """Return why a variety is next looked over when it is."""
    last = max((fact.day for fact in one.picks), default=None)
    told = day_words(last) if last is not None else "none yet"
    rule = (
        f"{PICK_EVERY_DAYS} days after the last pick, whatever its colour; before the first one, when half "
        "of the cases are ripe. A plant that is picked sets more; fruit left to ripen on it holds the next "
        "back."
    )
    due = day_words(one.due) if one.due is not None else "not known"
    return Why(f"Look over {one.name}: {due}", rule, (("last picked", told),), (OFTEN_FROM,))


def harvest_why(one: Harvest) -> Why:
    """Return what the figures of a variety in a season are made of."""
    inputs = [
        ("fruit picked", f"{one.picked.count:,} in {many(one.picked.picks, 'pick')}"),
        ("weighed", f"{one.picked.weighed:,} fruit, {weight_words(one.picked.grams)}"),
        ("plants", "not known" if one.plants is None else f"{one.plants}"),
        ("share of the beds", "not measured" if one.m2 is None else f"{one.m2:.2f} m²"),
        ("a plant", _or_none(one.grams_a_plant)),
        ("a square metre", _or_none(one.grams_a_m2)),
    ]
    return Why(f"{one.name} {one.year}: {yield_words(one.picked)}", SHARE_RULE, tuple(inputs))


def learned_why(name: str, ripening: Ripening) -> Why:
    """Return how far own picks moved the heat that next year's plan reckons with."""
    learned = ripening.learned
    inputs = [
        ("stated", f"{learned.guide:.0f} °C·d, {'on the packet' if ripening.on_label else 'by the guide'}"),
        ("a stated day counts", f"{ripening.heat.a_day:g} °C·d"),
    ]
    if learned.own is not None:
        inputs.append(("your own", f"{learned.own:.0f} °C·d over {many(learned.seeds, 'plant')}"))
    inputs += [
        (f"set out {day_words(plant.set_out)} {plant.set_out.year}", _plant_words(plant.days, plant.heat))
        for plant in ripening.plants
    ]
    inputs.append(("nine times in ten", f"{learned.low:.0f} to {learned.high:.0f} °C·d"))
    figure = f"{name}: {learned.figure:.0f} °C·d to ripe"
    return Why(figure, LEARNED_RULE, tuple(inputs), (LEARNED_FROM, HEAT_FROM))


def ripe_words(one: RipeAhead) -> str:
    """Return when a variety is ripe, in words: "ripe about 24 July"."""
    if one.first_ripe is not None:
        return f"ripe since {day_words(one.first_ripe)}"
    days = one.days
    if days is None:
        return "days to ripe not known" if one.ripening is None else "set out in another season"
    if days.killed_on is not None:
        return f"ended by frost on {day_words(days.killed_on)}"
    if days.usual is None:
        return "frost comes first in most cases"
    return f"ripe about {day_words(days.usual)}"


def span_words(days: RipeDays) -> str:
    """Return the spread in words: "8 July to 2 August", or from when on where frost may come first."""
    if days.early is None:
        return ""
    if days.late is None:
        return f"from {day_words(days.early)}; frost comes first in over one case in ten"
    return f"{day_words(days.early)} to {day_words(days.late)}"


def weight_words(grams: float) -> str:
    """Return a weight: grams below a kilogram, else kilograms."""
    return f"{grams / KILO:,.2f} kg" if grams >= KILO else f"{grams:,.0f} g"


def yield_words(picked: Yield) -> str:
    """Return what some picks come to: "34 fruit, about 1.20 kg"."""
    fruit = f"{picked.count:,} fruit"
    if picked.whole_grams is None:
        return fruit
    return f"{fruit}, {'about ' if picked.estimated else ''}{weight_words(picked.whole_grams)}"


def _planned_why(one: RipeAhead, days: RipeDays) -> Why:
    row, inputs = one.row, list[tuple[str, str]]()
    if row is not None:
        inputs.append(("sown" if row.sown else "to be sown", day_words(row.on)))
        if row.sowing is not None:
            inputs.append(("set out, usually", day_words(row.sowing.set_out_on)))
    inputs += [*_need_lines(one.ripening), *_day_lines(days)]
    if days.odds is None:
        return Why(f"{one.name}: {ripe_words(one)}", FROSTS_RULE, tuple(inputs))
    sources = (HEAT_FROM, LEARNED_FROM, QUANTILE_FROM, ODDS_FROM)
    return Why(f"{one.name}: {ripe_words(one)}", PLAN_RULE, tuple(inputs), sources)


def _need_lines(ripening: Ripening | None) -> list[tuple[str, str]]:
    if ripening is None:
        return []
    need = ripening.learned
    own = f", {many(need.seeds, 'own plant')} in it" if need.seeds else ", as stated"
    counted = f"between {ripening.heat.base_c:g} and {ripening.heat.cap_c:g} °C"
    return [
        ("heat it needs", f"{need.figure:.0f} °C·d{own}"),
        ("nine times in ten", f"{need.low:.0f} to {need.high:.0f} °C·d"),
        ("heat counts", counted),
    ]


def _day_lines(days: RipeDays) -> list[tuple[str, str]]:
    lines = []
    if days.odds is not None:
        shown = (("one in ten by", days.early), ("half by", days.usual), ("nine in ten by", days.late))
        lines += [(name, day_words(day) if day else "frost comes first") for name, day in shown]
        lines.append(("before the killing night", f"in {days.odds.words}"))
        lines.append(("so the chance is", f"{days.odds.low * 100:.0f} to {days.odds.high * 100:.0f} %"))
    return lines


def _flower_lines(season: Season, one: RipeAhead) -> list[tuple[str, str]]:
    """Return the first flower, and the guide's days from it to ripe fruit, for the grower to compare."""
    if one.flowered is None:
        return []
    fact = season.thing(Variety, one.variety)
    crop = crop_of(season.guide, fact.crop) if fact else None
    lines = [("first flower", day_words(one.flowered))]
    span = crop.flower_to_ripe_days if crop is not None else None
    if span is not None:
        lines.append(("flower to ripe, by the guide", f"{span.value.low:g} to {span.value.high:g} days"))
        lines.append(("that from", cite(span)))
    return lines


def _or_none(grams: float | None) -> str:
    return "not known" if grams is None else weight_words(grams)


def _plant_words(days: int, heat: float | None) -> str:
    return f"{days} days, {'weather not known' if heat is None else f'{heat:.0f} °C·d'}"
