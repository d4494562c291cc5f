"""What the page says while there is nothing to pick from."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, row
from greenroom.speech import tr

WORDS = tr(
    "Here you see what is ripe by when, write down what you pick, and compare varieties "
    "and seasons. First add the packets you have on the Seed page; sow them, and set the "
    "plants out. A harvest of plants that were never written down can be told as soon as "
    "their variety is in the seed box."
)


class EmptyPick(QWidget):
    """One card in the middle: what to do first."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        card = Card(tr("Nothing to pick yet"))
        card.aside.hide()
        card.body.addWidget(label(WORDS, wrap=True))
        self.seed = button(tr("Add seed"), lambda: bench.show_page("seed"), "primary", name="go-seed-first")
        card.body.addLayout(row(self.seed, None, gap=GAP))
        card.setMaximumWidth(560)
        layout = QVBoxLayout(self)
        layout.addStretch(1)
        layout.addLayout(row(None, card, None))
        layout.addStretch(2)
