"""Writing picks down one after the other, with wet hands: what, how many, how heavy, which colour; Enter."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QDoubleSpinBox,
    QGridLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QSpinBox,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.on_day import OnDay
from greenroom.desk.parts import Card, button, label, row
from greenroom.desk.pick.pick_words import Target
from greenroom.ledger.facts import RIPENESS
from greenroom.season.deeds_plants import pick
from greenroom.season.few_words import RIPE_WORDS
from greenroom.season.spots import SpotKey
from greenroom.speech import tr

COLOUR_KEYS = {Qt.Key.Key_G: "green", Qt.Key.Key_T: "turning", Qt.Key.Key_R: "ripe"}
COLOUR_NAMES = {
    "green": tr("Green", sense="of fruit"),
    "turning": tr("Turning", sense="of fruit"),
    "ripe": tr("Ripe", sense="of fruit"),
}
NEXT_KEYS = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_PageUp: -1}
WRITE_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
WHOLE = tr("whole bed")
FIELD_PX = 34
"""Higher than usual: they are hit with wet hands."""


class LogCard(Card):
    """The form stays as it was after each pick, the count chosen, so that the next needs only numbers."""

    wrote = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Write down a pick"))
        self._bench = bench
        self._targets: list[Target] = []
        self.setObjectName("log")
        self.what = _combo("pick-what", tr("What was picked"))
        self.plant = _combo("pick-plant", tr("Which plant of it"))
        self.plant.setMaximumWidth(120)
        self.count = QSpinBox()
        self.count.setRange(1, 10_000)
        self.grams = QDoubleSpinBox()
        self.grams.setRange(0, 100_000)
        self.grams.setDecimals(1)
        self.grams.setSuffix(" g")
        self.grams.setSpecialValueText(tr("not weighed"))
        self.colours = {one: self._colour(one) for one in RIPENESS}
        self.on = OnDay(bench, tr("picked on"), tr("The day your picks are written for"), "picked-on")
        self.write = button(tr("Write", sense="down"), self.write_down, "primary", name="write-pick")
        self._lay_out()
        self._connect()
        self.colours["ripe"].setChecked(True)

    @property
    def target(self) -> Target | None:
        """What is chosen to be picked from."""
        place = self.what.currentIndex()
        return self._targets[place] if 0 <= place < len(self._targets) else None

    @property
    def ripeness(self) -> str:
        """The colour chosen."""
        return next(one for one, made in self.colours.items() if made.isChecked())

    def show_targets(self, found: Sequence[Target]) -> None:
        """Show what can be picked from; what was chosen stays chosen."""
        if list(found) == self._targets:
            return
        before, plant = self.target, self.plant.currentData()
        self._targets = list(found)
        self.what.blockSignals(True)
        self.what.clear()
        self.what.addItems([one.words for one in found])
        self.what.blockSignals(False)
        if before is not None:
            self.choose(before.variety, before.holder)
            self.plant.setCurrentIndex(max(0, self.plant.findData(plant)))
        self._on_what()

    def choose(self, variety: str, holder: str | None) -> None:
        """Choose what is picked from."""
        near = [place for place, one in enumerate(self._targets) if one.variety == variety]
        same = [place for place in near if self._targets[place].holder == holder]
        for place in (same or near)[:1]:
            self.what.setCurrentIndex(place)

    def start_at_count(self) -> None:
        """Put the keyboard on the count, ready to be overwritten."""
        self.count.setFocus(Qt.FocusReason.OtherFocusReason)
        self.count.selectAll()

    def write_down(self) -> None:
        """Write the pick, and be ready for the next."""
        self.count.interpretText()
        self.grams.interpretText()
        target, keeper = self.target, self._bench.keeper
        if target is None:
            self._bench.say(tr("No variety is chosen; add seed on the Seed page first."))
            return
        spot = self.plant.currentData()
        grams = self.grams.value() or None
        done = keeper.do(
            lambda: pick(
                keeper.season,
                target.variety,
                self.on.day,
                self.count.value(),
                spot=spot if isinstance(spot, SpotKey) else None,
                holder=target.holder,
                grams=grams,
                ripeness=self.ripeness,
            )
        )
        if done:
            self.count.setValue(1)
            self.grams.setValue(0)
            self.wrote.emit()
        self.start_at_count()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            chooser = watched in (self.what, self.plant, self.on.edit)
            return self._on_key(event, chooser=chooser) or super().eventFilter(watched, event)
        return super().eventFilter(watched, event)

    def _on_key(self, event: QKeyEvent, *, chooser: bool) -> bool:
        """Do what a key asks for; in a chooser, letters and pages are the chooser's own."""
        key = Qt.Key(event.key())
        if key in WRITE_KEYS:
            self.write_down()
        elif chooser:
            return False
        elif key in COLOUR_KEYS and not event.modifiers():
            self.colours[COLOUR_KEYS[key]].setChecked(True)
        elif key in NEXT_KEYS and self._targets:
            self.what.setCurrentIndex((self.what.currentIndex() + NEXT_KEYS[key]) % len(self._targets))
        else:
            return False
        return True

    def _on_what(self) -> None:
        target = self.target
        before = self.plant.currentData()
        self.plant.clear()
        self.plant.addItem(WHOLE if target and target.holder else tr("anywhere"), None)
        for spot in target.spots if target else ():
            self.plant.addItem(spot.label, spot)
        self.plant.setCurrentIndex(max(0, self.plant.findData(before)))
        self.plant.setEnabled(bool(target and target.spots))

    def _connect(self) -> None:
        self.what.currentIndexChanged.connect(lambda _: self._on_what())
        watched = (self.what, self.plant, self.on.edit, self.count, self.grams, *self.colours.values())
        for field in watched:
            field.installEventFilter(self)

    def _colour(self, ripeness: str) -> QPushButton:
        words = COLOUR_NAMES[ripeness]
        made = button(words, lambda: None, name=f"pick-{ripeness}")
        made.setCheckable(True)
        made.setProperty("tight", "yes")
        key = next(key for key, one in COLOUR_KEYS.items() if one == ripeness)
        made.setToolTip(f"{words} ({chr(key)})")
        made.setAccessibleName(tr("picked {colour}", colour=RIPE_WORDS[ripeness]))
        return made

    def _lay_out(self) -> None:
        self.aside.setText(tr("Enter writes; G, T, R: colour; Page Down: next"))
        group = QButtonGroup(self)
        for made in self.colours.values():
            group.addButton(made)
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP)
        words = [_named(tr("From", sense="which bed"), self.what), _named(tr("Plant"), self.plant)]
        words += [_named(tr("Fruit"), self.count), _named(tr("Weight"), self.grams)]
        words.append(_named(tr("Colour"), self.colours["ripe"]))
        for field in (self.what, self.plant, self.count, self.grams, self.write, *self.colours.values()):
            field.setMinimumHeight(FIELD_PX)
        for field in (self.count, self.grams):
            field.setMinimumWidth(92)
        self.count.setMaximumWidth(92)
        first = row(self.what, words[1], self.plant)
        first.setStretch(0, 1)
        grid.addWidget(words[0], 0, 0)
        grid.addLayout(first, 0, 1)
        grid.addWidget(words[2], 1, 0)
        grid.addLayout(row(self.count, words[3], self.grams, None, self.on), 1, 1)
        grid.addWidget(words[4], 2, 0)
        grid.addLayout(row(*self.colours.values(), None, self.write), 2, 1)
        grid.setColumnStretch(1, 1)
        self.body.addLayout(grid)


def _combo(name: str, spoken: str) -> QComboBox:
    made = QComboBox()
    made.setObjectName(name)
    made.setAccessibleName(spoken)
    made.setMinimumWidth(84)
    made.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
    return made


def _named(text: str, field: QWidget) -> QLabel:
    made = label(text, "quiet")
    made.setBuddy(field)
    if not field.accessibleName():
        field.setAccessibleName(text)
    return made
