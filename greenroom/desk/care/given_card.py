"""The card of the nitrogen given; the chart itself is made when there is a first feed to draw."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from greenroom.desk.bench import Bench
from greenroom.desk.parts import Card, WhyLink, label
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.feeding import given
from greenroom.season.feeding_why import plants_words, record_why
from greenroom.season.holders import Holder
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.care.charts import NitrogenChart

EMPTY = tr("No feed told yet. Each one you tell adds to the nitrogen its plants were given.")


class GivenCard(Card):
    """Nitrogen given up to each day [mg]."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Nitrogen given"))
        self.aside.setText(tr("mg, added up"))
        self._bench = bench
        self._answer: Why | None = None
        self.chart: NitrogenChart | None = None
        self.why = WhyLink(bench, lambda: self._answer)
        self.why.setAccessibleName(tr("why this sum"))
        self.head.addWidget(self.why)
        self.head.addWidget(TableButton(bench, sources.feeds, lambda: self.chart))
        self.figure = label("", "good", wrap=True)
        self.figure.setObjectName("nitrogen-given")
        self.empty = label(EMPTY, "quiet", wrap=True)
        self.body.addWidget(self.figure)
        self.body.addWidget(self.empty)

    def show_holder(self, season: Season, made: Holder, today: date) -> None:
        """Draw what a holder was given."""
        told = given(season, made.key)
        plants = season.counts(made.key).living
        self._answer = record_why(made, told, plants) if told else None
        for part in (self.figure, self.why):
            part.setVisible(bool(told))
        self.empty.setVisible(not told)
        if self.chart is not None:
            self.chart.setVisible(bool(told))
        if told:
            self.figure.setText(plants_words(told[-1].sum_g, plants))
            self.setAccessibleName(
                tr("Nitrogen given to {name}: {given}", name=made.name, given=self.figure.text())
            )
            chart = self._made()
            chart.show_given(told, today)
            chart.setAccessibleName(tr("Nitrogen given, day by day"))
            chart.setAccessibleDescription(self.accessibleName())

    def _made(self) -> NitrogenChart:
        if self.chart is None:
            from greenroom.desk.care.charts import NitrogenChart

            self.chart = NitrogenChart(self._bench.look)
            self.body.addWidget(self.chart)
        return self.chart
