"""Taking a new tray or rack into use."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QCompleter,
    QDoubleSpinBox,
    QGridLayout,
    QLineEdit,
    QRadioButton,
    QSizePolicy,
    QSpinBox,
    QWidget,
)

from greenroom.agronomy.containers import tray
from greenroom.desk.bench import Bench
from greenroom.desk.flow import Flow
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.desk.sow.tray_sizes import TraySizes
from greenroom.desk.sow.tray_words import POTS, mix_why, mix_words, pot_ml, pot_words, sold_words, trade_size
from greenroom.desk.units import FLUID_OUNCE_ML
from greenroom.ledger.facts import LARGEST_SIDE
from greenroom.season.deeds_shelf import make_holder, next_name
from greenroom.season.temperatures import from_celsius, to_celsius, unit_sign
from greenroom.season.why import Why
from greenroom.speech import many, tr

FORMS = {"tray": tr("Tray of cells"), "rack": tr("Rack of pots")}
USUAL_TRAY, USUAL_RACK = 72, (3, 6)
NOT_KNOWN = tr("not known")
COLDEST_C, WARMEST_C = 0.0, 45.0


class NewHolder(Card):
    """A form; ``made`` carries the key of the holder that was taken into use."""

    made = Signal(str)
    closed = Signal()

    def __init__(self, bench: Bench, day: Callable[[], date]) -> None:
        super().__init__(tr("New tray or rack"))
        self._bench = bench
        self._day = day
        self._unit, self._volume = "c", "ml"
        self.aside.hide()
        self.forms = QButtonGroup(self)
        self.sizes = TraySizes()
        self.rows, self.columns = _side("new-rows", tr("Rows")), _side("new-columns", tr("Columns"))
        self.cell = QDoubleSpinBox()
        self.pot = QLineEdit()
        self.name, self.place = QLineEdit(), QLineEdit()
        self.mix = QDoubleSpinBox()
        self.note = label("", "quiet", wrap=True)
        self.needs = label("", wrap=True)
        self.why = WhyLink(bench, self._mix_why)
        self.make = button(tr("Take into use"), self.take_into_use, "primary", name="make-holder")
        self.cancel = button(tr("Cancel"), self.closed.emit, name="cancel-holder")
        self._set_up_fields()
        self._lay_out()
        self._connect()
        self.begin()

    @property
    def form(self) -> str:
        """What is made: "tray" or "rack"."""
        return next(one.objectName() for one in self.forms.buttons() if one.isChecked())

    def begin(self) -> None:
        """Start anew with the usual tray."""
        place = self._bench.keeper.place
        self._unit, self._volume = place.temperature, place.volume
        self._set_ranges()
        for field in (self.name, self.place, self.pot):
            field.clear()
        self.mix.setValue(self.mix.minimum())
        self.forms.buttons()[0].setChecked(True)
        self._on_form()

    def take_focus(self) -> None:
        """Give the keyboard to the first choice."""
        self.forms.buttons()[0].setFocus(Qt.FocusReason.OtherFocusReason)

    def take_into_use(self) -> None:
        """Make the holder."""
        keeper, form = self._bench.keeper, self.form
        try:
            volume_ml = self._cell_ml()
        except ValueError as error:
            self._bench.say(tr("The {problem}.", problem=error))
            return
        name = " ".join(self.name.text().split()) or next_name(keeper.season, form)
        size = trade_size(self.pot.text()) if form == "rack" else ""
        day = min(self._day(), keeper.today)
        done = keeper.do(
            lambda: make_holder(
                keeper.season,
                name=name,
                form=form,
                rows=self.rows.value(),
                columns=self.columns.value(),
                day=day,
                cell_ml=volume_ml,
                size=size,
                place=self.place.text(),
                mix_c=self._mix_c(),
            )
        )
        if done:
            self.made.emit(next(one.key for one in keeper.season.holders() if one.name == name))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.take_into_use()
        elif event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        else:
            super().keyPressEvent(event)

    def _on_form(self) -> None:
        if self.form == "tray":
            self._on_count(USUAL_TRAY)
        else:
            self.rows.setValue(USUAL_RACK[0])
            self.columns.setValue(USUAL_RACK[1])
        is_tray = self.form == "tray"
        self.sizes.setVisible(is_tray)
        for field, caption in ((self.cell, self.cell_caption), (self.pot, self.pot_caption)):
            field.setVisible(is_tray == (field is self.cell))
            caption.setVisible(is_tray == (field is self.cell))
        self.name.setPlaceholderText(next_name(self._bench.keeper.season, self.form))
        self._show_words()

    def _on_count(self, count: int) -> None:
        sheet = tray(count)
        self.rows.setValue(sheet.rows)
        self.columns.setValue(sheet.columns)
        known = self.cell.minimum() if sheet.cell_ml is None else self._from_ml(sheet.cell_ml)
        self.cell.setValue(known)
        self._show_words()

    def _show_words(self) -> None:
        """Say how such trays or pots are sold, and what mix they take."""
        rows, columns = self.rows.value(), self.columns.value()
        count = self.sizes.show_size(rows, columns) if self.form == "tray" else None
        self.note.setText(
            pot_words(self.pot.text(), self._volume)
            if self.form == "rack"
            else (
                sold_words(count, self._volume)
                if count
                else tr("{cells}.", cells=many(rows * columns, "cell"))
            )
        )
        self.needs.setText(mix_words(rows, columns, self._known_ml(), self._volume))
        for part in (self.needs, self.why):
            part.setVisible(bool(self.needs.text()))

    def _mix_why(self) -> Why | None:
        volume_ml = self._known_ml()
        if volume_ml is None:
            return None
        pots = self.form == "rack"
        return mix_why(self.rows.value(), self.columns.value(), volume_ml, self._volume, pots=pots)

    def _known_ml(self) -> float | None:
        try:
            return self._cell_ml()
        except ValueError:
            return None

    def _cell_ml(self) -> float | None:
        """Return the volume of a cell or pot [mL]; ValueError for a pot of no known name."""
        if self.form == "rack":
            return pot_ml(self.pot.text())
        value = self.cell.value()
        if value <= self.cell.minimum():
            return None
        return round(value * (FLUID_OUNCE_ML if self._volume == "floz" else 1.0), 2)

    def _from_ml(self, volume_ml: float) -> float:
        return volume_ml / FLUID_OUNCE_ML if self._volume == "floz" else volume_ml

    def _mix_c(self) -> float | None:
        value = self.mix.value()
        return None if value <= self.mix.minimum() else round(to_celsius(value, self._unit), 2)

    def _set_ranges(self) -> None:
        """Set limits and signs of the units read; the least value stands for "not known"."""
        low, high = from_celsius(COLDEST_C, self._unit), from_celsius(WARMEST_C, self._unit)
        self.mix.setRange(low - 1, high)
        self.mix.setSuffix(f" {unit_sign(self._unit)}")
        ounces = self._volume == "floz"
        self.cell.setRange(0.0, 3000.0 if ounces else 100_000.0)
        self.cell.setDecimals(2 if ounces else 1)
        self.cell.setSuffix(" fl oz" if ounces else " mL")

    def _set_up_fields(self) -> None:
        for form, words in FORMS.items():
            one = QRadioButton(words)
            one.setObjectName(form)
            self.forms.addButton(one)
        for spin in (self.cell, self.mix):
            spin.setSpecialValueText(NOT_KNOWN)
        self.mix.setDecimals(1)
        self.pot.setPlaceholderText("9 cm")
        self.place.setPlaceholderText(tr("shelf 1, heat mat"))
        completer = QCompleter(list(POTS), self)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.pot.setCompleter(completer)
        for field in (self.name, self.place, self.pot):
            field.setMaxLength(80)
        for spin in (self.cell, self.mix):
            spin.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def _connect(self) -> None:
        self.forms.buttonClicked.connect(lambda _button: self._on_form())
        self.sizes.chosen.connect(self._on_count)
        for spin in (self.rows, self.columns, self.cell):
            spin.valueChanged.connect(lambda _value: self._show_words())
        self.pot.textChanged.connect(lambda _text: self._show_words())

    def _lay_out(self) -> None:
        self.body.addWidget(Flow(*self.forms.buttons()))
        self.body.addWidget(self.sizes)
        self.cell_caption, self.pot_caption = label(tr("Each cell"), "quiet"), label(tr("Pot"), "quiet")
        sides = QWidget()
        line = row(self.rows, label("×"), self.columns, gap=GAP // 2)
        line.setStretch(0, 1)
        line.setStretch(2, 1)
        sides.setLayout(line)
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP - 2)
        grid.setColumnStretch(1, 1)
        fields: tuple[tuple[QWidget, QWidget, str], ...] = (
            (label(tr("Rows, columns"), "quiet"), sides, ""),
            (self.cell_caption, self.cell, tr("Volume of each cell")),
            (self.pot_caption, self.pot, tr("Pot size")),
            (label(tr("Name"), "quiet"), self.name, tr("Name")),
            (label(tr("Stands"), "quiet"), self.place, tr("Where it stands")),
            (label(tr("Mix at"), "quiet"), self.mix, tr("Temperature of the mix")),
        )
        for place, (caption, field, words) in enumerate(fields):
            if words:
                field.setAccessibleName(words)
            grid.addWidget(caption, place, 0)
            grid.addWidget(field, place, 1)
        self.body.addLayout(grid)
        self.body.addWidget(self.note)
        self.body.addLayout(row(self.needs, self.why, None))
        self.body.addWidget(Flow(self.make, self.cancel))


def _side(key: str, name: str) -> QSpinBox:
    made = QSpinBox()
    made.setRange(1, LARGEST_SIDE)
    made.setMinimumWidth(52)
    made.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
    made.setAccessibleName(name)
    made.setObjectName(key)
    return made
