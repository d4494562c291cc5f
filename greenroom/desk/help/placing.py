"""Where a card stands beside what it speaks of."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QPoint, QRect, QSize

APART_PX = 18
EDGE_PX = 12


def beside(target: QRect, card: QSize, bounds: QRect) -> QRect:
    """Return where a card stands: inside ``bounds``, beside ``target`` and clear of it where there is room.

    To the right is tried first, then to the left, below and above, then the corners. Where the target
    leaves no room at all, the corner that hides least of it is taken.
    """
    inner = bounds.adjusted(EDGE_PX, EDGE_PX, -EDGE_PX, -EDGE_PX)
    places = [QRect(_into(corner, card, inner), card) for corner in _corners(target, card, inner)]
    return min(places, key=lambda place: _area(place.intersected(target)))  # the first of the clearest


def _corners(target: QRect, card: QSize, inner: QRect) -> Iterator[QPoint]:
    across = target.center().x() - card.width() // 2
    down = target.center().y() - card.height() // 2
    yield QPoint(target.right() + 1 + APART_PX, down)
    yield QPoint(target.left() - APART_PX - card.width(), down)
    yield QPoint(across, target.bottom() + 1 + APART_PX)
    yield QPoint(across, target.top() - APART_PX - card.height())
    for x in (inner.right(), inner.left()):
        for y in (inner.bottom(), inner.top()):
            yield QPoint(x, y)


def _into(corner: QPoint, card: QSize, inner: QRect) -> QPoint:
    """Return a corner moved so far that the card lies inside."""
    x = min(corner.x(), inner.right() + 1 - card.width())
    y = min(corner.y(), inner.bottom() + 1 - card.height())
    return QPoint(max(x, inner.left()), max(y, inner.top()))


def _area(rect: QRect) -> int:
    return rect.width() * rect.height() if rect.isValid() else 0
