"""What a reader or writer of files can say: how far it has come, that a file will not do, or that it was
called off."""

from __future__ import annotations

from collections.abc import Callable

Progress = Callable[[float], object]
"""Is told the share done, 0 to 1."""

Cancel = Callable[[], bool]
"""Is asked whether to stop."""


def go_on(cancelled: Cancel) -> None:
    """Raise Cancelled if the work is called off."""
    if cancelled():
        raise Cancelled


class BadFileError(Exception):
    """A file that cannot be used; the message is one sentence: what, where, and what is allowed."""


class Cancelled(Exception):  # noqa: N818 - being called off is not an error
    """The grower called the work off; nothing was kept."""
