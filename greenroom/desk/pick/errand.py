"""What the Pick page is gone to for."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PickErrand:
    """A variety to be picked, and the bed it stands in."""

    variety: str
    holder: str | None = None
