"""Time the odds chart: 80 varieties, 60 sowing days, 40 years. Run: python -m tests.speed.bench_odds

Prints the time of the whole chart, and of a plain loop over days for a few of its cells, scaled up.
Fails if the two disagree or the chart takes longer than a grower should wait for a redraw.
"""

import datetime as dt
import sys
import time

import numpy as np

from greenroom.agronomy.climate import DailyWeather
from greenroom.agronomy.ripening import Ripener, odds_by_sowing

VARIETIES, SOWINGS, YEARS = 80, 60, 40
LIMIT_MS = 150.0
REPEATS = 5
LOOPED_VARIETIES = (0, 27, 79)
LOOPED_SOWINGS = (0, 22, 26, 30, 34, 59)


def record():
    """Forty invented years: a yearly wave with noise that holds over some days."""
    random = np.random.default_rng(20260101)
    dates = np.arange(np.datetime64("1981-01-01"), np.datetime64("2021-01-01"))
    wave = -np.cos(2 * np.pi * (dates.astype(int) - 20) / 365.25)
    noise = np.convolve(random.normal(0, 4, dates.size), np.ones(5) / 5, mode="same")
    tmin = 7 + 11 * wave + noise
    return DailyWeather(dates, tmin, tmin + random.uniform(4, 14, dates.size))


def varieties():
    """Each with a heat need and raising time of its own; floor, run and base differ by species."""
    random = np.random.default_rng(7)
    return [
        Ripener(
            heat_to_ripe=float(random.uniform(500, 1300)),
            days_to_ready=int(random.integers(50, 100)),
            floor=(10.0, 11.0, 12.0)[number % 3],
            run=(5, 7)[number % 2],
            base=(9.3, 10.0, 13.3, 10.0)[number % 4],
        )
        for number in range(VARIETIES)
    ]


def by_year(weather):
    """For each year, its days as plain lists: date, tmin, tmax."""
    years = {}
    for date, low, high in zip(
        weather.dates.tolist(), weather.tmin.tolist(), weather.tmax.tolist(), strict=True
    ):
        years.setdefault(date.year, []).append((date, low, high))
    return years


def looped(years, variety, sowing):
    """One cell, day by day, as one would write it first."""
    ready = sowing + dt.timedelta(days=variety.days_to_ready)
    ripened = [ripens(days, variety, ready.replace(year=year)) for year, days in years.items()]
    return sum(ripened) / len(ripened)


def ripens(days, variety, ready):
    heat, out = 0.0, False
    for place, (date, low, high) in enumerate(days):
        if date.month >= 7 and low <= variety.killing:
            return False
        if not out and date >= ready:
            nights = days[place : place + variety.run]
            out = len(nights) == variety.run and all(night[1] >= variety.floor for night in nights)
        if out:
            low, high = (min(max(celsius, variety.base), variety.cap) for celsius in (low, high))
            heat += (low + high) / 2 - variety.base
            if heat >= variety.heat_to_ripe:
                return True
    return False


def timed(work):
    started = time.perf_counter()
    result = work()
    return result, (time.perf_counter() - started) * 1000


def main():
    weather, grown = record(), varieties()
    sowings = [dt.date(2026, 1, 1) + dt.timedelta(days=3 * number) for number in range(SOWINGS)]
    runs = [timed(lambda: odds_by_sowing(weather, grown, sowings)) for _ in range(REPEATS)]
    chart, best = runs[0][0], min(took for _, took in runs)
    cells = [(v, s) for v in LOOPED_VARIETIES for s in LOOPED_SOWINGS]
    years = by_year(weather)
    slow, loop_ms = timed(lambda: [looped(years, grown[v], sowings[s]) for v, s in cells])
    whole_loop_ms = loop_ms / len(cells) * chart.size
    print(f"{VARIETIES} varieties x {SOWINGS} sowing days x {YEARS} years")
    print(f"looped cells: {' '.join(f'{odds:.2f}' for odds in slow)}")
    print(f"chart: best of {REPEATS} {best:.1f} ms, first {runs[0][1]:.1f} ms (limit {LIMIT_MS:.0f} ms)")
    print(f"day by day: {loop_ms:.0f} ms for {len(cells)} cells, so {whole_loop_ms / 1000:.0f} s for all")
    print(f"ratio: {whole_loop_ms / best:.0f}")
    wrong = [cell for cell, odds in zip(cells, slow, strict=True) if abs(chart[cell] - odds) > 1e-12]
    if wrong:
        sys.exit(f"The chart and the loop disagree in cells {wrong}.")
    if best > LIMIT_MS:
        sys.exit(f"The chart took {best:.1f} ms; the limit is {LIMIT_MS:.0f} ms.")


if __name__ == "__main__":
    main()
