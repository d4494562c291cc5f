"""Small things the tables share: figures rounded as they are told, and where a plant stands."""

from __future__ import annotations

from greenroom.season.spots import SpotKey
from greenroom.season.state import Season

DECIMALS = 2


def rounded(value: float | None, decimals: int = DECIMALS) -> float | None:
    """Return a figure without the noise of its last digits."""
    return None if value is None else round(float(value), decimals)


def percent(share: float | None, decimals: int = 1) -> float | None:
    """Return a share, 0 to 1, in percent."""
    return None if share is None else round(float(share) * 100, decimals)


def holder_name(season: Season, key: str | None) -> str:
    """Return what a holder is called; nothing where none is named."""
    return "" if key is None else season.holder(key).name


def spot_label(row: int | None, column: int | None) -> str:
    """Return a spot as written on the edge of its tray; nothing where the whole holder is meant."""
    return "" if row is None or column is None else SpotKey("", row, column).label
