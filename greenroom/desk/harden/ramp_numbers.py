"""The ramp's numbers of a crop: changed with the effect on each tray told at once, and kept as one act."""

from __future__ import annotations

from PySide6.QtCore import QSize, QTimer, Signal
from PySide6.QtGui import QIcon, QPixmap
from PySide6.QtWidgets import QCheckBox, QComboBox, QListWidget, QListWidgetItem, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.harden.inline_panel import InlinePanel, form, left
from greenroom.desk.harden.measured_field import (
    MeasuredField,
    Unit,
    gust_unit,
    rain_unit,
    warmth_unit,
)
from greenroom.desk.harden.ramp_curve import GROUNDS, RampCurve, minutes_words
from greenroom.desk.parts import button, label, row
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.ramp_choice import (
    Numbers,
    choose_ramp,
    crops_on_hand,
    effect_words,
    guides_ramp,
    ramp_effects,
    rules_if,
    set_for,
)
from greenroom.season.ramp_rules import rules_of, rules_why
from greenroom.season.schedules import SCHEDULES, Schedule
from greenroom.speech import many, tr

AFTER_TYPING_MS = 30
LIST_PX, LINE_PX, FORM_PX, FIELD_PX = 252, 24, 250, 118
SWATCH_PX = 12
NONE_BEGUN = tr("No tray of this crop is being hardened; the next to begin has these numbers.")
AS_IT_IS = tr("These are the numbers in force; change one to see what it would do.")
MIN = Unit("min")


class RampPanel(InlinePanel):
    """One crop at a time. Nothing is written before Keep."""

    kept = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench, tr("&Keep these numbers"), self._proposal)
        self._bench = bench
        self.heading.setText(tr("The ramp's numbers"))
        self.crop = QComboBox()
        self.crop.setObjectName("ramp-crop")
        self.crop.setAccessibleName(tr("Crop"))
        self.first = MeasuredField("ramp-first", tr("First outing, minutes of sun"), self._changed)
        self.last = MeasuredField("ramp-last", tr("Last outing, minutes of sun"), self._changed)
        self.outings = MeasuredField("ramp-outings", tr("How many outings"), self._changed)
        self.cold = MeasuredField("ramp-cold", tr("Kept in on days that stay below"), self._changed)
        self.gust = MeasuredField("ramp-gust", tr("Kept in from gusts of"), self._changed)
        self.rain = MeasuredField("ramp-rain", tr("Kept in from rain of"), self._changed)
        self.begun = QCheckBox(tr("&Also for the trays that have begun"))
        self.begun.setObjectName("ramp-begun")
        self.begun.setChecked(True)
        self.guides = button(tr("&Guide's numbers"), self._take_guides, name="ramp-guides")
        self.curve = RampCurve(bench.look)
        self.lines = label("", wrap=True)
        self.lines.setObjectName("ramp-lines")
        self.published = _published()
        self.note = label("", "quiet", wrap=True)
        self.note.hide()
        self._show_colours()
        self.cancel.setText(tr("C&lose"))
        self._timer = QTimer(self, singleShot=True, interval=AFTER_TYPING_MS)
        self._timer.timeout.connect(self.refresh)
        self._assemble()
        self._connect()

    @property
    def fields(self) -> tuple[MeasuredField, ...]:
        """The numbers, in order."""
        return self.first, self.last, self.outings, self.cold, self.gust, self.rain

    def open(self, holder: str = "") -> None:
        """Offer what grows here, and show the numbers of what stands in a holder."""
        season = self._bench.keeper.season
        self.crop.blockSignals(True)
        self.crop.clear()
        for key in crops_on_hand(season, holder):
            self.crop.addItem(season.guide.entries[key].name, key)
        self.crop.setCurrentIndex(0)
        self.crop.blockSignals(False)
        self.show_numbers()
        self.crop.setFocus()

    def show_numbers(self) -> None:
        """Show the numbers in force for the crop."""
        keeper = self._bench.keeper
        told = Numbers.of(rules_of(keeper.season, self.crop.currentData()))
        place = keeper.place
        units = MIN, MIN, Unit(""), warmth_unit(place), gust_unit(place), rain_unit(place)
        values = (
            told.start_minutes,
            told.full_minutes,
            float(told.outings),
            told.cold_c,
            told.gust_ms,
            told.rain_mm,
        )
        for field, value, unit in zip(self.fields, values, units, strict=True):
            field.show_number(value, unit)
        self.refresh()

    def refresh(self) -> None:
        """Say what keeping the numbers would do to each tray, or why they cannot be."""
        keeper, crop = self._bench.keeper, self.crop.currentData()
        if crop is None:
            return
        self.guides.setEnabled(set_for(keeper.season, crop))
        try:
            proposal = self._proposal()
        except RefusedError as error:
            self.lines.setText("")
            self.foresee([str(error)], sound=False)
            return
        before, after = rules_of(keeper.season, crop), rules_if(keeper.season, crop, proposal)
        self.curve.show_ramps(before, after)
        effects = ramp_effects(keeper.season, crop, proposal, keeper.today, keeper.now)
        self.begun.setVisible(bool(effects))
        self.lines.setText("\n".join(effect_words(one) for one in effects) or NONE_BEGUN)
        self.lines.setAccessibleName(self.lines.text())
        moved = sum(one.ready[0] != one.ready[1] for one in effects)
        words = (
            tr("{dates} of {all} would change.", dates=many(moved, "ready date"), all=len(effects))
            if effects
            else NONE_BEGUN
        )
        why = rules_why(keeper.season, crop, keeper.place)
        self.foresee([AS_IT_IS if proposal.empty else words], sound=True, why=why)
        self.confirm.setEnabled(not proposal.empty)

    def stop(self) -> None:
        """Work nothing out until it is asked for again."""
        self._timer.stop()

    def _assemble(self) -> None:
        fields = form()
        for words, field in (
            (tr("First outin&g"), self.first),
            (tr("Last outing"), self.last),
            (tr("Outings"), self.outings),
            (tr("Kept in below"), self.cold),
            (tr("from gusts of"), self.gust),
            (tr("from rain of"), self.rain),
        ):
            field.setFixedWidth(FIELD_PX)
            fields.addRow(words, left(field))
        side = QWidget()
        side.setLayout(fields)
        side.setFixedWidth(FORM_PX)
        self.heading.hide()
        self.numbers = TableButton(
            self._bench, lambda one: sources.ramp(one, self.curve.rules), lambda: self.curve
        )
        head = row(label(tr("The ramp of"), "title"), self.crop, None, self.numbers, self.guides)
        self.body.addLayout(head)
        both = row(side, self.curve, gap=16)
        both.setStretch(1, 1)
        self.body.addLayout(both)
        self.body.addWidget(self.begun)
        self.body.addWidget(self.lines)
        self.after.addWidget(label(tr("Published schedules: choose one to see it above"), "quiet", wrap=True))
        self.after.addWidget(self.note)
        self.after.addWidget(self.published)

    def _connect(self) -> None:
        self._bench.look.changed.connect(self._show_colours)
        self.crop.currentIndexChanged.connect(lambda _: self.show_numbers())
        self.begun.toggled.connect(lambda _: self.refresh())
        self.published.currentRowChanged.connect(self._mark)

    def _show_colours(self) -> None:
        """Let each schedule show the colour of its band."""
        for place, schedule in enumerate(SCHEDULES):
            ratio = self.devicePixelRatioF()
            swatch = QPixmap(QSize(SWATCH_PX, SWATCH_PX) * ratio)
            swatch.setDevicePixelRatio(ratio)
            swatch.fill(self._bench.look.colour(GROUNDS[schedule.light][0]))
            self.published.item(place).setIcon(QIcon(swatch))

    def _mark(self, place: int) -> None:
        """Let a schedule stand out, and tell what else it says."""
        schedule = SCHEDULES[place] if place >= 0 else None
        self.curve.mark(schedule)
        self.note.setText(
            "" if schedule is None else tr("{name}: {what}", name=schedule.source, what=schedule.note)
        )
        self.note.setVisible(schedule is not None and bool(schedule.note))

    def _changed(self) -> None:
        self._timer.start()

    def did(self) -> None:
        """Stay open: the next crop may follow."""
        self.show_numbers()
        self.kept.emit()

    def _proposal(self) -> Proposal:
        keeper = self._bench.keeper
        start, full, outings, cold, gust, rain = (field.number for field in self.fields)
        numbers = Numbers(start, full, round(outings), cold, gust, rain)
        crop, begun = self.crop.currentData(), self.begun.isChecked()
        return choose_ramp(keeper.season, crop, numbers, keeper.today, keeper.now, begun=begun)

    def _take_guides(self) -> None:
        keeper, crop = self._bench.keeper, self.crop.currentData()
        begun = self.begun.isChecked()
        keeper.do(lambda: guides_ramp(keeper.season, crop, keeper.today, keeper.now, begun=begun))
        self.show_numbers()


def _published() -> QListWidget:
    made = QListWidget()
    made.setObjectName("ramp-published")
    made.setAccessibleName(tr("Published schedules"))
    made.setFixedHeight(LIST_PX)
    made.setWordWrap(False)
    for schedule in SCHEDULES:
        item = QListWidgetItem(schedule_words(schedule), made)
        item.setToolTip(schedule.note)
        item.setSizeHint(QSize(0, LINE_PX))
    return made


def schedule_words(schedule: Schedule) -> str:
    """Return a schedule in a line: whose it is, what it counts, how it begins, and how it was read."""
    low, high = schedule.days
    days = tr("{n} days", n=low) if low == high else tr("{low} to {high} days", low=low, high=high)
    first = (
        tr("no times told")
        if schedule.first is None
        else tr("from {minutes}", minutes=minutes_words(*schedule.first))
    )
    step = (
        "" if schedule.step is None else tr(", {minutes} more a day", minutes=minutes_words(*schedule.step))
    )
    told = f"{schedule.light}, {first}{step}, {days} ({schedule.seen})"
    return tr("{name}: {what}", name=schedule.source, what=told)
