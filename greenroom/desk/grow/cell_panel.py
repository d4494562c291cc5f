"""The story of one cell: what happened to what stands in it, notes, and marks to be taken back."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QLineEdit, QScrollArea, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.grow.acts import Acts
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, row
from greenroom.season.hardening_words import day_words
from greenroom.season.packets import variety_name
from greenroom.season.spots import SpotKey
from greenroom.season.state import Touched
from greenroom.season.story import Line, place_words, spot_words, story

NOTE_LENGTH = 500


class CellPanel(Card):
    """Shows the story of the cell it is opened for, and follows the current cell while it is open."""

    closed = Signal()

    def __init__(self, bench: Bench, acts: Acts) -> None:
        super().__init__("Story")
        self._bench = bench
        self._acts = acts
        self.key: SpotKey | None = None
        self.setObjectName("cell-panel")
        self.close_button = button("Close", self.close_panel, "link", name="close-story")
        self.aside.hide()
        self.head.addStretch(1)
        self.head.addWidget(self.close_button)
        self.variety = label("", "good", wrap=True)
        self.state = label("", "quiet", wrap=True)
        self.body.addWidget(self.variety)
        self.body.addWidget(self.state)
        self.lines = QWidget()
        self.lines.setObjectName("ground")
        self._lines = QVBoxLayout(self.lines)
        self._lines.setContentsMargins(0, 0, 0, 0)
        self._lines.setSpacing(GAP // 2)
        self.scroller = QScrollArea()
        self.scroller.setWidgetResizable(True)
        self.scroller.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.scroller.setFrameShape(QFrame.Shape.NoFrame)
        self.scroller.setWidget(self.lines)
        self.body.addWidget(self.scroller, 1)
        self.note = QLineEdit()
        self.note.setObjectName("note")
        self.note.setMaxLength(NOTE_LENGTH)
        self.note.setPlaceholderText("Add a note")
        self.note.setAccessibleName("add a note")
        self.note.returnPressed.connect(self.keep_note)
        self.keep = button("Keep", self.keep_note, name="keep-note")
        self.body.addLayout(row(self.note, self.keep))

    def open_for(self, key: SpotKey) -> None:
        """Show the story of a cell."""
        if key != self.key:
            self.keep_note()
        self.key = key
        self.refresh()

    def take(self, touched: Touched) -> None:
        """Show what a change touched."""
        if self.key is None:
            return
        told_of = {line.of for line in story(self._bench.keeper.season, self.key)} | {self.key.holder}
        if told_of & touched.holders or touched.kinds & {"variety", "packet"}:
            self.refresh()

    def refresh(self) -> None:
        """Tell the story anew."""
        if self.key is None:
            return
        season = self._bench.keeper.season
        spot = season.spot(self.key)
        self.title.setText(place_words(season, self.key))
        self.variety.setText(variety_name(season, spot.packet))
        self.variety.setVisible(spot.packet is not None)
        self.state.setText(spot_words(season, self.key).split(": ", 1)[1])
        self._tell(story(season, self.key))

    def keep_note(self) -> None:
        """Write the note that is being written, if there is one."""
        text = self.note.text().strip()
        if self.key is not None and text and self._acts.note(self.key, text):
            self.note.clear()

    def close_panel(self) -> None:
        """Close the story; a note begun is kept."""
        self.keep_note()
        self.key = None
        self.closed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.close_panel()
        else:
            super().keyPressEvent(event)

    def _tell(self, lines: tuple[Line, ...]) -> None:
        while (item := self._lines.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        earlier = [line for line in lines if line.earlier]
        for line in lines[len(earlier) :]:
            self._lines.addWidget(StoryLine(self._bench, self._acts, line))
        if earlier:
            self._lines.addWidget(label("Here before", "strong"))
        for line in earlier:
            self._lines.addWidget(StoryLine(self._bench, self._acts, line))
        if not lines:
            self._lines.addWidget(label("Nothing has happened here yet.", "quiet", wrap=True))
        self._lines.addStretch(1)


class StoryLine(QWidget):
    """One line of a story, with its day and the way to take it back."""

    def __init__(self, bench: Bench, acts: Acts, line: Line) -> None:
        super().__init__()
        self.line = line
        day = label(day_words(line.day), "quiet")
        words = label(line.words, wrap=True)
        self.back = button("take back", lambda: acts.take_back(line), "link")
        self.back.setAccessibleName(f"take back: {line.words}, {day_words(line.day)}")
        act = bench.keeper.ledger.act(line.act)
        written = bench.keeper.place.local(act.written)
        # A plain date and a name that the operating system gave; no markup can be in it.
        self.setToolTip(f"Written {day_words(written.date())} {written:%H:%M} by {act.who}")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, GAP, 0)
        layout.setSpacing(0)
        layout.addLayout(row(day, None, self.back))
        layout.addWidget(words)
