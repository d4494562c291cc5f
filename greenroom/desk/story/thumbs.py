"""The pictures of a story as they are shown: read from beside the ledger off the window's thread."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QObject, QSize, Qt, Signal
from PySide6.QtGui import QImage, QImageReader

from greenroom.desk.keeper import Keeper
from greenroom.desk.story.room import room_of
from greenroom.desk.worker import Cancelled, Progress, Worker
from greenroom.exchange.picture_store import MISSING, PictureStore
from greenroom.ledger.facts import PictureKept
from greenroom.speech import tr

THUMB = QSize(148, 100)
NO_PICTURE = tr("The file of this picture is none that can be shown.")


@dataclass(frozen=True, slots=True)
class Shown:
    """One picture as it is shown, or what is wrong with its file in one sentence."""

    image: QImage
    trouble: str = ""


class Pictures(QObject):
    """Reads pictures, small for the lines or whole; ``ready`` carries them by the id of their fact."""

    ready = Signal(object)

    def __init__(self, keeper: Keeper, parent: QObject, size: QSize | None = None) -> None:
        super().__init__(parent)
        self._keeper = keeper
        self._size = size
        self._worker: Worker[dict[str, Shown]] = Worker((), self)
        self._worker.finished.connect(self.ready)

    def ask(self, facts: Sequence[PictureKept]) -> None:
        """Read some pictures; what was asked before is dropped."""
        if not facts:
            self._worker.cancel()
            return
        store, size = room_of(self._keeper).store, self._size

        def work(_progress: Progress, cancelled: Cancelled) -> dict[str, Shown]:
            found = {}
            for fact in facts:
                if cancelled():
                    break
                found[fact.id] = _shown(store, fact, size)
            return found

        self._worker.start(work)

    def stop(self) -> None:
        """Read no further."""
        self._worker.cancel()


def _read(data: bytes) -> QImage:
    """Return a kept picture; it is read as a JPEG and as nothing else, whatever stands in its file."""
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    return QImageReader(buffer, QByteArray(b"jpeg")).read()


def _shown(store: PictureStore | None, fact: PictureKept, size: QSize | None) -> Shown:
    if store is None:
        return Shown(QImage(), MISSING.format(name=fact.file))
    found = store.find(fact)
    if found.trouble:
        return Shown(QImage(), found.trouble)
    image = _read(found.data)
    if image.isNull():
        return Shown(image, NO_PICTURE)
    if size is not None:
        image = image.scaled(
            size * 2, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
    return Shown(image)
