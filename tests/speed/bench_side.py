"""Time the trays side by side with 24 on the ramp. Run: python -m tests.speed.bench_side

Prints how long it takes to lay the trays out, to paint what is seen of them, to work out how sure each is,
and to tell what another ramp would do to all; beside them the painting of an empty list of the same size.
"""

import os
import sys
import time
from datetime import UTC, date, datetime, timedelta

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtWidgets import QAbstractScrollArea

from greenroom.desk.harden.day_scale import DayScale
from greenroom.desk.harden.tray_grid import TrayGrid
from greenroom.desk.look import Look
from greenroom.desk.start import make_application
from greenroom.ledger import Entry
from greenroom.ledger.facts import HardeningStarted, HolderMade
from greenroom.season.ramp_choice import Numbers, choose_ramp, ramp_effects
from greenroom.season.ramp_rules import rules_of
from greenroom.season.ready_history import spread_of
from greenroom.season.side_by_side import span_of, tray_line
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks
from tests.speed.bench_ready import TODAY
from tests.speed.bench_ready import facts as one_tray

TRAYS = 24
LIMIT_MS = 100.0
REPEATS = 7
PEPPER = "capsicum-annuum"
NOW = datetime(2027, 5, 10, 6, tzinfo=UTC)


def season():
    """The tray of the other bench with its forty years, and others begun on the days after it."""
    told = list(one_tray())
    for number in range(TRAYS - 1):
        key, day = f"more-{number}", date(2027, 5, 1) + timedelta(days=number % 9)
        told.append(HolderMade(day=day, holder=key, name=f"Tray {number}", form="tray", rows=2, columns=3))
        told.append(HardeningStarted(day=day, holder=key))
    return Season(Entry(number, 1, fact) for number, fact in enumerate(told, start=1))


def once_ms(work):
    """How long one run takes."""
    begun = time.perf_counter()
    work()
    return 1000 * (time.perf_counter() - begun)


def best_ms(work):
    """The shortest of several runs."""
    return min(once_ms(work) for _ in range(REPEATS))


def main():
    application = make_application()
    told, look = season(), Look(dark=False)
    stands = [two_clocks(told, one.key, TODAY, NOW) for one in told.holders()]
    lines = [tray_line(told, stand) for stand in stands]
    grid, bare = TrayGrid(look), QAbstractScrollArea()
    for widget in (grid, bare):
        widget.resize(744, 420)
        widget.show()
    application.sendPostedEvents()
    scale = DayScale(span_of(lines, TODAY), *grid.plot_edges)
    numbers = Numbers.of(rules_of(told, PEPPER))
    changed = Numbers(numbers.start_minutes, 480.0, 14, numbers.cold_c, numbers.gust_ms, numbers.rain_mm)
    act = choose_ramp(told, PEPPER, changed, TODAY, NOW)
    timed = {
        "lay the trays out": lambda: grid.show_lines([tray_line(told, one) for one in stands], scale),
        "paint what is seen": lambda: grid.viewport().grab(),
        "an empty list": lambda: bare.viewport().grab(),
        "what another ramp would do": lambda: ramp_effects(told, PEPPER, act, TODAY, NOW),
    }
    took = {"how sure each is, at first": once_ms(lambda: [spread_of(told, one) for one in stands])}
    took |= {words: best_ms(work) for words, work in timed.items()}
    for words, value in took.items():
        print(f"{words:28} {value:7.2f} ms")
    return 0 if max(took.values()) <= LIMIT_MS else 1


if __name__ == "__main__":
    sys.exit(main())
