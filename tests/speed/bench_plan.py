"""Time the season plan: 80 varieties on 40 years, and one sowing date dragged across the chart.

    python -m tests.speed.bench_plan

Prints the time of a plan made from nothing, of one made anew after a change, and of each step of a drag,
beside a bare pass over the same years for one variety. Fails if a step takes longer than a hand waits.
"""

import datetime as dt
import statistics
import sys
import time

import scipy.special  # noqa: F401 its import is not what is timed

from greenroom.guide import load_guide
from greenroom.ledger import Act, Change, Entry
from greenroom.ledger.facts import (
    HolderMade,
    HolderPlaced,
    Packet,
    PlaceSet,
    SowingPlanned,
    Sown,
    Sprouted,
    Variety,
    Wanted,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season.plan import plan_of
from greenroom.season.plan_help import shortfall
from greenroom.season.state import Season
from tests.speed.bench_odds import by_year, record, ripens

VARIETIES, YEAR = 80, 2027
LIMIT_MS = 50.0
STEPS = 200
CROPS = (
    "bell",
    "jalapeno",
    "cayenne",
    "habanero",
    "superhot",
    "aji",
    "small-aji",
    "rocoto",
    "tomato",
    "sauce-pepper",
)
TODAY = dt.date(2027, 1, 10)


def make_season(weather):
    """Return a season with a record, a tray and so many varieties wanted."""
    days = tuple(
        WeatherDay(day, low, high)
        for day, low, high in zip(
            weather.dates.tolist(), weather.tmin.tolist(), weather.tmax.tolist(), strict=True
        )
    )
    facts = [
        PlaceSet(day=TODAY, name="Bench", latitude=46.4, longitude=16.0, zone="Europe/Ljubljana"),
        WeatherRecord(day=TODAY, source="bench", days=days),
        HolderMade(day=TODAY, holder="t", name="Tray A", form="tray", rows=6, columns=12),
        HolderPlaced(day=TODAY, holder="t", mix_c=24.0),
    ]
    for number in range(VARIETIES):
        key, crop = f"v{number}", CROPS[number % len(CROPS)]
        facts += [
            Variety(day=TODAY, variety=key, name=f"Kind {number}", crop=crop, days_to_ripe=75 + 2 * number),
            Packet(day=TODAY, packet=f"p{number}", variety=key, packed=2026, seeds=30, germination=0.85),
            Wanted(day=TODAY, variety=key, year=YEAR, plants=4 + number % 6),
        ]
    return Season([Entry(number, number, fact) for number, fact in enumerate(facts, 1)], guide=load_guide())


def choose(season, number, on):
    """Take in that a sowing day was chosen, as the window does when the hand lets go."""
    act = Act(number, "do", "chose", dt.datetime(2027, 1, 10, tzinfo=dt.UTC), "UTC", "bench")
    fact = SowingPlanned(day=TODAY, variety="v3", year=YEAR, on=on)
    season.take(Change(act, (Entry(number, number, fact),)))


def sprout(season, number):
    """Take in that a seed was sown and came up, as a click on a cell does."""
    act = Act(number, "do", "marked", dt.datetime(2027, 1, 10, tzinfo=dt.UTC), "UTC", "bench")
    facts = (
        Sown(day=TODAY, holder="t", row=0, column=0, packet="p7"),
        Sprouted(day=TODAY, holder="t", row=0, column=0),
    )
    season.take(Change(act, tuple(Entry(number + n, number, fact) for n, fact in enumerate(facts))))


def timed(work):
    started = time.perf_counter()
    result = work()
    return result, (time.perf_counter() - started) * 1000


def main():
    weather = record()
    season = make_season(weather)
    plan, first_ms = timed(lambda: plan_of(season, YEAR, TODAY))
    print(f"{VARIETIES} varieties x {plan.years} years")
    print(f"plan from nothing: {first_ms:.0f} ms")
    days = [day for day in plan.chart.days if day.month in (1, 2, 3, 4)]
    varieties = plan.chart.varieties
    steps = [
        timed(lambda n=n: plan.chart.sown(varieties[n % VARIETIES], days[n % len(days)]))[1]
        for n in range(STEPS)
    ]
    worst, middle = max(steps), statistics.median(steps)
    print(f"one step of a drag: {middle:.2f} ms, worst of {STEPS} {worst:.2f} ms (limit {LIMIT_MS:.0f} ms)")
    choose(season, 10_000, days[40])
    _, again_ms = timed(lambda: plan_of(season, YEAR, TODAY))
    print(f"plan anew after the day is chosen: {again_ms:.0f} ms")
    sprout(season, 10_001)
    _, after_ms = timed(lambda: plan_of(season, YEAR, TODAY))
    print(f"plan anew after a seedling came up: {after_ms:.0f} ms")
    short = [row for row in plan.rows if row.short]
    _, help_ms = timed(lambda: [shortfall(season, plan, row, TODAY) for row in short])
    print(f"what would help {len(short)} that fall short: {help_ms:.0f} ms")
    ripener, on = plan.row(varieties[3]).needs.ripener, days[40]
    ready = on + dt.timedelta(days=ripener.days_to_ready)
    years = by_year(weather)
    slow, loop_ms = timed(
        lambda: sum(ripens(kept, ripener, ready.replace(year=y)) for y, kept in years.items())
    )
    odds = plan.chart.odds_on(varieties[3], on)
    print(f"a bare pass, day by day, for one: {loop_ms:.1f} ms, ratio {loop_ms / middle:.0f}")
    if slow != odds.ripe:
        sys.exit(f"The chart says {odds.words} and the loop {slow}.")
    if worst > LIMIT_MS:
        sys.exit(f"A step of the drag took {worst:.1f} ms; the limit is {LIMIT_MS:.0f} ms.")


if __name__ == "__main__":
    main()
