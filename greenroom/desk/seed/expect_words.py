"""What is to be expected of a packet, in the rows and sentences beside the table."""

from __future__ import annotations

from datetime import date, timedelta

from greenroom.season.coming_up import ComingUp, warmth_words
from greenroom.season.germination import Expected, Tally
from greenroom.season.home_tests import home_tests_of
from greenroom.season.lots import half_day
from greenroom.season.own_sowings import TraySowing, tray_sowings
from greenroom.season.packets import PacketView
from greenroom.season.ripe_learning import Ripening
from greenroom.season.sprouting import chance_words
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC
from greenroom.season.weekdays import dated_words
from greenroom.season.within import opening
from greenroom.speech import many, tr, trn

NONE = "–"
OWN, GUIDE, TOGETHER = tr("Own", sense="of the grower"), tr("Guide"), tr("Together")
WHOLE = 0.05
MOST_TRAYS = 6
Rows = list[tuple[str, str, str]]


def packet_words(view: PacketView, today: date) -> str:
    """Return lot, age and what is left in one line."""
    fact = view.packet
    words = [tr("lot {lot}", lot=fact.lot)] if fact.lot else []
    if fact.packed is not None:
        age = many(max(0, today.year - fact.packed), "year")
        words.append(tr("packed {year}, {age} old", year=fact.packed, age=age))
    if view.left is None or fact.seeds is None:
        words.append(tr("seeds not counted"))
    else:
        words.append(tr("{left:,} of {total:,} seeds left", left=view.left, total=fact.seeds))
    text = " · ".join(words)
    return opening(text)


def share_rows(season: Season, expected: Expected) -> Rows:
    """Return the parts that an expected share is made of, each with the seeds it counts for."""
    prior = expected.prior
    label = NONE if expected.label is None else chance_words(expected.label)
    said = tr("{share} is taken", share=chance_words(prior.share)) if expected.label is None else ""
    rows = [(tr("On the label"), label, said)]
    counts = trn("counts as 1 seed", "counts as {n} seeds", round(prior.weight))
    if prior.age:
        rows.append((tr("After {years}", years=many(prior.age, "year")), chance_words(prior.share), counts))
    else:
        rows[0] = (*rows[0][:2], ", ".join(one for one in (said, counts) if one))
    tests = home_tests_of(season, expected.packet)
    running = sum(not test.over for test in tests)
    waiting = tr("{tests} not over yet", tests=many(running, "test")) if running else tr("no test yet")
    rows.append((tr("Tests at home"), *_tally_words(expected.tested, waiting)))
    rows.append((tr("Own sowings"), *_tally_words(expected.sown, tr("none that had time to show"))))
    rows.append((TOGETHER, chance_words(expected.share), tr("nine times in ten within the range above")))
    return rows


def law_words(expected: Expected) -> str:
    """Return how a packet stands beside the least germination of seed for sale; empty without one."""
    if expected.least is None or expected.below is None:
        return ""
    chance = chance_words(expected.below)
    return tr(
        "▴ The seed law asks {least} of such seed for sale; the chance that this packet lies below is "
        "{chance}.",
        least=chance_words(expected.least),
        chance=chance,
    )


def sowing_words(season: Season, packet: str, today: date, say_c: SayC) -> str:
    """Return what each tray showed, the latest first, a line a tray, and how many more there are."""
    trays = sorted((tray for tray in tray_sowings(season, packet, today) if tray.seeds), key=_age)
    lines = [_tray_words(season, tray, today, say_c) for tray in trays[:MOST_TRAYS]]
    if len(trays) > MOST_TRAYS:
        lines.append(tr("and {sowings}", sowings=many(len(trays) - MOST_TRAYS, "earlier sowing")))
    return "\n".join(lines)


def days_rows(found: ComingUp, say_c: SayC) -> Rows:
    """Return the guide's days, the grower's own and the two together."""
    guide = found.guide
    warm = tr(
        "{early:.0f} to {late:.0f}, at {warmth}, {origin}",
        early=guide.early,
        late=guide.late,
        warmth=say_c(found.mix_c),
        origin=warmth_words(found),
    )
    own = (OWN, NONE, tr("none half up yet"))
    if found.own is not None:
        seedlings = many(found.factor.seeds, "seedling")
        own = (OWN, _day(found.own), tr("of {seedlings} of this lot", seedlings=seedlings))
    return [
        (GUIDE, _day(guide.days), warm),
        own,
        (TOGETHER, _day(found.days), _ends(found.low, found.high)),
    ]


def ripe_rows(found: Ripening) -> Rows:
    """Return days to ripe as stated, of the grower's own plants and together, in days of one warmth."""
    learned, a_day = found.learned, found.heat.a_day
    said = tr("Packet") if found.on_label else GUIDE
    own = (OWN, NONE, _no_heat_words(found))
    if learned.own is not None:
        plants = many(learned.seeds, "plant")
        heat = tr("of {plants} by their heat, {heat:.0f} °C·d", plants=plants, heat=learned.own)
        own = (OWN, _days(learned.own / a_day), heat)
    return [
        (said, _days(learned.guide / a_day), tr("from setting out, {heat:.0f} °C·d", heat=learned.guide)),
        own,
        (TOGETHER, _days(learned.figure / a_day), _ends(learned.low / a_day, learned.high / a_day)),
    ]


def _day(number: float) -> str:
    return tr("day {day:.0f}", day=number)


def _days(number: float) -> str:
    return tr("{days:.0f} days", days=number)


def _ends(low: float, high: float) -> str:
    return tr("{low:.0f} to {high:.0f}, nine times in ten", low=low, high=high)


def _no_heat_words(found: Ripening) -> str:
    if found.own_days is None:
        return tr("no plant of a bed picked ripe yet")
    return tr("{days:.0f} days by the calendar; no weather record tells their heat", days=found.own_days)


def _tally_words(tally: Tally, none: str) -> tuple[str, str]:
    if not tally.tried:
        return NONE, none
    share = chance_words(tally.came / tally.tried)
    if abs(tally.tried - round(tally.tried)) < WHOLE:
        return share, tr("{came} of {tried:.0f} came up", came=tally.came, tried=tally.tried)
    return share, tr(
        "{came} of {tried:.1f}, less those the warmth kept down", came=tally.came, tried=tally.tried
    )


def _tray_words(season: Season, tray: TraySowing, today: date, say_c: SayC) -> str:
    made = season.holder(tray.holder)
    sown_on = today - timedelta(days=_age(tray))
    up = sum(seed.up for seed in tray.seeds)
    half = half_day(tray.seeds, up / len(tray.seeds)) if up else None
    when = f"{made.name}, {dated_words(sown_on)}"
    if tray.mix_c is not None:
        when = tr("{sowing} at {warmth}", sowing=when, warmth=say_c(tray.mix_c))
    words = tr("{sowing}: {up} of {seeds} up", sowing=when, up=up, seeds=len(tray.seeds))
    return tr("{sprouted}, half of those by day {day:.0f}", sprouted=words, day=half) if half else words


def _age(tray: TraySowing) -> int:
    return max((seed.age for seed in tray.seeds), default=0)
