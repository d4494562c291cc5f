"""The map between a tray seen aslant and the same tray seen straight from above."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Corners = tuple[tuple[float, float], tuple[float, float], tuple[float, float], tuple[float, float]]
"""Points x, y round as a clock goes: of cell A1, the end of row A, the last cell, the last row's start."""

UNIT: Corners = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
FLATTEST = 1e-9


def homography(source: ArrayLike, target: ArrayLike) -> Floats:
    """Return the matrix that maps four or more points of one plane to those of another.

    Parameters
    ----------
    source, target : array (n, 2)
        At least four points, no three of them on a line.

    Returns
    -------
    array (3, 3)
        H with h33 = 1, so that (x, y, 1) H^T is (x', y', 1) times some number.

    Raises
    ------
    ValueError
        If there are fewer than four points or they lie on a line.

    Notes
    -----
    The direct linear transformation, on points moved and scaled to lie about the origin so that the sums
    are well conditioned.

    References
    ----------
    Hartley, R. and Zisserman, A. (2004). Multiple View Geometry in Computer Vision, 2nd ed., algorithm
    4.2. Cambridge University Press. doi:10.1017/CBO9780511811685
    """
    here, there = np.asarray(source, dtype=np.float64), np.asarray(target, dtype=np.float64)
    if here.shape != there.shape or here.ndim != 2 or here.shape[1] != 2 or len(here) < 4:
        raise ValueError(f"source has the shape {here.shape}; four or more points x, y in both are needed")
    moved, from_here = _normalised(here)
    aimed, from_there = _normalised(there)
    rows = []
    for (x, y), (u, v) in zip(moved, aimed, strict=True):
        rows.append([-x, -y, -1.0, 0.0, 0.0, 0.0, u * x, u * y, u])
        rows.append([0.0, 0.0, 0.0, -x, -y, -1.0, v * x, v * y, v])
    _, sizes, turned = np.linalg.svd(np.array(rows))
    plain = turned[8].reshape(3, 3)
    if sizes[7] < FLATTEST * sizes[0] or abs(np.linalg.det(plain)) < FLATTEST:
        raise ValueError("source or target has three points on a line; a true quadrilateral is needed")
    found = np.linalg.inv(from_there) @ plain @ from_here
    return np.asarray(found / found[2, 2])


def mapped(matrix: Floats, points: ArrayLike) -> Floats:
    """Return points (..., 2) mapped by a homography."""
    given = np.asarray(points, dtype=np.float64)
    whole = np.concatenate([given, np.ones((*given.shape[:-1], 1))], axis=-1) @ matrix.T
    return np.asarray(whole[..., :2] / whole[..., 2:])


def is_fit(corners: Corners) -> bool:
    """Whether four corners go round a true quadrilateral the way of a clock, none of them dented in."""
    points = np.array(corners)
    sides = np.roll(points, -1, axis=0) - points
    after = np.roll(sides, -1, axis=0)
    turns = sides[:, 0] * after[:, 1] - sides[:, 1] * after[:, 0]  # y runs down: clockwise is positive
    lengths = np.hypot(sides[:, 0], sides[:, 1])
    return bool((lengths > 0).all() and (turns > 1e-3 * lengths * np.roll(lengths, -1)).all())


def _normalised(points: Floats) -> tuple[Floats, Floats]:
    """Return points moved to the origin, at a mean distance of the root of 2, and the matrix that did it."""
    middle = points.mean(axis=0)
    distance = float(np.hypot(*(points - middle).T).mean())
    scale = np.sqrt(2.0) / max(distance, 1e-300)
    matrix = np.array([[scale, 0.0, -scale * middle[0]], [0.0, scale, -scale * middle[1]], [0.0, 0.0, 1.0]])
    return (points - middle) * scale, matrix
