"""Over the open tray: the day marks are written for, and what can be done to the chosen cells."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QHBoxLayout,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.grow.acts import cause_words
from greenroom.desk.look import GAP
from greenroom.desk.on_day import OnDay
from greenroom.desk.parts import button, label, row
from greenroom.season.few_words import LOST_BY
from greenroom.season.hardening_words import day_words
from greenroom.speech import tr, trn

LEAF_STEPS = (0, 2, 4, 6, 8)
NARROW = 6


class MarkBar(QWidget):
    """The row of acts; each says in its tool tip which key does the same."""

    up_asked = Signal()
    loss_asked = Signal()
    leaves_asked = Signal(int)
    lift_asked = Signal()
    story_asked = Signal()

    def __init__(self, seen_on: OnDay) -> None:
        super().__init__()
        self.up = self._button(
            tr("Up", sense="come up"),
            self.up_asked.emit,
            "mark-up",
            tr("Mark up, or take the mark back (Space)"),
        )
        self.lost = self._button(
            tr("Lost", sense="to mark"),
            self.loss_asked.emit,
            "mark-lost",
            tr("Mark lost, with the cause (Delete)"),
        )
        self.leaves = self._button(
            tr("Leaves"), lambda: None, "mark-leaves", tr("Count the true leaves (0 to 9)")
        )
        self.leaves.setMenu(self._leaf_menu())
        self.lift = self._button(
            tr("Lift", sense="seedlings"), self.lift_asked.emit, "lift", tr("Take the seedlings in hand (M)")
        )
        self.story = self._button(
            tr("Story"), self.story_asked.emit, "story", tr("What happened to this cell (Enter)")
        )
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(NARROW)
        layout.addWidget(seen_on)
        layout.addStretch(1)
        for one in self.buttons:
            layout.addWidget(one)

    @property
    def buttons(self) -> tuple[QPushButton, ...]:
        """The acts, in order."""
        return self.up, self.lost, self.leaves, self.lift, self.story

    def set_open(self, open_: bool) -> None:
        """Allow the acts only while a cell is chosen."""
        for one in self.buttons:
            one.setEnabled(open_)

    def _leaf_menu(self) -> QMenu:
        menu = QMenu(self)
        for number in LEAF_STEPS:
            words = tr("seed leaves only") if number == 0 else trn("{n} true leaf", "{n} true leaves", number)
            action = QAction(words, menu)
            action.triggered.connect(lambda _checked=False, number=number: self.leaves_asked.emit(number))
            menu.addAction(action)
        return menu

    @staticmethod
    def _button(text: str, act: Callable[[], object], name: str, tip: str) -> QPushButton:
        made = button(text, act, name=name)
        made.setToolTip(tip)
        made.setProperty("tight", "yes")
        # A click on a button must not take the keys away from the tray.
        made.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        return made


class EarlierNotice(QFrame):
    """Says that marks are written for another day, for as long as that is so."""

    def __init__(self, bench: Bench, seen_on: OnDay) -> None:
        super().__init__()
        self._keeper = bench.keeper
        self._seen_on = seen_on
        self.setProperty("role", "notice")
        self.words = label("", "alert", wrap=True)
        self.today = button(tr("Back to today"), seen_on.back_to_today, name="back-to-today")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(GAP, GAP // 2, GAP, GAP // 2)
        layout.addWidget(self.words, 1)
        layout.addWidget(self.today)
        seen_on.changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show or hide."""
        days = (self._keeper.today - self._seen_on.day).days
        ago = tr("yesterday") if days == 1 else trn("{n} day ago", "{n} days ago", days)
        self.words.setText(
            tr("Marks are written for {day}, {ago}.", day=day_words(self._seen_on.day), ago=ago)
        )
        self.setVisible(days != 0)


class LossRow(QFrame):
    """Asks inline what took the chosen cells."""

    confirmed = Signal(str)
    cancelled = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("role", "hint")
        self.causes = QComboBox()
        self.causes.setObjectName("cause")
        for cause in LOST_BY:
            self.causes.addItem(cause_words(cause), cause)
        words = label(tr("Lost to"), "strong")
        words.setBuddy(self.causes)
        self.causes.setAccessibleName(tr("lost to"))
        self.yes = button(tr("Mark lost"), self._confirm, "urgent", name="confirm-lost")
        self.no = button(tr("Cancel"), self.cancelled.emit, name="cancel-lost")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(GAP, GAP // 2, GAP, GAP // 2)
        layout.addLayout(row(words, self.causes, self.yes, self.no, None))
        self.hide()

    def ask(self, cells: int, *, waiting: bool) -> None:
        """Open for a number of cells; ``waiting`` if nothing has come up in them."""
        self.yes.setText(tr("Mark lost") if cells == 1 else tr("Mark {cells} lost", cells=cells))
        likely = "did not come up" if waiting else "damping-off"
        self.causes.setCurrentIndex(max(0, self.causes.findData(likely)))
        self.show()
        self.causes.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._confirm()
        elif event.key() == Qt.Key.Key_Escape:
            self.cancelled.emit()
        else:
            super().keyPressEvent(event)

    def _confirm(self) -> None:
        self.confirmed.emit(self.causes.currentData())
