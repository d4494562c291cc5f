"""Draw the program's icons from packaging/icon into resources/icons, in the layout of the hicolor icon theme.

For developers, after a drawing was changed: .venv/bin/python packaging/make_icons.py. With --windows FILE or
--mac FILE it writes an icon for one of those systems instead; the builds for them ask for that themselves.
"""

from __future__ import annotations

import argparse
import io
import os
import shutil
from pathlib import Path

import _about
from PIL import Image
from PySide6.QtCore import QBuffer, QIODevice, QRectF, Qt
from PySide6.QtGui import QGuiApplication, QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

DRAWINGS = Path(__file__).resolve().parent / "icon"
LARGE, SMALL, SYMBOLIC = (
    DRAWINGS / f"{name}.svg" for name in ("seedling", "seedling-small", "seedling-symbolic")
)
SIZES = (16, 22, 24, 32, 48, 64, 128, 256, 512)
SMALL_UP_TO = 24  # below this a tray's rim and crumbs of soil are only noise
WINDOWS_SIZES = (16, 24, 32, 48, 64, 128, 256)
MAC_SIZES = (16, 32, 64, 128, 256, 512)


def main() -> None:
    """Draw what is asked for."""
    parser = argparse.ArgumentParser(description="Draw the program's icons.")
    parser.add_argument("--windows", type=Path, metavar="FILE.ico")
    parser.add_argument("--mac", type=Path, metavar="FILE.icns")
    asked = parser.parse_args()
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    application = QGuiApplication([])
    if asked.windows is not None:
        bundle(asked.windows, WINDOWS_SIZES)
    if asked.mac is not None:
        bundle(asked.mac, MAC_SIZES)
    if asked.windows is None and asked.mac is None:
        hicolor(_about.ICONS, _about.app_id())
    application.quit()


def hicolor(folder: Path, name: str) -> None:
    """Write the whole set below a folder, each size in its own."""
    for size in SIZES:
        target = folder / f"{size}x{size}" / "apps" / f"{name}.png"
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(png(size))
    for kind, drawing, ending in (("scalable", LARGE, ""), ("symbolic", SYMBOLIC, "-symbolic")):
        target = folder / kind / "apps" / f"{name}{ending}.svg"
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(drawing, target)


def draw(size: int) -> QImage:
    """Return the icon at a size in pixels."""
    image = QImage(size, size, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    renderer = QSvgRenderer(str(SMALL if size <= SMALL_UP_TO else LARGE))
    renderer.render(painter, QRectF(0, 0, size, size))
    painter.end()
    return image


def png(size: int) -> bytes:
    """Return the icon at a size as a PNG."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    draw(size).save(buffer, "PNG")
    return bytes(buffer.data().data())


def bundle(target: Path, sizes: tuple[int, ...]) -> None:
    """Write one file with several sizes in it, in the form that its ending names."""
    pictures = [Image.open(io.BytesIO(png(size))) for size in sizes]
    target.parent.mkdir(parents=True, exist_ok=True)
    largest = pictures[-1]
    if target.suffix == ".ico":
        largest.save(target, sizes=[(size, size) for size in sizes], append_images=pictures[:-1])
    else:
        largest.save(target, append_images=pictures[:-1])


if __name__ == "__main__":
    main()
