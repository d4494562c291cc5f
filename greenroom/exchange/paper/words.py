"""Text on paper: the program's own typeface, measured, cut to fit, and never more than its room."""

from __future__ import annotations

import unicodedata
from functools import lru_cache
from threading import Lock

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from greenroom.own_files import resources_folder

PLAIN, STRONG = "Inter-Regular", "Inter-SemiBold"
NO_SIGN = "□"
"""Stands for a sign that the typeface does not have."""

MORE = "…"
LONGEST = 400
"""Signs of one text that are looked at; what is longer is cut, as no line holds as much."""

MM = 72 / 25.4
"""Points in a millimetre: the unit of PDF is 1/72 in (ISO 32000-1, 8.3.2.3)."""

_LOADING = Lock()
LETTERS = ("L", "N", "P", "S", "M")


def load_typeface() -> None:
    """Make the typeface known to the PDF writer; it is read once."""
    with _LOADING:
        _load()


@lru_cache(maxsize=1)
def _load() -> TTFont:
    folder = resources_folder() / "fonts" / "print"
    for face in (STRONG, PLAIN):
        with (folder / f"{face}.ttf").open("rb") as file:
            made = TTFont(face, file)
        pdfmetrics.registerFont(made)
    return made


def shown(text: str) -> str:
    """Return a text as it can be put on paper: on one line, nothing in it that steers, signs replaced.

    Signs that the typeface lacks are shown as an empty square; marks that only turn the direction of
    writing are left out.
    """
    return "".join(_shown_sign(sign) for sign in _composed(text)).strip()


def not_shown(text: str) -> frozenset[str]:
    """Return the signs of a text that are shown as an empty square."""
    return frozenset(sign for sign in _composed(text) if _shown_sign(sign) == NO_SIGN and sign != NO_SIGN)


def width_mm(text: str, face: str, points: float) -> float:
    """Return how wide a text is that ``shown`` has returned."""
    load_typeface()
    return float(pdfmetrics.stringWidth(text, face, points)) / MM


def fitted(text: str, face: str, points: float, room_mm: float) -> str:
    """Return a text shown, cut and marked as cut if it is wider than its room."""
    whole = shown(text)
    if width_mm(whole, face, points) <= room_mm and len(text) <= LONGEST:
        return whole
    least, most = 0, len(whole)
    while least < most:
        middle = (least + most + 1) // 2
        if width_mm(whole[:middle].rstrip() + MORE, face, points) <= room_mm:
            least = middle
        else:
            most = middle - 1
    if not least and width_mm(MORE, face, points) > room_mm:
        return ""
    return whole[:least].rstrip() + MORE


def wrapped(text: str, face: str, points: float, room_mm: float, lines: int) -> list[str]:
    """Return a text as lines that fit; what does not fit into so many is cut and marked as cut."""
    rest = shown(text)
    cut = MORE if len(text) > LONGEST else ""
    found: list[str] = []
    while rest and len(found) < lines - 1:
        taken = _line_of(rest, face, points, room_mm)
        found.append(rest[:taken].rstrip())
        rest = rest[taken:].lstrip()
    if rest:
        found.append(fitted(rest + cut, face, points, room_mm))
    return found


def _line_of(text: str, face: str, points: float, room_mm: float) -> int:
    """Return how many signs go on the first line: whole words if one fits, else what fits of it."""
    end = len(text)
    if width_mm(text, face, points) <= room_mm:
        return end
    while end > 1 and width_mm(text[:end], face, points) > room_mm:
        end -= max(1, min(end - 1, (end - 40) // 2))
    grown = end
    while grown < len(text) and width_mm(text[: grown + 1], face, points) <= room_mm:
        grown += 1
    space = text.rfind(" ", 0, grown + 1)
    return space if space > 0 else grown


def _composed(text: str) -> str:
    return unicodedata.normalize("NFC", text[:LONGEST])


def _shown_sign(sign: str) -> str:
    kind = unicodedata.category(sign)
    if kind in ("Cc", "Zl", "Zp", "Zs"):
        return " "
    if kind == "Cf":
        return ""
    return sign if kind[0] in LETTERS and ord(sign) in _signs() else NO_SIGN


@lru_cache(maxsize=1)
def _signs() -> frozenset[int]:
    with _LOADING:
        return frozenset(_load().face.charToGlyph)
