"""What was told of a holder, the latest first, each line with the way to strike it out."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label
from greenroom.season.hardening_words import day_words
from greenroom.season.watering import Line
from greenroom.speech import tr

SHOWN = 8
DAY_PX = 76


class HistoryCard(Card):
    """Shows a few lines, or all; ``struck`` carries the line to be struck out."""

    struck = Signal(object)

    def __init__(self, title: str, empty: str) -> None:
        super().__init__(title)
        self._empty = empty
        self._shown: tuple[Line, ...] | None = None
        self._all = False
        self.lines: tuple[Line, ...] = ()
        self.more = button("", self._toggle, "link", name="history-more")
        self.head.addWidget(self.more)
        sheet = QWidget()
        self._sheet = QVBoxLayout(sheet)
        self._sheet.setContentsMargins(0, 0, 0, 0)
        self._sheet.setSpacing(GAP // 2)
        self.body.addWidget(sheet)

    def show_lines(self, lines: tuple[Line, ...]) -> None:
        """Show lines, the latest first."""
        self.lines = lines
        shown = lines if self._all else lines[:SHOWN]
        self.more.setVisible(len(lines) > SHOWN)
        self.more.setText(tr("Show fewer") if self._all else tr("Show all {number}", number=len(lines)))
        if shown == self._shown:
            return
        self._shown = shown
        while (item := self._sheet.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for line in shown:
            self._sheet.addWidget(self._row(line))
        if not shown:
            self._sheet.addWidget(label(self._empty, "quiet", wrap=True))

    def _row(self, line: Line) -> QWidget:
        made = QWidget()
        layout = QHBoxLayout(made)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        day = label(day_words(line.day), "quiet")
        day.setFixedWidth(DAY_PX)
        strike = button(tr("strike out"), lambda: self.struck.emit(line), "link", name="strike-out")
        strike.setAccessibleName(tr("strike out: {words}, {day}", words=line.words, day=day_words(line.day)))
        layout.addWidget(day)
        layout.addWidget(label(line.words, wrap=True), 1)
        layout.addWidget(strike)
        return made

    def _toggle(self) -> None:
        self._all = not self._all
        self.show_lines(self.lines)
