"""The card under the open tray: how it came up, day by day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QSizePolicy

from greenroom.desk.bench import Bench
from greenroom.desk.elided import Elided
from greenroom.desk.grow.holder_head import mix_words
from greenroom.desk.look import SMALL_PX
from greenroom.desk.nothing_yet import WORKING_OUT
from greenroom.desk.parts import Card, WhyLink, label
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.curve_why import curve_why
from greenroom.season.sprouting import SproutCurve, sprout_curve
from greenroom.season.temperatures import said_at
from greenroom.season.why import Why
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.grow.sprout_chart import SproutChart


class ChartCard(Card):
    """Title, figures and legend; the chart itself is made when there is a first curve to draw."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Up by day"))
        self._bench = bench
        self._holder: str | None = None
        self.curve: SproutCurve | None = None
        self.chart: SproutChart | None = None
        self.setObjectName("sprouting")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.aside.hide()
        self.figures = label("", "good")
        self.legend = Elided(bench.look, pixels=SMALL_PX, lines=2)
        self.why = WhyLink(bench, self._why)
        numbers = TableButton(bench, lambda one: sources.sprouting(one, self._holder), lambda: self.chart)
        for widget, stretch in ((self.figures, 0), (self.legend, 1), (self.why, 0), (numbers, 0)):
            self.head.addWidget(widget, stretch)
        self.why.hide()
        self.empty = label(WORKING_OUT, "quiet", wrap=True)
        self.body.addWidget(self.empty)
        self.body.addStretch(0)

    def show_holder(self, holder: str | None) -> None:
        """Draw the curve of a holder as it stands."""
        keeper = self._bench.keeper
        self._holder = holder
        self.curve = sprout_curve(keeper.season, holder, keeper.today) if holder is not None else None
        drawn = self.curve is not None
        self.empty.setVisible(not drawn)
        self.figures.setVisible(drawn)
        self.legend.setVisible(drawn)
        self.why.setVisible(drawn)
        if self.chart is not None:
            self.chart.setVisible(drawn)
        if self.curve is None or holder is None:
            self.empty.setText(self._empty_words(holder))
            return
        self._show_words(holder, self.curve)
        chart = self._made()
        chart.show_curve(self.curve)
        chart.setAccessibleName(self.accessibleName())
        chart.setAccessibleDescription(chart.words_at(self.curve.last_day))

    def _show_words(self, holder: str, curve: SproutCurve) -> None:
        self.figures.setText(figures(curve))
        made = self._bench.keeper.season.holder(holder)
        if made.mix_c is None:
            words = tr("give the temperature of the mix (Edit) to see what to expect")
        elif curve.early is None:
            words = tr("no days to emerge are known for these crops in such a mix")
        else:
            unit = self._bench.keeper.place.temperature
            words = tr("band: expected at {mix}", mix=mix_words(made.mix_c, unit))
            if curve.last_day <= curve.axis[-1]:
                words += tr(" · dashed: today")
        self.legend.show_text(words)
        self.setAccessibleName(tr("{name}, up by day: {figures}", name=made.name, figures=figures(curve)))

    def _empty_words(self, holder: str | None) -> str:
        if holder is None:
            return tr("Open a tray to see how it comes up.")
        name = self._bench.keeper.season.holder(holder).name
        return tr("Nothing was sown in {name}; the curve begins with its first sowing.", name=name)

    def _made(self) -> SproutChart:
        if self.chart is None:
            from greenroom.desk.grow.sprout_chart import SproutChart

            self.chart = SproutChart(self._bench.look)
            self.body.addWidget(self.chart, 1)
        return self.chart

    def _why(self) -> Why | None:
        if self.curve is None or self._holder is None:
            return None
        keeper = self._bench.keeper
        return curve_why(keeper.season, self._holder, self.curve, said_at(keeper.place))


def figures(curve: SproutCurve) -> str:
    """Return "66 of 72 up · 92 %"."""
    return tr("{up} of {sown} up · {share:.0f} %", up=curve.count, sown=curve.seeds, share=curve.share * 100)
