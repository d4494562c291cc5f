"""Adding pictures: checked, scaled and written off the window's thread, then noted as one act."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMimeData, QObject, Qt, Signal
from PySide6.QtGui import QImage, QImageWriter
from PySide6.QtWidgets import QFileDialog, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.keeping.pictures import sweep_pictures
from greenroom.desk.story.room import ON_A_SERVER, room_of
from greenroom.desk.worker import Cancelled as Asked
from greenroom.desk.worker import Progress, Worker
from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.picture_store import PictureStore
from greenroom.ledger import LedgerError
from greenroom.season.story_deeds import About, PictureFile, keep_pictures
from greenroom.speech import tr

MOST_AT_ONCE = 20
PASTED = tr("The pasted picture")
STILL_AT_IT = tr("Pictures are still being taken in; add more when they are there.")

Ready = Callable[[Progress, Asked], list[PictureFile]]


def choose_pictures(parent: QWidget, then: Callable[[list[str]], object]) -> None:
    """Let the grower choose picture files in the system's chooser."""
    kinds = f"{tr('Pictures')} (*.jpg *.jpeg *.png *.webp *.gif *.bmp);;{tr('All files')} (*)"
    dialog = QFileDialog(parent, tr("Choose pictures"), str(Path.home()), kinds)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
    dialog.filesSelected.connect(then)
    dialog.open()


def files_in(mime: QMimeData) -> list[Path]:
    """Return the files that are dropped or pasted."""
    return [Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile()]


def holds_pictures(mime: QMimeData) -> bool:
    """Whether something dropped or pasted may be pictures."""
    return mime.hasImage() or bool(files_in(mime))


def _as_png(image: QImage) -> bytes:
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, QByteArray(b"png")).write(image)
    return bytes(data.data())


class PictureAdder(QObject):
    """Adds pictures to one story at a time; ``ended`` carries what went wrong, or an empty text."""

    started = Signal()
    progressed = Signal(float)
    ended = Signal(str)

    def __init__(self, bench: Bench, day: Callable[[], date], parent: QObject) -> None:
        super().__init__(parent)
        self._bench = bench
        self._day = day
        self._wanted: tuple[About, date] | None = None
        self._worker: Worker[list[PictureFile]] = Worker((BadFileError, LedgerError, Cancelled), self)
        self._worker.progressed.connect(self.progressed)
        self._worker.finished.connect(self._on_kept)
        self._worker.failed.connect(lambda error: self.ended.emit(str(error)))

    @property
    def running(self) -> bool:
        """Whether pictures are being taken in."""
        return self._worker.running

    def add_mime(self, about: About, mime: QMimeData) -> None:
        """Add what was dropped or pasted."""
        files = files_in(mime)
        if self.running:
            self._bench.say(STILL_AT_IT)
        elif files:
            self.add_files(about, files)
        elif mime.hasImage():
            self.add_image(about, QImage(mime.imageData()))

    def add_files(self, about: About, files: Sequence[Path]) -> None:
        """Add picture files: all of them, or none if one will not do."""
        if len(files) > MOST_AT_ONCE:
            self.ended.emit(
                tr(
                    "{n} pictures at once are too many; up to {most} are taken.",
                    n=len(files),
                    most=MOST_AT_ONCE,
                )
            )
            return
        store = self._store()
        if store is not None:
            self._start(about, store, lambda progress, asked: _kept_files(store, files, progress, asked))

    def add_image(self, about: About, image: QImage) -> None:
        """Add a picture that was copied from another program."""
        store = self._store()
        if store is not None:
            self._start(about, store, lambda progress, asked: [_kept_image(store, image, progress, asked)])

    def stop(self) -> None:
        """Call the work off; nothing is noted."""
        if self._worker.running:
            self._worker.cancel()
            self.ended.emit(tr("Called off; no picture was kept."))

    def _store(self) -> PictureStore | None:
        store = room_of(self._bench.keeper).store
        if store is None:
            self.ended.emit(ON_A_SERVER)
        return store

    def _start(self, about: About, store: PictureStore, ready: Ready) -> None:
        ledger = self._bench.keeper.ledger
        self._wanted = about, self._day()

        def work(progress: Progress, asked: Asked) -> list[PictureFile]:
            kept = ready(progress, asked)
            sweep_pictures(store, ledger, {one.file for one in kept})
            return kept

        self.started.emit()
        self._worker.start(work)

    def _on_kept(self, kept: list[PictureFile]) -> None:
        keeper = self._bench.keeper
        self.ended.emit("")
        if self._wanted is not None:
            about, day = self._wanted
            keeper.do(lambda: keep_pictures(keeper.season, about, kept, day))


def _kept_files(
    store: PictureStore, files: Sequence[Path], progress: Progress, asked: Asked
) -> list[PictureFile]:
    """Make all files ready before one of them is written, so that a bad one among them costs nothing."""
    from greenroom.exchange.picture_decode import ready_file  # its decoders are loaded with the first picture

    made = []
    for place, path in enumerate(files):

        def share(done: float, place: int = place) -> None:
            progress((place + done) / len(files))

        made.append(ready_file(path, share, asked))
    return [store.keep(one.data, one.width, one.height) for one in made]


def _kept_image(store: PictureStore, image: QImage, progress: Progress, asked: Asked) -> PictureFile:
    from greenroom.exchange.picture_decode import ready_bytes

    made = ready_bytes(_as_png(image), PASTED, progress, asked)
    return store.keep(made.data, made.width, made.height)
