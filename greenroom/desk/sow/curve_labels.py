"""Where the names of curves go, so that they cover neither each other nor a curve."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF, QSizeF

STEPS, BETWEEN = 60, 3
APART_PX, BESIDE_PX = 4, 9
OVERLAP, CROSSING, NEIGHBOUR, OFF_MIDDLE, NEAR = 1000.0, 6.0, 1.5, 6.0, 1.5
"""What it costs to cover another name, to cover a point of a curve, to stand beside one that is not its
own, to stand far from half the odds, and off its own curve."""

Curve = NDArray[np.float64]


def label_places(
    curves: Sequence[Curve], sizes: Sequence[QSizeF], room: QRectF, taken: Sequence[QRectF] = ()
) -> list[QRectF]:
    """Return a rectangle for the name of each curve.

    Parameters
    ----------
    curves : sequence of arrays, each of shape (n, 2)
        Points in pixels, x then y.
    sizes : sequence of QSizeF
        The room each name takes [pixels].
    room : QRectF
        Where names may stand.
    taken : sequence of QRectF
        Where they may not.
    """
    placed, dense = list(taken), [_dense(curve) for curve in curves]
    found = []
    for place, (curve, size) in enumerate(zip(dense, sizes, strict=True)):
        others = [one for number, one in enumerate(dense) if number != place]
        rest = np.vstack(others) if others else np.empty((0, 2))
        costs = [(_cost(one, curve, rest, placed, room), one) for one in _candidates(curve, size, room)]
        rect = min(costs, key=lambda cost: cost[0])[1]
        placed.append(rect)
        found.append(rect)
    return found


def _dense(curve: Curve) -> Curve:
    """Return a curve with points between its own, so that a steep way down is seen."""
    places = np.linspace(0, max(len(curve) - 1, 0), max(len(curve) - 1, 0) * BETWEEN + 1)
    steps = np.arange(len(curve))
    return np.column_stack([np.interp(places, steps, curve[:, side]) for side in (0, 1)])


def _candidates(curve: Curve, size: QSizeF, room: QRectF) -> list[QRectF]:
    inside = curve[(curve[:, 0] >= room.left()) & (curve[:, 0] <= room.right())]
    if not len(inside):
        return [QRectF(room.topLeft(), size)]
    wide, tall, rects = size.width(), size.height(), []
    for place in np.linspace(0, len(inside) - 1, STEPS).astype(int):
        x, y = inside[place]
        for left, top in (
            (x + APART_PX, y - tall - APART_PX),
            (x - wide - APART_PX, y + APART_PX),
            (x + APART_PX, y - tall / 2),
            (x - wide - APART_PX, y - tall / 2),
        ):
            left = min(max(left, room.left()), room.right() - wide)
            top = min(max(top, room.top()), room.bottom() - tall)
            rects.append(QRectF(left, top, wide, tall))
    return rects


def _cost(rect: QRectF, curve: Curve, others: Curve, placed: Sequence[QRectF], room: QRectF) -> float:
    overlaps = sum(rect.adjusted(-2, -2, 2, 2).intersects(other) for other in placed)
    covered = _inside(curve, rect) + _inside(others, rect)
    beside = _inside(others, rect.adjusted(-BESIDE_PX, -BESIDE_PX, BESIDE_PX, BESIDE_PX))
    far = abs(rect.center().y() - room.center().y()) / max(room.height(), 1.0)
    return (
        OVERLAP * overlaps
        + CROSSING * covered
        + NEIGHBOUR * beside
        + OFF_MIDDLE * far
        + NEAR * _way(curve, rect)
    )


def _way(points: Curve, rect: QRectF) -> float:
    """Return the way from a rectangle to the nearest point."""
    across = np.maximum(np.maximum(rect.left() - points[:, 0], points[:, 0] - rect.right()), 0)
    down = np.maximum(np.maximum(rect.top() - points[:, 1], points[:, 1] - rect.bottom()), 0)
    return float(np.min(np.hypot(across, down)))


def _inside(points: Curve, rect: QRectF) -> int:
    x, y = points[:, 0], points[:, 1]
    return int(
        np.count_nonzero((x >= rect.left()) & (x <= rect.right()) & (y >= rect.top()) & (y <= rect.bottom()))
    )
