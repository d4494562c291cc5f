"""Time the spread of a ready date on 40 years, and a plain loop. Run: python -m tests.speed.bench_ready

Prints the time of a first spread, of one with the record laid out, of the backward question and of a
ramp's whole history, and of a loop day by day for the same spread. Fails if the two disagree or a spread
takes longer than a grower should wait for.
"""

import sys
import time
from datetime import UTC, date, datetime, timedelta

import numpy as np

from greenroom.agronomy.hardening import HoldLimits, OutdoorRamp, Ramp
from greenroom.agronomy.two_clocks import BothStates, Clocks
from greenroom.ledger import Entry
from greenroom.ledger.facts import (
    HardeningStarted,
    HolderMade,
    OutingEnded,
    OutingStarted,
    PlaceSet,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season.outing_windows import day_windows
from greenroom.season.ready_history import spread_history
from greenroom.season.ready_spread import ready_spread, start_by
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks

YEARS = 40
LIMIT_MS = 50.0
REPEATS = 7
FIRST = date(2027, 5, 1)
TODAY = FIRST + timedelta(days=9)
NOW = datetime(2027, 5, 10, 6, tzinfo=UTC)
STEPS = (20, 30, 40, 55, 80, 110, 155, 215, 305)


def facts():
    """A tray half way up its ramp, and forty invented years."""
    random = np.random.default_rng(20260101)
    start = date(2027 - YEARS, 1, 1)
    days = (date(2027, 1, 1) - start).days
    wave = -np.cos(2 * np.pi * (np.arange(days) - 20) / 365.25)
    tmax = 15 + 11 * wave + random.normal(0, 5, days)
    rain, gust = random.gamma(0.3, 8, days), random.gamma(3, 2, days)
    rows = tuple(
        WeatherDay(start + timedelta(days=n), warm - 9, warm, wet, wind)
        for n, (warm, wet, wind) in enumerate(zip(tmax.tolist(), rain.tolist(), gust.tolist(), strict=True))
    )
    yield PlaceSet(day=start, name="Ridge Lane", latitude=46.4, longitude=16.0, zone="Europe/Ljubljana")
    yield WeatherRecord(day=FIRST, source="made up", days=rows)
    yield HolderMade(day=FIRST, holder="t", name="Tray", form="tray", rows=2, columns=3)
    yield HardeningStarted(day=FIRST, holder="t")
    for number, minutes in enumerate(STEPS):
        day = FIRST + timedelta(days=number)
        out = datetime(2027, 5, 1, 7, tzinfo=UTC) + timedelta(days=number)
        yield OutingStarted(day=day, outing=f"o{number}", holder="t", at=out)
        yield OutingEnded(day=day, outing=f"o{number}", holder="t", at=out + timedelta(minutes=minutes))


def looped(record, first, limits):
    """The ready dates, as one would write it first."""
    known = {row.day: row for row in record}
    dates = []
    for year in range(2027 - YEARS, 2027):
        step, running, day = 0, 0, first.replace(year=year)
        ready = None
        for number in range(60):
            row = known[day + timedelta(days=number)]
            if row.tmax_c < limits.cold_c or row.gust_ms >= limits.gust_m_s or row.rain_mm >= limits.rain_mm:
                step, running = (max(0, step - 1) if running else step), running + 1
            else:
                step, running = step + 1, 0
            if step == 11:
                ready = first + timedelta(days=number)
                break
        dates.append(ready)
    return tuple(sorted(dates, key=lambda one: one or date.max))


def timed(work):
    started = time.perf_counter()
    result = work()
    return result, (time.perf_counter() - started) * 1000


def fresh(told):
    return Season(Entry(number, 1, fact) for number, fact in enumerate(told, start=1))


def main():
    told = list(facts())
    record = next(one for one in told if isinstance(one, WeatherRecord)).days
    clocks, limits = Clocks(Ramp(), OutdoorRamp()), HoldLimits()

    def spread(season, first=FIRST):
        return ready_spread(season, clocks, BothStates(), first, {}, limits)

    seasons = [fresh(told) for _ in range(REPEATS)]
    cold = [timed(lambda season=season: spread(season)) for season in seasons]
    season = fresh(told)
    spread(season)
    warm = [timed(lambda n=n: spread(season, FIRST + timedelta(days=n))) for n in range(1, REPEATS + 1)]
    back = [
        timed(lambda n=n: start_by(season, clocks, FIRST + timedelta(days=60 + n), FIRST, {}, limits))
        for n in range(REPEATS)
    ]
    standing = [timed(lambda: two_clocks(season, "t", TODAY, NOW)) for _ in range(REPEATS)]
    stand = standing[0][0]
    history = timed(lambda: spread_history(season, stand))
    windows = [
        timed(lambda n=n: day_windows(season, TODAY + timedelta(days=n), 110, limits)) for n in range(REPEATS)
    ]
    loop = timed(lambda: looped(record, FIRST, limits))
    best = {
        "first spread, record laid out with it": min(ms for _, ms in cold),
        "a spread": min(ms for _, ms in warm),
        "start by, 61 starts": min(ms for _, ms in back),
        "both clocks of a tray, 9 outings": min(ms for _, ms in standing),
        f"history of {len(history[0])} days": history[1],
        "windows of a day": min(ms for _, ms in windows),
        "loop day by day, dictionary included": loop[1],
    }
    print(f"{YEARS} years, {len(record)} days; limit {LIMIT_MS:.0f} ms a spread")
    for name, ms in best.items():
        print(f"{name}: {ms:.2f} ms")
    print(f"ratio of the loop to a spread: {loop[1] / best['a spread']:.0f}")
    if cold[0][0].days != loop[0]:
        sys.exit("The spread and the loop disagree.")
    if best["first spread, record laid out with it"] > LIMIT_MS or best["a spread"] > LIMIT_MS:
        sys.exit(f"A spread took longer than {LIMIT_MS:.0f} ms.")


if __name__ == "__main__":
    main()
