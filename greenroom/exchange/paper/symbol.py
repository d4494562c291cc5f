"""The QR symbol of a text."""

from __future__ import annotations

from functools import lru_cache

import segno

QUIET_MODULES = 4
"""ISO/IEC 18004: the quiet zone of a QR code is four modules wide on all sides."""


KEPT = 1024


@lru_cache(maxsize=KEPT)
def modules_of(text: str) -> tuple[bytes, ...]:
    """Return the QR symbol of a text, row by row, 1 for dark; without its quiet zone.

    Error correction level M (15 % of the symbol may be lost, ISO/IEC 18004), higher where it costs no room.
    """
    symbol = segno.make_qr(text, error="m")
    return tuple(bytes(int(bool(module)) for module in row) for row in symbol.matrix)
