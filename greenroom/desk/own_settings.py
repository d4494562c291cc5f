"""What is chosen for this computer and kept beside the ledger, which may be shared: language and size."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager

from platformdirs import user_config_path
from PySide6.QtCore import QCoreApplication, QSettings

SETTINGS_NAME = "greenroom.ini"
SIZE_KEY = "size"
SIZES = (100, 125, 150, 175, 200)
"""In per cent; WCAG 2.2, 1.4.4 (level AA) asks for text up to 200 per cent."""
USUAL_SIZE = 100
QT_SIZE = "QT_SCALE_FACTOR"
"""Where Qt looks for how much larger everything is to be, on top of what the screen asks for."""


def own_settings() -> QSettings:
    """Return what is kept per user and computer."""
    folder = user_config_path("greenroom", appauthor=False)
    return QSettings(str(folder / SETTINGS_NAME), QSettings.Format.IniFormat)


def chosen_size() -> int:
    """Return how large everything is to be [%]."""
    held = str(own_settings().value(SIZE_KEY, USUAL_SIZE))
    return int(held) if held.isdecimal() and int(held) in SIZES else USUAL_SIZE


def choose_size(size: int) -> None:
    """Keep a size for the next start [%]."""
    settings = own_settings()
    settings.setValue(SIZE_KEY, size)
    settings.sync()


@contextmanager
def size_taken() -> Iterator[None]:
    """Let an application that is made meanwhile be as large as was chosen.

    A size the system asks for goes first. What is set is taken back again, so that no program started from
    this one finds it and takes it for the system's.
    """
    size = chosen_size()
    own = size != USUAL_SIZE and QT_SIZE not in os.environ
    if own:
        os.environ[QT_SIZE] = str(size / 100)
    try:
        yield
    finally:
        if own:
            del os.environ[QT_SIZE]
    application = QCoreApplication.instance()
    if application is not None:
        application.setProperty(SIZE_KEY, size)


def size_is_the_systems() -> bool:
    """Tell whether the system says how large the program is to be, so that no choice here counts."""
    return QT_SIZE in os.environ


def size_now() -> int:
    """Return the size that was taken at the start [%]."""
    application = QCoreApplication.instance()
    held = application.property(SIZE_KEY) if application is not None else None
    return held if isinstance(held, int) else USUAL_SIZE
