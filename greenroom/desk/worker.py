"""Long work off the GUI thread: with progress, cancelled at will, a late answer dropped."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Generic, TypeVar

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal
from shiboken6 import isValid

T = TypeVar("T")

Progress = Callable[[float], None]
Cancelled = Callable[[], bool]


class _Ears(QObject):
    """Hears of the work in the GUI thread."""

    progressed = Signal(int, float)
    ended = Signal(int, object, object)

    def hear_share(self, generation: int, share: float) -> None:
        """Tell how far the work is; called in the work's thread, which may outlive the page."""
        if isValid(self):
            self.progressed.emit(generation, share)

    def hear_end(self, generation: int, answer: object, error: Exception | None) -> None:
        """Tell how the work ended; called in the work's thread, which may outlive the page."""
        if isValid(self):
            self.ended.emit(generation, answer, error)


class _Task(QRunnable):
    def __init__(self, work: Callable[[], None]) -> None:
        super().__init__()
        self._work = work

    def run(self) -> None:
        self._work()


class Worker(QObject, Generic[T]):
    """Runs one piece of work at a time; starting anew drops the answer of the one before.

    ``work`` is called with two functions: one that takes the share done (0 to 1) and one that tells
    whether to stop. Errors of the kinds named in ``expected`` come to ``failed`` as the error; any
    other is raised again in the GUI thread, where the program's own handler takes it.
    """

    progressed = Signal(float)
    finished = Signal(object)
    failed = Signal(object)

    def __init__(self, expected: tuple[type[Exception], ...], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._expected = expected
        self._generation = 0
        self._stop = threading.Event()
        self._running = False
        self._ears = _Ears()
        self._ears.progressed.connect(self._on_progress)
        self._ears.ended.connect(self._on_end)

    @property
    def running(self) -> bool:
        """Whether work is going on."""
        return self._running

    def start(self, work: Callable[[Progress, Cancelled], T]) -> None:
        """Start a piece of work; what still runs is told to stop and its answer dropped."""
        self._stop.set()
        self._generation += 1
        self._stop = stop = threading.Event()
        self._running = True
        generation, ears = self._generation, self._ears

        def run() -> None:
            answer: object = None
            error: Exception | None = None
            try:
                answer = work(lambda share: ears.hear_share(generation, share), stop.is_set)
            except Exception as caught:  # noqa: BLE001 carried to the GUI thread and raised there
                error = caught
            ears.hear_end(generation, answer, error)

        QThreadPool.globalInstance().start(_Task(run))

    def cancel(self) -> None:
        """Tell the work to stop; nothing more is heard of it."""
        self._stop.set()
        self._generation += 1
        self._running = False

    def _on_progress(self, generation: int, share: float) -> None:
        if generation == self._generation:
            self.progressed.emit(share)

    def _on_end(self, generation: int, answer: object, error: Exception | None) -> None:
        if generation != self._generation:
            return
        self._running = False
        if error is None:
            self.finished.emit(answer)
        elif isinstance(error, self._expected):
            self.failed.emit(error)
        else:
            raise error
