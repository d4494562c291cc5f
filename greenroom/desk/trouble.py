"""What nobody foresaw: written to the log, counted, and told in one sentence instead of vanishing."""

from __future__ import annotations

import logging
import sys
import threading
from collections.abc import Callable
from dataclasses import dataclass
from types import TracebackType

from PySide6.QtCore import QObject, Signal

from greenroom.desk.logs import error_lines
from greenroom.speech import tr

log = logging.getLogger(__name__)

MOST_LOGGED = 20


@dataclass(slots=True)
class Mishap:
    """One thing that went wrong, however often: in a sentence, and by the lines of the program."""

    words: str
    lines: tuple[str, ...]
    count: int = 1


class AtStart:
    """Holds the start: what nobody foresaw there is logged and told in one sentence, and goes no further."""

    def __init__(self, tell: Callable[[str], object]) -> None:
        self._tell = tell

    def __enter__(self) -> None:
        """Begin to hold."""

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> bool:
        if kind is None or error is None or not issubclass(kind, Exception):
            return False
        log.error("unforeseen at the start", exc_info=(kind, error, trace))
        self._tell(tr("greenroom could not go on ({name}); the details are in the log.", name=kind.__name__))
        return True


class Trouble(QObject):
    """Takes over Python's last resorts while the window is open, in every thread.

    ``show`` is given each mishap, again when it comes again; without it, ``say`` is told in a sentence.
    """

    _heard = Signal(object)

    def __init__(self, say: Callable[[str], None], show: Callable[[Mishap], None] | None = None) -> None:
        super().__init__()
        self._say = say
        self.show = show
        self.mishaps: list[Mishap] = []
        self._before, self._before_in_threads = sys.excepthook, threading.excepthook
        self._heard.connect(self._take)
        sys.excepthook = self._caught
        threading.excepthook = self._caught_in_thread

    def release(self) -> None:
        """Give the last resorts back."""
        sys.excepthook, threading.excepthook = self._before, self._before_in_threads

    def _caught(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            self._before(kind, error, trace)
            return
        # Slots run in the window's thread; by a signal what went wrong elsewhere is told there, too.
        self._heard.emit(error)

    def _caught_in_thread(self, told: threading.ExceptHookArgs) -> None:
        if told.exc_value is not None:
            self._caught(told.exc_type, told.exc_value, told.exc_traceback)

    def _take(self, error: BaseException) -> None:
        mishap = self._counted(error)
        if mishap.count <= MOST_LOGGED:
            log.error("unforeseen", exc_info=(type(error), error, error.__traceback__))
        if self.show is not None:
            self.show(mishap)
        else:
            self._say(
                tr(
                    "Something went wrong that should not ({what}). "
                    "All that was marked before is safe in the ledger; the details are in the log.",
                    what=mishap.words,
                )
            )

    def _counted(self, error: BaseException) -> Mishap:
        lines = error_lines(error)
        for known in self.mishaps:
            if known.lines == lines:
                known.count += 1
                return known
        self.mishaps.append(Mishap(" ".join(f"{type(error).__name__}: {error}".split())[:200], lines))
        return self.mishaps[-1]
