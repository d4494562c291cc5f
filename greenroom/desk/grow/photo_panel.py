"""Reading a tray from a photograph: choose it, put the corners right, decide what is unsure, keep it."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QImage, QKeyEvent
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.elided import Elided
from greenroom.desk.file_field import FileField
from greenroom.desk.grow.photo_canopy import CanopyCard
from greenroom.desk.grow.photo_side import PhotoSide
from greenroom.desk.grow.photo_state import Mark, PhotoState
from greenroom.desk.grow.photo_view import PhotoView
from greenroom.desk.grow.photo_work import Loaded, keeping, loading, reading
from greenroom.desk.look import GAP
from greenroom.desk.on_day import seen_on
from greenroom.desk.parts import button, column, label, row, show_words
from greenroom.desk.share_bar import ShareBar
from greenroom.desk.story.room import room_of
from greenroom.desk.worker import Worker
from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.tray_photo.cells import MARKED, Reading
from greenroom.exchange.tray_photo.photo import turned
from greenroom.season.canopy_deeds import keep_reading
from greenroom.season.state import Touched
from greenroom.season.story_deeds import PictureFile
from greenroom.speech import many, tr

FILTERS = f"{tr('Pictures')} (*.jpg *.jpeg *.png *.webp *.gif *.bmp);;{tr('All files')} (*)"
FIRST = tr(
    "Take the photo from above, the whole tray in it, in even white light. The corners "
    "are found for you or you drag them; then see what is taken for up, click what is "
    "not so, and keep it."
)
CALLED_OFF = tr("Called off; nothing was kept.")
READ_AGAIN_MS = 120


class PhotoPanel(QWidget):
    """Stands in place of the cells while a photograph of their tray is read."""

    closed = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self.holder: str | None = None
        self.state: PhotoState | None = None
        self.setObjectName("photo")
        self.setAcceptDrops(True)
        self._loader: Worker[Loaded] = Worker((BadFileError, Cancelled), self)
        self._reader: Worker[Reading] = Worker((BadFileError, Cancelled), self)
        self._keeper_of_file: Worker[PictureFile] = Worker((BadFileError, Cancelled), self)
        self._again = QTimer(self, singleShot=True, interval=READ_AGAIN_MS)
        self._make_parts()
        self._lay_out()
        self._connect()

    @property
    def busy(self) -> bool:
        """Whether work is going on."""
        return self._loader.running or self._reader.running or self._keeper_of_file.running

    def open_for(self, holder: str) -> None:
        """Read photographs of a tray from now on."""
        if holder != self.holder:
            self._forget()
        self.holder = holder
        made = self._bench.keeper.season.holder(holder)
        self.title.setText(tr("Photo of {name}", name=made.name))
        self.setAccessibleName(tr("Photo of {name}", name=made.name))
        self.canopy.show_holder(holder)
        self.side.keep_picture.setVisible(room_of(self._bench.keeper).store is not None)
        self._show()
        self.file.path.setFocus(Qt.FocusReason.OtherFocusReason)

    def choose(self, path: str) -> None:
        """Take a photograph in and look for the tray in it."""
        if self.holder is None:
            return
        self._forget()
        made = self._bench.keeper.season.holder(self.holder)
        self._say(tr("Taking the photo in …"))
        self._loader.start(loading(Path(path).expanduser(), made.rows, made.columns))
        self._show_busy()

    def take(self, touched: Touched) -> None:
        """Show what a change touched; close when the tray was put away."""
        if self.holder is None or self.holder not in touched.holders:
            return
        if any(one.key == self.holder for one in self._bench.keeper.season.holders()):
            self.canopy.show_holder(self.holder)
            self._show()
        else:
            self.close_panel()

    def close_panel(self) -> None:
        """Go back to the cells; the photograph is forgotten."""
        self.stop()
        self._forget()
        self.holder = None
        self.closed.emit()

    def stop(self) -> None:
        """Call off what still runs."""
        self._again.stop()
        for worker in (self._loader, self._reader, self._keeper_of_file):
            worker.cancel()
        self._show_busy()

    def keep(self) -> None:
        """Write what was read as one act, with the picture if it is to be kept."""
        if self.state is None or self.state.loaded is None or self.state.reading is None or self.busy:
            return
        store = room_of(self._bench.keeper).store if self.side.keep_picture.isChecked() else None
        if store is None:
            self._write(None)
            return
        self._keeper_of_file.start(keeping(store, self.state.loaded.photo.ready))
        self._show_busy()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.close_panel()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        self.file.dragEnterEvent(event)

    def dropEvent(self, event: QDropEvent) -> None:
        self.file.dropEvent(event)

    def _call_off(self) -> None:
        self.stop()
        self._say(CALLED_OFF)

    def _on_loaded(self, loaded: Loaded) -> None:
        if self.holder is None:
            return
        season = self._bench.keeper.season
        made = season.holder(self.holder)
        self.state = PhotoState(season, self.holder, made.rows, made.columns, loaded, loaded.marked.corners)
        pixels = loaded.photo.pixels
        high, wide = pixels.shape[:2]
        image = QImage(pixels.tobytes(), wide, high, 3 * wide, QImage.Format.Format_RGB888).copy()
        self.view.show_state(self.state, image)
        self._say("")
        self.stack.setCurrentWidget(self.with_photo)
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)
        self._read()

    def _read(self) -> None:
        """Read the cells where the corners are now."""
        state = self.state
        if state is None or state.loaded is None or state.corners is None:
            return
        if not state.fit:
            self._reader.cancel()
            self._say(trouble=MARKED)
            self._show()
            return
        self._reader.start(reading(state.loaded.photo, state.corners, state.rows, state.columns))
        self._show_busy()

    def _on_read(self, found: Reading) -> None:
        if self.state is not None:
            self.state.reading = found
            self._say("")
            self._show()

    def _on_trouble(self, error: Exception) -> None:
        self._say(trouble=tr("{trouble}. Nothing was kept.", trouble=str(error).rstrip(".")))
        self._show()

    def _on_corners(self) -> None:
        self._say("")
        self._again.start()
        self._show()

    def _turn(self) -> None:
        """Put cell A1 at the next corner."""
        if self.state is not None and self.state.corners is not None:
            self.state.corners = turned(self.state.corners)
            self.state.reading = None
            self.state.said.clear()
            self._on_corners()

    def _find_again(self) -> None:
        """Put the corners back where they were when the photograph was taken in."""
        if self.state is not None and self.state.loaded is not None:
            self.state.corners = self.state.loaded.marked.corners
            self.state.reading = None
            self._on_corners()

    def _write(self, picture: PictureFile | None) -> None:
        state, keeper = self.state, self._bench.keeper
        if state is None or state.reading is None:
            return
        green, cover, level = state.green(), state.cover(), state.reading.level.value
        new = state.count(Mark.NEW)
        day = self.seen_on.day
        if keeper.do(lambda: keep_reading(keeper.season, state.holder, green, cover, day, level, picture)):
            self._forget()
            self._say(_kept_words(new, len(cover)))
        self._show()

    def _forget(self) -> None:
        self._again.stop()
        self._loader.cancel()
        self._reader.cancel()
        self.state = None
        self.view.show_state(None)
        self.file.clear()
        self.stack.setCurrentWidget(self.without)
        self._say("")
        self._show()

    def _say(self, told: str = "", trouble: str = "") -> None:
        show_words(self.told, told or ("" if trouble or self.state is not None else FIRST))
        show_words(self.trouble, trouble)

    def _show(self) -> None:
        """Show what was read as it stands."""
        self._show_busy()
        self.view.update()

    def _show_busy(self) -> None:
        loading_now = self._loader.running
        self.under_way.setVisible(loading_now)
        self.side.show_state(busy=self.busy)
        if not loading_now:
            self.progress.setValue(0)

    def _make_parts(self) -> None:
        bench = self._bench
        self.title = label("", "title")
        self.back = button(tr("Back to the cells"), self.close_panel, name="photo-close")
        self.back.setToolTip(tr("Escape does the same"))
        self.file = FileField(tr("Photo"), FILTERS)
        self.file.path.setPlaceholderText(tr("path of a picture; or drop it here"))
        self.seen_on = seen_on(bench, "photo-seen-on")
        self.told = label("", "quiet", wrap=True)
        self.trouble = label("", "alert", wrap=True)
        self.progress = ShareBar(tr("share of the photo taken in"))
        self.cancel = button(tr("Cancel"), self._call_off, "link", name="photo-cancel")
        self.view = PhotoView(bench.look)
        self.foot = Elided(bench.look)
        self.side = PhotoSide(bench, lambda: self.state)
        self.canopy = CanopyCard(bench)

    def _lay_out(self) -> None:
        self.under_way = QWidget()
        self.under_way.setLayout(row(self.progress, self.cancel))
        self.under_way.hide()
        self.with_photo = QWidget()
        seen = column(gap=GAP // 2)
        seen.addWidget(self.view, 1)
        seen.addWidget(self.foot)
        across = row(gap=GAP + 4)
        across.addLayout(seen, 1)
        across.addWidget(self.side)
        self.with_photo.setLayout(across)
        self.without = QWidget()
        self.without.setLayout(column(self.canopy))
        self.stack = QStackedWidget()
        self.stack.addWidget(self.without)
        self.stack.addWidget(self.with_photo)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addLayout(row(self.title, None, self.seen_on, self.back))
        layout.addWidget(self.file)
        for part in (self.told, self.trouble, self.under_way):
            layout.addWidget(part)
        layout.addWidget(self.stack, 1)

    def _connect(self) -> None:
        self.file.chosen.connect(self.choose)
        self._loader.progressed.connect(self.progress.show_share)
        self._loader.finished.connect(self._on_loaded)
        self._reader.finished.connect(self._on_read)
        self._keeper_of_file.finished.connect(self._write)
        for worker in (self._loader, self._reader, self._keeper_of_file):
            worker.failed.connect(self._on_trouble)
        self._again.timeout.connect(self._read)
        self.view.corners_set.connect(self._on_corners)
        self.view.toggled.connect(lambda: self.side.show_state(busy=self.busy))
        self.view.told.connect(self.foot.show_text)
        self.side.turn_asked.connect(self._turn)
        self.side.corners_asked.connect(self._find_again)
        self.side.keep_asked.connect(self.keep)


def _kept_words(marked: int, covered: int) -> str:
    cells = many(covered, "cell")
    if not marked:
        return tr("Kept: leaf cover of {cells}. Undo takes all of it back.", cells=cells)
    return tr(
        "Kept: {marked} marked up, leaf cover of {cells}. Undo takes all of it back.",
        marked=many(marked, "cell"),
        cells=cells,
    )
