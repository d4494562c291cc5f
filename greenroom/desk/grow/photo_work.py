"""The long work on a photograph, off the window's thread; what it needs is loaded when it is first done."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from greenroom.desk.worker import Cancelled, Progress

if TYPE_CHECKING:
    from greenroom.exchange.picture_decode import Ready
    from greenroom.exchange.picture_store import PictureStore
    from greenroom.exchange.tray_photo.cells import Reading
    from greenroom.exchange.tray_photo.homography import Corners
    from greenroom.exchange.tray_photo.photo import Marked, Photo
    from greenroom.season.story_deeds import PictureFile

TAKING_IN = 0.6  # of the work of a new photograph


@dataclass(frozen=True, slots=True)
class Loaded:
    """A photograph that was taken in, and where its corners are."""

    photo: Photo
    marked: Marked


def loading(path: Path, rows: int, columns: int) -> Callable[[Progress, Cancelled], Loaded]:
    """Return the work of taking a photograph in and looking for the tray in it."""

    def work(progress: Progress, cancelled: Cancelled) -> Loaded:
        from greenroom.exchange.tray_photo.photo import load_photo, mark_corners

        photo = load_photo(path, lambda share: progress(TAKING_IN * share), cancelled)
        progress(TAKING_IN)
        return Loaded(photo, mark_corners(photo, rows, columns))

    return work


def reading(
    photo: Photo, corners: Corners, rows: int, columns: int
) -> Callable[[Progress, Cancelled], Reading]:
    """Return the work of reading the cells."""

    def work(progress: Progress, cancelled: Cancelled) -> Reading:
        from greenroom.exchange.tray_photo.cells import read_cells

        return read_cells(photo.pixels, corners, rows, columns, progress, cancelled)

    return work


def keeping(store: PictureStore, ready: Ready) -> Callable[[Progress, Cancelled], PictureFile]:
    """Return the work of putting the picture beside the ledger."""
    return lambda _progress, _cancelled: store.keep(ready.data, ready.width, ready.height)
