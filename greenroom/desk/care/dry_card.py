"""The card of the drying curve; the chart itself is made when there is a first curve to draw."""

from __future__ import annotations

from datetime import date, datetime
from typing import TYPE_CHECKING

from greenroom.desk.bench import Bench
from greenroom.desk.parts import Card, label
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.holders import Holder
from greenroom.season.state import Season
from greenroom.season.watering_curve import WaterCurve, water_curve
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.care.charts import DryChart

EMPTY = tr(
    "Weigh it soaked and drained, weigh it when the plants begin to look dull, and as it "
    "is in between: the curve then tells how it dries and when half of its water is gone."
)
OUTDOORS = tr(
    "In a bed or in pots outdoors the curve follows the weather of the place: it begins "
    "with the first watering you tell."
)
BY_WEIGHT = tr("line: by weight · dots: weighings · dotted: water below this · dashed: now")
BY_AIR = tr("line: by the weather · dotted: water below this · dashed: today")


class DryCard(Card):
    """Share of the water still held, day by day."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Water held"))
        self._bench = bench
        self.curve: WaterCurve | None = None
        self.chart: DryChart | None = None
        self.legend = label("", "quiet", wrap=True)
        self.empty = label(EMPTY, "quiet", wrap=True)
        self.head.addWidget(TableButton(bench, sources.weighings, lambda: self.chart))
        self.body.addWidget(self.legend)
        self.body.addWidget(self.empty)

    def show_holder(self, season: Season, made: Holder, today: date, now: datetime) -> None:
        """Draw the curve of a holder as it stands."""
        self.curve = water_curve(season, made, today, now)
        drawn = self.curve is not None
        self.empty.setText(OUTDOORS if made.form == "bed" else EMPTY)
        self.empty.setVisible(not drawn)
        self.legend.setVisible(drawn)
        if self.chart is not None:
            self.chart.setVisible(drawn)
        if self.curve is not None:
            self.legend.setText(BY_WEIGHT if self.curve.weighed else BY_AIR)
            chart = self._made()
            chart.show_curve(self.curve)
            self.setAccessibleName(
                tr(
                    "Water held by {name}. {held}",
                    name=made.name,
                    held=self.curve.words_at(self.curve.today),
                )
            )
            chart.setAccessibleName(tr("How it dries, day by day"))
            chart.setAccessibleDescription(self.accessibleName())

    def _made(self) -> DryChart:
        if self.chart is None:
            from greenroom.desk.care.charts import DryChart

            self.chart = DryChart(self._bench.look)
            self.body.addWidget(self.chart, 1)
        return self.chart
