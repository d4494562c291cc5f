"""What the print desk may be gone to for; known to the pages without loading what makes it."""

from __future__ import annotations

from dataclasses import dataclass

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
    TAGS: "Plant tags",
    LABELS: "Tray labels",
    MAP: "Sowing map",
    CARD: "Hardening card",
    ROUND: "The round",
    WEEK: "The week",
    PLOT: "Plan of the plot",
    REPORT: "Season report",
}


@dataclass(frozen=True, slots=True)
class Errand:
    """What the print desk is gone to for: what, of which holder, and the page to go back to."""

    kind: str
    holder: str | None = None
    back: str = ""
