"""The card of the walk: which step it is, what to do, and Next, Back and Leave."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QKeyEvent
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from greenroom.desk.look import CARD_PADDING, GAP, RADIUS, Look
from greenroom.desk.parts import button, label, row
from greenroom.speech import tr

WIDTH_PX = 312
FRAME_PX = 2
DONE = tr("✓ done")


def card_style(look: Look) -> str:
    """Return the style of a card that stands over the page."""
    palette = look.palette
    return (
        f"QFrame#walk-card {{ background: {palette.card}; border: {FRAME_PX}px solid {palette.plum_text};"
        f" border-radius: {RADIUS}px; }}"
    )


def height_for(sheet: QVBoxLayout) -> int:
    """Return the height of a card that the words laid out on it need, at its width."""
    return sheet.heightForWidth(WIDTH_PX - 2 * FRAME_PX) + 2 * FRAME_PX


class WalkCard(QFrame):
    """Stands over the page, beside what it speaks of; it takes the keyboard only when it is given it."""

    next = Signal()
    back = Signal()
    left = Signal()
    returned = Signal()

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self._look = look
        self.setObjectName("walk-card")
        self.setFixedWidth(WIDTH_PX)
        self.where = label("", "quiet")
        self.done = label("", "good")
        self.title = label("", "title", wrap=True)
        self.words = label("", wrap=True)
        self.back_button = button(tr("Back"), self.back.emit, name="walk-back")
        self.next_button = button(tr("Next"), self.next.emit, "primary", name="walk-next")
        self.return_button = button("", self.returned.emit, "link", name="walk-return")
        self.leave_button = button(tr("Leave"), self.left.emit, "link", name="walk-leave")
        self._lay_out()
        look.changed.connect(self._dress)
        self._dress()

    def show_step(self, where: str, title: str, words: str, *, first: bool, last: bool) -> None:
        """Show a step, and let a screen reader say it."""
        self.where.setText(where)
        self.title.setText(title)
        self.words.setText(words)
        self.done.clear()
        self.back_button.setEnabled(not first)
        self.next_button.setText(tr("Finish") if last else tr("Next"))
        self.setAccessibleName(tr("The walk, {where}: {title}", where=where, title=title))
        self.setAccessibleDescription(words)
        self.announce(f"{where}. {title}. {words}")
        self.fit()

    def show_away(self, page: str) -> None:
        """Offer the way back to the step's page; an empty text takes the offer away."""
        self.return_button.setText(tr("Back to {page}", page=page) if page else "")
        self.return_button.setVisible(bool(page))
        self.fit()

    def show_done(self) -> None:
        """Say that the step was done."""
        if not self.done.text():
            self.done.setText(DONE)
            self.announce(tr("Done."))

    def announce(self, words: str) -> None:
        """Let a screen reader say something."""
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, words))

    def fit(self) -> None:
        """Take the height that the words need."""
        self.ensurePolished()
        self.resize(WIDTH_PX, height_for(self._sheet))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _dress(self) -> None:
        self.setStyleSheet(card_style(self._look))

    def _lay_out(self) -> None:
        self._sheet = layout = QVBoxLayout(self)
        layout.setContentsMargins(CARD_PADDING, CARD_PADDING - 6, CARD_PADDING, CARD_PADDING - 6)
        layout.setSpacing(GAP - 2)
        layout.addLayout(row(self.where, None, self.done))
        layout.addWidget(self.title)
        layout.addWidget(self.words)
        layout.addLayout(row(self.return_button, None))
        layout.addLayout(row(self.leave_button, None, self.back_button, self.next_button))
        self.return_button.hide()
