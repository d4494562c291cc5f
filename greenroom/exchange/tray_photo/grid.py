"""The block of cells within a tray's outer edge, found by the walls between the cells."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from greenroom.exchange.tray_photo.homography import UNIT, Corners, homography, mapped

Floats = NDArray[np.float64]
Pixels = NDArray[np.uint8]

POINTS = 24  # along a cell
WIDEST_RIM = 0.10  # of the tray's side, at either end
STEP = 0.005
CLEARLY = (
    0.6  # how much more change at the walls than across the cells, of the change on average, is believed
)


def within_rim(pixels: Pixels, corners: Corners, rows: int, columns: int) -> Corners:
    """Return the corners of the block of cells of a tray whose outer corners are given.

    The tray is laid flat; where the walls between cells stand, the picture changes most. The rim at each
    side is the one at which walls evenly spaced meet most of that. Where no rim does so clearly, the corners
    stay as they are.
    """
    matrix = homography(UNIT, corners)
    wide, high = columns * POINTS, rows * POINTS
    x, y = np.meshgrid((np.arange(wide) + 0.5) / wide, (np.arange(high) + 0.5) / high)
    places = mapped(matrix, np.stack([x, y], axis=-1))
    plane = pixels.mean(axis=2, dtype=np.float32) / 255.0
    flat = ndimage.map_coordinates(
        plane, [places[..., 1] - 0.5, places[..., 0] - 0.5], order=1, mode="nearest"
    )
    flat = ndimage.gaussian_filter(flat, 1.0)
    left, right = _rim(np.median(np.abs(ndimage.sobel(flat, 1)), axis=0), columns)
    top, bottom = _rim(np.median(np.abs(ndimage.sobel(flat, 0)), axis=1), rows)
    inner = mapped(matrix, [(left, top), (1 - right, top), (1 - right, 1 - bottom), (left, 1 - bottom)])
    first, second, third, fourth = ((float(x), float(y)) for x, y in inner)
    return first, second, third, fourth


def _rim(change: Floats, cells: int) -> tuple[float, float]:
    """Return the share of a side that is rim at its start and its end."""
    if cells < 2:
        return 0.0, 0.0
    tried = np.arange(0.0, WIDEST_RIM + STEP / 2, STEP)
    change = ndimage.gaussian_filter1d(change, POINTS / 12)
    best, most = (0.0, 0.0), CLEARLY * float(change.mean())
    for start in tried:
        for end in tried:
            found = _contrast(change, float(start), float(end), cells)
            if found > most:
                best, most = (float(start), float(end)), found
    return best


def _contrast(change: Floats, start: float, end: float, cells: int) -> float:
    """Return how much more change there is at the inner walls than in the middles of the cells."""
    side = (1 - start - end) / cells
    walls = start + side * np.arange(1, cells)
    middles = start + side * (np.arange(cells) + 0.5)
    ends = np.arange(len(change))
    at_walls = np.interp(walls * len(change) - 0.5, ends, change).mean()
    across = np.interp(middles * len(change) - 0.5, ends, change).mean()
    return float(at_walls - across)
