"""Where the names of curves go, so that they cover neither each other nor a curve."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, QSizeF

STEPS, BETWEEN = 60, 3
APART_PX, BESIDE_PX, CLEAR_PX = 4, 9, 2
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
    boxes = [_edges(one) for one in taken]
    dense = [_dense(curve) for curve in curves]
    found = []
    for place, (curve, size) in enumerate(zip(dense, sizes, strict=True)):
        others = [one for number, one in enumerate(dense) if number != place]
        rest = np.vstack(others) if others else np.empty((0, 2))
        ways = _candidates(curve, size, room)
        best = ways[int(np.argmin(_costs(ways, curve, rest, boxes, room)))]
        boxes.append(best)
        found.append(QRectF(QPointF(best[0], best[1]), QPointF(best[2], best[3])))
    return found


def _edges(rect: QRectF) -> Curve:
    return np.array([rect.left(), rect.top(), rect.right(), rect.bottom()])


def _dense(curve: Curve) -> Curve:
    """Return a curve with points between its own, so that a steep way down is seen."""
    places = np.linspace(0, max(len(curve) - 1, 0), max(len(curve) - 1, 0) * BETWEEN + 1)
    steps = np.arange(len(curve))
    return np.column_stack([np.interp(places, steps, curve[:, side]) for side in (0, 1)])


def _candidates(curve: Curve, size: QSizeF, room: QRectF) -> Curve:
    """Return where a name may stand beside its curve: left, top, right, bottom, shape (k, 4)."""
    wide, tall = size.width(), size.height()
    inside = curve[(curve[:, 0] >= room.left()) & (curve[:, 0] <= room.right())]
    if not len(inside):
        return np.array([[room.left(), room.top(), room.left() + wide, room.top() + tall]])
    x, y = inside[np.linspace(0, len(inside) - 1, STEPS).astype(int)].T
    right, left = x + APART_PX, x - wide - APART_PX
    lefts = np.column_stack([right, left, right, left])
    tops = np.column_stack([y - tall - APART_PX, y + APART_PX, y - tall / 2, y - tall / 2])
    lefts = np.minimum(np.maximum(lefts, room.left()), room.right() - wide).ravel()
    tops = np.minimum(np.maximum(tops, room.top()), room.bottom() - tall).ravel()
    return np.column_stack([lefts, tops, lefts + wide, tops + tall])


def _costs(ways: Curve, curve: Curve, others: Curve, boxes: Sequence[Curve], room: QRectF) -> Curve:
    overlaps = sum((_overlap(ways, box) for box in boxes), np.zeros(len(ways)))
    covered = _inside(curve, ways) + _inside(others, ways)
    beside = _inside(others, ways + BESIDE_PX * np.array([-1, -1, 1, 1]))
    far = np.abs((ways[:, 1] + ways[:, 3]) / 2 - room.center().y()) / max(room.height(), 1.0)
    near = NEAR * _way(curve, ways)
    return OVERLAP * overlaps + CROSSING * covered + NEIGHBOUR * beside + OFF_MIDDLE * far + near


def _overlap(ways: Curve, box: Curve) -> Curve:
    """Return 1 where a name, with a little room about it, would lie on a box."""
    apart = (ways[:, 0] - CLEAR_PX >= box[2]) | (ways[:, 2] + CLEAR_PX <= box[0])
    apart |= (ways[:, 1] - CLEAR_PX >= box[3]) | (ways[:, 3] + CLEAR_PX <= box[1])
    return (~apart).astype(float)


def _way(points: Curve, ways: Curve) -> Curve:
    """Return the way from each rectangle to the point nearest to it."""
    left, top, right, bottom = (ways[:, side, None] for side in range(4))
    x, y = points.T
    across = np.maximum(np.maximum(left - x, x - right), 0)
    down = np.maximum(np.maximum(top - y, y - bottom), 0)
    return np.min(np.hypot(across, down), axis=1)


def _inside(points: Curve, ways: Curve) -> NDArray[np.int64]:
    """Return how many points lie in each rectangle."""
    left, top, right, bottom = (ways[:, side, None] for side in range(4))
    x, y = points.T
    return np.count_nonzero((x >= left) & (x <= right) & (y >= top) & (y <= bottom), axis=1)
