"""From a ledger on the disk to a window one can work in: 200 trays of 72 cells, all sown, most up.

python -m tests.speed.bench_open [--runs 5]
"""

import argparse
import os
import statistics
import tempfile
import time
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

TRAYS, ROWS, COLUMNS = 200, 6, 12
AIM_S = 1.0
SOWN_ON = date(2027, 3, 12)
NOW = datetime(2027, 5, 14, 9, 54, tzinfo=UTC)


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--runs", type=int, default=5)
    runs = options.parse_args().runs
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from greenroom.desk.start import make_application

    application = make_application()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shelf.greenroom"
        facts = write_ledger(path)
        print(f"{TRAYS} trays of {ROWS * COLUMNS} cells, {facts:,} facts, {path.stat().st_size / 1e6:.1f} MB")
        parts = [open_once(application, path) for _ in range(runs)]
    for name in parts[0]:
        seconds = [part[name] for part in parts]
        print(f"{name}: {statistics.median(seconds) * 1000:.0f} ms (most {max(seconds) * 1000:.0f})")
    total = statistics.median(sum(part.values()) for part in parts)
    print(f"together: {total * 1000:.0f} ms (aim under {AIM_S * 1000:.0f})")


def write_ledger(path):
    """Write the ledger; return how many facts it holds."""
    from greenroom.ledger import Ledger
    from greenroom.ledger.facts import HolderMade, HolderPlaced, Packet, PlaceSet, Sown, Sprouted, Variety

    made, marks = [], []
    for number in range(TRAYS):
        holder = f"tray-{number:03d}"
        common = {"day": SOWN_ON, "holder": holder}
        made.append(HolderMade(**common, name=f"Tray {number}", form="tray", rows=ROWS, columns=COLUMNS))
        made.append(HolderPlaced(**common, place="shelf", mix_c=24))
        for cell in range(ROWS * COLUMNS):
            spot = {"holder": holder, "row": cell // COLUMNS, "column": cell % COLUMNS}
            marks.append(Sown(day=SOWN_ON, packet="packet", **spot))
            if cell % 10:
                marks.append(Sprouted(day=SOWN_ON + timedelta(7 + cell % 5), **spot))
    things = [
        PlaceSet(day=SOWN_ON, name="Ridge Lane", latitude=46.4, longitude=16.0, zone="UTC"),
        Variety(day=SOWN_ON, variety="variety", name="Brass Bell", crop="bell"),
        Packet(day=SOWN_ON, packet="packet", variety="variety"),
    ]
    with Ledger.open(path, clock=lambda: NOW, who="bench") as ledger:
        ledger.record(*things, *made, *marks)
    return len(things) + len(made) + len(marks)


def open_once(application, path):
    """Open the ledger and the window; return the seconds each part took."""
    from greenroom.desk.clock import standing_at
    from greenroom.desk.keeper import Keeper
    from greenroom.desk.start import make_window
    from greenroom.ledger import Ledger

    clock = time.perf_counter
    begun = clock()
    ledger = Ledger.open(path)
    opened = clock()
    keeper = Keeper(ledger, standing_at(NOW))
    read = clock()
    for holder in keeper.season.holders():
        keeper.season.counts(holder.key)
    counted = clock()
    window = make_window(keeper)
    window.resize(1440, 900)
    window.show()
    application.processEvents()
    shown = clock()
    window.close()
    window.deleteLater()
    ledger.close()
    return {
        "opened and checked": opened - begun,
        "read into the season": read - opened,
        "counted": counted - read,
        "window made and painted": shown - counted,
    }


if __name__ == "__main__":
    main()
