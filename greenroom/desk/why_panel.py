"""The why-panel: inputs, rule and source of a figure, beside where it was asked."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QScrollArea, QVBoxLayout, QWidget

from greenroom.desk.help.words_here import WordsHere
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, row
from greenroom.guide.glossary_reading import own_glossary
from greenroom.season.why import Why
from greenroom.speech import tr

WIDTH_PX = 420
FRAME_PX = 1
INPUT_SHARE = 5, 4  # of the width, for the name of an input and for its value


class WhyPanel(QFrame):
    """Opens over the page; Escape, Close or a click elsewhere closes it."""

    def __init__(self, why: Why, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self._home = parent
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setObjectName("why")
        self.setProperty("role", "card")
        self.setFixedWidth(WIDTH_PX)
        self._figure = label(why.figure, "title", wrap=True)
        told = QWidget()
        told.setObjectName("ground")
        self.words_here = WordsHere(_whole_text(why), own_glossary())
        self.words_here.folded.connect(self._grow)
        self._words = _told(why, self.words_here)
        told.setLayout(self._words)
        self._scroll = scroll = QScrollArea()
        scroll.setAccessibleName(why.figure)
        scroll.setWidget(told)
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.close_button = button(tr("Close"), self.close)
        self._sheet = QVBoxLayout(self)
        self._sheet.setSpacing(GAP)
        self._sheet.addWidget(self._figure)
        self._sheet.addWidget(scroll, 1)
        self._sheet.addLayout(row(None, self.close_button))
        self.setAccessibleName(tr("Why: {figure}. {rule}", figure=why.figure, rule=why.rule))

    def open_beside(self, anchor: QWidget) -> None:
        """Show the panel next to a widget, inside the window; what does not fit is scrolled."""
        bounds = anchor.window().frameGeometry().adjusted(GAP, GAP, -GAP, -GAP)
        self.resize(WIDTH_PX, min(self._whole_height(), bounds.height()))
        corner = anchor.mapToGlobal(QPoint(0, anchor.height() + 4))
        x = max(bounds.left(), min(corner.x(), bounds.right() - self.width()))
        y = corner.y()
        if y + self.height() > bounds.bottom():
            above = anchor.mapToGlobal(QPoint(0, 0)).y() - self.height() - 4
            y = above if above >= bounds.top() else bounds.bottom() - self.height()
        self.move(x, y)
        self.show()
        self.close_button.setFocus()

    def _grow(self) -> None:
        """Grow with what was unfolded, as far as the window has room above or below."""
        bounds = self._home.window().frameGeometry().adjusted(GAP, GAP, -GAP, -GAP)
        self.resize(WIDTH_PX, min(self._whole_height(), bounds.height()))
        self.move(self.x(), max(bounds.top(), min(self.y(), bounds.bottom() - self.height())))
        self._words.activate()
        self._scroll.ensureWidgetVisible(self.words_here.card)

    def _whole_height(self) -> int:
        """Return the height at which nothing needs to be scrolled."""
        self.ensurePolished()
        margins = self._sheet.contentsMargins()
        inner = WIDTH_PX - margins.left() - margins.right() - 2 * FRAME_PX
        parts = (self._figure.heightForWidth(inner), self._words.heightForWidth(inner))
        foot = self.close_button.sizeHint().height()
        return sum(parts) + foot + 2 * GAP + margins.top() + margins.bottom() + 2 * FRAME_PX


def _whole_text(why: Why) -> str:
    """Return all that a why-panel says, but for its sources, as one text."""
    return "\n".join((why.figure, why.rule, *(f"{name} {value}" for name, value in why.inputs)))


def _told(why: Why, words: QWidget) -> QVBoxLayout:
    """Return the inputs, the rule, the words of the trade in it and the sources below each other."""
    layout = QVBoxLayout()
    layout.setContentsMargins(0, 0, GAP, 0)
    layout.setSpacing(GAP)
    layout.addLayout(_inputs(why))
    layout.addWidget(label(tr("The rule"), "strong"))
    layout.addWidget(label(why.rule, wrap=True))
    layout.addWidget(words)
    if why.sources:
        layout.addWidget(label(tr("Where it comes from"), "strong"))
    for source in why.sources:
        layout.addWidget(label(source, "quiet", wrap=True))
    layout.addStretch(1)
    return layout


def _inputs(why: Why) -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(2 * GAP)
    grid.setVerticalSpacing(GAP // 2)
    for column, share in enumerate(INPUT_SHARE):
        grid.setColumnStretch(column, share)
    for place, (name, value) in enumerate(why.inputs):
        for column, made in enumerate((label(name, "quiet", wrap=True), label(value, wrap=True))):
            made.setAlignment(Qt.AlignmentFlag.AlignTop)
            grid.addWidget(made, place, column)
    return grid
