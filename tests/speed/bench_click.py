"""From the press on a cell to its picture on the screen: 200 trays of 72 cells, 200 clicks on the real page.

    python -m tests.speed.bench_click [--window]

Each click goes the whole way: mouse press and release, the fact into the ledger file on the disk, the
season, the counts, and the paint event of the cell. Without ``--window`` the platform without a screen
is used, which paints into memory like any other.
"""

import argparse
import os
import statistics
import tempfile
import time
from datetime import UTC, date, datetime
from pathlib import Path

TRAYS, ROWS, COLUMNS = 200, 6, 12
CLICKS = 200
AIM_MS = 16.0
SOWN_ON = date(2027, 4, 20)
NOW = datetime(2027, 5, 14, 9, 54, tzinfo=UTC)
PAUSES_MS = (0, 120)  # one click after the other, and as fast as a hand goes along a row


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--window", action="store_true", help="show the page on the real screen")
    if not options.parse_args().window:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
    with tempfile.TemporaryDirectory() as folder:
        keeper = make_keeper(Path(folder) / "shelf.greenroom")
        page = show_page(keeper)
        print(
            f"{TRAYS} trays of {ROWS * COLUMNS} cells, {CLICKS} clicks; "
            f"aim {AIM_MS:.0f} ms at the 95th percentile"
        )
        writing = time_writes(keeper.ledger)
        for pause in PAUSES_MS:
            writing.clear()
            took = [click(page, number, pause) for number in range(CLICKS)]
            print(f"pause {pause} ms between clicks")
            report("press to picture", took)
            report("of it the durable write", writing)
            report("and all the rest", [all_ - write for all_, write in zip(took, writing, strict=True)])
        page.leave()
        keeper.ledger.close()


def make_keeper(path):
    """Write the ledger and open a keeper on it."""
    from greenroom.desk.clock import standing_at
    from greenroom.desk.keeper import Keeper
    from greenroom.ledger import Ledger
    from greenroom.season import deeds_spots
    from greenroom.season.deeds_shelf import SeedEntry, add_packets, make_holder
    from greenroom.season.packets import packets
    from greenroom.season.spots import SpotKey

    keeper = Keeper(Ledger.open(path, clock=lambda: NOW, who="bench"), standing_at(NOW))
    season = keeper.season
    names = ("Cinder Lantern", "Brass Bell", "Marsh Drop")
    keeper.do(lambda: add_packets(season, [SeedEntry(name, germination=0.9) for name in names], SOWN_ON))
    lots = [packet.key for packet in packets(season)]
    for number in range(TRAYS):
        name = f"Tray {number + 1}"
        keeper.do(
            lambda name=name: make_holder(
                season, name=name, form="tray", rows=ROWS, columns=COLUMNS, day=SOWN_ON, mix_c=24
            )
        )
        key = season.holders()[-1].key
        for place, lot in enumerate(lots):
            cells = [
                SpotKey(key, row, column) for row in range(ROWS) for column in range(4 * place, 4 * place + 4)
            ]
            keeper.do(lambda lot=lot, cells=cells: deeds_spots.sow(season, lot, cells, SOWN_ON))
    return keeper


def show_page(keeper):
    """Show the page as the window does, with everything that belongs to it."""
    from PySide6.QtTest import QTest

    from greenroom.desk.bench import Bench
    from greenroom.desk.grow.page import GrowPage
    from greenroom.desk.look import Look
    from greenroom.desk.start import make_application
    from greenroom.desk.window import Window

    make_application()
    look = Look(dark=False)
    Window.dress_application(look)
    page = GrowPage(Bench(keeper, look))
    keeper.changed.connect(page.take)
    page.resize(1440, 814)
    page.show()
    QTest.qWaitForWindowExposed(page)
    page.entered()
    QTest.qWait(800)  # the chart is made; the plotting library is loaded
    return page


def click(page, number, pause):
    """Click one cell and wait until it has been painted; milliseconds from the press."""
    from PySide6.QtCore import Qt
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication

    view = page.main.view
    place = divmod(number % (ROWS * COLUMNS), COLUMNS)
    painted = []
    ears = _ears(view, painted)
    view.installEventFilter(ears)
    at = view.grid.slot(place).center()
    begun = time.perf_counter()
    QTest.mouseClick(view, Qt.MouseButton.LeftButton, pos=at)
    while not painted:
        QApplication.sendPostedEvents()
        QTest.qWait(0)
    view.removeEventFilter(ears)
    QTest.qWait(pause)
    return (painted[0] - begun) * 1000


def _ears(view, painted):
    """Hear the end of the view's next paint event."""
    from PySide6.QtCore import QEvent, QObject

    class Ears(QObject):
        def eventFilter(self, watched, event):
            if event.type() == QEvent.Type.Paint:
                watched.removeEventFilter(self)
                watched.event(event)
                painted.append(time.perf_counter())
                return True
            return False

    return Ears(view)


def time_writes(ledger):
    """Note how long each act takes to be on the disk: the disk is shared with other programs."""
    took, do = [], ledger.do

    def timed(*given, **named):
        begun = time.perf_counter()
        change = do(*given, **named)
        took.append((time.perf_counter() - begun) * 1000)
        return change

    ledger.do = timed
    return took


def report(what, took):
    """Print the median and the 95th percentile against the aim."""
    cuts = statistics.quantiles(took, n=100)
    p50, p95 = cuts[49], cuts[94]
    print(
        f"  {what:24} p50 {p50:5.1f} ms ({p50 / AIM_MS:.2f} of the aim), "
        f"p95 {p95:5.1f} ms ({p95 / AIM_MS:.2f} of the aim), slowest {max(took):.1f} ms"
    )


if __name__ == "__main__":
    main()
