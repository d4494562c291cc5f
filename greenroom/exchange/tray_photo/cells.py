"""The cells of a tray cut out of its picture, and how much of each is leaf."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from greenroom.exchange.errors import BadFileError, Cancel, Progress, go_on
from greenroom.exchange.tray_photo.greenness import Level, excess_green, leaf_level
from greenroom.exchange.tray_photo.homography import UNIT, Corners, homography, is_fit, mapped
from greenroom.speech import tr

Floats = NDArray[np.float64]
Pixels = NDArray[np.uint8]

PATCH = 40  # points along each side of a cell that are looked at
INSET = 0.06  # of a cell's side, left out at each edge: walls, and leaves of the cell beside it
MIDDLE = 0.22  # of a cell's side, outside which green may lean in from beside
SURELY_UP = 0.012  # share of a cell that is leaf; two seed leaves of a pepper cover several times as much
SURELY_NOT = 0.003
SMALLEST_CELL_PX = 6.0
DARKEST = 36 / 255  # of red, green and blue together, in the middle of the tray; a working rule
SMOOTHED = ((0.03, 0.0), (0.06, 1.0), (0.10, 2.0), (0.18, 3.0))
"""Up to which grain a tray is smoothed how far [points]; what is grainier cannot be read. Working rules."""
LAG = 4  # points
QUARTILE = 0.3186  # of the absolute value of a standard normal number
MARKED = tr(
    "Put the four corners on the outer corners of the tray's corner cells, so that none is dented in."
)
TOO_SMALL = tr(
    "The cells are too small in this picture to be read; take it from closer or mark the corners wider."
)

TOO_DARK = tr("The photo is too dark or too grainy for leaf to be told from mix; take it in more light.")

UP, UNSURE, BARE = "up", "unsure", "not up"


@dataclass(frozen=True, slots=True)
class CellSeen:
    """One cell: row and column from 0, the share of it that is leaf, and what that says of it."""

    row: int
    column: int
    cover: float
    state: str


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read of a tray, row by row, and the level it was read at."""

    cells: tuple[CellSeen, ...]
    level: Level


def read_cells(
    pixels: Pixels,
    corners: Corners,
    rows: int,
    columns: int,
    progress: Progress = lambda _share: None,
    cancelled: Cancel = lambda: False,
) -> Reading:
    """Return how much of each cell of a tray is leaf, and whether a seedling is up there.

    Parameters
    ----------
    pixels : array (height, width, 3) of uint8
        The picture.
    corners : Corners
        Of the block of cells in the picture [px], that of cell A1 first, then round as a clock goes.
    rows, columns : int
        Of the tray.
    progress, cancelled : callable
        Told the share done, 0 to 1; asked whether to stop.

    Raises
    ------
    BadFileError
        With one sentence, if the corners are no quadrilateral, or the cells too small or too dark to be read.
    Cancelled
        If ``cancelled`` says so.
    """
    if not is_fit(corners):
        raise BadFileError(MARKED)
    if _smallest_side(corners, rows, columns) < SMALLEST_CELL_PX:
        raise BadFileError(TOO_SMALL)
    patches = straightened(pixels, corners, rows, columns)
    progress(0.4)
    go_on(cancelled)
    index = _calmed(patches)
    level = leaf_level(index)
    progress(0.8)
    go_on(cancelled)
    leaf = np.zeros(index.shape, bool) if level.value is None else index > level.value
    leaf = ndimage.binary_opening(leaf, np.ones((1, 1, 2, 2), bool))  # single points are noise
    cover = leaf.mean(axis=(2, 3))
    edge = round(PATCH * (MIDDLE - INSET) / (1 - 2 * INSET))
    central = leaf[:, :, edge:-edge, edge:-edge].any(axis=(2, 3))
    cells = tuple(
        CellSeen(
            row, column, float(cover[row, column]), _state(cover[row, column], bool(central[row, column]))
        )
        for row in range(rows)
        for column in range(columns)
    )
    progress(1.0)
    return Reading(cells, level)


def straightened(pixels: Pixels, corners: Corners, rows: int, columns: int) -> Floats:
    """Return the patches of all cells (rows, columns, PATCH, PATCH, 3), 0 to 1, as seen from above."""
    matrix = homography(UNIT, corners)
    within = INSET + (np.arange(PATCH) + 0.5) / PATCH * (1 - 2 * INSET)
    down = (np.arange(rows)[:, None] + within) / rows
    across = (np.arange(columns)[:, None] + within) / columns
    points = np.empty((rows, columns, PATCH, PATCH, 2))
    points[..., 0] = across[None, :, None, :]
    points[..., 1] = down[:, None, :, None]
    places = mapped(matrix, points)
    step = _smallest_side(corners, rows, columns) / PATCH
    found = np.empty((rows, columns, PATCH, PATCH, 3))
    for channel in range(3):
        plane = pixels[..., channel].astype(np.float32) / 255.0
        plane = ndimage.gaussian_filter(plane, max(0.7, step / 2))
        found[..., channel] = ndimage.map_coordinates(
            plane, [places[..., 1] - 0.5, places[..., 0] - 0.5], order=1, mode="nearest"
        )
    return found


def grain(index: Floats) -> float:
    """Return how much excess green varies from point to point of a cell: a robust standard deviation.

    Points some way apart are compared, the quarter of them that differ least: between the others a leaf may
    begin.
    """
    apart = np.abs(index[..., LAG:] - index[..., :-LAG])
    return float(np.quantile(apart, 0.25) / QUARTILE / np.sqrt(2))


def _calmed(patches: Floats) -> Floats:
    """Return the excess green of patches, smoothed as far as the picture's own grain asks for."""
    if float(np.median(patches.sum(axis=-1))) < DARKEST:
        raise BadFileError(TOO_DARK)
    index = excess_green(patches)
    found = grain(index)
    if found > SMOOTHED[-1][0]:
        raise BadFileError(TOO_DARK)
    sigma = next(sigma for most, sigma in SMOOTHED if found <= most)
    return excess_green(ndimage.gaussian_filter(patches, (0, 0, sigma, sigma, 0))) if sigma else index


def _state(cover: float, central: bool) -> str:
    if cover < SURELY_NOT:
        return BARE
    return UP if cover >= SURELY_UP and central else UNSURE


def _smallest_side(corners: Corners, rows: int, columns: int) -> float:
    points = np.array(corners)
    top, right, bottom, left = np.hypot(*(np.roll(points, -1, axis=0) - points).T)
    return float(min(top / columns, bottom / columns, left / rows, right / rows))
