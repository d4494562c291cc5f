"""One germination test: how it stands, its days, and the count of the day one is at."""

from __future__ import annotations

from datetime import date

from PySide6.QtWidgets import QFrame, QSpinBox, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, button, label, row, show_words
from greenroom.desk.seed.count_days import CountDays
from greenroom.guide import Crop
from greenroom.season.crops import crop_of
from greenroom.season.deeds_tests import clear_day, count_day, strike_test
from greenroom.season.hardening_words import day_words
from greenroom.season.home_test_why import home_test_why, law_words, state_words
from greenroom.season.home_tests import HomeTest
from greenroom.season.packets import packet_view
from greenroom.season.temperatures import temperature
from greenroom.season.weekdays import dated_words
from greenroom.season.why import Why
from greenroom.speech import many, tr

NARROW_PERCENT = "\N{NO-BREAK SPACE}%"


class HomeTestBlock(QFrame):
    """Every change is written at once; what is typed is written on Enter, or when the field is left."""

    def __init__(self, bench: Bench, test: HomeTest) -> None:
        super().__init__()
        self._bench = bench
        self._test = test
        self.head = label("", "strong", wrap=True)
        self.state = label("", wrap=True)
        self.law = label("", "quiet", wrap=True)
        self.why = WhyLink(bench, self._why)
        self.why.setAccessibleName(tr("why this range"))
        self.days = CountDays(bench.look)
        self.day = label("", "quiet")
        self.less = button("−", self._take_one, name="count-less")
        self.count = QSpinBox()
        self.more = button("+", self._add_one, name="count-more")
        self.none = button(tr("None that day"), self._write_none, name="count-none")
        self.clear = button(tr("Not looked at"), self._clear, "link", name="count-clear")
        self.toggle = button("", self._toggle, "link", name="test-days")
        self.strike = button(tr("Strike out"), self._strike, "link", name="test-strike")
        self._lay_out()
        self._connect()
        self.show_days(shown=True)

    @property
    def key(self) -> str:
        """The test's key."""
        return self._test.key

    def show_test(self, test: HomeTest) -> None:
        """Show the test as it stands."""
        self._test = test
        place = self._bench.keeper.place
        warm = "" if test.warmth_c is None else f", {temperature(test.warmth_c, place.temperature)}"
        begun = tr("{seeds} set on {date}", seeds=many(test.seeds, "seed"), date=dated_words(test.begun))
        self.head.setText(f"{begun}{warm}")
        self.state.setText(state_words(test, self._bench.keeper.today).replace(" %", NARROW_PERCENT))
        show_words(self.law, law_words(test, self._crop()) if test.over else "")
        self.why.setVisible(test.over)
        self.days.show_test(test, self._bench.keeper.today)
        self._show_day()

    def show_days(self, *, shown: bool) -> None:
        """Show or fold away the days and the count."""
        self._shown = shown
        for part in (self.days, self.day, self.less, self.count, self.more, self.none, self.clear):
            part.setVisible(shown)
        self.toggle.setText(tr("Hide the days") if shown else tr("Show the days"))
        if shown:
            self._show_day()

    def commit(self) -> None:
        """Write what is typed, if it differs."""
        if self._shown and self.count.value() != (self._counted() or 0):
            self._write(self.count.value())

    def _toggle(self) -> None:
        self.show_days(shown=not self._shown)

    def _counted(self) -> int | None:
        return self.days.count_on(self.days.day)

    def _write(self, count: int) -> None:
        keeper, key, day = self._bench.keeper, self.key, self.days.day
        if not keeper.do(lambda: count_day(keeper.season, key, day, count)):
            self._show_day()

    def _add_one(self) -> None:
        self._write((self._counted() or 0) + 1)

    def _take_one(self) -> None:
        if self._counted():
            self._write((self._counted() or 0) - 1)

    def _write_none(self) -> None:
        self._write(0)

    def _clear(self) -> None:
        keeper, key, day = self._bench.keeper, self.key, self.days.day
        keeper.do(lambda: clear_day(keeper.season, key, day))

    def _strike(self) -> None:
        keeper, key = self._bench.keeper, self.key
        keeper.do(lambda: strike_test(keeper.season, key))

    def _on_day(self, _day: date) -> None:
        self._show_day()

    def _show_day(self) -> None:
        count = self._counted()
        free = self._test.seeds - self._test.germinated
        self.count.blockSignals(True)
        self.count.setRange(0, free + (count or 0))
        self.count.setValue(count or 0)
        self.count.blockSignals(False)
        day = day_words(self.days.day)
        words = tr("Germinated on {day}", day=day)
        self.day.setText(words if count is not None else tr("Germinated on {day}, not looked at", day=day))
        self.count.setAccessibleName(words)
        self.less.setEnabled(bool(count))
        self.more.setEnabled(free > 0)
        self.none.setVisible(self._shown and count is None)
        self.clear.setVisible(self._shown and count is not None)

    def _why(self) -> Why:
        return home_test_why(self._test, self._crop())

    def _crop(self) -> Crop | None:
        season = self._bench.keeper.season
        view = packet_view(season, self._test.packet)
        return crop_of(season.guide, view.crop if view else None)

    def _connect(self) -> None:
        self.days.gone_to.connect(self._on_day)
        self.days.one_more.connect(self._add_one)
        self.days.one_less.connect(self._take_one)
        self.days.written.connect(self._write)
        self.days.cleared.connect(self._clear)
        self.count.editingFinished.connect(self.commit)

    def _lay_out(self) -> None:
        self.count.setButtonSymbols(QSpinBox.ButtonSymbols.NoButtons)
        self.count.setFixedWidth(56)
        for sign, words in ((self.less, tr("one less")), (self.more, tr("one more"))):
            sign.setFixedWidth(36)
            sign.setAccessibleName(words)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP - 2)
        layout.addWidget(self.head)
        state = row(self.state, self.why)
        state.setStretch(0, 1)
        layout.addLayout(state)
        layout.addWidget(self.law)
        layout.addWidget(self.days)
        layout.addWidget(self.day)
        layout.addLayout(row(self.less, self.count, self.more, self.none, self.clear, None))
        layout.addLayout(row(self.toggle, None, self.strike))
