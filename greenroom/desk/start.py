"""Starting: opens the ledger, makes the window, or draws its pages as pictures."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from contextlib import AbstractContextManager, nullcontext
from datetime import UTC, date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, QThreadPool, QTimer
from PySide6.QtWidgets import QApplication

from greenroom import APP_ID, __version__
from greenroom.desk.app_icon import app_icon
from greenroom.desk.bench import Bench
from greenroom.desk.clock import system_now
from greenroom.desk.instance import Instance, InUseError
from greenroom.desk.keeper import Keeper
from greenroom.desk.keeping.sitting import Sitting
from greenroom.desk.language import translate_qt
from greenroom.desk.logs import log_qt
from greenroom.desk.look import Look, font, load_fonts
from greenroom.desk.own_settings import size_taken
from greenroom.desk.pages import open_demo, page_makers
from greenroom.desk.refusal import Refusal
from greenroom.desk.session import VanishedError, demo_ledger, file_of, own_ledger
from greenroom.desk.trouble import AtStart, Trouble
from greenroom.desk.window import Window
from greenroom.ledger import LedgerError
from greenroom.ledger.errors import DamagedLedgerError
from greenroom.season.hardening import going_out
from greenroom.season.packets import packets
from greenroom.season.place import online_allowed

if TYPE_CHECKING:
    from greenroom.desk.trouble_panel import TroublePanel

USUAL_SIZE = (1440, 900)
TITLE_BAR_PX = 32
MOVING = (
    Qt.UIEffect.UI_AnimateMenu,
    Qt.UIEffect.UI_AnimateCombo,
    Qt.UIEffect.UI_AnimateTooltip,
    Qt.UIEffect.UI_FadeMenu,
    Qt.UIEffect.UI_FadeTooltip,
)
"""What a desktop may have Qt slide or fade in: nothing moves here, asked to be less or not."""
WRITE_UP_MS = 30
WALK_MS = 600
LAST_WRITING_MS = 30_000
WATCH_WEATHER_MS = 3_000
REFUSED = 2


def run(
    ledger: str | None,
    *,
    today: date | None,
    demo: bool,
    pictures: Path | None,
    walk: bool = False,
    crashed: Sequence[str] = (),
) -> int:
    """Open a ledger (or the demo) in the window, or draw its pages; return the exit status."""
    if pictures is not None:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
    with size_taken() if pictures is None else nullcontext():
        application = make_application()
    still = pictures is not None
    anew = False
    with AtStart(lambda sentence: _refuse(application, sentence, window=not still)):
        while True:
            try:
                return _open(
                    application,
                    ledger,
                    today=today,
                    demo=demo,
                    pictures=pictures,
                    walk=walk,
                    anew=anew,
                    crashed=crashed,
                )
            except (DamagedLedgerError, VanishedError) as error:
                file = None if demo or ledger is None else file_of(ledger)
                if file is None:
                    return _refuse(application, str(error), window=not still)
                if not _make_good(application, file, error, window=not still):
                    return REFUSED
                anew = not file.exists()
            except (LedgerError, InUseError) as error:
                return _refuse(application, str(error), window=not still)
    return REFUSED


def _open(
    application: QApplication,
    ledger: str | None,
    *,
    today: date | None,
    demo: bool,
    pictures: Path | None,
    walk: bool,
    anew: bool,
    crashed: Sequence[str],
) -> int:
    with _session(ledger, today=today, demo=demo, still=pictures is not None, anew=anew) as keeper:
        if pictures is not None:
            from greenroom.desk.pictures import draw_pages

            return draw_pages(keeper, pictures)
        keeper.walk_asked = walk
        return _run_window(application, keeper, crashed)


def make_application() -> QApplication:
    """Return the application, dressed, whether it is new or there already."""
    found = QApplication.instance()
    application = found if isinstance(found, QApplication) else _new_application()
    application.setApplicationName("greenroom")
    application.setApplicationVersion(__version__)
    application.setDesktopFileName(APP_ID)
    application.setWindowIcon(app_icon())
    translate_qt(application)
    load_fonts()
    application.setFont(font())
    for effect in MOVING:
        application.setEffectEnabled(effect, False)
    return application


def _new_application() -> QApplication:
    application = QApplication(sys.argv[:1])
    application.setStyle("Fusion")
    return application


def make_window(keeper: Keeper, look: Look | None = None) -> Window:
    """Return the window on a keeper, dressed, at the page the season is at."""
    window = Window(Bench(keeper, look or Look()), page_makers())
    window.dress()
    first = first_page(keeper)
    window.show_page(first)
    window.top.focus(first)
    return window


def first_page(keeper: Keeper) -> str:
    """Return the page to open on: the first run, or where the season's work is."""
    season = keeper.season
    if not keeper.place.known:
        return "first"
    if season.holders():
        return "grow"
    return "sow" if packets(season) else "seed"


def _session(
    ledger: str | None, *, today: date | None, demo: bool, still: bool, anew: bool
) -> AbstractContextManager[Keeper]:
    if demo or ledger is None:
        return demo_ledger(today=today, still=still)
    return own_ledger(ledger, today=today, still=still, anew=anew)


def _run_window(application: QApplication, keeper: Keeper, crashed: Sequence[str] = ()) -> int:
    sitting = Sitting(keeper, _show_window)
    trouble = Trouble(sitting.say)
    trouble.show = lambda mishap: _panel(sitting).show_mishap(mishap, trouble.mishaps)
    quiet_qt = log_qt()
    if crashed:
        QTimer.singleShot(WRITE_UP_MS, sitting, lambda: _panel(sitting).show_crash(crashed))
    try:
        status = application.exec()
    finally:
        trouble.release()
        quiet_qt()
        QThreadPool.globalInstance().waitForDone(LAST_WRITING_MS)  # what was begun is written to its end
        sitting.end()
    if sitting.lost is not None:
        raise sitting.lost
    return status


def _panel(sitting: Sitting) -> TroublePanel:
    """Return the quiet panel of the window that is open now."""
    from greenroom.desk.trouble_panel import TroublePanel

    window = sitting.window
    return window.findChild(TroublePanel) or TroublePanel(window, lambda: window.bench.keeper.season)


def _show_window(keeper: Keeper, look: Look | None) -> Window:
    """Make a window and show it; what it need not show at once is begun after it is painted."""
    window = make_window(keeper, look)
    window.resize(usual_size(window.screen().availableSize()))
    window.show()
    QTimer.singleShot(WRITE_UP_MS, window, keeper.write_up)
    if keeper.demo:
        QTimer.singleShot(WALK_MS, window, lambda: _lead(window))
    if going_out(keeper.season):
        # The alarm lives on the Harden page; it must ring though another page is in front.
        QTimer.singleShot(1500, window, lambda: window.page("harden"))
    if online_allowed(keeper.season):
        QTimer.singleShot(WATCH_WEATHER_MS, window, lambda: _watch_weather(window))
    return window


def usual_size(room: QSize) -> QSize:
    """Return how large a window opens on a screen with so much room: no larger, less its title bar."""
    return QSize(*USUAL_SIZE).boundedTo(QSize(room.width(), room.height() - TITLE_BAR_PX))


def _lead(window: Window) -> None:
    """Begin the walk through the demo where it was asked for, or offer it to who has not left it yet."""
    from greenroom.desk.help.offer import offer_walk

    if window.bench.keeper.walk_asked:
        window.bench.walk()
    else:
        offer_walk(window)


def _watch_weather(window: Window) -> None:
    """Keep the forecast fresh while the window is open: the page that does so need not be in front."""
    from greenroom.desk.place.page import PlacePage

    page = window.page("place")
    if isinstance(page, PlacePage):
        page.watch_weather()


def _make_good(application: QApplication, file: Path, error: LedgerError, *, window: bool) -> bool:
    """Offer to make a ledger good that is damaged or gone; tell whether to open it now."""
    from greenroom.desk.keeping.mending import MendingWindow, copies_hint
    from greenroom.desk.keeping.where import backups_of

    backups = backups_of(file)
    sys.stderr.write(f"{copies_hint(backups, str(error))}\n")
    if not window:
        return False
    lock = Instance(file)
    try:
        shown = MendingWindow(str(error), backups, system_now().astimezone().tzinfo or UTC, open_demo)
        Window.dress_application(Look())
        shown.show()
        application.exec()
    finally:
        lock.release()
    return shown.go_on


def _refuse(application: QApplication, sentence: str, *, window: bool) -> int:
    sys.stderr.write(f"{sentence}\n")
    if window:
        shown = Refusal(sentence, open_demo)
        Window.dress_application(Look())
        shown.show()
        application.exec()
    return REFUSED
