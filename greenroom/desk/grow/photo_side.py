"""Beside the photograph: what the cells are taken for, what is done about the corners, and keeping it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox

from greenroom.desk.bench import Bench
from greenroom.desk.grow.photo_legend import PhotoLegend
from greenroom.desk.grow.photo_state import Mark, PhotoState, Place
from greenroom.desk.parts import Card, WhyLink, button, label, row, show_words
from greenroom.exchange.tray_photo.cells import SURELY_NOT, SURELY_UP
from greenroom.season.canopy_why import reading_why
from greenroom.season.why import Why
from greenroom.speech import many, tr

WIDE_PX = 236
MOST_NAMED = 6


class PhotoSide(Card):
    """Counts what was read and carries the buttons."""

    turn_asked = Signal()
    corners_asked = Signal()
    keep_asked = Signal()

    def __init__(self, bench: Bench, state: Callable[[], PhotoState | None]) -> None:
        super().__init__(tr("Taken for"))
        self._state = state
        self.setFixedWidth(WIDE_PX)
        self.legend = PhotoLegend(bench.look)
        self.why = WhyLink(bench, self._why)
        self.why.setAccessibleName(tr("why these are taken for up"))
        self.corner_words = label("", "quiet", wrap=True)
        self.turn = button(tr("Turn A1"), self.turn_asked.emit, name="photo-turn")
        self.turn.setToolTip(tr("Put cell A1 at the next corner"))
        self.again = button(tr("Corners back"), self.corners_asked.emit, name="photo-corners")
        self.again.setToolTip(tr("Put the corners where they were at first"))
        self.reading = label(tr("Reading the cells …"), "quiet")
        self.reading.hide()
        self.unsown = label("", "alert", wrap=True)
        self.keep_picture = QCheckBox(tr("Keep the photo with the tray"))
        self.keep_picture.setChecked(True)
        self.write = button("", self.keep_asked.emit, "primary", name="photo-keep")
        for one in (self.turn, self.again):
            one.setProperty("tight", "yes")
        self.head.addWidget(self.why)
        self.body.addWidget(self.legend)
        self.body.addWidget(self.reading)
        self.body.addWidget(self.unsown)
        self.body.addStretch(1)
        self.body.addWidget(self.corner_words)
        self.body.addLayout(row(self.turn, self.again, None))
        self.body.addWidget(self.keep_picture)
        self.body.addWidget(self.write)

    def show_state(self, *, busy: bool) -> None:
        """Show what was read as it stands; nothing is kept while work goes on."""
        state = self._state()
        if state is None or state.loaded is None:
            return
        marks = state.marks()
        self.legend.show_marks(marks.values())
        self.reading.setVisible(busy and not marks)
        self.corner_words.setText(state.loaded.marked.words)
        show_words(self.unsown, unsown_words(state, marks))
        new = sum(mark is Mark.NEW for mark in marks.values())
        self.write.setText(
            tr("Mark {cells} up", cells=many(new, "cell")) if new else tr("Keep the leaf cover")
        )
        self.write.setEnabled(bool(marks) and not busy)
        self.why.setVisible(bool(marks))

    def _why(self) -> Why | None:
        state = self._state()
        if state is None or state.reading is None:
            return None
        level, limits = state.reading.level, (SURELY_NOT, SURELY_UP)
        green, unsure, cells = len(state.green()), state.count(Mark.UNSURE), len(state.reading.cells)
        return reading_why(green, unsure, cells, level.value, level.rule, limits, state.confidence)


def unsown_words(state: PhotoState, marks: dict[Place, Mark]) -> str:
    """Name the green cells that nothing was sown in; an empty text where there are none."""
    cells = [state.key(place).label for place, mark in marks.items() if mark is Mark.UNSOWN]
    if not cells:
        return ""
    named = ", ".join(cells[:MOST_NAMED]) + (" …" if len(cells) > MOST_NAMED else "")
    return tr("Never sown, so not marked: {cells}", cells=named)
