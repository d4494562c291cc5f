"""Light and warmth: what the lamps of each shelf add up to, and what the mat does to the days."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QDoubleSpinBox,
    QFrame,
    QGridLayout,
    QLineEdit,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.nothing_yet import MOST, NothingYet
from greenroom.desk.page import Page
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.desk.sow.mat_card import MatCard
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.ledger.facts import LAMPS
from greenroom.season.deeds_plan import measure_light
from greenroom.season.lights import ShelfLight, lamp_words, shelf_lights
from greenroom.season.packets import folded
from greenroom.season.state import Touched
from greenroom.speech import figure, tr

NONE_YET = tr("No shelf was measured yet")
MEASURE = tr("Hold the meter where the leaves are, under the lamp as it hangs, and write down what it reads.")
CAUTION = tr(
    "Water and mains do not go together: hang lamps so that no can reaches them, lead "
    "each cable in a loop below its socket, use fittings and mats made for damp rooms, "
    "and a socket that trips at a fault."
)
USUAL_LAMP = "white led"
UNITS = {"µmol": "µmol m⁻² s⁻¹", "lux": "lux"}
KINDS = frozenset(
    (
        "lamp_measured",
        "holder_made",
        "holder_placed",
        "holder_retired",
        "sown",
        "moved",
        "units_set",
        "wanted",
    )
)


class LightView(Page):
    """Shelves as measured, a form to measure one, and the mat."""

    key = "light"

    def __init__(self, bench: Bench, desk: PlanDesk) -> None:
        super().__init__(bench)
        self._stale = True
        self.place = QComboBox()
        self.place.setEditable(True)
        self.place_line = QLineEdit()
        self.value = QDoubleSpinBox()
        self.unit = QComboBox()
        self.lamp = QComboBox()
        self.hours = QDoubleSpinBox()
        self.note = button(tr("Write it down"), self.write, "primary", name="measure")
        self.shelves = QVBoxLayout()
        self.shelves.setSpacing(GAP + 4)
        measure = button(tr("Measure a shelf"), self._begin, name="first-shelf")
        self.none = NothingYet(NONE_YET, MEASURE, measure)
        self.numbers = TableButton(bench, sources.lamps)
        self.mat = MatCard(bench, desk)
        self._set_up()
        self._assemble()

    def write(self) -> None:
        """Write the measurement down."""
        keeper, value = self.bench.keeper, self.value.value()
        lux = self.unit.currentData() == "lux"
        keeper.do(
            lambda: measure_light(
                self.place.currentText(),
                keeper.today,
                ppfd=None if lux else value,
                lux=value if lux else None,
                lamp=self.lamp.currentData(),
                hours=self.hours.value(),
            )
        )

    def take(self, touched: Touched) -> None:
        if not touched.kinds & KINDS:
            return
        if self.isVisible():
            self._refresh()
        else:
            self._stale = True

    def entered(self) -> None:
        if self._stale:
            self._refresh()

    def _begin(self) -> None:
        self.place.setFocus(Qt.FocusReason.OtherFocusReason)

    def _refresh(self) -> None:
        self._stale = False
        while (item := self.shelves.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.deleteLater()
        lights = shelf_lights(self.bench.keeper.season)
        for one in lights:
            self.shelves.addWidget(_shelf(self.bench, one))
        self.none.setVisible(not lights)
        self.numbers.setVisible(bool(lights))
        self._fill_places()
        self.mat.refresh()

    def _fill_places(self) -> None:
        written = self.place.currentText()
        places = {
            folded(one.place): one.place for one in self.bench.keeper.season.holders() if one.place.strip()
        }
        self.place.clear()
        self.place.addItems(sorted(places.values()))
        self.place.setEditText(written)

    def _set_up(self) -> None:
        self.value.setRange(0, 200_000)
        self.value.setDecimals(0)
        self.value.setValue(200)
        self.hours.setRange(0, 24)
        self.hours.setDecimals(1)
        self.hours.setSingleStep(0.5)
        self.hours.setValue(16)
        self.hours.setSuffix(tr(" h a day"))
        for key, words in UNITS.items():
            self.unit.addItem(words, key)
        for lamp in LAMPS:
            self.lamp.addItem(lamp_words(lamp), lamp)
        self.lamp.setCurrentIndex(self.lamp.findData(USUAL_LAMP))
        self.place_line.setPlaceholderText(tr("shelf 1"))
        self.place_line.setMaxLength(80)
        self.place.setLineEdit(self.place_line)

    def _assemble(self) -> None:
        form = Card(tr("Measure a shelf"))
        form.aside.hide()
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP - 2)
        grid.setColumnStretch(1, 1)
        fields: tuple[tuple[str, str, QWidget], ...] = (
            (tr("Shelf"), tr("Shelf"), self.place),
            (tr("Reads"), tr("Reads"), self.value),
            (tr("in", sense="a unit of light"), tr("Light in"), self.unit),
            (tr("Lamp"), tr("Lamp"), self.lamp),
            (tr("Lit"), tr("Lit"), self.hours),
        )
        for place, (words, name, field) in enumerate(fields):
            caption = label(words, "quiet")
            caption.setBuddy(field)
            field.setAccessibleName(name)
            grid.addWidget(caption, place, 0)
            grid.addWidget(field, place, 1)
        form.body.addLayout(grid)
        form.body.addWidget(self.note)
        caution = Card(tr("Mind the mains"), role="notice")
        caution.aside.hide()
        caution.body.addWidget(label(CAUTION, wrap=True))
        left, middle = QWidget(), QWidget()
        left.setFixedWidth(272)
        for part, cards in ((left, (form, caution)), (middle, ())):
            down = QVBoxLayout(part)
            down.setContentsMargins(0, 0, 0, 0)
            down.setSpacing(GAP + 4)
            for card in cards:
                down.addWidget(card)
            if part is middle:
                down.addWidget(self.none, MOST)
                down.addLayout(self.shelves)
                down.addLayout(row(None, self.numbers))
            down.addStretch(1)
        middle.setObjectName("ground")
        area = QScrollArea()
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.setWidget(middle)
        across = row(left, area, self.mat, gap=GAP + 4)
        across.setContentsMargins(PAGE_MARGIN, GAP, PAGE_MARGIN, PAGE_MARGIN - 4)
        across.setStretch(1, 2)
        across.setStretch(2, 3)
        self.setLayout(across)


def _shelf(bench: Bench, light: ShelfLight) -> Card:
    """Return a card of one shelf: what it gives, what is asked, what to do."""
    card = Card(light.place)
    card.aside.setText(f"{figure(light.ppfd, '.0f')} µmol m⁻² s⁻¹, {figure(light.hours, 'g')} h")
    words = label(light.words, "good" if light.enough else "alert", wrap=True)
    card.body.addWidget(words)
    card.body.addLayout(row(label(tr("asked for: {dose:g} mol m⁻² a day", dose=light.target), "quiet"), None))
    card.body.addLayout(row(WhyLink(bench, lambda: light.why), None))
    return card
