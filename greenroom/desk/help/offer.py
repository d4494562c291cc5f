"""The offer of the walk, in the corner of the demo, until it was taken or declined."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QFrame, QVBoxLayout

from greenroom.desk.help.placing import EDGE_PX
from greenroom.desk.help.walk_card import WIDTH_PX, card_style, height_for
from greenroom.desk.help.walk_left import note_left, state_folder, was_left
from greenroom.desk.look import CARD_PADDING, GAP
from greenroom.desk.parts import button, label, row
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.window import Window

WORDS = tr(
    "A walk leads you through this invented season, from packet to picking: a few minutes, nothing to lose."
)


def offer_walk(window: Window) -> None:
    """Offer the walk to who has not left it yet."""
    if not was_left(state_folder()):
        Offer(window, state_folder()).show()


class Offer(QFrame):
    """A card in the lower right corner of the page, above what is said at the foot of the window."""

    def __init__(self, window: Window, folder: Path) -> None:
        self._ground = window.centralWidget()
        super().__init__(self._ground)
        self._room = window.stack
        self._window = window
        self._folder = folder
        self.setObjectName("walk-card")
        self.setFixedWidth(WIDTH_PX)
        self.setAccessibleName(tr("The walk is offered"))
        self.setStyleSheet(card_style(window.bench.look))
        self.start_button = button(tr("Walk through the demo"), self._start, "primary", name="offer-walk")
        self.decline_button = button(tr("Not now"), self._decline, "link", name="decline-walk")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(CARD_PADDING, CARD_PADDING - 4, CARD_PADDING, CARD_PADDING - 4)
        layout.setSpacing(GAP)
        layout.addWidget(label(tr("New here?"), "title"))
        layout.addWidget(label(WORDS, wrap=True))
        layout.addLayout(row(self.decline_button, None, self.start_button))
        self.resize(WIDTH_PX, height_for(layout))
        for one in (self._room, self._ground):
            one.installEventFilter(self)
        self._to_corner()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched in (self._room, self._ground) and event.type() == QEvent.Type.Resize:
            self._to_corner()
        return super().eventFilter(watched, event)

    def _to_corner(self) -> None:
        """Stand in the corner of the page, or of what is seen of it in a window smaller than a page."""
        corner = self._room.mapTo(self._ground, self._room.rect().bottomRight())
        right, low = min(corner.x(), self._ground.width()), min(corner.y(), self._ground.height())
        self.move(right - self.width() - EDGE_PX, low - self.height() - EDGE_PX)

    def _start(self) -> None:
        self._close()
        self._window.bench.walk()

    def _decline(self) -> None:
        note_left(self._folder)
        self._close()

    def _close(self) -> None:
        self.hide()
        self.deleteLater()
