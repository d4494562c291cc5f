"""Beginning a germination test: how many seeds, on which day, how warm; and how it is done."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDateEdit, QDoubleSpinBox, QGridLayout, QSpinBox, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.days import day_in, qt_day
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, button, label, row
from greenroom.desk.seed.how_to_test import how_to_why, how_to_words
from greenroom.season.crops import crop_of
from greenroom.season.deeds_tests import COLDEST_C, WARMEST_C, begin_test
from greenroom.season.home_tests import home_tests_of
from greenroom.season.packets import PacketView, packet_view
from greenroom.season.temperatures import from_celsius, said_at, to_celsius, unit_sign
from greenroom.season.why import Why
from greenroom.speech import tr

FEWEST, USUAL, MOST = 10, 20, 100
NOT_KNOWN = tr("not known")
TOO_FEW = tr("A test takes {fewest} seeds at least; the packet holds fewer.", fewest=FEWEST)


class BeginTest(QWidget):
    """Fields and a button; ``begun`` carries the key of the new test."""

    begun = Signal(str)

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._key: str | None = None
        self._unit = "c"
        self.title = label("", "strong")
        self.seeds = QSpinBox()
        self.seeds.setRange(FEWEST, MOST)
        self.on = QDateEdit()
        self.on.setCalendarPopup(True)
        self.on.setDisplayFormat(tr("d MMM yyyy", sense="form of a date"))
        self.warmth = QDoubleSpinBox()
        self.warmth.setDecimals(0)
        self.warmth.setSpecialValueText(NOT_KNOWN)
        self.begin = button(tr("Begin the test"), self._begin, "primary", name="begin-test")
        self.too_few = label(TOO_FEW, "quiet", wrap=True)
        self.how_title = label(tr("How it is done"), "strong")
        self.how = label("", wrap=True)
        self.how_why = WhyLink(bench, self._why, tr("where this comes from"))
        self.how_why.setAccessibleName(tr("where the way of testing comes from"))
        self.how_title.setContentsMargins(0, GAP, 0, 0)
        self._lay_out()

    def show_packet(self, key: str | None) -> None:
        """Start anew for a packet."""
        self._key = key
        self._set_fields()
        self.seeds.setValue(min(USUAL, self.seeds.maximum()))
        self.warmth.setValue(self.warmth.minimum())

    def refresh(self) -> None:
        """Follow what is left in the packet and the unit the grower reads."""
        view = self._view()
        if view is None:
            return
        if self._unit != self._bench.keeper.place.temperature:
            self._set_fields()
        self._set_seeds(view)
        season = self._bench.keeper.season
        again = bool(home_tests_of(season, view.key))
        self.title.setText(tr("Another test") if again else tr("A test at home"))
        self.how.setText(how_to_words(season, view, said_at(self._bench.keeper.place)))

    def _begin(self) -> None:
        keeper, key = self._bench.keeper, self._key
        if key is None:
            return
        season, before = keeper.season, {test.key for test in home_tests_of(keeper.season, key)}
        seeds, day = self.seeds.value(), day_in(self.on)
        if keeper.do(lambda: begin_test(season, key, seeds, day, self._warmth_c())):
            self.begun.emit(next(one.key for one in home_tests_of(season, key) if one.key not in before))

    def _warmth_c(self) -> float | None:
        value = self.warmth.value()
        return None if value <= self.warmth.minimum() else round(to_celsius(value, self._unit), 2)

    def _set_fields(self) -> None:
        """Set limits, and the signs of the unit read; the least value stands for "not known"."""
        keeper = self._bench.keeper
        self._unit = keeper.place.temperature
        self.on.setMaximumDate(qt_day(keeper.today))
        self.on.setDate(self.on.maximumDate())
        low, high = (from_celsius(end, self._unit) for end in (COLDEST_C, WARMEST_C))
        self.warmth.setRange(low - 1, high)
        self.warmth.setSuffix(f" {unit_sign(self._unit)}")

    def _set_seeds(self, view: PacketView) -> None:
        most = MOST if view.left is None else min(MOST, view.left)
        enough = most >= FEWEST
        self.seeds.setMaximum(max(most, FEWEST))
        for part in (self.seeds, self.on, self.warmth, self.begin):
            part.setEnabled(enough)
        self.too_few.setVisible(not enough)

    def _view(self) -> PacketView | None:
        return packet_view(self._bench.keeper.season, self._key) if self._key else None

    def _why(self) -> Why | None:
        view = self._view()
        if view is None:
            return None
        return how_to_why(crop_of(self._bench.guide, view.crop), said_at(self._bench.keeper.place))

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP - 2)
        grid.setColumnStretch(1, 1)
        grid.addWidget(self.title, 0, 0, 1, 2)
        fields = ((tr("Seeds"), self.seeds), (tr("Set on"), self.on), (tr("Warmth"), self.warmth))
        for place, (name, field) in enumerate(fields, start=1):
            words = label(name, "quiet")
            words.setBuddy(field)
            field.setAccessibleName(name)
            grid.addWidget(words, place, 0)
            grid.addWidget(field, place, 1)
        grid.addLayout(row(self.begin, None), 4, 0, 1, 2)
        grid.addWidget(self.too_few, 5, 0, 1, 2)
        grid.addWidget(self.how_title, 6, 0, 1, 2)
        grid.addWidget(self.how, 7, 0, 1, 2)
        grid.addLayout(row(self.how_why, None), 8, 0, 1, 2)
