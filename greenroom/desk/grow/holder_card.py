"""How a tray or rack looks in the list: its name, where it stands, a small picture, and a count."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from greenroom.desk.bench import Bench
from greenroom.desk.grow.holder_model import Index, Role
from greenroom.desk.look import BODY_PX, CARD_TITLE_PX, RADIUS, SMALL_PX, Look, font
from greenroom.season.holders import Counts, Holder
from greenroom.season.spots import Stage
from greenroom.speech import tr, trn

HEADING_PX = 34
CARD_PX = 106
GAP_PX = 8
PADDING = 12
PICTURE = QSize(122, 40)
COUNT_PX = 18
FRAMED_PX = 5.0  # a smaller cell would be all frame

RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class HolderCard(QStyledItemDelegate):
    """Paints headings and cards. ``open_keys`` are the holders shown on the page; ``drop`` the one
    that seedlings are held over, and whether it takes them."""

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self.open_keys: frozenset[str] = frozenset()
        self.drop: tuple[str, bool] | None = None

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        height = HEADING_PX if index.data(Role.HOLDER) is None else CARD_PX
        return QSize(option.rect.width(), height)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        key = index.data(Role.HOLDER)
        look = self._bench.look
        if key is None:
            painter.setFont(font(CARD_TITLE_PX, QFont.Weight.DemiBold))
            painter.setPen(look.colour("ink"))
            painter.drawText(option.rect, LEFT, index.data())
        else:
            focused = bool(option.state & QStyle.StateFlag.State_HasFocus)
            card = option.rect.adjusted(1, 1, -2, -GAP_PX)
            self._paint_card(painter, card, key, focused=focused)
        painter.restore()

    def _paint_card(self, painter: QPainter, card: QRect, key: str, *, focused: bool) -> None:
        season, look = self._bench.keeper.season, self._bench.look
        holder, counts = season.holder(key), season.counts(key)
        self._paint_frame(painter, card, key, focused=focused)
        inner = card.adjusted(PADDING, PADDING - 3, -PADDING, -PADDING + 3)
        line = QRect(inner.topLeft(), QSize(inner.width(), 18))
        _write(painter, line, holder.name, font(BODY_PX, QFont.Weight.DemiBold), look.colour("ink"))
        about = QRect(inner.left(), inner.top() + 18, inner.width(), 16)
        _write(painter, about, _about(holder), font(SMALL_PX), look.colour("quiet"))
        picture = QRect(QPoint(inner.left(), inner.bottom() - PICTURE.height() + 1), PICTURE)
        picture.setWidth(min(PICTURE.width(), inner.width() - 64))
        stages = [spot.stage for spot in season.spots(key)]
        _paint_picture(painter, picture, holder, stages, look)
        _paint_count(
            painter,
            QRect(picture.right() + 4, picture.top(), inner.right() - picture.right() - 4, 40),
            holder,
            counts,
            look,
        )

    def _paint_frame(self, painter: QPainter, card: QRect, key: str, *, focused: bool) -> None:
        look = self._bench.look
        edge, width, ground = look.colour("edge"), 1.0, look.colour("card")
        if key in self.open_keys:
            edge, width = look.colour("leaf"), 2.0
        if focused:
            edge, width = look.colour("focus"), 2.0
        if self.drop is not None and self.drop[0] == key:
            edge, width = look.colour("leaf" if self.drop[1] else "clay"), 3.0
            ground = look.colour("leaf_wash" if self.drop[1] else "clay_wash")
        painter.setPen(QPen(edge, width))
        painter.setBrush(ground)
        painter.drawRoundedRect(QRectF(card).adjusted(0.5, 0.5, -0.5, -0.5), RADIUS, RADIUS)
        if self.drop == (key, False):
            corner = QRectF(card.right() - 22, card.top() + 10, 11, 11)
            painter.drawLine(corner.topLeft(), corner.bottomRight())
            painter.drawLine(corner.topRight(), corner.bottomLeft())


def _about(holder: Holder) -> str:
    what = f"{holder.spots} × {holder.size}" if holder.size else _spots(holder)
    return f"{what} · {holder.place}" if holder.place else what


def _spots(holder: Holder) -> str:
    if holder.form == "rack":
        return trn("{n} pot", "{n} pots", holder.spots)
    return trn("{n} cell", "{n} cells", holder.spots)


def _of_spots(holder: Holder, counts: Counts) -> str:
    if holder.form == "rack":
        return tr("of {spots} pots", spots=counts.spots)
    return tr("of {spots} cells", spots=counts.spots)


def _paint_count(painter: QPainter, rect: QRect, holder: Holder, counts: Counts, look: Look) -> None:
    if counts.sown:
        number, colour, words = counts.up, "leaf_text", tr("of {sown} up", sown=counts.sown)
    else:
        number, colour, words = counts.living, "clay_text", _of_spots(holder, counts)
    top = QRect(rect.left(), rect.top(), rect.width(), 24)
    painter.setFont(font(COUNT_PX, QFont.Weight.Bold))
    painter.setPen(look.colour(colour))
    painter.drawText(top, RIGHT, str(number))
    below = QRect(rect.left(), rect.top() + 23, rect.width(), 17)
    painter.setFont(font(SMALL_PX))
    painter.setPen(look.colour("quiet"))
    painter.drawText(below, RIGHT, words)


def _paint_picture(painter: QPainter, rect: QRect, holder: Holder, stages: list[Stage], look: Look) -> None:
    """Paint the tray in small, cell by cell, in its own rows and columns."""
    across, down = rect.width() / holder.columns, rect.height() / holder.rows
    pitch = min(across, down * 1.6, 14.0), min(down, across * 1.6, 14.0)
    colours = {
        Stage.SOWN: look.colour("soil"),
        Stage.UP: look.colour("seedling"),
        Stage.LEAVES: look.colour("leaf"),
    }
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, holder.form == "rack")
    for place, stage in enumerate(stages):
        row, column = divmod(place, holder.columns)
        left, top = rect.left() + column * pitch[0], rect.top() + row * pitch[1]
        gap = 1.0 if min(pitch) < 7 else 2.0
        cell = QRectF(round(left), round(top), max(1.0, pitch[0] - gap), max(1.0, pitch[1] - gap))
        _paint_small(painter, cell, colours.get(stage), look, pot=holder.form == "rack")
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)


def _paint_small(painter: QPainter, cell: QRectF, fill: QColor | None, look: Look, *, pot: bool) -> None:
    """Paint one cell: filled where something lives or waits, an outline where nothing does."""
    if fill is not None and min(cell.width(), cell.height()) < FRAMED_PX:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(fill)
    else:
        painter.setPen(QPen(look.colour("rim" if fill is None else "soil_edge"), 1.0))
        painter.setBrush(Qt.BrushStyle.NoBrush if fill is None else fill)
        cell = cell.adjusted(0, 0, -1, -1)
    if pot:
        painter.drawEllipse(cell)
    else:
        painter.drawRect(cell)


def _write(painter: QPainter, rect: QRect, text: str, type_: QFont, colour: QColor) -> None:
    painter.setFont(type_)
    painter.setPen(colour)
    shown = QFontMetrics(type_).elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
    painter.drawText(rect, LEFT, shown)
