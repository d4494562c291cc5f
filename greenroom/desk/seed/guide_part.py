"""What the guide knows of the chosen packet's crop, each fact with its source."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, column, label
from greenroom.desk.seed.guide_words import GuideFact, guide_facts, guide_notes
from greenroom.desk.tabs import Part
from greenroom.guide import Crop
from greenroom.season.crops import crop_of, crop_words
from greenroom.season.packets import packet_view
from greenroom.season.why import Why
from greenroom.speech import tr

UNKNOWN = tr("The guide has nothing on this crop. Choose a crop of the guide on the packet's own fields.")
MARKS = tr(
    "Read: in the source. Worked out: from what was read. From memory: not looked up. Press one to see more."
)
SHORT = 15
"""Characters of a figure that go beside its name."""


class GuidePart(Part):
    """Facts of one crop; made anew only when the crop, or the unit they are told in, is another."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self.key: str | None = None
        self._shown: tuple[str | None, str] | None = None
        self.title = label("", "strong", wrap=True)
        self.marks = label(MARKS, "quiet", wrap=True)
        self.sheet = QWidget()
        self._layout = column(self.title, self.marks, self.sheet, gap=GAP)
        self._layout.addStretch(1)
        self.setLayout(self._layout)

    def show_packet(self, key: str | None) -> None:
        """Take up another packet."""
        self.key = key

    def refresh(self) -> None:
        keeper = self._bench.keeper
        view = packet_view(keeper.season, self.key) if self.key else None
        if view is None:
            return
        shown = (view.crop, keeper.place.temperature)
        if shown == self._shown:
            return
        self._shown = shown
        crop = crop_of(keeper.season.guide, view.crop)
        self.title.setText(
            tr("From the guide: {crop}", crop=crop_words(keeper.season.guide, view.crop)) if crop else UNKNOWN
        )
        self.marks.setVisible(crop is not None)
        self._put(self._facts_of(crop) if crop else QWidget())

    def _put(self, sheet: QWidget) -> None:
        self._layout.replaceWidget(self.sheet, sheet)
        self.sheet.hide()
        self.sheet.deleteLater()
        self.sheet = sheet

    def _facts_of(self, crop: Crop) -> QWidget:
        sheet = QWidget()
        grid = QGridLayout(sheet)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(GAP - 2)
        grid.setVerticalSpacing(0)
        grid.setColumnStretch(1, 1)
        place = 0
        unit = self._bench.keeper.place.temperature
        for title, facts in guide_facts(self._bench.guide, crop, unit):
            head = label(title, "strong")
            head.setContentsMargins(0, GAP if place else 0, 0, 2)
            grid.addWidget(head, place, 0, 1, 3)
            place += 1
            for fact in facts:
                place = self._add(grid, place, fact)
        for words, source in guide_notes(crop):
            grid.addWidget(_note(words, source), place, 0, 1, 3)
            place += 1
        return sheet

    def _add(self, grid: QGridLayout, place: int, fact: GuideFact) -> int:
        """Add a fact, a long one on a line of its own; return the next free row."""
        link = WhyLink(self._bench, _giving(fact.why), fact.status)
        link.setAccessibleName(
            tr(
                "{what}, {figure}: {status}; where it comes from",
                what=fact.name,
                figure=fact.figure,
                status=fact.status,
            )
        )
        grid.addWidget(label(fact.name, "quiet"), place, 0)
        grid.addWidget(link, place, 2, Qt.AlignmentFlag.AlignRight)
        if len(fact.figure) <= SHORT:
            grid.addWidget(label(fact.figure), place, 1)
            return place + 1
        grid.addWidget(label(fact.figure, wrap=True), place + 1, 0, 1, 3)
        return place + 2


def _giving(why: Why) -> Callable[[], Why]:
    return lambda: why


def _note(words: str, source: str) -> QWidget:
    made = QWidget()
    layout = column(label(words, wrap=True), label(source, "quiet", wrap=True), gap=0)
    layout.setContentsMargins(0, GAP, 0, 0)
    made.setLayout(layout)
    return made
