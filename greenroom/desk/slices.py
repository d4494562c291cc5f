"""Long work in slices between events, so that the window never waits for it."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QElapsedTimer, QObject, QTimer, Signal

SLICE_MS = 6


class Slices(QObject):
    """Walks an iterator a few milliseconds at a time; ``ended`` is emitted when it is through."""

    ended = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._left: Iterator[object] | None = None
        self._timer = QTimer(self, singleShot=True)
        self._timer.timeout.connect(self._go_on)

    @property
    def running(self) -> bool:
        """Whether there is work left."""
        return self._left is not None

    def start(self, work: Iterator[object], after_ms: int = 0) -> None:
        """Begin with some work, instead of what is left of other work."""
        self._left = work
        self._timer.start(after_ms)

    def at_once(self, work: Iterator[object], within_ms: int) -> bool:
        """Do some work now if that takes no longer than so long, else the rest in slices; tell which."""
        self.stop()
        if _walk(work, within_ms):
            return True
        self.start(work)
        return False

    def stop(self) -> None:
        """Leave the work where it is."""
        self._left = None
        self._timer.stop()

    def _go_on(self) -> None:
        if self._left is not None and not _walk(self._left, SLICE_MS):
            self._timer.start(0)
            return
        self._left = None
        self.ended.emit()


def _walk(work: Iterator[object], within_ms: int) -> bool:
    """Walk an iterator for so long; tell whether it is through."""
    spent = QElapsedTimer()
    spent.start()
    return not any(spent.elapsed() >= within_ms for _ in work)
