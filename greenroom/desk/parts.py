"""Small parts used on every page: labels, cards, buttons, the why link."""

from __future__ import annotations

import html
from collections.abc import Callable
from typing import TypeVar

from PySide6.QtCore import QEvent, QPoint, QSize, Qt
from PySide6.QtGui import QHelpEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QToolTip,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.look import CARD_PADDING, GAP
from greenroom.season.why import Why
from greenroom.speech import tr

LEAST_PX = 40

Box = TypeVar("Box", bound=QBoxLayout)


def label(text: str = "", role: str = "", *, wrap: bool = False) -> QLabel:
    """Return a plain-text label; ``role`` names its style in the look."""
    made = QLabel(text)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setWordWrap(wrap)
    if role:
        made.setProperty("role", role)
    return made


def short_label(text: str = "", role: str = "") -> ShortLabel:
    """Return a label that is shortened where there is no room; the whole is in its tool tip then."""
    made = ShortLabel(text)
    made.setTextFormat(Qt.TextFormat.PlainText)
    if role:
        made.setProperty("role", role)
    return made


def show_words(shown: QLabel, words: str) -> None:
    """Show words in a label; while there are none it takes no room."""
    shown.setText(words)
    shown.setVisible(bool(words))


def button(text: str, act: Callable[[], object], kind: str = "", *, name: str = "") -> QPushButton:
    """Return a button that does one thing; ``kind`` is "primary", "urgent", "sun", "clay", "plum", "link"."""
    made = QPushButton(text)
    made.setAutoDefault(False)
    if kind:
        made.setProperty("kind", kind)
    made.setObjectName(name)
    made.clicked.connect(lambda _checked=False: act())
    return made


def plain_tip(words: str) -> str:
    """Return words as a tip that shows them as they are; Qt takes a tip for markup where it looks like it."""
    lines = "<br>".join(html.escape(line) for line in words.split("\n"))
    return f"<span>{lines}</span>" if words else ""


def told_under(widget: QWidget, event: QEvent, words_at: Callable[[QPoint], str]) -> bool:
    """Tell what is under the pointer where an event asks for it; return whether it did."""
    if not (isinstance(event, QHelpEvent) and event.type() is QEvent.Type.ToolTip):
        return False
    QToolTip.showText(event.globalPos(), plain_tip(words_at(event.pos())), widget)
    return True


def plain_words(words: str) -> str:
    """Return words as a button shows them as they are, where an ampersand would make a shortcut."""
    return words.replace("&", "&&")


def row(*widgets: QWidget | None, gap: int = GAP) -> QHBoxLayout:
    """Return widgets side by side; None is a stretch."""
    return _fill(QHBoxLayout(), widgets, gap)


def column(*widgets: QWidget | None, gap: int = GAP) -> QVBoxLayout:
    """Return widgets below each other; None is a stretch."""
    return _fill(QVBoxLayout(), widgets, gap)


def scrolled(part: QWidget) -> QScrollArea:
    """Return a part that is scrolled up and down."""
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setWidget(part)
    return area


def restyle(widget: QWidget, name: str, value: str) -> None:
    """Set a property the style sheet looks at, and let the style see it."""
    if widget.property(name) == value:
        return
    widget.setProperty(name, value)
    widget.style().unpolish(widget)
    widget.style().polish(widget)


class ShortLabel(QLabel):
    """One line that ends in dots where it has no room."""

    def minimumSizeHint(self) -> QSize:
        whole = super().minimumSizeHint()
        return QSize(min(whole.width(), LEAST_PX), whole.height())

    def setText(self, text: str) -> None:
        super().setText(text)
        self._tell()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._tell()

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self._short:
            super().paintEvent(event)
            return
        room = self.contentsRect()
        words = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, room.width())
        painter = QPainter(self)
        self.style().drawItemText(
            painter, room, self.alignment(), self.palette(), self.isEnabled(), words, self.foregroundRole()
        )
        painter.end()

    @property
    def _short(self) -> bool:
        return self.sizeHint().width() > self.width()

    def _tell(self) -> None:
        self.setToolTip(plain_tip(self.text()) if self._short else "")


class Card(QFrame):
    """A white sheet with a title line; ``body`` takes what stands on it."""

    def __init__(self, title: str = "", *, role: str = "card") -> None:
        super().__init__()
        self.setProperty("role", role)
        self.title = short_label(title, "title")
        self.aside = short_label("", "quiet")
        self.aside.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.aside.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.head = QHBoxLayout()
        self.head.setSpacing(GAP + 4)
        self.head.addWidget(self.title)
        self.head.addWidget(self.aside, 1)
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(CARD_PADDING, CARD_PADDING - 4, CARD_PADDING, CARD_PADDING - 4)
        self.body.setSpacing(GAP)
        self.body.addLayout(self.head)
        self.title.setVisible(bool(title))


class WhyLink(QPushButton):
    """The "why?" beside a figure; it opens the why-panel."""

    def __init__(self, bench: Bench, why: Callable[[], Why | None], text: str = tr("why?")) -> None:
        super().__init__(text)
        self._bench = bench
        self._why = why
        self.setAutoDefault(False)
        self.setProperty("kind", "link")
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleName(tr("why this figure"))
        self.clicked.connect(self._open)

    def _open(self) -> None:
        why = self._why()
        if why is not None:
            self._bench.explain(why, self)


def _fill(layout: Box, widgets: tuple[QWidget | None, ...], gap: int) -> Box:
    layout.setSpacing(gap)
    layout.setContentsMargins(0, 0, 0, 0)
    for widget in widgets:
        if widget is None:
            layout.addStretch(1)
        else:
            layout.addWidget(widget)
    return layout
