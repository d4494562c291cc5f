"""Painting the open tray or rack: labels, bands, cells, what is chosen, and where seedlings would go."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPen

from greenroom.desk.grow.bands import Band, Bands
from greenroom.desk.grow.cell_art import face_of
from greenroom.desk.grow.grid import Margins, Place
from greenroom.desk.look import SMALL_PX, font
from greenroom.desk.sharp import straight
from greenroom.season.holders import Holder
from greenroom.season.packets import variety_name
from greenroom.season.spots import Spot, SpotKey, row_label

if TYPE_CHECKING:
    from greenroom.desk.grow.holder_view import HolderView

ROW_LABEL = 22
WIDE_ROW_LABEL = 28  # from the 27th row on there are two letters
COLUMN_LABEL = 17
BAND = 22
ROW_BAND = 104
NAME_STRIP = 15
EDGE = 3  # room for a ring round the outermost cells
CENTRE = Qt.AlignmentFlag.AlignCenter
MIDDLE_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


def margins_for(holder: Holder | None, bands: Bands) -> Margins:
    """Return the room a holder needs round its cells."""
    if holder is None:
        return Margins()
    left = ROW_LABEL if holder.rows <= 26 else WIDE_ROW_LABEL
    top = COLUMN_LABEL + (BAND if bands.columns else 0)
    return Margins(left, top, ROW_BAND if bands.rows else EDGE, EDGE)


def paint(view: HolderView, painter: QPainter, rect: QRect) -> None:
    """Paint what a rectangle of the view shows."""
    painter.fillRect(rect, view.bench.look.colour("card"))
    if view.holder is None:
        return
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if not view.grid.area.contains(rect):
        _paint_labels(view, painter)
        _paint_bands(view, painter)
    for place in view.grid.within(rect):
        _paint_cell(view, painter, place)
    if view.rubber is not None:
        _paint_rubber(view, painter, view.rubber)


def band_words_at(view: HolderView, point: QPoint) -> str:
    """Return the full names of the band at a point, or nothing."""
    for band, rect in _band_rects(view):
        if rect.contains(point):
            return band.full_words
    return ""


def _paint_labels(view: HolderView, painter: QPainter) -> None:
    grid = view.grid
    painter.setFont(font(SMALL_PX))
    painter.setPen(view.bench.look.colour("quiet"))
    for row in range(grid.rows):
        slot = grid.slot((row, 0))
        painter.drawText(QRect(0, slot.top(), grid.left - 2, slot.height()), CENTRE, row_label(row))
    for column in range(grid.columns):
        slot = grid.slot((0, column))
        label = QRect(slot.left(), grid.top - COLUMN_LABEL, slot.width(), COLUMN_LABEL)
        painter.drawText(label, CENTRE, str(column + 1))


def _paint_bands(view: HolderView, painter: QPainter) -> None:
    bold = font(SMALL_PX, QFont.Weight.DemiBold)
    measure = QFontMetrics(bold)
    painter.setFont(bold)
    across = bool(view.bands.columns)
    for band, rect in _band_rects(view):
        words = measure.elidedText(
            band.words, Qt.TextElideMode.ElideRight, rect.width() - (0 if across else 8)
        )
        painter.setPen(view.bench.look.colour("ink"))
        if across:
            painter.drawText(rect.adjusted(0, 0, 0, -4), CENTRE, words)
        else:
            painter.drawText(rect.adjusted(8, 0, 0, 0), MIDDLE_LEFT, words)
        painter.setPen(QPen(view.bench.look.colour("quiet"), 1.4))
        if across:
            straight(painter, QPointF(rect.bottomLeft()), QPointF(rect.bottomRight()))
        else:
            straight(painter, QPointF(rect.topLeft()), QPointF(rect.bottomLeft()))


def _band_rects(view: HolderView) -> Iterator[tuple[Band, QRect]]:
    grid = view.grid
    for band in view.bands.columns:
        first, last = grid.slot((0, band.first)), grid.slot((0, band.last))
        yield band, QRect(first.left() + 2, 0, last.right() - first.left() - 3, BAND - 3)
    for band in view.bands.rows:
        first, last = grid.slot((band.first, 0)), grid.slot((band.last, 0))
        left = grid.area.right() + 6
        yield band, QRect(left, first.top() + 2, ROW_BAND - 8, last.bottom() - first.top() - 3)


def _paint_cell(view: HolderView, painter: QPainter, place: Place) -> None:
    key = view.key_of(place)
    spot = view.season.spot(key)
    cell = view.grid.cell(place)
    lifted = key in view.hand.sources
    view.art.paint(painter, cell, face_of(spot, pot=view.is_rack), opacity=0.35 if lifted else 1.0)
    if view.grid.strip:
        _paint_name(view, painter, place, spot)
    if view.hand.active:
        _paint_landing(view, painter, key, cell, free=spot.free, lifted=lifted)
    if place in view.choice.chosen:
        _ring(view, painter, cell, "on_sun", 5.0)  # so that the sun colour is seen on paper, too
        _ring(view, painter, cell, "sun", 3.0)
    at = view.choice.current or (0, 0)  # where an arrow key comes to first
    if place == at and view.hasFocus():
        _focus(view, painter, cell)


def _paint_name(view: HolderView, painter: QPainter, place: Place, spot: Spot) -> None:
    """Write the variety of what stands in a pot below it."""
    if spot.free or spot.packet is None:
        return
    slot = view.grid.slot(place)
    below = QRect(slot.left() + 1, slot.bottom() - view.grid.strip - 1, slot.width() - 2, view.grid.strip)
    small = font(SMALL_PX)
    painter.setFont(small)
    painter.setPen(view.bench.look.colour("quiet"))
    name = variety_name(view.season, spot.packet)
    painter.drawText(below, CENTRE, _shortened(name, QFontMetrics(small), below.width()))


def _shortened(name: str, measure: QFontMetrics, width: int) -> str:
    """Return as many whole words of a name as fit; where not even one does, its beginning."""
    words = name.split()
    for number in range(len(words), 0, -1):
        some = " ".join(words[:number])
        if measure.horizontalAdvance(some) <= width:
            return some
    return measure.elidedText(name, Qt.TextElideMode.ElideRight, width)


def _paint_landing(
    view: HolderView, painter: QPainter, key: SpotKey, cell: QRect, *, free: bool, lifted: bool
) -> None:
    """Show whether a spot takes what is in hand: a ring with its number, a thin ring, or a hatch."""
    hand = view.hand
    if hand.takes and key in hand.places:
        _ring(view, painter, cell, "leaf", 3.0)
        _number(view, painter, cell, hand.places.index(key) + 1)
    elif key == hand.target and not hand.takes:
        _refusal(view, painter, cell)
    elif free and not lifted:
        _ring(view, painter, cell, "leaf", 1.0, style=Qt.PenStyle.DotLine)


def _shape(view: HolderView, painter: QPainter, rect: QRectF) -> None:
    """Draw the outline of a cell or a pot."""
    if view.is_rack:
        side = min(rect.width(), rect.height())
        disc = QRectF(0, 0, side, side)
        disc.moveCenter(rect.center())
        painter.drawEllipse(disc)
    else:
        painter.drawRoundedRect(rect, 7, 7)


def _ring(
    view: HolderView,
    painter: QPainter,
    cell: QRect,
    colour: str,
    width: float,
    style: Qt.PenStyle = Qt.PenStyle.SolidLine,
) -> None:
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(view.bench.look.colour(colour), width, style))
    _shape(view, painter, QRectF(cell).adjusted(-0.5, -0.5, 0.5, 0.5))


def _focus(view: HolderView, painter: QPainter, cell: QRect) -> None:
    """Draw the cell the keys act on: a dark and a light line, seen on soil and on paper."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for inset, name in ((2.5, "card"), (4.0, "focus")):
        painter.setPen(QPen(view.bench.look.colour(name), 2.0 if name == "focus" else 1.5))
        _shape(view, painter, QRectF(cell).adjusted(inset, inset, -inset, -inset))


def _number(view: HolderView, painter: QPainter, cell: QRect, number: int) -> None:
    look = view.bench.look
    disc = QRectF(0, 0, 20, 20)
    disc.moveCenter(QRectF(cell).center())
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.colour("leaf"))
    painter.drawEllipse(disc)
    painter.setPen(look.colour("on_leaf"))
    painter.setFont(font(SMALL_PX, QFont.Weight.Bold))
    painter.drawText(disc, CENTRE, str(number))


def _refusal(view: HolderView, painter: QPainter, cell: QRect) -> None:
    """Hatch a spot that does not take what is in hand, and cross it out."""
    look = view.bench.look
    painter.setPen(QPen(look.colour("clay"), 3.0))
    colour = look.colour("card")
    colour.setAlpha(170)
    painter.setBrush(colour)
    _shape(view, painter, QRectF(cell))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    inner = QRectF(cell).adjusted(8, 8, -8, -8)
    painter.drawLine(inner.topLeft(), inner.bottomRight())
    painter.drawLine(inner.topRight(), inner.bottomLeft())


def _paint_rubber(view: HolderView, painter: QPainter, band: QRect) -> None:
    colour = view.bench.look.colour("sun")
    painter.setPen(QPen(view.bench.look.colour("ink"), 1.5, Qt.PenStyle.DashLine))
    colour.setAlpha(40)
    painter.setBrush(colour)
    painter.drawRect(band)
