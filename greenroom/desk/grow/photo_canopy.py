"""The card of leaf cover by day; its chart is made when there is a first reading to draw."""

from __future__ import annotations

from typing import TYPE_CHECKING

from greenroom.desk.bench import Bench
from greenroom.desk.parts import Card, WhyLink, label
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.canopy import CanopyDay, canopy_days, cover_words
from greenroom.season.canopy_why import canopy_why
from greenroom.season.hardening_words import day_words
from greenroom.season.why import Why
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.grow.photo_chart import CanopyChart

NONE_YET = tr("Nothing was read of this tray yet. Each photo adds a day here: the leaf cover of every cell.")


class CanopyCard(Card):
    """Title, newest figure, chart."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Leaf cover by day"))
        self._bench = bench
        self._holder: str | None = None
        self.days: tuple[CanopyDay, ...] = ()
        self.chart: CanopyChart | None = None
        self.setObjectName("canopy")
        self.figure = label("", "good")
        self.why = WhyLink(bench, self._why)
        table = TableButton(bench, lambda one: sources.canopy(one, self._holder), lambda: self.chart)
        self.head.insertWidget(1, self.figure)
        self.head.addWidget(self.why)
        self.head.addWidget(table)
        self.empty = label(NONE_YET, "quiet", wrap=True)
        self.body.addWidget(self.empty)
        self.body.addStretch(0)

    def show_holder(self, holder: str) -> None:
        """Draw the leaf cover of a tray as it was read."""
        self._holder = holder
        self.days = canopy_days(self._bench.keeper.season, holder)
        drawn = bool(self.days)
        self.empty.setVisible(not drawn)
        self.figure.setVisible(drawn)
        self.why.setVisible(drawn)
        self.aside.setText(tr("thin: each cell · thick: median of those with leaf") if drawn else "")
        if self.chart is not None:
            self.chart.setVisible(drawn)
        if not drawn:
            self.setAccessibleName("")
            return
        last = self.days[-1]
        self.figure.setText(tr("{cover} on {day}", cover=cover_words(last.middle), day=day_words(last.day)))
        self.setAccessibleName(tr("leaf cover by day, {cover}", cover=self.figure.text()))
        self._made().show_days(self.days)

    def _made(self) -> CanopyChart:
        if self.chart is None:
            from greenroom.desk.grow.photo_chart import CanopyChart

            self.chart = CanopyChart(self._bench.look)
            self.body.addWidget(self.chart, 1)
        return self.chart

    def _why(self) -> Why | None:
        return canopy_why(self.days) if self.days else None
