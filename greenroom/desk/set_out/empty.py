"""What the page says while there is no place, or nothing is drawn on the plot."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, row
from greenroom.speech import tr

NO_PLACE = tr("First set the place: hours of sun follow from where it lies and which way is north.")
NO_PLOT = tr(
    "Draw the plot first: lay a bed or a group of pots, then what throws shade, such as "
    "the house, trees and fences with their heights. The plan then shows the hours of "
    "sun in every square, for any day, and hardened plants are dragged into place."
)


class EmptyPlot(QWidget):
    """One card in the middle: what to do first."""

    def __init__(self, bench: Bench, lay: Callable[[str], object]) -> None:
        super().__init__()
        self._bench = bench
        card = Card(tr("No plot yet"))
        card.aside.hide()
        self.words = label("", wrap=True)
        card.body.addWidget(self.words)
        self.place = button(
            tr("Set the place"), lambda: bench.show_page("place"), "primary", name="go-place-first"
        )
        self.bed = button(tr("Lay a bed"), lambda: lay("bed"), "primary", name="first-bed")
        self.pots = button(tr("Stand a group of pots"), lambda: lay("pots"), name="first-pots")
        card.body.addLayout(row(self.place, self.bed, self.pots, None, gap=GAP))
        card.setMaximumWidth(560)
        layout = QVBoxLayout(self)
        layout.addStretch(1)
        layout.addLayout(row(None, card, None))
        layout.addStretch(2)
        self.refresh()

    def refresh(self) -> None:
        """Say what comes first."""
        known = self._bench.keeper.place.known
        self.words.setText(NO_PLOT if known else NO_PLACE)
        self.place.setVisible(not known)
        self.bed.setVisible(known)
        self.pots.setVisible(known)
