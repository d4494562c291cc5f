"""The window: it puts the named parts together and owns none of what they do."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QAction, QCloseEvent, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QMainWindow,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.focus_frame import FocusFrame
from greenroom.desk.look import Look, qt_palette
from greenroom.desk.messages import MessageStrip
from greenroom.desk.page import Page
from greenroom.desk.shortcuts import WINDOW
from greenroom.desk.smallest import AtLeast
from greenroom.desk.style_sheet import stylesheet
from greenroom.desk.tables.nearest import copy_nearest, open_nearest
from greenroom.desk.top_bar import TopBar
from greenroom.season.state import Touched
from greenroom.season.why import Why

TICK_MS = 1000
SETTLE_MS = 60
SMALLEST = (1024, 700)  # of what is laid out; over it a smaller window scrolls
LEAST = (512, 350)

MakePage = Callable[[Bench], Page]


class Window(QMainWindow):
    """One window: the top bar, one page below it, the message strip at the foot.

    A page is made when it first comes to the front, so that starting waits for none of the others.
    """

    def __init__(self, bench: Bench, pages: Mapping[str, MakePage]) -> None:
        super().__init__()
        self.bench = bench
        self._makers = dict(pages)
        self.pages: dict[str, Page] = {}
        self.setWindowTitle("greenroom")
        self.setMinimumSize(*LEAST)
        bench.say, bench.explain, bench.show_page = self._say, self._explain, self.show_page
        bench.walk = self._walk
        self.top: TopBar = TopBar(bench)
        self.stack = QStackedWidget()
        self.messages = MessageStrip(bench.keeper.undo, bench.keeper.redo)
        self._assemble()
        self.focus_frame = FocusFrame(bench.look, self)
        self._make_actions()
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._settle.timeout.connect(lambda: self.top.refresh())
        self._ticker = QTimer(self, interval=TICK_MS)
        self._ticker.timeout.connect(self.tick)
        self._ticker.start()
        self._minute = bench.keeper.now.replace(second=0, microsecond=0)
        bench.keeper.changed.connect(self._take)
        bench.keeper.refused.connect(self.messages.say)
        bench.keeper.did.connect(self.messages.did)
        bench.keeper.undone.connect(self.messages.offer_redo)
        bench.look.changed.connect(self.dress)
        self.top.refresh(brief=True)

    @property
    def current(self) -> str:
        """The key of the page in front."""
        page = self.stack.currentWidget()
        return page.key if isinstance(page, Page) else ""

    def page(self, key: str) -> Page:
        """Return a page, made if need be."""
        if key not in self.pages:
            made = self._makers[key](self.bench)
            self.pages[key] = made
            self.stack.addWidget(made)
        return self.pages[key]

    def show_page(self, key: str) -> None:
        """Bring a page to the front."""
        before = self.stack.currentWidget()
        if isinstance(before, Page) and before.key != key:
            before.leave()
        page = self.page(key)
        kept = page.focusWidget()
        self.stack.setCurrentWidget(page)
        found = self.focusWidget()
        self.top.set_current(key)
        page.entered()
        if self.focusWidget() is found and (kept is None or not page.isAncestorOf(found)):
            page.take_focus()

    def dress(self) -> None:
        """Put the theme on."""
        self.dress_application(self.bench.look)

    @staticmethod
    def dress_application(look: Look) -> None:
        """Put a theme on the whole application."""
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setPalette(qt_palette(look.palette))
            sheet = stylesheet(look.palette)
            if application.styleSheet() != sheet:  # setting the same one again polishes every widget anew
                application.setStyleSheet(sheet)

    def come_forward(self) -> None:
        """Come to the front of the screen, as when the program is started a second time."""
        self.setWindowState(self.windowState() & ~Qt.WindowState.WindowMinimized)
        self.show()
        self.raise_()
        self.activateWindow()

    def tick(self) -> None:
        """Let every page that was made take notice of the time; an alarm rings from behind, too."""
        now = self.bench.keeper.now
        for page in self.pages.values():
            page.tick(now)
        minute = now.replace(second=0, microsecond=0)
        if minute != self._minute:
            self._minute = minute
            self.top.refresh()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._settle.start()

    def closeEvent(self, event: QCloseEvent) -> None:
        for page in self.pages.values():
            page.leave()
            page.closing()
        self._ticker.stop()
        self._settle.stop()
        self.top.stop()
        event.accept()

    def _assemble(self) -> None:
        ground = QWidget()
        ground.setObjectName("ground")
        layout = QVBoxLayout(ground)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        line = QFrame()
        line.setFrameShape(QFrame.Shape.NoFrame)
        line.setFixedHeight(1)
        line.setObjectName("rule")
        layout.addWidget(self.top)
        layout.addWidget(line)
        layout.addWidget(self.stack, 1)
        layout.addWidget(self.messages)
        self.setCentralWidget(AtLeast(ground, SMALLEST))

    def _make_actions(self) -> None:
        keys = list(self._makers)
        acts: dict[str, Callable[[], object]] = {
            "undo": self.bench.keeper.undo,
            "redo": self.bench.keeper.redo,
            "quit": self.close,
            "help": self._open_help,
            **{f"page {place + 1}": self._goer(key) for place, key in enumerate(keys) if key != "place"},
            "place": self._goer("place"),
            "round": self._goer("round"),
            "copy table": lambda: copy_nearest(self.bench, self.stack.currentWidget()),
            "open table": lambda: open_nearest(self.bench, self.stack.currentWidget()),
            "code": self.top.code.take_focus,
        }
        for shortcut in WINDOW:
            if shortcut.key in acts:
                action = QAction(shortcut.words, self)
                action.setShortcuts(shortcut.sequences())
                action.setObjectName(f"do-{shortcut.key}")
                action.triggered.connect(lambda _checked=False, act=acts[shortcut.key]: act())
                self.addAction(action)

    def _goer(self, key: str) -> Callable[[], None]:
        return lambda: self.show_page(key)

    def _take(self, touched: Touched) -> None:
        for page in self.pages.values():
            page.take(touched)
        self._settle.start()

    def _say(self, sentence: str) -> None:
        self.messages.say(sentence)

    def _explain(self, why: Why, anchor: QWidget) -> None:
        from greenroom.desk.why_panel import WhyPanel

        WhyPanel(why, self).open_beside(anchor)

    def _open_help(self) -> None:
        """Open the help, which is loaded when it is first asked for."""
        from greenroom.desk.help.panel import HelpPanel

        HelpPanel(self.bench, self).open_over(self)

    def _walk(self) -> None:
        from greenroom.desk.help.walk import start_walk

        start_walk(self)
