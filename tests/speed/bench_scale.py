"""Ten seasons of 200 trays, half a million facts: what it costs to open, to click, to turn pages, to undo.

    python -m tests.speed.bench_scale [--sizes 62500 125000 250000 500000] [--folder FOLDER]

The newest season is whole at every size (200 trays of 72 cells in use); what a size has more are seasons
past, all of whose trays were put away. The ledgers are made once and kept in ``--folder`` (a folder for
what is temporary if none is named). Each size is measured in a process of its own; behind each figure stands
how many times that of the size before it is.
"""

import argparse
import json
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import UTC, date, datetime, timedelta
from itertools import islice
from pathlib import Path

SIZES = (62_500, 125_000, 250_000, 500_000)
TRAYS, ROWS, COLUMNS = 200, 6, 12
NOW = datetime(2027, 5, 14, 9, 54, tzinfo=UTC)
CLICKS, TURNS, UNDOS, ACT = 40, 3, 5, 20_000


CLOCKS = {"wall": time.perf_counter, "cpu": time.process_time}


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--sizes", type=int, nargs="+", default=SIZES)
    options.add_argument("--folder", type=Path, default=Path(tempfile.gettempdir()) / "greenroom-scale")
    options.add_argument("--clock", choices=CLOCKS, default="wall", help="cpu on a machine that others use")
    options.add_argument("--measure", type=Path, help=argparse.SUPPRESS)
    asked = options.parse_args()
    if asked.measure is not None:
        with tempfile.TemporaryDirectory() as folder:  # on a copy: the clicks stay out of what is kept
            print(json.dumps(measure(Path(shutil.copy(asked.measure, folder)), asked.clock)))
        return
    asked.folder.mkdir(exist_ok=True)
    told = {}
    for size in asked.sizes:
        path = asked.folder / f"{size}.greenroom"
        if not path.exists():
            begun = time.perf_counter()
            make_ledger(path, size)
            took = time.perf_counter() - begun
            print(f"{size:,} facts made in {took:.0f} s, {path.stat().st_size / 1e6:.0f} MB")
        command = [
            sys.executable,
            "-m",
            "tests.speed.bench_scale",
            "--clock",
            asked.clock,
            "--measure",
            str(path),
        ]
        done = subprocess.run(command, check=True, capture_output=True, text=True)
        told[size] = json.loads(done.stdout.strip().splitlines()[-1])
    report(told)


def make_ledger(path, size):
    """Write a ledger of about ``size`` facts, the newest season whole."""
    from greenroom.ledger import Ledger
    from greenroom.ledger.facts import Packet, PlaceSet, Variety

    begun = date(2018, 1, 10)
    things = [PlaceSet(day=begun, name="Ridge Lane", latitude=46.4, longitude=16.0, zone="UTC")]
    things += [
        Variety(day=begun, variety=f"v{one}", name=f"Invented {one}", crop="bell") for one in range(40)
    ]
    things += [Packet(day=begun, packet=f"p{one}", variety=f"v{one}") for one in range(40)]
    newest = list(season_facts(2027))
    past = islice(
        (fact for year in range(2026, 2000, -1) for fact in season_facts(year)),
        size - len(newest) - len(things),
    )
    facts = [*things, *sorted(past, key=lambda fact: fact.day), *newest]
    aside = path.with_suffix(".part")
    aside.unlink(missing_ok=True)
    with Ledger.open(aside, clock=lambda: NOW, who="bench") as ledger:
        for start in range(0, len(facts), ACT):
            ledger.record(*facts[start : start + ACT], name="many marks")
    aside.rename(path)


def season_facts(year):
    """Yield the facts of one season, tray by tray; of a year past the trays are put away at the end."""
    from greenroom.ledger.facts import (
        HolderMade,
        HolderPlaced,
        HolderRetired,
        LeafStage,
        Lost,
        Sown,
        Sprouted,
    )

    for number in range(TRAYS):
        holder, sown = f"y{year}t{number:03d}", date(year, 3, 1) + timedelta(number % 40)
        yield HolderMade(
            day=sown,
            holder=holder,
            name=f"Tray {year} {number}",
            form="tray",
            rows=ROWS,
            columns=COLUMNS,
            cell_ml=43,
        )
        yield HolderPlaced(day=sown, holder=holder, place=f"shelf {number % 8}", mix_c=24)
        for cell in range(ROWS * COLUMNS):
            spot = {"holder": holder, "row": cell // COLUMNS, "column": cell % COLUMNS}
            yield Sown(day=sown, packet=f"p{(number + cell // COLUMNS) % 40}", **spot)
            if cell % 10:
                up = sown + timedelta(7 + cell % 5)
                yield Sprouted(day=up, **spot)
                yield LeafStage(day=up + timedelta(10), leaves=2, **spot)
            if cell % 9 == 5:
                yield Lost(day=sown + timedelta(20), cause="damping off", **spot)
        if year < 2027:
            yield HolderRetired(day=date(year, 8, 1), holder=holder)


def measure(path, clock_name):
    """Return seconds and megabytes by name, in the order they are reached."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from PySide6.QtTest import QTest

    from greenroom.desk.clock import standing_at
    from greenroom.desk.keeper import Keeper
    from greenroom.desk.pages import page_makers
    from greenroom.desk.start import make_application, make_window
    from greenroom.ledger import Ledger

    told, clock = {}, CLOCKS[clock_name]
    application = make_application()
    begun = clock()
    ledger = Ledger.open(path, clock=lambda: NOW, who="bench")
    told["open: checked"] = clock() - begun
    read = clock()
    keeper = Keeper(ledger, standing_at(NOW))
    told["open: read into the season"] = clock() - read
    shown = clock()
    window = make_window(keeper)
    window.resize(1440, 900)
    window.show()
    application.processEvents()
    told["open: window painted"] = clock() - shown
    told["open, together"] = clock() - begun
    QTest.qWait(1500)
    pages = [key for key in page_makers() if key not in ("first", "paper")]
    for key in pages:
        told[f"page {key}, first"] = turned(application, window, clock, key)
        QTest.qWait(300)
    for key in pages:
        took = []
        for _ in range(TURNS):
            turned(application, window, clock, "grow" if key != "grow" else "seed")
            QTest.qWait(100)
            took.append(turned(application, window, clock, key))
            QTest.qWait(100)
        told[f"page {key}, again"] = statistics.median(took)
    window.show_page("grow")
    QTest.qWait(500)
    from tests.speed.bench_click import click

    took = [click(window.page("grow"), number, 60) / 1000 for number in range(CLICKS)]
    told["click to picture, median"] = statistics.median(took)
    told["click to picture, 95 %"] = statistics.quantiles(took, n=20)[-1]
    took = []
    for _ in range(UNDOS):
        start = clock()
        keeper.undo()
        application.processEvents()
        took.append(clock() - start)
        QTest.qWait(60)
    told["undo, median"] = statistics.median(took)
    told["memory, MB"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    window.close()
    ledger.close()
    return told


def turned(application, window, clock, key):
    """Bring a page to the front and paint it; return the seconds."""
    begun = clock()
    window.show_page(key)
    application.processEvents()
    return clock() - begun


def report(told):
    """Print a row a figure and a column a size, each with its growth over the size before."""
    sizes = list(told)
    print(f"{'ms, or MB':<30}" + "".join(f"{size:>18,}" for size in sizes))
    for name in told[sizes[0]]:
        cells, before = [], None
        for size in sizes:
            value = told[size][name] * (1 if "MB" in name else 1000)
            cells.append(f"{value:>10.1f}{f'× {value / before:.2f}' if before else '':>8}")
            before = value
        print(f"{name:<30}" + "".join(cells))


if __name__ == "__main__":
    main()
