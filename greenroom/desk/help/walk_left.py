"""Whether the walk was left once; nothing else of it is remembered."""

from __future__ import annotations

import logging
from pathlib import Path

from platformdirs import user_state_path

log = logging.getLogger(__name__)

NAME = "walk-left"


def state_folder() -> Path:
    """Return the platform's folder for what a program remembers of its own use."""
    return user_state_path("greenroom", appauthor=False)


def was_left(folder: Path) -> bool:
    """Return whether the walk was left or walked to its end before."""
    return (folder / NAME).exists()


def note_left(folder: Path) -> None:
    """Remember that the walk was left; where that cannot be written, it is offered once more."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / NAME).touch()
    except OSError as error:
        log.info("that the walk was left is not remembered: %s", error)
