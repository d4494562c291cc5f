"""The program's icon, as the window and the list of open programs show it."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSize
from PySide6.QtGui import QIcon

from greenroom import APP_ID
from greenroom.own_files import resources_folder

SIZES = (16, 22, 24, 32, 48, 64, 128, 256, 512)


def app_icon() -> QIcon:
    """Return the icon with a drawing for each size; a drawing is read when it is first shown."""
    folder = Path(str(resources_folder() / "icons" / "hicolor"))
    icon = QIcon()
    for size in SIZES:
        icon.addFile(str(folder / f"{size}x{size}" / "apps" / f"{APP_ID}.png"), QSize(size, size))
    return icon
