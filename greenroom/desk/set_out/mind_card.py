"""What to mind about the plants that stand on the plot, each with its reason."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, WhyLink, label, row
from greenroom.season.plot_warnings import Warn
from greenroom.speech import tr

NOTHING = tr("Nothing: distances, pots, sun and shade are as they should be.")
NOBODY = tr("No plant stands on the plot yet.")


class MindCard(Card):
    """A list of short sentences; each says in its why how it was reckoned."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("To mind"))
        self._bench = bench
        self.setObjectName("to-mind")
        self.shown: tuple[Warn, ...] | None = None
        self._sheet = QWidget()
        self._sheet.setObjectName("ground")
        self._lines = QVBoxLayout(self._sheet)
        self._lines.setContentsMargins(0, 0, GAP, 0)
        self._lines.setSpacing(GAP)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setWidget(self._sheet)
        area.setMinimumHeight(60)
        self.body.addWidget(area, 1)

    def show_warnings(self, found: Sequence[Warn], *, planted: bool) -> None:
        """Show what is to mind."""
        self.aside.setText(str(len(found)) if found else "")
        if self.shown == tuple(found) and found:
            return
        self.shown = tuple(found)
        self._clear()
        if not found:
            self._lines.addWidget(label(NOTHING if planted else NOBODY, "quiet", wrap=True))
        for warn in found:
            self._lines.addWidget(self._line(warn))
        self._lines.addStretch(1)

    def _line(self, warn: Warn) -> QWidget:
        made = QWidget()
        sign = label("!", "alert")
        sign.setFixedWidth(8)
        words = label(warn.words, wrap=True)
        why = WhyLink(self._bench, lambda: warn.why)
        why.setAccessibleName(tr("why: {warning}", warning=warn.words))
        layout = row(sign, words, why, gap=GAP // 2)
        layout.setStretch(1, 1)
        layout.setAlignment(sign, Qt.AlignmentFlag.AlignTop)
        layout.setAlignment(why, Qt.AlignmentFlag.AlignTop)
        made.setLayout(layout)
        return made

    def _clear(self) -> None:
        while (item := self._lines.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
