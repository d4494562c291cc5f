"""What the print desk may be gone to for; known to the pages without loading what makes it."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.speech import tr

TAGS, LABELS, MAP, CARD, ROUND, WEEK, PLOT, REPORT = (
    "tags",
    "labels",
    "map",
    "card",
    "round",
    "week",
    "plot",
    "report",
)
KINDS = {
    TAGS: tr("Plant tags"),
    LABELS: tr("Tray labels"),
    MAP: tr("Sowing map"),
    CARD: tr("Hardening card"),
    ROUND: tr("The round"),
    WEEK: tr("The week"),
    PLOT: tr("Plan of the plot"),
    REPORT: tr("Season report"),
}


@dataclass(frozen=True, slots=True)
class Errand:
    """What the print desk is gone to for: what, of which holder, and the page to go back to."""

    kind: str
    holder: str | None = None
    back: str = ""
