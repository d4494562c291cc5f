"""A report of what went wrong that holds nothing of the grower's: versions, lines of the program, counts."""

from __future__ import annotations

import platform
from collections.abc import Sequence

from PySide6.QtCore import QLibraryInfo

from greenroom import __version__
from greenroom.desk.trouble import Mishap
from greenroom.ledger.facts import Packet
from greenroom.season.state import Season

HEAD = "greenroom report"
ABOUT = "It holds no names, places, paths or marks; read it before you send it to anyone."


def report_text(mishaps: Sequence[Mishap], season: Season | None, crashed: Sequence[str] = ()) -> str:
    """Return the report as plain text."""
    parts = [HEAD, ABOUT, "", *_versions(), *_counts(season)]
    for mishap in mishaps:
        parts += ["", f"{mishap.count} ×", *mishap.lines]
    if crashed:
        parts += ["", "Ended at once, the last time it ran:", *crashed]
    return "\n".join(parts) + "\n"


def _versions() -> tuple[str, ...]:
    qt = QLibraryInfo.version().toString()
    return (
        f"greenroom {__version__}, Python {platform.python_version()}, Qt {qt}",
        f"{platform.system()} {platform.release()}, {platform.machine()}",
    )


def _counts(season: Season | None) -> tuple[str, ...]:
    if season is None:
        return ()
    used, away = len(season.holders()), len(season.holders(put_away=True))
    return (f"{used} holders in use, {away} put away, {len(season.facts(Packet))} packets",)
