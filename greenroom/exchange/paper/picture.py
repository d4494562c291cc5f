"""Pages as pictures: for the preview, and for a printer, dot by dot."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from threading import Lock

import pypdfium2 as pdfium

POINTS_AN_INCH = 72.0

_ONE_AT_A_TIME = Lock()
"""PDFium may be in use by one thread at a time."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A page as rows of red, green and blue bytes; ``stride`` bytes lie from one row to the next."""

    width: int
    height: int
    stride: int
    rgb: bytes


def picture_of(pdf: bytes, page: int, dots_an_inch: float) -> Picture:
    """Return one page (counted from 0) of a document as a picture."""
    with _ONE_AT_A_TIME, _opened(pdf) as document:
        leaf = document[page]
        bitmap = leaf.render(scale=dots_an_inch / POINTS_AN_INCH, rev_byteorder=True)
        found = Picture(bitmap.width, bitmap.height, bitmap.stride, bytes(bitmap.buffer))
        bitmap.close()
        leaf.close()
        return found


@contextmanager
def _opened(pdf: bytes) -> Iterator[pdfium.PdfDocument]:
    document = pdfium.PdfDocument(pdf)
    try:
        yield document
    finally:
        document.close()
