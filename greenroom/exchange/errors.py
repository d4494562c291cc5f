"""What a reader or writer of files can say: the file will not do, or the grower called it off."""

from __future__ import annotations


class BadFileError(Exception):
    """A file that cannot be used; the message is one sentence: what, where, and what is allowed."""


class Cancelled(Exception):  # noqa: N818 - being called off is not an error
    """The grower called the work off; nothing was kept."""
