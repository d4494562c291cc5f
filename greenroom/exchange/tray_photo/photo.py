"""A photograph taken in: checked like every picture, its points, and the tray in it."""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from greenroom.exchange.errors import Cancel, Progress, go_on
from greenroom.exchange.picture_decode import Ready, ready_file
from greenroom.exchange.tray_photo.corners import NOT_INSTALLED, can_find, find_tray, guessed
from greenroom.exchange.tray_photo.grid import within_rim
from greenroom.exchange.tray_photo.homography import Corners
from greenroom.speech import tr

LEAST = 0.3  # confidence below which corners found are no better than a guess
NOT_FOUND = tr("No tray was found in the picture; drag the four corners onto its corner cells.")


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture as it would be kept, and its points (height, width, 3)."""

    ready: Ready
    pixels: NDArray[np.uint8]


@dataclass(frozen=True, slots=True)
class Marked:
    """Corners to begin with, how sure they are (None if nobody looked), and what to say of them."""

    corners: Corners
    confidence: float | None
    words: str


def load_photo(path: Path, progress: Progress, cancelled: Cancel) -> Photo:
    """Return a picture file as a photograph.

    Raises
    ------
    BadFileError
        With one sentence, if it cannot be read or is no sound picture.
    Cancelled
        If ``cancelled`` says so.
    """
    ready = ready_file(path, progress, cancelled)
    with Image.open(io.BytesIO(ready.data)) as picture:
        pixels = np.asarray(picture.convert("RGB"))
    go_on(cancelled)
    return Photo(ready, pixels)


def mark_corners(photo: Photo, rows: int, columns: int) -> Marked:
    """Return the corners of the tray in a photograph, found where that can be done."""
    start = guessed(photo.ready.width, photo.ready.height)
    if not can_find():
        return Marked(start, None, NOT_INSTALLED)
    found = find_tray(photo.pixels)
    if found is None or found.confidence < LEAST:
        return Marked(start, 0.0 if found is None else found.confidence, NOT_FOUND)
    corners = along_rows(found.corners, rows, columns)
    return Marked(within_rim(photo.pixels, corners, rows, columns), found.confidence, found.words)


def along_rows(corners: Corners, rows: int, columns: int) -> Corners:
    """Return corners turned so that the longer sides run along the longer of rows and columns."""
    points = np.array(corners)
    top, right, bottom, left = np.hypot(*(np.roll(points, -1, axis=0) - points).T)
    wide = top + bottom >= right + left
    return corners if wide == (columns >= rows) or rows == columns else turned(corners)


def turned(corners: Corners) -> Corners:
    """Return the same corners with cell A1 at the next of them."""
    return corners[1], corners[2], corners[3], corners[0]
