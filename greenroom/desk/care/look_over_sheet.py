"""What the sheets of the look-over share: the holder or plant, the day, and noting what is found."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.care.look_over_drawing import Drawing
from greenroom.desk.care.part import Day
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, column, label, row
from greenroom.guide.troubles import Troubles, cited
from greenroom.season.deeds_care import find
from greenroom.season.proposal import Proposal
from greenroom.season.spots import SpotKey
from greenroom.season.troubles_why import in_unit
from greenroom.season.why import Why
from greenroom.speech import tr

WHERE_HINT = tr("where on it, if you like")


class Sheet(QWidget):
    """One pest or sign on the right of the list: its drawing, its name, what is seen."""

    def __init__(self, bench: Bench, day: Day, spot: Callable[[], SpotKey | None]) -> None:
        super().__init__()
        self.bench = bench
        self.day = day
        self.spot = spot
        self.holder = ""
        self.drawing = Drawing(bench.look)
        self.name = label("", "title", wrap=True)
        self.seen = label("", wrap=True)
        self.where = QLineEdit()
        self.where.setPlaceholderText(WHERE_HINT)
        self.where.setAccessibleName(tr("where on the plant"))
        self.where.setMaxLength(80)
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(GAP, 0, GAP, GAP)
        self.body.setSpacing(GAP)
        self.noting = row(self.where)
        beside = column(self.name, self.seen, None, gap=GAP // 2)
        beside.addLayout(self.noting)
        head = row(gap=2 * GAP)
        head.addWidget(self.drawing, 0, Qt.AlignmentFlag.AlignTop)
        head.addLayout(beside, 1)
        self.body.addLayout(head)

    def text(self, text: str) -> str:
        """Return a text of the guide in the grower's unit."""
        return in_unit(text, self.bench.keeper.place)

    def note(self, key: str, count: int | None = None) -> Proposal:
        """Return the finding of a pest or a sign, as it stands on the sheet."""
        season = self.bench.keeper.season
        return find(
            season, self.holder, self.day(), key, spot=self.spot(), count=count, where=self.where.text()
        )


class SprayHint(QFrame):
    """The rule for sprays, and what to do in doubt."""

    def __init__(self, bench: Bench, troubles: Troubles) -> None:
        super().__init__()
        self.setProperty("role", "hint")
        told = tuple(cited(source) for source in troubles.spray_sources)
        why = Why(tr("Sprays come last"), troubles.spray, (), told)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(GAP + 2, GAP - 2, GAP + 2, GAP - 2)
        layout.addWidget(label(f"{troubles.spray} {troubles.doubt}", wrap=True), 1)
        layout.addWidget(WhyLink(bench, lambda: why))


def headed(heading: str, text: QLabel) -> QVBoxLayout:
    """Return a text below its heading."""
    return column(label(heading, "strong"), text, gap=2)


def sources_label() -> QLabel:
    """Return where the sources of a pest or a cause are told."""
    made = label("", "quiet", wrap=True)
    made.setObjectName("sources")
    return made


def sources_text(citations: tuple[str, ...]) -> str:
    """Return citations in one text."""
    sources = [one for one in citations if not one.endswith(".")]
    rest = [one for one in citations if one.endswith(".")]
    return " ".join([tr("Sources: {sources}.", sources="; ".join(sources)), *rest] if sources else rest)
