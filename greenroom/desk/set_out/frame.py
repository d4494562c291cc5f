"""From metres on the plot to pixels on the plan, and back; north is up."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QPolygonF

from greenroom.season.plot import Extent, Point

LEFT_PX, TOP_PX, RIGHT_PX, BOTTOM_PX = 8, 8, 8, 26
NICE_M = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0)
LEAST_BAR_PX = 56


@dataclass(frozen=True, slots=True)
class Frame:
    """An extent of ground, drawn as large as a rectangle of pixels allows."""

    extent: Extent
    left: float
    top: float
    scale: float

    @property
    def rect(self) -> QRectF:
        """The ground on the plan [px]."""
        return QRectF(self.left, self.top, self.extent.width * self.scale, self.extent.depth * self.scale)

    def to_px(self, point: Point) -> QPointF:
        """Return where a point of the ground is drawn."""
        return QPointF(
            self.left + (point[0] - self.extent.west) * self.scale,
            self.top + (self.extent.north - point[1]) * self.scale,
        )

    def to_m(self, point: QPointF) -> Point:
        """Return the ground under a pixel."""
        return (
            self.extent.west + (point.x() - self.left) / self.scale,
            self.extent.north - (point.y() - self.top) / self.scale,
        )

    def polygon(self, corners: Iterable[Point]) -> QPolygonF:
        """Return an outline on the plan."""
        return QPolygonF([self.to_px(corner) for corner in corners])

    def bar_m(self) -> float:
        """Return the length that the scale bar stands for."""
        return next((one for one in NICE_M if one * self.scale >= LEAST_BAR_PX), NICE_M[-1])


def frame_in(extent: Extent, size: QSizeF) -> Frame:
    """Return an extent laid into a size, in its middle."""
    wide = max(1.0, size.width() - LEFT_PX - RIGHT_PX)
    tall = max(1.0, size.height() - TOP_PX - BOTTOM_PX)
    scale = min(wide / extent.width, tall / extent.depth)
    left = LEFT_PX + (wide - extent.width * scale) / 2
    top = TOP_PX + (tall - extent.depth * scale) / 2
    return Frame(extent, left, top, scale)
