"""The codes on tags: an open form of text that names one spot of one tray, for its QR symbol.

The form is a URI (RFC 3986) with the scheme ``greenroom``:

    greenroom:spot/<holder>/<row>/<column>
    greenroom:spot/<holder>/<row>/<column>/<sown>
    greenroom:tray/<holder>

``holder`` is the key of the tray, rack or bed in the ledger; ``row`` and ``column`` count from 1; ``sown``
is the day of sowing of what stood there when the tag was made (YYYY-MM-DD, ISO 8601), by which a seedling
is found again after it was potted up. Letters may be capitals, and any sign may stand for the colon, the
slashes and the hyphens: scanners that type do so by the layout of another keyboard.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from greenroom.exchange.text_lines import shown
from greenroom.speech import tr

SPOT, TRAY = "greenroom:spot", "greenroom:tray"
LONGEST = 200
BETWEEN = r"[^0-9A-Za-z]"
PATTERN = re.compile(
    rf"greenroom{BETWEEN}(?:tray{BETWEEN}(?P<tray>[0-9a-z]{{1,64}})"
    rf"|spot{BETWEEN}(?P<holder>[0-9a-z]{{1,64}}){BETWEEN}(?P<row>[0-9]{{1,3}}){BETWEEN}(?P<column>[0-9]{{1,3}})"
    rf"(?:{BETWEEN}(?P<sown>[0-9]{{4}}{BETWEEN}[0-9]{{2}}{BETWEEN}[0-9]{{2}}))?)",
    re.IGNORECASE | re.ASCII,
)


class BadCodeError(ValueError):
    """A text that is no code of the program; the message is one sentence."""


@dataclass(frozen=True, slots=True)
class Code:
    """What a code names: a spot (row and column from 0), or a whole tray where they are None."""

    holder: str
    row: int | None = None
    column: int | None = None
    sown: date | None = None

    @property
    def text(self) -> str:
        """The code as it is put on paper."""
        if self.row is None or self.column is None:
            return f"{TRAY}/{self.holder}"
        tail = f"/{self.sown.isoformat()}" if self.sown else ""
        return f"{SPOT}/{self.holder}/{self.row + 1}/{self.column + 1}{tail}"


def is_code(text: str) -> bool:
    """Whether a text begins as a code does, so that it is meant as one."""
    return text.strip()[: len("greenroom")].casefold() == "greenroom"


def read_code(text: str) -> Code:
    """Return what a code names.

    Raises
    ------
    BadCodeError
        If the text is not of the form.
    """
    found = PATTERN.fullmatch(text.strip()[:LONGEST])
    if found is None:
        raise BadCodeError(
            tr(
                "{found} is no code of a tag; one reads greenroom:spot/…/row/column, or greenroom:tray/…",
                found=shown(text.strip()),
            )
        )
    if found["tray"]:
        return Code(found["tray"].lower())
    row, column = int(found["row"]) - 1, int(found["column"]) - 1
    if row < 0 or column < 0:
        raise BadCodeError(tr("Rows and columns of a code count from 1; this one has a 0."))
    return Code(found["holder"].lower(), row, column, _day(found["sown"]))


def _day(text: str | None) -> date | None:
    if not text:
        return None
    try:
        return date(int(text[:4]), int(text[5:7]), int(text[8:10]))
    except ValueError:
        raise BadCodeError(
            tr("The code names a day of sowing, {day}, that is in no calendar.", day=text)
        ) from None
