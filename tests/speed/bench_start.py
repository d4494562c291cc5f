"""From the command to the painted window: the demo, against a bare window of the same libraries.

    python -m tests.speed.bench_start [--runs 7] [--screen]

The bare window holds one empty plot: PySide6 and pyqtgraph loaded, nothing else done. Both are started
in turn in processes of their own, with bytecode kept as in an installed program; the medians are compared.
Without ``--screen`` the platform without a screen is used, which paints into memory like any other.
"""

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

AIM = 1.5

REPORT = """
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication

class Watcher(QObject):
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint:
            watched.removeEventFilter(self)
            QTimer.singleShot(0, self.report)
        return False

    def report(self):
        print("painted", flush=True)
        QApplication.quit()
"""

DEMO = (
    REPORT
    + """
from greenroom import app

start = app.load_start()
make_window = start.make_window

def watched_window(*given):
    window = make_window(*given)
    window.watcher = Watcher()
    window.stack.currentWidget().installEventFilter(window.watcher)
    return window

start.make_window = watched_window
app.main(["--demo"])
"""
)

BARE = (
    REPORT
    + """
from PySide6.QtWidgets import QMainWindow
import pyqtgraph

application = QApplication([])
window, plot, watcher = QMainWindow(), pyqtgraph.PlotWidget(), Watcher()
window.setCentralWidget(plot)
window.resize(1440, 900)
plot.viewport().installEventFilter(watcher)
window.show()
application.exec()
"""
)


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--runs", type=int, default=7)
    options.add_argument("--screen", action="store_true", help="show the windows on the real screen")
    asked = options.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        environment = environment_in(folder, screen=asked.screen)
        scripts = {"bare window": BARE, "greenroom --demo": DEMO}
        for script in scripts.values():
            seconds_to_paint(script, environment)  # the first start writes the bytecode
        taken = {name: [] for name in scripts}
        for _ in range(asked.runs):
            for name, script in scripts.items():
                taken[name].append(seconds_to_paint(script, environment))
    medians = {name: statistics.median(seconds) for name, seconds in taken.items()}
    for name, median in medians.items():
        spread = f"{min(taken[name]) * 1000:.0f} to {max(taken[name]) * 1000:.0f}"
        print(f"{name}: {median * 1000:.0f} ms until painted ({spread}, {asked.runs} runs)")
    bare, demo = medians.values()
    print(f"ratio: {demo / bare:.2f} (aim {AIM} or less)")


def environment_in(folder, *, screen):
    """Return the environment of a user of its own, with bytecode kept."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment |= {
        "HOME": folder,
        "XDG_STATE_HOME": folder,
        "PYTHONPYCACHEPREFIX": str(Path(folder) / "bytecode"),
    }
    if not screen:
        environment["QT_QPA_PLATFORM"] = "offscreen"
    return environment


def seconds_to_paint(script, environment):
    """Start a process and wait until its window is painted."""
    started = time.perf_counter()
    with subprocess.Popen(
        [sys.executable, "-c", script],
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as program:
        line = program.stdout.readline()
        taken = time.perf_counter() - started
    if line != "painted\n":
        raise SystemExit("a window was not painted; run its script by hand to see why")
    return taken


if __name__ == "__main__":
    main()
