"""A chart as a picture: SVG, in which text stays text, and PNG at any size."""

from __future__ import annotations

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QImageWriter, QPainter
from PySide6.QtSvg import QSvgGenerator, QSvgRenderer
from PySide6.QtWidgets import QGraphicsView, QWidget

LARGEST_PX = 10_000
DOTS_AN_INCH = 96
"""What one px of CSS is held to be: CSS Values and Units, section 6.2, 1 px = 1/96 inch."""


def svg_of(chart: QWidget, title: str) -> bytes:
    """Return a chart as it stands, as SVG."""
    content = QBuffer()
    content.open(QIODevice.OpenModeFlag.WriteOnly)
    maker = QSvgGenerator()
    maker.setOutputDevice(content)
    maker.setSize(chart.size())
    maker.setViewBox(QRect(0, 0, chart.width(), chart.height()))
    maker.setResolution(DOTS_AN_INCH)
    maker.setTitle(title)
    painter = QPainter(maker)
    _paint(chart, painter)
    painter.end()
    return bytes(content.data().data())


def png_of(chart: QWidget, size: QSize) -> bytes:
    """Return a chart as PNG of a size, drawn anew at that size's sharpness; its shape is kept."""
    image = _blank(size, chart.palette().window().color().name())
    painter = QPainter(image)
    painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing)
    scale = min(size.width() / max(1, chart.width()), size.height() / max(1, chart.height()))
    painter.translate(
        (size.width() - chart.width() * scale) / 2, (size.height() - chart.height() * scale) / 2
    )
    painter.scale(scale, scale)
    _paint(chart, painter)
    painter.end()
    return _png(image)


def png_of_svg(svg: str, size: QSize, ground: str) -> bytes:
    """Return an SVG picture as PNG of a size."""
    image = _blank(size, ground)
    painter = QPainter(image)
    drawer = QSvgRenderer(QByteArray(svg.encode("utf-8")))
    drawer.setAspectRatioMode(Qt.AspectRatioMode.KeepAspectRatio)
    drawer.render(painter, QRectF(0, 0, size.width(), size.height()))
    painter.end()
    return _png(image)


def _blank(size: QSize, ground: str) -> QImage:
    bounded = size.boundedTo(QSize(LARGEST_PX, LARGEST_PX)).expandedTo(QSize(1, 1))
    image = QImage(bounded, QImage.Format.Format_ARGB32)
    image.fill(ground)
    return image


def _paint(chart: QWidget, painter: QPainter) -> None:
    """Paint a chart: of a view of a scene the scene itself, so that its text stays text."""
    for view in chart.findChildren(QGraphicsView):
        corner = view.mapTo(chart, view.rect().topLeft())
        painter.fillRect(QRect(corner, view.size()), view.backgroundBrush())
        view.render(painter, QRectF(QRect(corner, view.size())), view.viewport().rect())
        return
    if isinstance(chart, QGraphicsView):
        painter.fillRect(chart.rect(), chart.backgroundBrush())
        chart.render(painter, QRectF(chart.rect()), chart.viewport().rect())
        return
    chart.render(painter, QPoint(0, 0))


def _png(image: QImage) -> bytes:
    content = QBuffer()
    content.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(content, QByteArray(b"png")).write(image)
    return bytes(content.data().data())
