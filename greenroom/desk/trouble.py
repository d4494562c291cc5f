"""What nobody foresaw: written to the log, and told in one sentence instead of vanishing."""

from __future__ import annotations

import logging
import sys
from collections.abc import Callable
from types import TracebackType

log = logging.getLogger(__name__)


class Trouble:
    """Takes over Python's last resort while the window is open."""

    def __init__(self, say: Callable[[str], None]) -> None:
        self._say = say
        self._before = sys.excepthook
        sys.excepthook = self._caught

    def release(self) -> None:
        """Give the last resort back."""
        sys.excepthook = self._before

    def _caught(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            self._before(kind, error, trace)
            return
        log.error("unforeseen", exc_info=(kind, error, trace))
        what = " ".join(f"{kind.__name__}: {error}".split())
        self._say(
            f"Something went wrong that should not ({what}). "
            f"All that was marked before is safe in the ledger; the details are in the log."
        )
