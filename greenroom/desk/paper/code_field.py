"""The field that takes the code of a tag, as a scanner types it, and opens the story it leads to."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLineEdit

from greenroom.desk.bench import Bench
from greenroom.desk.look import BODY_PX
from greenroom.desk.paper.scan_guard import ScanGuard
from greenroom.season.spots import SpotKey
from greenroom.speech import tr

LONGEST = 300
WIDTH_PX = 9 * BODY_PX

STAYS = (Qt.FocusReason.ActiveWindowFocusReason, Qt.FocusReason.PopupFocusReason)
"""Why the keyboard may be elsewhere while a code is still awaited: another program, or a menu."""


class CodeField(QLineEdit):
    """Enter, which scanners type after a code, opens the story; a place may be typed as well: Tray A B3.

    It is shown while a code is awaited: ``wanted`` tells that one is, ``done`` that none is any more.
    """

    wanted = Signal()
    done = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self.setObjectName("code")
        self.setMaxLength(LONGEST)
        self.setFixedWidth(WIDTH_PX)
        self.setPlaceholderText(tr("Scan a code"))
        self.setAccessibleName(tr("code of a tag, or a tray and a cell"))
        self.setToolTip(tr("Scan the code of a tag, or type a tray and a cell: it opens the story."))
        self.returnPressed.connect(self.open_story)
        self._guard = ScanGuard(self)

    def watch(self) -> None:
        """Let a scan lead here from wherever the keyboard is in the window."""
        self._guard.watch(self.window().windowHandle())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.clear()
            self.done.emit()
            return
        super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() not in STAYS:
            self.done.emit()

    def take_focus(self) -> None:
        """Wait for a code; what stands there is typed over."""
        self.wanted.emit()
        self.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.selectAll()

    def open_story(self) -> None:
        """Go to the story that the text leads to, or say why it leads nowhere."""
        # Here, not at the top: the first sight of the window need not wait for what reads codes.
        from greenroom.exchange.paper.codes import BadCodeError
        from greenroom.exchange.paper.find import find
        from greenroom.season.deeds_plot import BED

        try:
            found = find(self._bench.keeper.season, self.text())
        except BadCodeError as error:
            self._bench.say(str(error))
            self.selectAll()
            return
        self.clear()
        self.done.emit()
        page = "setout" if self._bench.keeper.season.holder(found.holder).form == BED else "grow"
        if found.row is None or found.column is None:
            self._bench.send(page, found.holder)
        else:
            self._bench.send(page, SpotKey(found.holder, found.row, found.column))
