"""A chart as a picture: SVG, in which text stays text, and PNG at any size."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from xml.sax.saxutils import escape

from PySide6.QtCore import (
    QBuffer,
    QByteArray,
    QCoreApplication,
    QEvent,
    QIODevice,
    QPoint,
    QRect,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import QImage, QImageWriter, QPainter
from PySide6.QtSvg import QSvgGenerator, QSvgRenderer
from PySide6.QtWidgets import QGraphicsView, QWidget

from greenroom.desk.sharp import DRAWN_FOR

LARGEST_PX = 10_000
DOTS_AN_INCH = 96
"""What one px of CSS is held to be: CSS Values and Units, section 6.2, 1 px = 1/96 inch."""


def svg_of(chart: QWidget, title: str) -> bytes:
    """Return a chart as it stands, as SVG."""
    plot = getattr(_view_of(chart), "plotItem", None)
    if plot is None:
        return _painted(chart, title)
    with _drawn_for(chart, 1.0):
        return _plotted(plot, title)


def png_of(chart: QWidget, room: QSize) -> bytes:
    """Return a chart as PNG, drawn anew and as large as its shape allows in the room it is given."""
    size = chart.size().scaled(room, Qt.AspectRatioMode.KeepAspectRatio)
    image = _blank(size, chart.palette().window().color().name())
    painter = QPainter(image)
    painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing)
    scale = image.width() / max(1, chart.width())
    painter.scale(scale, image.height() / max(1, chart.height()))
    with _drawn_for(chart, scale):
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


@contextmanager
def _drawn_for(chart: QWidget, scale: float) -> Iterator[None]:
    """Let the curves of a chart be as thick as they are meant at a scale, until it is saved."""
    try:
        _draw_for(chart, scale)
        yield
    finally:
        _draw_for(chart, None)


def _draw_for(chart: QWidget, scale: float | None) -> None:
    chart.setProperty(DRAWN_FOR, scale)
    if _view_of(chart) is not None:
        QCoreApplication.sendEvent(chart, QEvent(QEvent.Type.DevicePixelRatioChange))


def _blank(size: QSize, ground: str) -> QImage:
    bounded = size.boundedTo(QSize(LARGEST_PX, LARGEST_PX)).expandedTo(QSize(1, 1))
    image = QImage(bounded, QImage.Format.Format_ARGB32)
    image.fill(ground)
    return image


def _plotted(plot: object, title: str) -> bytes:
    """Return a plot as SVG by the library that drew it: Qt's own writer knows nothing of clipping."""
    from pyqtgraph.exporters import SVGExporter

    made = SVGExporter(plot).export(toBytes=True).decode("utf-8")
    _, _, after = made.partition("</title>")
    before = made.partition("<title>")[0]
    return f"{before}<title>{escape(title)}</title>{after}".encode()


def _painted(chart: QWidget, title: str) -> bytes:
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


def _view_of(chart: QWidget) -> QGraphicsView | None:
    """Return the view that a chart draws in, or None where it paints itself."""
    if isinstance(chart, QGraphicsView):
        return chart
    return next(iter(chart.findChildren(QGraphicsView)), None)


def _paint(chart: QWidget, painter: QPainter) -> None:
    """Paint a chart: of a view of a scene the scene itself, so that it is sharp at any size."""
    view = _view_of(chart)
    if view is None:
        chart.render(painter, QPoint(0, 0))
        return
    corner = view.mapTo(chart, QPoint(0, 0)) if view is not chart else QPoint(0, 0)
    room = QRect(corner, view.size())
    painter.fillRect(room, view.backgroundBrush())
    view.render(painter, QRectF(room), view.viewport().rect())


def _png(image: QImage) -> bytes:
    content = QBuffer()
    content.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(content, QByteArray(b"png")).write(image)
    return bytes(content.data().data())
