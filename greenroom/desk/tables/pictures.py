"""What can be saved as a picture: a chart of the window, or a drawing made for it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QWidget

from greenroom.desk.look import FALLBACK_FAMILIES, FAMILY
from greenroom.desk.tables.picture import png_of, png_of_svg, svg_of

ANY_FAMILY = ", ".join([*(f"'{one}'" for one in FALLBACK_FAMILIES), "sans-serif"])


class Picture(Protocol):
    """A picture by its name, in both forms."""

    @property
    def name(self) -> str:
        """What it shows."""

    def svg(self, size: QSize) -> bytes:
        """Return it as SVG."""

    def png(self, size: QSize) -> bytes:
        """Return it as PNG of a size."""


class ChartPicture:
    """A chart as it stands in the window."""

    def __init__(self, name: str, chart: QWidget) -> None:
        self.name = name
        self._chart = chart

    def svg(self, size: QSize) -> bytes:  # noqa: ARG002 SVG has no size of its own
        """Return it as SVG."""
        return svg_of(self._chart, self.name)

    def png(self, size: QSize) -> bytes:
        """Return it as PNG; it keeps its shape and is no larger than the size."""
        return png_of(self._chart, size)


class DrawnPicture:
    """A picture that is drawn for a size, in a typeface: Qt takes one name, others a list to choose from."""

    def __init__(self, name: str, draw: Callable[[QSize, str], str], ground: str) -> None:
        self.name = name
        self._draw = draw
        self._ground = ground

    def svg(self, size: QSize) -> bytes:
        """Return it as SVG."""
        return self._draw(size, ANY_FAMILY).encode("utf-8")

    def png(self, size: QSize) -> bytes:
        """Return it as PNG of a size."""
        return png_of_svg(self._draw(size, FAMILY), size, self._ground)
