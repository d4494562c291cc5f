"""Where the work can hurt, said before it does."""

from __future__ import annotations

from PySide6.QtWidgets import QGridLayout, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, column, label
from greenroom.speech import tr

CAUTIONS = (
    (
        tr("Lights, mats and water"),
        tr(
            "Plug them into an outlet with a residual-current cut-out (GFCI) and test it every "
            "month. Let each cord hang in a loop below its plug, so that drops fall off, and "
            "keep plugs above the trays."
        ),
    ),
    (
        tr("Sprays and fertilisers"),
        tr(
            "The label is the law: what it is for, how much, what to wear, how long to stay "
            "away. Keep them in their own bottles, away from children, pets and food."
        ),
    ),
    (
        tr("Hot peppers"),
        tr(
            "Wear gloves for ripe pods, seeds and cuttings, and keep your hands off your eyes. "
            "Dry and grind them where air moves. Dry, freeze and bottle by tested food-safety "
            "guidance only."
        ),
    ),
    (
        tr("Lifting and sun"),
        tr(
            "A watered tray or pot is heavier than it looks: lift with straight back, carry "
            "close, clear the way to the door first. Hardening takes you into the sun too; cover "
            "up and drink."
        ),
    ),
    (
        tr("Who knows better"),
        tr(
            "Local rules, and the advice of your extension service or of licensed people, come "
            "before anything this program says. Its figures are worked out from what you "
            "entered; ask why beside each."
        ),
    ),
)
COLUMNS = 3


class Cautions(Card):
    """Five short texts, side by side where there is room."""

    def __init__(self) -> None:
        super().__init__(tr("With care"))
        self.aside.setText(tr("what can hurt you, and what helps"))
        grid = QGridLayout()
        grid.setHorizontalSpacing(3 * GAP)
        grid.setVerticalSpacing(GAP + 4)
        for place, (title, text) in enumerate(CAUTIONS):
            grid.addWidget(_caution(title, text), place // COLUMNS, place % COLUMNS)
        for place in range(COLUMNS):
            grid.setColumnStretch(place, 1)
        self.body.addLayout(grid)


def _caution(title: str, text: str) -> QWidget:
    made = QWidget()
    made.setLayout(column(label(title, "strong"), label(text, wrap=True), None, gap=GAP // 2))
    return made
