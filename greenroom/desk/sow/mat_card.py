"""The mat: days to come up by the warmth of the mix, for the kinds on the plan."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QScrollArea, QSlider, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.nothing_yet import MOST, NothingYet
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.season.crops import crop_words
from greenroom.season.lights import MATS_C, emergence_table, emergence_why
from greenroom.speech import figure, tr

COLDEST_C, WARMEST_C, USUAL_C = 10, 38, 25
NONE_UP = tr("none known to")
NONE = tr("none", sense="comes up")
NO_PLAN = tr("No kind to tell of yet")
WHY_COLUMN = 6
COLUMNS_C = (15.0, 20.0, 25.0, 30.0)


class MatCard(Card):
    """A slider for the warmth, and a row a kind: days until half is up there, and at a few others."""

    plan_asked = Signal()

    def __init__(self, bench: Bench, desk: PlanDesk) -> None:
        super().__init__(tr("Days until half is up"))
        self._bench = bench
        self._desk = desk
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setRange(COLDEST_C, WARMEST_C)
        self.slider.setValue(USUAL_C)
        self.slider.setAccessibleName(tr("Temperature of the mix"))
        self.reads = label("", "strong")
        to_plan = button(tr("Go to the plan"), self.plan_asked.emit, name="mat-to-plan")
        self.none = NothingYet(NO_PLAN, tr("Put varieties on the plan to see theirs."), to_plan, inside=True)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(GAP - 2)
        self._grid.setVerticalSpacing(2)
        self._grid.setColumnStretch(0, 1)
        self.here: dict[str | None, QLabel] = {}
        inside = QWidget()
        inside.setObjectName("ground")
        inside.setLayout(self._grid)
        self._grid.setContentsMargins(0, 0, GAP, 0)
        area = QScrollArea()
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.setWidget(inside)
        line = row(label(tr("Mix at"), "quiet"), self.slider, self.reads)
        line.setStretch(1, 1)
        self.body.addLayout(line)
        self.body.addWidget(self.none, MOST)
        self.body.addWidget(area, 1)
        self.slider.valueChanged.connect(lambda _value: self._show_days())
        desk.changed.connect(self.refresh)

    @property
    def celsius(self) -> float:
        """The warmth that is looked at."""
        return float(self.slider.value())

    def days_words(self, crop: str | None) -> str:
        """Return the days of a kind at the warmth looked at."""
        days = emergence_table(self._bench.guide, [crop], [self.celsius])[crop][0]
        return NONE_UP if days is None else tr("{days:.0f} days", days=days)

    def refresh(self) -> None:
        """List the kinds of the plan."""
        if not self.isVisible():
            return
        while (item := self._grid.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.deleteLater()
        self.here.clear()
        crops = list(dict.fromkeys(one.needs.crop for one in self._desk.plan.rows))
        self.none.setVisible(not crops)
        say_c, guide = self._desk.say_c, self._bench.guide
        heads = (
            (tr("Kind"), tr("here", sense="at the warmth looked at"), *(say_c(one) for one in COLUMNS_C))
            if crops
            else ()
        )
        for column, words in enumerate(heads):
            self._grid.addWidget(label(words, "quiet"), 0, column)
        table = emergence_table(guide, crops, COLUMNS_C)
        for place, crop in enumerate(crops, start=1):
            self._grid.addWidget(label(crop_words(guide, crop), wrap=True), place, 0)
            self.here[crop] = label("", "strong")
            self._grid.addWidget(self.here[crop], place, 1)
            for column, days in enumerate(table[crop], start=2):
                self._grid.addWidget(label(NONE if days is None else figure(days, ".0f")), place, column)
            why = WhyLink(self._bench, partial(emergence_why, guide, crop, MATS_C, say_c))
            self._grid.addWidget(why, place, WHY_COLUMN)
        self._grid.setRowStretch(len(crops) + 1, 1)
        self._show_days()

    def _show_days(self) -> None:
        self.reads.setText(self._desk.say_c(self.celsius))
        for crop, field in self.here.items():
            field.setText(self.days_words(crop))
