"""The sky as it is seen, the cloth over the leaves, and how the minutes of sun are counted: a click each."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSpinBox, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, row, short_label
from greenroom.season.counted import CLOCK, SUN
from greenroom.season.deeds_outdoors import count_by, see_sky, strike_sky
from greenroom.season.sky import SKIES, SkyNow, sky_now, sky_now_words
from greenroom.speech import tr

USUAL_CLOTH_PERCENT = 30
LEAST_PERCENT, MOST_PERCENT = 5, 90
SKY_WORDS = {
    "clear": (tr("Clear", sense="sky"), tr("The sky is clear now")),
    "hazy": (tr("Hazy", sense="sky"), tr("The sky is hazy now")),
    "overcast": (tr("Overcast", sense="sky"), tr("The sky is overcast now")),
}
COUNTINGS = (
    (CLOCK, tr("Clock"), tr("Count minutes by the clock"), tr("Each minute in the sun counts as one")),
    (SUN, tr("Light"), tr("Count minutes by the light"), tr("Weighed by the sun")),
)


class SkyBar(QWidget):
    """What is seen holds from now until the next look or the end of the day; it can be struck out."""

    folded = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._key, self._by = "", CLOCK
        self._now: SkyNow | None = None
        self.skies = {word: self._sky(word, cover) for word, cover in SKIES.items()}
        self.cloth = _check(tr("Cloth"), "cloth", tr("Shade cloth over it"))
        self.percent = QSpinBox()
        self.percent.setObjectName("cloth-percent")
        self.percent.setAccessibleName(tr("percent of the light the cloth holds off"))
        self.percent.setRange(LEAST_PERCENT, MOST_PERCENT)
        self.percent.setSingleStep(5)
        self.percent.setValue(USUAL_CLOTH_PERCENT)
        self.percent.setSuffix(" %")
        self.told = short_label("", "quiet")
        self.strike = button(tr("Strike out"), self._strike, "link", name="strike-sky")
        self.strike.setAccessibleName(tr("Strike out what was seen of the sky today"))
        self.ways = {by: self._way(by, *words) for by, *words in COUNTINGS}
        self.cloth.clicked.connect(lambda on: self._see(self._cloud(), on))
        self.percent.editingFinished.connect(self._percent_given)
        self.change = _check(tr("Sky"), "sky-change", tr("The sky, the cloth and how minutes are counted"))
        self.change.setProperty("kind", "link")
        self.by_words = label("", "quiet")
        self._compact = True
        self._looks, self._ways = QWidget(), QWidget()
        self._assemble()

    def show_holder(self, key: str, by: str) -> None:
        """Show the sky over a holder as it is known now, and how its minutes are counted."""
        keeper = self._bench.keeper
        self._key, self._by = key, by
        self._now = found = sky_now(keeper.season, key, keeper.now)
        for word, made in self.skies.items():
            made.setChecked(word == found.word)
        self.cloth.setChecked(found.cloth > 0)
        if found.cloth > 0 and not self.percent.hasFocus():
            with QSignalBlocker(self.percent):
                self.percent.setValue(round(found.cloth * 100))
        _say(self.told, sky_now_words(found, keeper.place))
        self.strike.setVisible(found.seen is not None)
        _say(self.by_words, tr("by the light") if by == SUN else tr("by the clock"))
        for way, made in self.ways.items():
            made.setChecked(way == by)

    def set_compact(self, compact: bool) -> None:
        """Show one line that opens, where there is little room, or all of it."""
        if compact != self._compact:
            self._compact = compact
            self.change.setChecked(False)
            self._fold()

    @property
    def opened(self) -> bool:
        """Whether it was opened where there is little room."""
        return self._compact and self.change.isChecked()

    def _assemble(self) -> None:
        looks = QHBoxLayout(self._looks)
        looks.setContentsMargins(0, 0, 0, 0)
        looks.addLayout(
            row(label(tr("Sky")), *self.skies.values(), self.cloth, self.percent, None, gap=GAP - 4)
        )
        ways = QHBoxLayout(self._ways)
        ways.setContentsMargins(0, 0, 0, 0)
        ways.addLayout(row(label(tr("Count by")), *self.ways.values(), gap=GAP - 4))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addWidget(self._looks)
        layout.addLayout(row(self.told, self.strike, None, self.by_words, self._ways, self.change))
        self.change.toggled.connect(lambda _on: self._fold())
        self._fold()

    def _fold(self) -> None:
        whole = not self._compact or self.change.isChecked()
        shown = {self._looks: whole, self._ways: whole, self.by_words: not whole, self.change: self._compact}
        # Hidden first, so that the bar is at no time wider than what it shows.
        for part in sorted(shown, key=lambda one: shown[one]):
            part.setVisible(shown[part])
        self.change.setText(tr("Less", sense="show less") if self.change.isChecked() else tr("Sky"))
        self.folded.emit()

    def _sky(self, word: str, cover: float) -> QPushButton:
        words, tip = SKY_WORDS[word]
        made = _check(words, f"sky-{word}", tip)
        made.clicked.connect(lambda _on: self._see(cover, self.cloth.isChecked()))
        return made

    def _way(self, by: str, words: str, spoken: str, tip: str) -> QPushButton:
        made = _check(words, f"count-{by}", tip)
        made.setAccessibleName(spoken)
        made.clicked.connect(lambda _on: self._count(by))
        return made

    def _cloud(self) -> float:
        return self._now.cloud if self._now else 0.0

    def _percent_given(self) -> None:
        if self.cloth.isChecked() and self._now and round(self._now.cloth * 100) != self.percent.value():
            self._see(self._cloud(), cloth=True)

    def _see(self, cloud: float, cloth: bool) -> None:
        keeper = self._bench.keeper
        share = self.percent.value() / 100 if cloth else 0.0
        keeper.do(lambda: see_sky(keeper.season, keeper.now, cloud, share, self._key))
        self._again()

    def _strike(self) -> None:
        keeper = self._bench.keeper
        keeper.do(lambda: strike_sky(keeper.season, keeper.now))
        self._again()

    def _count(self, by: str) -> None:
        keeper = self._bench.keeper
        keeper.do(lambda: count_by(keeper.season, self._key, by, keeper.today))
        self._again()

    def _again(self) -> None:
        """Show what is true now, also where an act was refused or changed nothing."""
        self.show_holder(self._key, self._by)


def _check(words: str, name: str, tip: str) -> QPushButton:
    made = QPushButton(words)
    made.setObjectName(name)
    made.setCheckable(True)
    made.setAutoDefault(False)
    made.setToolTip(tip)
    made.setAccessibleName(tip)
    made.setProperty("kind", "small")
    return made


def _say(line: QLabel, words: str) -> None:
    if line.text() != words:
        line.setText(words)
