"""Listens to the server for acts of others, in a thread of its own."""

from __future__ import annotations

import threading
from collections.abc import Callable
from contextlib import AbstractContextManager

from PySide6.QtCore import QObject, Signal

from greenroom.ledger.errors import LedgerUnavailableError

Listening = Callable[[], AbstractContextManager[Callable[[float], bool]]]

LISTEN_S = 0.25
AGAIN_S = 1.0


class Ears(QObject):
    """``heard`` that somebody wrote; ``reached`` the server, or ``lost`` it; it goes on trying."""

    heard = Signal()
    reached = Signal()
    lost = Signal()

    def __init__(self, listening: Listening, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._listening = listening
        self._stop = threading.Event()
        self._anew = threading.Event()
        self._thread = threading.Thread(target=self._listen, name="ears")

    def start(self) -> None:
        """Start listening."""
        self._thread.start()

    def connect_anew(self) -> None:
        """Let go of the connection and make another: the one there is may be dead without knowing."""
        self._anew.set()

    def stop(self) -> None:
        """Stop listening and wait for the thread's end."""
        self._stop.set()
        if self._thread.is_alive():
            self._thread.join()

    def _listen(self) -> None:
        while not self._stop.is_set():
            try:
                self._listen_once()
            except LedgerUnavailableError:
                self.lost.emit()
            self._stop.wait(AGAIN_S)

    def _listen_once(self) -> None:
        self._anew.clear()
        with self._listening() as heard:
            self.reached.emit()
            while not (self._stop.is_set() or self._anew.is_set()):
                if heard(LISTEN_S):
                    self.heard.emit()
