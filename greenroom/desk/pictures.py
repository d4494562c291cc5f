"""Every page as a picture, without a screen, and the round as text."""

from __future__ import annotations

import sys
from pathlib import Path

from PySide6.QtCore import QEventLoop, QThreadPool, QTimer
from PySide6.QtWidgets import QApplication

from greenroom.desk.bench import Bench
from greenroom.desk.keeper import Keeper
from greenroom.desk.look import Look
from greenroom.desk.pages import page_makers
from greenroom.desk.window import Window
from greenroom.season.round import round_of, round_text
from greenroom.speech import tr

SIZES = ((1440, 900), (1024, 700))
SETTLE_MS = 400
"""A page is waited for no longer than this."""
LOOK_MS = 40
LOOKS_AT_REST = 3
"""So often in a row nothing may be waiting before a page counts as drawn."""
FAILED = 1


def draw_pages(keeper: Keeper, folder: Path) -> int:
    """Draw each page at both sizes in both themes into ``folder``; print the round; return 0.

    A folder that cannot be written to is told on the error stream, and 1 is returned.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        sys.stderr.write(
            tr("The folder {folder} cannot be made: {reason}.", folder=folder, reason=error.strerror) + "\n"
        )
        return FAILED
    for dark in (False, True):
        if not _draw_theme(keeper, folder, dark=dark):
            sys.stderr.write(tr("The pictures cannot be written to {folder}.", folder=folder) + "\n")
            return FAILED
    sys.stdout.write(round_text(round_of(keeper.season, keeper.today, keeper.now), keeper.today))
    return 0


def _draw_theme(keeper: Keeper, folder: Path, *, dark: bool) -> bool:
    makers = {key: make for key, make in page_makers().items() if key != "first" or not keeper.place.known}
    window = Window(Bench(keeper, Look(dark=dark)), makers)
    window.dress()
    window.show()
    theme = "dark" if dark else "light"
    written = True
    for width, height in SIZES:
        window.resize(width, height)
        for key in makers:
            window.show_page(key)
            come_to_rest(window)
            focus = QApplication.focusWidget()
            if focus is not None:  # no key was pressed, so nothing is to be marked as reached by one
                focus.clearFocus()
            written &= window.grab().save(str(folder / f"{key}-{width}x{height}-{theme}.png"))
    window.close()
    window.deleteLater()
    settle(0)
    return written


def come_to_rest(window: Window) -> None:
    """Wait until nothing in a window is about to be worked out or drawn."""
    still = 0
    for _ in range(SETTLE_MS // LOOK_MS):
        settle(LOOK_MS)
        still = 0 if _waiting(window) else still + 1
        if still == LOOKS_AT_REST:
            return


def _waiting(window: Window) -> bool:
    """Tell whether a timer is to go off once, or work goes on beside the window."""
    if QThreadPool.globalInstance().activeThreadCount():
        return True
    return any(one.isActive() and one.isSingleShot() for one in window.findChildren(QTimer))


def settle(wait_ms: int = SETTLE_MS) -> None:
    """Let charts and timers come to rest."""
    loop = QEventLoop()
    QTimer.singleShot(wait_ms, loop.quit)
    loop.exec()
    QApplication.sendPostedEvents()
