"""The sheet of one pest: where to look, what is seen, the count, and what to do first."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QSpinBox

from greenroom.desk.bench import Bench
from greenroom.desk.care.look_over_sheet import Sheet, SprayHint, headed, sources_label, sources_text
from greenroom.desk.care.part import Day
from greenroom.desk.parts import WhyLink, button, label, restyle, row
from greenroom.guide.troubles import Pest, Troubles
from greenroom.season.spots import SpotKey
from greenroom.season.troubles_found import threshold_why
from greenroom.speech import tr

NOT_COUNTED = tr("not counted")


class PestSheet(Sheet):
    """Notes a finding with its count."""

    def __init__(
        self, bench: Bench, day: Day, spot: Callable[[], SpotKey | None], troubles: Troubles
    ) -> None:
        super().__init__(bench, day, spot)
        self._pest: Pest | None = None
        self.look = label("", wrap=True)
        self.count = QSpinBox()
        self.count.setRange(0, 100_000)
        self.count.setSpecialValueText(NOT_COUNTED)
        self.count.setObjectName("pest-count")
        self.count.setFixedWidth(132)
        self.count.valueChanged.connect(lambda _number: self._weigh())
        self.counted = label("", "quiet", wrap=True)
        self.found = button(tr("&Found it"), self._find, "primary", name="pest-found")
        self.threshold = label("", wrap=True)
        self.threshold_why = WhyLink(bench, lambda: threshold_why(self._pest) if self._pest else None)
        self.now = label("", wrap=True)
        self.later = label("", wrap=True)
        self.sources = sources_label()
        self.body.addWidget(self.counted)
        self.body.addLayout(headed(tr("Where to look"), self.look))
        self.noting.insertWidget(0, self.count)
        self.noting.addWidget(self.found)
        matters = row(gap=4)
        matters.addWidget(self.threshold, 1)
        matters.addWidget(self.threshold_why)
        self.body.addLayout(matters)
        self.body.addLayout(headed(tr("What to do first"), self.now))
        self.body.addLayout(headed(tr("Next time"), self.later))
        self.body.addWidget(self.sources)
        self.body.addWidget(SprayHint(bench, troubles))
        self.body.addStretch(1)

    def show_pest(self, holder: str, pest: Pest) -> None:
        """Show a pest; its count and place are kept while it stays the same."""
        if (holder, pest) != (self.holder, self._pest):
            self.count.setValue(0)
            self.where.clear()
        self.holder, self._pest = holder, pest
        self.drawing.show_picture(pest.picture, pest.name)
        self.name.setText(pest.name)
        self.seen.setText(self.text(pest.seen))
        self.look.setText(self.text(pest.look))
        counted = pest.count or tr("how many")
        self.counted.setText(tr("Count: {counted}.", counted=counted))
        self.counted.setVisible(pest.count is not None)
        self.count.setAccessibleName(tr("{name}: {what}", name=pest.name, what=counted))
        self.found.setAccessibleName(tr("Found: {name}", name=pest.name))
        known = pest.threshold is not None
        self.threshold.setVisible(known)
        self.threshold_why.setVisible(known)
        self._weigh()
        self.now.setText("\n".join(f"{place}. {self.text(one)}" for place, one in enumerate(pest.now, 1)))
        self.later.setText(self.text(pest.later))
        self.sources.setText(sources_text(pest.citations))

    def _weigh(self) -> None:
        """Show the published count, and whether what was counted reaches it."""
        known = self._pest.threshold if self._pest is not None else None
        if known is None:
            return
        reached = self.count.value() >= known.at
        words = known.words
        told = tr("Reached: {words}", words=words) if reached else tr("Published count: {words}", words=words)
        self.threshold.setText(told)
        restyle(self.threshold, "role", "alert" if reached else "")

    def _find(self) -> None:
        pest = self._pest
        if pest is None:
            return
        self.count.interpretText()
        if self.bench.keeper.do(lambda: self.note(pest.key, self.count.value() or None)):
            self.count.setValue(0)
            self.where.clear()
