"""What is to be expected of a packet, in the rows and sentences beside the table."""

from __future__ import annotations

from datetime import date, timedelta

from greenroom.season.coming_up import ComingUp, warmth_words
from greenroom.season.germination import Expected, Tally
from greenroom.season.hardening_words import day_words
from greenroom.season.home_tests import home_tests_of
from greenroom.season.lots import half_day
from greenroom.season.own_sowings import TraySowing, tray_sowings
from greenroom.season.packets import PacketView
from greenroom.season.ripe_learning import Ripening
from greenroom.season.sprouting import SayC, chance_words
from greenroom.season.state import Season
from greenroom.speech import many

NONE = "–"
WHOLE = 0.05
MOST_TRAYS = 6
Rows = list[tuple[str, str, str]]


def packet_words(view: PacketView, today: date) -> str:
    """Return lot, age and what is left in one line."""
    fact = view.packet
    words = [f"lot {fact.lot}"] if fact.lot else []
    if fact.packed is not None:
        words.append(f"packed {fact.packed}, {many(max(0, today.year - fact.packed), 'year')} old")
    if view.left is None or fact.seeds is None:
        words.append("seeds not counted")
    else:
        words.append(f"{view.left:,} of {fact.seeds:,} seeds left")
    text = " · ".join(words)
    return text[0].upper() + text[1:]


def share_rows(season: Season, expected: Expected) -> Rows:
    """Return the parts that an expected share is made of, each with the seeds it counts for."""
    prior = expected.prior
    label = NONE if expected.label is None else chance_words(expected.label)
    said = f"{chance_words(prior.share)} is taken" if expected.label is None else ""
    rows = [("On the label", label, said)]
    counts = f"counts as {prior.weight:.0f} seeds"
    if prior.age:
        rows.append((f"After {many(prior.age, 'year')}", chance_words(prior.share), counts))
    else:
        rows[0] = (*rows[0][:2], ", ".join(one for one in (said, counts) if one))
    tests = home_tests_of(season, expected.packet)
    running = sum(not test.over for test in tests)
    waiting = f"{many(running, 'test')} not over yet" if running else "no test yet"
    rows.append(("Tests at home", *_tally_words(expected.tested, waiting)))
    rows.append(("Own sowings", *_tally_words(expected.sown, "none that had time to show")))
    rows.append(("Together", chance_words(expected.share), "nine times in ten within the range above"))
    return rows


def law_words(expected: Expected) -> str:
    """Return how a packet stands beside the least germination of seed for sale; empty without one."""
    if expected.least is None or expected.below is None:
        return ""
    chance = chance_words(expected.below)
    return (
        f"▴ The seed law asks {chance_words(expected.least)} of such seed for sale; the chance that this "
        f"packet lies below is {chance}."
    )


def sowing_words(season: Season, packet: str, today: date, say_c: SayC) -> str:
    """Return what each tray showed, the latest first, a line a tray, and how many more there are."""
    trays = sorted((tray for tray in tray_sowings(season, packet, today) if tray.seeds), key=_age)
    lines = [_tray_words(season, tray, today, say_c) for tray in trays[:MOST_TRAYS]]
    if len(trays) > MOST_TRAYS:
        lines.append(f"and {many(len(trays) - MOST_TRAYS, 'earlier sowing')}")
    return "\n".join(lines)


def days_rows(found: ComingUp, say_c: SayC) -> Rows:
    """Return the guide's days, the grower's own and the two together."""
    guide = found.guide
    warm = f"{guide.early:.0f} to {guide.late:.0f}, at {say_c(found.mix_c)}, {warmth_words(found)}"
    own = ("Own", NONE, "none half up yet")
    if found.own is not None:
        own = ("Own", f"day {found.own:.0f}", f"of {many(found.factor.seeds, 'seedling')} of this lot")
    together = f"{found.low:.0f} to {found.high:.0f}, nine times in ten"
    return [
        ("Guide", f"day {guide.days:.0f}", warm),
        own,
        ("Together", f"day {found.days:.0f}", together),
    ]


def ripe_rows(found: Ripening) -> Rows:
    """Return days to ripe as stated, of the grower's own plants and together, in days of one warmth."""
    learned, a_day = found.learned, found.heat.a_day
    said = "Packet" if found.on_label else "Guide"
    own = ("Own", NONE, _no_heat_words(found))
    if learned.own is not None:
        plants = many(learned.seeds, "plant")
        own = ("Own", f"{learned.own / a_day:.0f} days", f"of {plants} by their heat, {learned.own:.0f} °C·d")
    ends = f"{learned.low / a_day:.0f} to {learned.high / a_day:.0f}, nine times in ten"
    return [
        (said, f"{learned.guide / a_day:.0f} days", f"from setting out, {learned.guide:.0f} °C·d"),
        own,
        ("Together", f"{learned.figure / a_day:.0f} days", ends),
    ]


def _no_heat_words(found: Ripening) -> str:
    if found.own_days is None:
        return "no plant of a bed picked ripe yet"
    return f"{found.own_days:.0f} days by the calendar; no weather record tells their heat"


def _tally_words(tally: Tally, none: str) -> tuple[str, str]:
    if not tally.tried:
        return NONE, none
    share = chance_words(tally.came / tally.tried)
    if abs(tally.tried - round(tally.tried)) < WHOLE:
        return share, f"{tally.came} of {tally.tried:.0f} came up"
    return share, f"{tally.came} of {tally.tried:.1f}, less those the warmth kept down"


def _tray_words(season: Season, tray: TraySowing, today: date, say_c: SayC) -> str:
    made = season.holder(tray.holder)
    sown_on = today - timedelta(days=_age(tray))
    warm = f" at {say_c(tray.mix_c)}" if tray.mix_c is not None else ""
    up = sum(seed.up for seed in tray.seeds)
    half = half_day(tray.seeds, up / len(tray.seeds)) if up else None
    pace = f", half of those by day {half:.0f}" if half else ""
    day = f"{day_words(sown_on)} {sown_on.year}"
    return f"{made.name}, {day}{warm}: {up} of {len(tray.seeds)} up{pace}"


def _age(tray: TraySowing) -> int:
    return max((seed.age for seed in tray.seeds), default=0)
