"""The share expected up as a bar: the band it lies in, the most likely share, the seed law's least."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF

from greenroom.desk.look import Look
from greenroom.desk.sharp import sharp_box, straight
from greenroom.season.germination import Expected
from greenroom.speech import tr

EVEN_ODDS = 0.5
DASH = "–"


def range_words(expected: Expected) -> str:
    """Return the range in short, as in the table: "78–93 %"."""
    return f"{_percent(expected.low)}{DASH}{_percent(expected.high)} %"


def spoken_words(expected: Expected) -> str:
    """Return the range as it is read aloud."""
    words = tr("{low} to {high} percent", low=_percent(expected.low), high=_percent(expected.high))
    if likely_below(expected):
        return tr("{share}, more likely than not below the seed law's least", share=words)
    return words


def likely_below(expected: Expected) -> bool:
    """Whether a packet lies more likely than not below what may be sold without a warning."""
    return expected.below is not None and expected.below > EVEN_ODDS


def paint_range(painter: QPainter, rect: QRectF, look: Look, expected: Expected) -> None:
    """Paint the bar: a band from low to high, a line at the share, a wedge below it at the law's least."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(look.colour("rim"), 1))
    radius = rect.height() / 2
    painter.setBrush(look.colour("ground"))
    rect = sharp_box(painter, rect)
    painter.drawRoundedRect(rect, radius, radius)
    painter.setPen(Qt.PenStyle.NoPen)
    left, right = (_across(rect, share) for share in (expected.low, expected.high))
    band = QRectF(left, rect.top(), max(right - left, rect.height()), rect.height())
    painter.setBrush(look.colour("clay" if likely_below(expected) else "leaf"))
    painter.drawRoundedRect(band, radius, radius)
    if expected.least is not None:
        _paint_wedge(painter, _across(rect, expected.least), rect.bottom(), look)
    painter.setPen(QPen(look.colour("ink"), 2))
    middle = _across(rect, expected.share)
    straight(painter, QPointF(middle, rect.top() - 2), QPointF(middle, rect.bottom() + 2))
    painter.restore()


def _percent(share: float) -> int:
    """Return a share in whole percent, never the 0 or 100 of what is certain."""
    return min(max(round(share * 100), 1), 99)


def _paint_wedge(painter: QPainter, x: float, top: float, look: Look) -> None:
    painter.setBrush(look.colour("quiet"))
    painter.drawPolygon(QPolygonF([QPointF(x, top + 1), QPointF(x - 4, top + 7), QPointF(x + 4, top + 7)]))


def _across(rect: QRectF, share: float) -> float:
    return rect.left() + rect.width() * share
