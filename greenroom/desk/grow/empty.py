"""What the page says while there is no tray and no rack."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, row
from greenroom.speech import tr

FIRST = tr(
    "Sow a tray first. Each cell then stands here with its variety: click the ones that "
    "come up, see how the tray does against what its warmth lets you expect, and drag "
    "the seedlings onto pots."
)


class EmptyPage(QWidget):
    """One card in the middle: what to do first."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        card = Card(tr("Nothing grows here yet"))
        card.aside.hide()
        card.body.addWidget(label(FIRST, wrap=True))
        self.sow = button(tr("Sow a tray"), lambda: bench.show_page("sow"), "primary", name="go-sow")
        card.body.addLayout(row(self.sow, None, gap=GAP))
        card.setMaximumWidth(520)
        layout = QVBoxLayout(self)
        layout.addStretch(1)
        layout.addLayout(row(None, card, None))
        layout.addStretch(2)
