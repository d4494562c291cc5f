"""Latitude and longitude as people write them: 46.4, 46,4, 46°24' N, N 46 24 36, -16.0."""

from __future__ import annotations

import re

from greenroom.speech import figure, tr

FORM = re.compile(
    r"""\s*(?P<sign>[+-])?\s*(?P<front>[NSEW])?\s*
    (?P<degrees>\d{1,3}(?:\.\d+)?)(?:\s*°)?
    (?:(?:(?<=°)|\s)\s*(?P<minutes>\d{1,2}(?:\.\d+)?)(?:\s*')?
    (?:(?:(?<=')|\s)\s*(?P<seconds>\d{1,2}(?:\.\d+)?)(?:\s*")?)?)?
    \s*(?P<back>[NSEW])?\s*""",
    re.VERBOSE | re.ASCII,
)
SIGNS = str.maketrans(
    {
        "′": "'",
        "’": "'",
        "´": "'",
        "`": "'",
        "″": '"',
        "”": '"',
        "“": '"',
        "º": "°",
        "˚": "°",
        "−": "-",
        "–": "-",
    }
)
PARTERS = re.compile(r"\s*[;,]\s+|\s*;\s*|(?<=[NS])[\s,]+|(?<=\d)\s+(?=[-+\dEW])")
MOST_DECIMALS = 5  # about a metre


class CoordinateError(ValueError):
    """A coordinate that cannot be read; the message is one sentence."""


def read_latitude(text: str) -> float:
    """Return a latitude in degrees, north positive; raise CoordinateError if it is none."""
    value = _read(text, "NS", 90.0)
    if value is None:
        raise CoordinateError(
            tr(
                "Latitude: {typed} stands where degrees such as 46.4 or 46°24' N, up to 90, are needed.",
                typed=_shown(text),
            )
        )
    return value


def read_longitude(text: str) -> float:
    """Return a longitude in degrees, east positive; raise CoordinateError if it is none."""
    value = _read(text, "EW", 180.0)
    if value is None:
        raise CoordinateError(
            tr(
                "Longitude: {typed} stands where degrees such as 16.0 or 16°02' E, up to 180, are needed.",
                typed=_shown(text),
            )
        )
    return value


def split_pair(text: str) -> tuple[str, str] | None:
    """Return latitude and longitude where both were written in one field, else None."""
    if _read(text, "NS", 90.0) is not None:
        return None
    for found in PARTERS.finditer(_plain(text)):
        first, second = _plain(text)[: found.start()], _plain(text)[found.end() :]
        if _read(first, "NS", 90.0) is not None and _read(second, "EW", 180.0) is not None:
            return first.strip(), second.strip()
    return None


def degrees_words(value: float | None) -> str:
    """Return degrees as a field shows them."""
    return "" if value is None else figure(value, f".{MOST_DECIMALS}f").rstrip("0").rstrip(".,")


def _plain(text: str) -> str:
    return text.translate(SIGNS).replace("''", '"').upper()


def _read(text: str, letters: str, most: float) -> float | None:
    """Return degrees, or None if the text is no coordinate of this kind."""
    found = FORM.fullmatch(re.sub(r"(\d),(\d)", r"\1.\2", _plain(text)))
    if found is None:
        return None
    letter = found["front"] or found["back"] or ""
    if (found["front"] and found["back"]) or (letter and found["sign"]) or letter not in ("", *letters):
        return None
    value = _degrees(found["degrees"], found["minutes"], found["seconds"])
    if value is None or value > most:
        return None
    negative = found["sign"] == "-" or letter == letters[1]
    return -value if negative and value else value


def _degrees(degrees: str, minutes: str | None, seconds: str | None) -> float | None:
    """Return degrees of parts; None where a part that is divided further is not whole, or is 60 or more."""
    parts = [part for part in (degrees, minutes, seconds) if part is not None]
    if any("." in part for part in parts[:-1]) or any(float(part) >= 60 for part in parts[1:]):
        return None
    return sum(float(part) / 60**place for place, part in enumerate(parts))


def _shown(text: str) -> str:
    words = " ".join(text.split())
    return tr("“{typed}”", typed=words) if words else tr("nothing", sense="in a field")
