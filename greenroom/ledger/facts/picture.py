"""Facts about pictures: which was kept, of what, and how to know its file again."""

from __future__ import annotations

import string
from dataclasses import dataclass
from typing import ClassVar

from greenroom.ledger.facts.where import AnywhereFact

DIGEST_LENGTH = 64
DIGITS = frozenset(string.hexdigits.lower())
WIDEST = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureKept(AnywhereFact):
    """A picture kept beside the ledger, of a spot, a holder, a packet or of nothing that is named.

    ``file`` is its name in the folder of pictures, ``sha256`` the digest of the file; sides in pixels.
    """

    kind: ClassVar[str] = "picture_kept"
    words: ClassVar[str] = "picture"
    picture: str
    packet: str | None = None
    file: str
    sha256: str
    width: int
    height: int

    def _check(self) -> None:
        AnywhereFact._check(self)
        plain = bool(self.file.strip()) and not set(self.file) & set("/\\") and self.file not in (".", "..")
        self._require(plain, "the file", self.file, "a name without a folder is allowed")
        digest = len(self.sha256) == DIGEST_LENGTH and set(self.sha256) <= DIGITS
        self._require(digest, "the digest", self.sha256, f"{DIGEST_LENGTH} digits 0 to 9 and a to f")
        for what, value in (("width", self.width), ("height", self.height)):
            self._require(1 <= value <= WIDEST, f"a {what} of", value, f"1 to {WIDEST:,} is allowed")
