"""Weighing a holder, and feeling its mix where there is no scale."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QDoubleSpinBox

from greenroom.desk.parts import Card, button, label, row
from greenroom.ledger.facts import HEAVIEST_G, MixFelt
from greenroom.season.few_words import MIX_LEVELS
from greenroom.season.hardening_words import day_words
from greenroom.season.watering import FELT
from greenroom.speech import tr

STATES = ((tr("as it is"), "now"), (tr("soaked and drained"), "wet"), (tr("dry, plants look dull"), "dry"))
TESTS = ((tr("with a finger"), "finger"), (tr("by lifting it"), "lift"))
LEVELS = ((tr("Wet"), "wet"), (tr("Moist"), "moist"), (tr("Dry"), "dry"))


class WeighCard(Card):
    """``weighed`` carries grams and the state."""

    weighed = Signal(float, str)

    def __init__(self) -> None:
        super().__init__(tr("Weigh"))
        self.grams = QDoubleSpinBox()
        self.grams.setObjectName("weigh-grams")
        self.grams.setDecimals(0)
        self.grams.setRange(0, HEAVIEST_G)
        self.grams.setSingleStep(10)
        self.grams.setSuffix(" g")
        self.grams.setSpecialValueText(tr("grams"))
        self.grams.setAccessibleName(tr("weight in grams"))
        self.grams.lineEdit().returnPressed.connect(self._write)
        self.state = QComboBox()
        self.state.setObjectName("weigh-state")
        self.state.setAccessibleName(tr("state of the mix"))
        for words, state in STATES:
            self.state.addItem(words, state)
        self.write = button(tr("Weighed"), self._write, name="weighed")
        self.missing = label("", "quiet", wrap=True)
        self.aside.hide()
        self.head.addWidget(self.state, 1)
        line = row(self.grams)
        line.setStretch(0, 1)
        line.addWidget(self.write)
        self.body.addLayout(line)
        self.body.addWidget(self.missing)

    def show_missing(self, missing: str) -> None:
        """Say what the scale has still to tell."""
        self.missing.setText(
            tr("Still wanted: {missing}.", missing=missing) if missing else tr("Weigh it again as it dries.")
        )

    def clear(self) -> None:
        """Make ready for the next weight."""
        self.grams.setValue(0)

    def _write(self) -> None:
        self.grams.interpretText()
        self.weighed.emit(self.grams.value(), self.state.currentData())


class FeelCard(Card):
    """``felt`` carries the level and the test."""

    felt = Signal(str, str)

    def __init__(self) -> None:
        super().__init__(tr("Feel the mix"))
        self.test = QComboBox()
        self.test.setObjectName("feel-test")
        self.test.setAccessibleName(tr("felt how"))
        for words, test in TESTS:
            self.test.addItem(words, test)
        self.test.currentIndexChanged.connect(lambda _at: self._say_meanings())
        self.levels = [
            button(words, partial(self._emit, level), name=f"felt-{level}") for words, level in LEVELS
        ]
        self.last = label("", "strong", wrap=True)
        self.aside.hide()
        self.head.addWidget(self.test, 1)
        self.body.addLayout(row(*self.levels, None))
        self.body.addWidget(self.last)
        self._say_meanings()

    def show_ground(self, form: str) -> None:
        """Say what is felt: the mix of a tray or rack, the soil of a bed."""
        self.title.setText(tr("Feel the soil") if form == "bed" else tr("Feel the mix"))

    def show_last(self, felt: MixFelt | None) -> None:
        """Say what the last feel means."""
        self.last.setVisible(felt is not None)
        if felt is not None:
            level = MIX_LEVELS[felt.level]
            told = f"{day_words(felt.day)}, {level}"
            self.last.setText(tr("{name}: {what}", name=told, what=f"{FELT[felt.test, felt.level]}."))

    def _emit(self, level: str) -> None:
        self.felt.emit(level, self.test.currentData())

    def _say_meanings(self) -> None:
        for made, (words, level) in zip(self.levels, LEVELS, strict=True):
            meaning = FELT[self.test.currentData(), level]
            made.setToolTip(meaning)
            made.setAccessibleName(tr("{name}: {what}", name=words, what=meaning))
