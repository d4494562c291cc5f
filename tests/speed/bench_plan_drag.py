"""Time the drag of the sowing date on the real page: 80 varieties on 40 years, from the move to the picture.

    python -m tests.speed.bench_plan_drag [--window]

Each step moves the pressed pointer on the chart: the odds are looked up, the line, the table, the strip and
the words follow, and everything touched is painted. Fails if one step in twenty takes longer than a hand
waits.
Without ``--window`` the platform without a screen is used, which paints into memory like any other.
"""

import argparse
import os
import statistics
import sys
import time

STEPS, WARM_UP = 200, 5
LIMIT_MS = 50.0
PIXELS = 5  # more than a day, so that each step has something to show
SIZES = ((1440, 814), (1024, 614))


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--window", action="store_true", help="show the page on the real screen")
    if not options.parse_args().window:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
    worst = max(time_drag(size) for size in SIZES)
    if worst > LIMIT_MS:
        sys.exit(f"A step of the drag took {worst:.1f} ms; the limit is {LIMIT_MS:.0f} ms.")


def time_drag(size):
    """Drag the line to and fro over the chart; return the 95th percentile of the steps [ms]."""
    page = show_page(size)
    chart = page.plan.chart
    start = chart.point_of(page.desk.day_of(page.desk.row))
    send(chart.viewport(), "MouseButtonPress", start)
    took, tried, paints = [], set(), count_paints(chart.viewport())
    for number in range(STEPS + WARM_UP):
        way = number % 100
        point = start + type(start)(PIXELS * (way if way < 50 else 100 - way) + PIXELS, 0)
        took.append(step(chart, point))
        tried.add(page.desk.trial)
    if len(tried) < 5 or paints.seen < STEPS:
        sys.exit(f"The line was at {len(tried)} days and painted {paints.seen} times; the drag did not hold.")
    page.desk.let_go()
    took = sorted(took[WARM_UP:])
    high = took[int(0.95 * len(took))]
    print(
        f"{len(page.desk.plan.rows)} varieties x {page.desk.plan.years} years at {size[0]} x {size[1]}: "
        f"{statistics.median(took):.1f} ms, 95th percentile {high:.1f} ms, worst {took[-1]:.1f} ms"
    )
    page.close()
    return high


def count_paints(widget):
    """Return what counts in ``seen`` how often a widget is painted."""
    from PySide6.QtCore import QEvent, QObject

    class Paints(QObject):
        seen = 0

        def eventFilter(self, watched, event):
            self.seen += event.type() == QEvent.Type.Paint
            return False

    made = Paints(widget)
    widget.installEventFilter(made)
    return made


def step(chart, point):
    """Move the pressed pointer and paint what that touched; return how long it took [ms]."""
    from PySide6.QtCore import QCoreApplication

    started = time.perf_counter()
    send(chart.viewport(), "MouseMove", point)
    for _ in range(2):  # the scene tells the widget, the widget is painted: all that was touched, and no more
        QCoreApplication.sendPostedEvents()
    return (time.perf_counter() - started) * 1000


def send(widget, kind, point):
    """Send a mouse event as a hand makes it."""
    from PySide6.QtCore import QEvent, QPointF, Qt
    from PySide6.QtGui import QMouseEvent
    from PySide6.QtWidgets import QApplication

    left = Qt.MouseButton.LeftButton
    button = left if kind == "MouseButtonPress" else Qt.MouseButton.NoButton
    event = QMouseEvent(
        QEvent.Type[kind],
        QPointF(point),
        QPointF(widget.mapToGlobal(point)),
        button,
        left,
        Qt.KeyboardModifier.NoModifier,
    )
    QApplication.sendEvent(widget, event)


def show_page(size):
    """Show the page on the season of the other bench of the plan."""
    from datetime import UTC, datetime

    from greenroom.desk.bench import Bench
    from greenroom.desk.clock import standing_at
    from greenroom.desk.keeper import Keeper
    from greenroom.desk.look import Look
    from greenroom.desk.pictures import settle
    from greenroom.desk.sow.page import SowPage
    from greenroom.desk.start import make_application
    from greenroom.desk.window import Window
    from greenroom.ledger import Ledger
    from tests.speed.bench_plan import TODAY, make_season, record

    make_application()
    moment = datetime(TODAY.year, TODAY.month, TODAY.day, 9, tzinfo=UTC)
    keeper = Keeper(Ledger.open("sqlite://", clock=lambda: moment, who="bench"), standing_at(moment))
    keeper.season = make_season(record())
    bench = Bench(keeper, Look(dark=False))
    Window.dress_application(bench.look)
    page = SowPage(bench)
    page.resize(*size)
    page.show()
    page.entered()
    settle(600)
    return page


if __name__ == "__main__":
    main()
