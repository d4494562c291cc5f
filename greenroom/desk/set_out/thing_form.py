"""Beds and what throws shade, by numbers: add one, change it, take it away."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QComboBox, QDoubleSpinBox, QGridLayout, QLineEdit, QSpinBox, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, row
from greenroom.season.plot import Bed, Plot, Shade
from greenroom.speech import tr

FARTHEST_M = 1000.0
LEAST_M, LONGEST_M = 0.1, 500.0
OPEN_GROUND = tr("open ground")
MOST_POT_L = 2000.0
KINDS = (
    (tr("Bed"), "bed"),
    (tr("Pots", sense="a group of them"), "pots"),
    (tr("Tree"), "tree"),
    (tr("Fence"), "fence"),
    (tr("Building"), "building"),
)


class ThingForm(Card):
    """Fields of the bed or obstacle that is chosen; a change is told when a field is left."""

    added = Signal(str)
    changed = Signal(str, object)
    chosen = Signal(object)
    taken_away = Signal(str)

    def __init__(self) -> None:
        super().__init__(tr("Beds and shade"))
        self.aside.hide()
        self.setObjectName("thing-form")
        self._thing: Bed | Shade | None = None
        self.things = QComboBox()
        self.things.setObjectName("things")
        self.things.setAccessibleName(tr("bed or obstacle"))
        self.name = QLineEdit()
        self.name.setMaxLength(40)
        self.east, self.north = _metres(-FARTHEST_M, FARTHEST_M), _metres(-FARTHEST_M, FARTHEST_M)
        self.width_, self.deep = _metres(LEAST_M, LONGEST_M), _metres(LEAST_M, LONGEST_M)
        self.height_ = _metres(LEAST_M, LONGEST_M)
        self.turned = _number(QDoubleSpinBox(), -360, 360, " °", 5)
        self.turned.setDecimals(0)
        self.rows, self.columns = QSpinBox(), QSpinBox()
        for side in (self.rows, self.columns):
            side.setRange(1, 100)
        self.pot = _number(QDoubleSpinBox(), 0, MOST_POT_L, " L", 1)
        self.pot.setDecimals(1)
        self.pot.setSpecialValueText(OPEN_GROUND)
        self.adds = {kind: button(words, self._adder(kind), name=f"add-{kind}") for words, kind in KINDS}
        self.away = button(tr("Take away"), self._take_away, name="take-away")
        self._fields = tuple(self._named())
        self._lay_out()
        self._connect()
        self.show_thing(Plot(), None)

    def show_thing(self, plot: Plot, key: str | None) -> None:
        """Show what is chosen, and list what there is."""
        self._thing = None
        with QSignalBlocker(self.things):
            self.things.clear()
            self.things.addItem(tr("choose, or add one"), None)
            for one in plot.things:
                self.things.addItem(one.name, one.key)
            self.things.setCurrentIndex(max(0, self.things.findData(key)))
        thing = None if key is None else plot.bed(key) or plot.shade(key)
        for words, field, kinds in self._fields:
            shown = thing is not None and isinstance(thing, kinds)
            words.setVisible(shown)
            field.setVisible(shown)
        self.away.setVisible(thing is not None)
        self.hint.setVisible(thing is None)
        if thing is not None:
            self._fill(thing)
        self._thing = thing

    def commit(self) -> None:
        """Tell what was changed in the fields."""
        if self._thing is None:
            return
        new = self._read(self._thing)
        if new != self._thing:
            self._thing = new
            self.changed.emit(new.key, new)

    def _fill(self, thing: Bed | Shade) -> None:
        blockers = [QSignalBlocker(field) for _, field, _ in self._fields]
        self.name.setText(thing.name)
        values = ((self.east, thing.x_m), (self.north, thing.y_m), (self.width_, thing.width_m))
        for field, value in (*values, (self.deep, thing.depth_m)):
            field.setValue(value)
        if isinstance(thing, Shade):
            self.height_.setValue(thing.height_m)
        else:
            self.turned.setValue(thing.turned_deg)
            self.rows.setValue(thing.rows)
            self.columns.setValue(thing.columns)
            self.pot.setValue(thing.pot_litres or 0.0)
        del blockers

    def _read(self, thing: Bed | Shade) -> Bed | Shade:
        name = " ".join(self.name.text().split()) or thing.name
        lies: dict[str, Any] = {
            "name": name,
            "x_m": round(self.east.value(), 2),
            "y_m": round(self.north.value(), 2),
            "width_m": round(self.width_.value(), 2),
            "depth_m": round(self.deep.value(), 2),
        }
        if isinstance(thing, Shade):
            return replace(thing, **lies, height_m=round(self.height_.value(), 2))
        return replace(
            thing,
            **lies,
            turned_deg=self.turned.value(),
            rows=self.rows.value(),
            columns=self.columns.value(),
            pot_litres=round(self.pot.value(), 1) or None,
        )

    def _adder(self, kind: str) -> Callable[[], None]:
        return lambda: self.added.emit(kind)

    def _take_away(self) -> None:
        if self._thing is not None:
            self.taken_away.emit(self._thing.key)

    def _named(self) -> Iterator[tuple[QWidget, QWidget, tuple[type, ...]]]:
        both, bed, shade = (Bed, Shade), (Bed,), (Shade,)
        field: QWidget
        kinds: tuple[type, ...]
        for key, words, field, kinds in (
            ("name", tr("Name"), self.name, both),
            ("east", tr("East", sense="how far"), self.east, both),
            ("north", tr("North", sense="how far"), self.north, both),
            ("width", tr("Width"), self.width_, both),
            ("depth", tr("Depth"), self.deep, both),
            ("height", tr("Height"), self.height_, shade),
            ("turned", tr("Turned"), self.turned, bed),
            ("rows", tr("Rows"), self.rows, bed),
            ("across", tr("Across", sense="how many in a row"), self.columns, bed),
            ("each-pot", tr("Each pot"), self.pot, bed),
        ):
            caption = label(words, "quiet")
            caption.setBuddy(field)
            field.setMinimumWidth(84)
            field.setAccessibleName(words)
            field.setObjectName(f"thing-{key}")
            yield caption, field, kinds

    def _lay_out(self) -> None:
        self.hint = label(
            tr(
                "Measure from one corner of the plot: metres east and north to the south-west corner "
                "of each thing. Drag on the plan to move, drag the corner to size."
            ),
            "quiet",
            wrap=True,
        )
        adds = tuple(self.adds.values())
        for one in adds:
            one.setProperty("tight", "yes")
        self.body.addWidget(label(tr("Add"), "quiet"))
        self.body.addLayout(row(*adds[:3], None, gap=GAP // 2))
        self.body.addLayout(row(*adds[3:], None, gap=GAP // 2))
        self.things.setMinimumWidth(100)
        self.body.addWidget(self.things)
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP // 2)
        grid.setColumnStretch(1, 1)
        for place, (words, field, _) in enumerate(self._fields):
            grid.addWidget(words, place, 0)
            grid.addWidget(field, place, 1)
        self.body.addLayout(grid)
        self.body.addWidget(self.hint)
        self.body.addLayout(row(self.away, None))
        self.body.addStretch(1)

    def _connect(self) -> None:
        self.things.activated.connect(lambda _: self.chosen.emit(self.things.currentData()))
        self.name.editingFinished.connect(self.commit)
        for field in (
            self.east,
            self.north,
            self.width_,
            self.deep,
            self.height_,
            self.turned,
            self.pot,
            self.rows,
            self.columns,
        ):
            field.setKeyboardTracking(False)
            field.valueChanged.connect(lambda _: self.commit())


def _metres(low: float, high: float) -> QDoubleSpinBox:
    return _number(QDoubleSpinBox(), low, high, " m", 0.1)


def _number(field: QDoubleSpinBox, low: float, high: float, unit: str, step: float) -> QDoubleSpinBox:
    field.setRange(low, high)
    field.setDecimals(2)
    field.setSuffix(unit)
    field.setSingleStep(step)
    return field
