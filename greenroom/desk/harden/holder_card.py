"""One card of the list: the name, the ramp as bars, where it is, and its minutes."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from greenroom.desk.look import BODY_PX, GAP, RADIUS, SMALL_PX, Look, font
from greenroom.desk.sharp import sharp_box
from greenroom.season.door import AtDoor, Where, in_words, next_words, state_words
from greenroom.season.hardening_words import whole_minutes
from greenroom.season.place import Place
from greenroom.speech import tr

HERE = Qt.ItemDataRole.UserRole
PADDING_PX = 12
BARS_PX = 26
LINE_PX = 18
GAP_PX = 8
SHORTEST_SHARE = 0.22


class HolderCard(QStyledItemDelegate):
    """Steps done are filled, today's is framed and fills with its minutes, those to come are hollow."""

    def __init__(self, look: Look, place: Place, parent: QObject) -> None:
        super().__init__(parent)
        self._look = look
        self._place = place

    def set_place(self, place: Place) -> None:
        """Take the place by whose clock the words are told."""
        self._place = place

    def sizeHint(self, _option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        here: AtDoor = index.data(HERE)
        lines = 3 if next_words(here, self._place) else 2
        return QSize(0, 2 * PADDING_PX + lines * LINE_PX + BARS_PX + 2 * 6 + GAP_PX)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        here: AtDoor = index.data(HERE)
        state = option.state
        box = QRectF(option.rect).adjusted(1, 1, -1, -1 - GAP_PX)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_sheet(painter, box, here, state)
        inner = box.adjusted(PADDING_PX, PADDING_PX - 2, -PADDING_PX, -PADDING_PX + 2)
        self._paint_head(painter, inner, here)
        bars = QRectF(inner.left(), inner.top() + LINE_PX + 6, inner.width(), BARS_PX)
        self._paint_bars(painter, bars, here)
        self._paint_state(painter, inner, bars.bottom() + 6, here)
        painter.restore()

    def _paint_sheet(self, painter: QPainter, box: QRectF, here: AtDoor, state: QStyle.StateFlag) -> None:
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        focused = bool(state & QStyle.StateFlag.State_HasFocus)
        over = here.over
        painter.setBrush(self._look.colour("clay_wash" if over else "sun_wash" if here.out else "card"))
        edge = "focus" if focused else "leaf" if chosen else "edge"
        painter.setPen(QPen(self._look.colour(edge), 2 if chosen or focused else 1))
        painter.drawRoundedRect(box, RADIUS, RADIUS)

    def _paint_head(self, painter: QPainter, box: QRectF, here: AtDoor) -> None:
        stand = here.stand
        step, outings = stand.sun.step, stand.sun.ramp.outings
        words = (
            tr("ramp done")
            if step >= outings
            else tr("step {step} of {outings}", step=step + 1, outings=outings)
        )
        wide = self._write(painter, box, words, SMALL_PX, "quiet", right=True)
        room = box.adjusted(0, 0, -wide - GAP, 0)
        self._write(painter, room, here.name, BODY_PX, "ink", bold=True)

    def _paint_bars(self, painter: QPainter, box: QRectF, here: AtDoor) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        stand = here.stand
        count, today = stand.sun.ramp.outings, stand.sun.step
        step = box.width() / count
        for place in range(count):
            high = box.height() * (SHORTEST_SHARE + (1 - SHORTEST_SHARE) * (place + 1) / count)
            bar = QRectF(box.left() + place * step, box.bottom() - high, step - 3, high)
            if place < today:
                self._bar(painter, bar, "leaf_text", "leaf_text")
            elif place > today or stand.resting:
                self._bar(painter, bar, "leaf_text", None)
            else:
                self._bar(painter, bar, "ink", "card")
                share = min(1.0, here.sun / stand.sun.limit)
                full = bar.adjusted(1, 0, 0, 0)
                full.setTop(full.bottom() - share * (bar.height() - 1))
                painter.fillRect(full, self._look.colour("sun"))

    def _bar(self, painter: QPainter, bar: QRectF, edge: str, fill: str | None) -> None:
        painter.setPen(self._look.colour(edge))
        painter.setBrush(self._look.colour(fill) if fill else Qt.BrushStyle.NoBrush)
        painter.drawRect(sharp_box(painter, bar))

    def _paint_state(self, painter: QPainter, inner: QRectF, top: float, here: AtDoor) -> None:
        line = QRectF(inner.left(), top, inner.width(), LINE_PX)
        minutes = tr("{done} / {asked} min", done=whole_minutes(here.sun), asked=here.stand.target)
        wide = self._write(painter, line, minutes, BODY_PX, "ink", bold=True, right=True)
        room = line.adjusted(0, 0, -wide - GAP, 0)
        self._write(painter, room, state_words(here, self._place), SMALL_PX, "ink" if here.out else "quiet")
        following = next_words(here, self._place)
        if following:
            soon = in_words(here)
            over = here.over
            colour = "clay_text" if over else "ink" if here.where is Where.SUN else "quiet"
            words = f"{following}, {soon}" if soon else following
            self._write(painter, line.translated(0, LINE_PX), words, BODY_PX, colour, bold=True)

    def _write(
        self,
        painter: QPainter,
        box: QRectF,
        text: str,
        pixels: int,
        colour: str,
        *,
        bold: bool = False,
        right: bool = False,
    ) -> float:
        """Write one line at the top of a box, shortened to fit; return how wide it is."""
        made = font(pixels, QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
        metrics = QFontMetricsF(made)
        shown = metrics.elidedText(text, Qt.TextElideMode.ElideRight, box.width())
        side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
        painter.setFont(made)
        painter.setPen(self._look.colour(colour))
        line = QRectF(box.left(), box.top(), box.width(), LINE_PX)
        painter.drawText(line, int(side | Qt.AlignmentFlag.AlignVCenter), shown)
        return metrics.horizontalAdvance(shown)
