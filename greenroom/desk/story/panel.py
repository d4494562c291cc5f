"""The story of a plant, of its tray, rack or bed, or of its packet: told, added to, taken back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QLineEdit, QPushButton, QStackedWidget, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.flow import Flow
from greenroom.desk.parts import Card, button, label, row, show_words
from greenroom.desk.share_bar import ShareBar
from greenroom.desk.story.adding import PictureAdder, choose_pictures, holds_pictures
from greenroom.desk.story.flower import FlowerButton
from greenroom.desk.story.larger import LargerView
from greenroom.desk.story.lines import LineList
from greenroom.desk.story.subject import (
    VIEWS,
    lines_of,
    state_of,
    title_of,
    variety_of,
    views_of,
    written_words,
)
from greenroom.desk.story.thumbs import THUMB, Pictures
from greenroom.ledger import Act
from greenroom.season.spots import SpotKey
from greenroom.season.state import Touched
from greenroom.season.story import Line, take_back
from greenroom.season.story_deeds import About, note_on
from greenroom.speech import tr

NOTE_LENGTH = 500
SETTLE_MS = 40
ROOMY_PX, WIDE_PX = 420, 280
SEED_KINDS = frozenset(("variety", "packet", "place_set", "units_set"))


class StoryPanel(Card):
    """Shows a story and follows it while it is open; ``day`` tells which day is written for."""

    closed = Signal()

    def __init__(self, bench: Bench, day: Callable[[], date]) -> None:
        super().__init__(tr("Story"))
        self._bench = bench
        self._day = day
        self._view = "plant"
        self._acts: dict[int, Act] = {}
        self._told: tuple[Line, ...] = ()
        self.key: SpotKey | None = None
        self.about: About | None = None
        self.setObjectName("story-panel")
        self.setAcceptDrops(True)
        self.lines = LineList(bench.look, self._take_back, self._written)
        self.larger = LargerView()
        self.adder = PictureAdder(bench, day, self)
        self._small = Pictures(bench.keeper, self, QSize(THUMB))
        self._whole = Pictures(bench.keeper, self)
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._make_parts()
        self._lay_out()
        self._connect()

    def be_part(self) -> None:
        """Stand within a sheet that has a title of its own, and cannot be closed."""
        self.setProperty("role", "")
        self.body.setContentsMargins(0, 0, 0, 0)
        self.title.hide()
        self.close_button.hide()

    def open_for(self, key: SpotKey) -> None:
        """Show the story of what stands in a spot."""
        self._turn_to(key)
        self.refresh()

    def follow(self, key: SpotKey) -> None:
        """Go on to another spot; its name is shown at once, its story when the hand pauses."""
        if key != self.key:
            self._turn_to(key)
            self._show_names()
            self._settle.start()

    def open_packet(self, packet: str | None) -> None:
        """Show the story of a packet, or of none."""
        about = About(packet=packet) if packet else None
        if about != self.about:
            self._forget_picture()
            self.lines.start_anew()
        self.key, self.about = None, about
        self.refresh()

    def take(self, touched: Touched) -> None:
        """Show what a change touched, after the cells were painted."""
        if self.about is None:
            return
        told_of = {line.of for line in self._told} | ({self.about.spot.holder} if self.about.spot else set())
        if self.about.spot is None or touched.holders & told_of or touched.kinds & SEED_KINDS:
            self._settle.start()

    def refresh(self) -> None:
        """Tell the story anew."""
        self._settle.stop()
        if not self._show_names() or self.about is None:
            return
        self._told = lines_of(self._bench.keeper.season, self.about)
        self.lines.tell(self._told)
        self._small.ask([line.picture for line in self._told if line.picture is not None])

    def keep_note(self) -> None:
        """Write the note that is being written, if there is one."""
        text, about, keeper = self.note.text().strip(), self.about, self._bench.keeper
        if about is not None and text and keeper.do(lambda: note_on(keeper.season, about, text, self._day())):
            self.note.clear()
            self.refresh()

    def close_panel(self) -> None:
        """Close the story; a note begun is kept."""
        self.keep_note()
        self._forget_picture()
        self.key = self.about = None
        self.closed.emit()

    def closing(self) -> None:
        """Stop what still runs."""
        self.adder.stop()
        self._settle.stop()
        self._small.stop()
        self._whole.stop()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._show_head()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Paste) and self._paste():
            return
        if event.key() == Qt.Key.Key_Escape and self.close_button.isVisible():
            self.close_panel()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if self.about is not None and holds_pictures(event.mimeData()):
            event.setDropAction(Qt.DropAction.CopyAction)
            event.accept()

    def dropEvent(self, event: QDropEvent) -> None:
        if self.about is not None:
            event.acceptProposedAction()
            self.adder.add_mime(self.about, event.mimeData())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A picture pasted while a note is written goes to the story; text goes into the note."""
        if watched is self.note and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return event.matches(QKeySequence.StandardKey.Paste) and self._paste()
        return super().eventFilter(watched, event)

    def _paste(self) -> bool:
        mime = QGuiApplication.clipboard().mimeData()
        if self.about is None or not holds_pictures(mime):
            return False
        self.adder.add_mime(self.about, mime)
        return True

    def _turn_to(self, key: SpotKey) -> None:
        if key != self.key:
            self.keep_note()
            self._view = "plant"
            self._forget_picture()
            self.lines.start_anew()
        self.key = key

    def _show_names(self) -> bool:
        """Show what the story is of; False if it is of nothing."""
        season = self._bench.keeper.season
        if self.key is not None:
            self.about = self._choose_view()
        if self.about is None:
            return False
        self.title.setText(title_of(season, self.about))
        self.variety.setText(variety_of(season, self.about))
        self.state.setText(state_of(season, self.about))
        self.flower.stand_for(self.about)
        self.note.setVisible(self.about.packet is None)
        self._show_head()
        return True

    def _show_head(self) -> None:
        """Show above the story what there is room for; a picture has all the room there is."""
        large = self.larger.line is not None
        self.view_row.setVisible(self.key is not None and not large)
        self.variety.setVisible(bool(self.variety.text()) and not large)
        self.state.setVisible(bool(self.state.text()) and not large and self.height() >= ROOMY_PX)
        self.flower.setVisible(self.flower.wanted and not large)
        self.note_row.setVisible(not large)
        noted = self.about is not None and self.about.packet is None
        self.keep.setVisible(noted and self.width() >= WIDE_PX)  # Enter keeps a note, too

    def _choose_view(self) -> About | None:
        """Offer the stories that can be told from the spot, and return the one that is asked for."""
        if self.key is None:
            return self.about
        views = views_of(self._bench.keeper.season, self.key)
        if self._view not in views:
            self._view = "plant"
        for name, choice in self.views.items():
            choice.setVisible(name in views)
            choice.setText(views[name][0] if name in views else "")
            choice.setChecked(name == self._view)
        return views[self._view][1]

    def _show_view(self, name: str) -> None:
        self.keep_note()
        self._view = name
        self._forget_picture()
        self.lines.start_anew()
        self.refresh()

    def _take_back(self, line: Line) -> None:
        keeper = self._bench.keeper
        if keeper.do(lambda: take_back(keeper.season, line)):
            self.refresh()

    def _written(self, line: Line) -> str:
        """Return when a line was written and by whom."""
        if not line.act:
            return ""
        keeper = self._bench.keeper
        act = self._acts.get(line.act) or keeper.act(line.act)
        if act is None:
            return ""
        self._acts[line.act] = act
        return written_words(act, keeper.place)

    def _pictured(self) -> list[Line]:
        return [line for line in self._told if line.picture is not None]

    def _open_picture(self, line: Line) -> None:
        pictured = self._pictured()
        if line.picture is None or line not in pictured:
            return
        self.larger.open_line(line, pictured.index(line), len(pictured))
        self.middle.setCurrentWidget(self.larger)
        self._show_head()
        self.larger.setFocus(Qt.FocusReason.OtherFocusReason)
        self._whole.ask([line.picture])

    def _step(self, step: int) -> None:
        pictured = self._pictured()
        if self.larger.line in pictured:
            place = pictured.index(self.larger.line) + step
            if 0 <= place < len(pictured):
                self._open_picture(pictured[place])

    def _close_picture(self) -> None:
        line = self.larger.line
        self._forget_picture()
        for one in self.lines.made:
            if one.line == line and one.picture is not None:
                one.picture.setFocus(Qt.FocusReason.OtherFocusReason)

    def _forget_picture(self) -> None:
        self.larger.line = None
        self._whole.stop()
        self.middle.setCurrentWidget(self.lines)
        self._show_head()

    def _browse(self) -> None:
        choose_pictures(self, self._add_paths)

    def _add_paths(self, paths: list[str]) -> None:
        if self.about is not None:
            self.adder.add_files(self.about, [Path(path) for path in paths])

    def _on_started(self) -> None:
        self.trouble.hide()
        self.progress.setValue(0)
        self.under_way.show()
        self.add.setEnabled(False)

    def _on_ended(self, trouble: str) -> None:
        self.under_way.hide()
        self.add.setEnabled(True)
        show_words(self.trouble, trouble)

    def _make_parts(self) -> None:
        self.close_button = button(tr("Close"), self.close_panel, "link", name="close-story")
        self.variety = label("", "good", wrap=True)
        self.state = label("", "quiet", wrap=True)
        self.flower = FlowerButton(self._bench, self._day)
        self.trouble = label("", "alert", wrap=True)
        self.trouble.hide()
        self.views: dict[str, QPushButton] = {}
        for name in VIEWS:
            choice = button("", partial(self._show_view, name), name=f"story-{name}")
            choice.setCheckable(True)
            choice.setProperty("tight", "yes")
            self.views[name] = choice
        self.note = QLineEdit()
        self.note.setObjectName("note")
        self.note.setMaxLength(NOTE_LENGTH)
        self.note.setPlaceholderText(tr("Add a note"))
        self.note.setAccessibleName(tr("add a note"))
        self.note.setAcceptDrops(False)
        self.note.installEventFilter(self)
        self.keep = button(tr("Keep", sense="a note"), self.keep_note, name="keep-note")
        self.add = button(tr("Picture…"), self._browse, name="add-picture")
        self.add.setAccessibleName(tr("add pictures"))
        self.add.setToolTip(tr("Add pictures; or drop them here, or paste one"))
        self.progress = ShareBar(tr("share of the pictures taken in"))
        self.cancel = button(tr("Cancel"), self.adder.stop, "link", name="cancel-picture")

    def _lay_out(self) -> None:
        self.aside.hide()
        self.keep.setProperty("tight", "yes")
        self.add.setProperty("tight", "yes")
        self.head.addStretch(1)
        self.head.addWidget(self.close_button)
        self.view_row = Flow(*self.views.values(), gap=4)
        self.note_row, self.under_way = QWidget(), QWidget()
        self.note_row.setLayout(row(self.note, self.keep, self.add))
        self.under_way.setLayout(row(self.progress, self.cancel))
        self.view_row.hide()
        self.under_way.hide()
        self.middle = QStackedWidget()
        self.middle.addWidget(self.lines)
        self.middle.addWidget(self.larger)
        above: tuple[QWidget, ...] = (self.view_row, self.variety, self.state, self.flower)
        for part in above:
            self.body.addWidget(part)
        self.body.addWidget(self.middle, 1)
        for part in (self.trouble, self.under_way, self.note_row):
            self.body.addWidget(part)

    def _connect(self) -> None:
        self._settle.timeout.connect(self.refresh)
        self.note.returnPressed.connect(self.keep_note)
        self.lines.opened.connect(self._open_picture)
        self.larger.closed.connect(self._close_picture)
        self.larger.stepped.connect(self._step)
        self._small.ready.connect(self.lines.show_pictures)
        self._whole.ready.connect(self.larger.show_picture)
        self.adder.started.connect(self._on_started)
        self.adder.progressed.connect(self.progress.show_share)
        self.adder.ended.connect(self._on_ended)
