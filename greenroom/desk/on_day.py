"""The day that acts are written for: today, unless what they tell of was earlier."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.days import DayEdit
from greenroom.desk.parts import restyle, short_label
from greenroom.speech import tr

NARROW = 6
LEAST_PX = 92


def seen_on(bench: Bench, name: str = "seen-on") -> OnDay:
    """Return the field for the day on which the grower saw what is marked."""
    return OnDay(bench, tr("seen on"), tr("The day your marks are written for"), name)


class OnDay(QWidget):
    """A field for the day with its words before it, "seen on"; ``name`` is the name of the field."""

    changed = Signal()

    def __init__(self, bench: Bench, words: str, tip: str, name: str) -> None:
        super().__init__()
        self._keeper = bench.keeper
        self.edit = DayEdit(bench.keeper, tr("d MMM", sense="form of a date"))
        self.edit.setObjectName(name)
        self.edit.setAccessibleName(words)
        self.edit.setToolTip(tip)
        self.edit.setMinimumWidth(LEAST_PX)
        self.edit.dateChanged.connect(self._on_change)
        caption = short_label(words, "quiet")
        caption.setBuddy(self.edit)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(NARROW)
        layout.addWidget(caption)
        layout.addWidget(self.edit)
        self.back_to_today()

    @property
    def day(self) -> date:
        """The day chosen."""
        return self.edit.day

    @property
    def is_today(self) -> bool:
        """Whether acts are written for today."""
        return self.day == self._keeper.today

    def back_to_today(self) -> None:
        """Write acts for today again."""
        self.edit.back_to_today()
        self._on_change()

    def follow_today(self) -> bool:
        """Go on to a new day at midnight, unless another day was chosen; True if it is a new day."""
        new = self.edit.follow_today()
        if new:
            self._on_change()
        return new

    def _on_change(self) -> None:
        restyle(self.edit, "when", "today" if self.is_today else "earlier")
        self.changed.emit()
