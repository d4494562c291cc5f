"""Facts about pictures: which was kept, of what, and how to know its file again."""

from __future__ import annotations

import string
from dataclasses import dataclass
from typing import ClassVar

from greenroom.ledger.facts.where import AnywhereFact
from greenroom.speech import tr

DIGEST_LENGTH = 64
DIGITS = frozenset(string.hexdigits.lower())
WIDEST = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureKept(AnywhereFact):
    """A picture kept beside the ledger, of a spot, a holder, a packet or of nothing that is named.

    ``file`` is its name in the folder of pictures, ``sha256`` the digest of the file; sides in pixels.
    """

    kind: ClassVar[str] = "picture_kept"
    words: ClassVar[str] = tr("picture", sense="kind of entry")
    picture: str
    packet: str | None = None
    file: str
    sha256: str
    width: int
    height: int

    def _check(self) -> None:
        AnywhereFact._check(self)
        plain = bool(self.file.strip()) and not set(self.file) & set("/\\") and self.file not in (".", "..")
        if not plain:
            self._refuse(tr("the file"), self.file, tr("a name without a folder is allowed"))
        digest = len(self.sha256) == DIGEST_LENGTH and set(self.sha256) <= DIGITS
        if not digest:
            self._refuse(
                tr("the digest"),
                self.sha256,
                tr("{digest_length} digits 0 to 9 and a to f", digest_length=DIGEST_LENGTH),
            )
        for what, value in ((tr("a width of"), self.width), (tr("a height of"), self.height)):
            if not (1 <= value <= WIDEST):
                self._refuse(what, value, tr("1 to {widest:,} is allowed", widest=WIDEST))
