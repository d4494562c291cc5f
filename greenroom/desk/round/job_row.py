"""One job of the round: what, why, and the ways to be done with it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import QDoubleSpinBox, QFrame, QHBoxLayout, QMenu, QSizePolicy, QToolButton, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, button, column, label, restyle
from greenroom.season.jobs.job import Ask, Job, Urgency
from greenroom.speech import tr

LATER = ((tr("In three days"), 3), (tr("In a week"), 7))
DONE_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}


class JobRow(QFrame):
    """A row that takes the keyboard: Enter or Space is done, L later, W why, Delete never again.

    ``done`` carries the number asked for, as it stands in its field; ``later`` the days it is put off.
    """

    done = Signal(float)
    opened = Signal()
    later = Signal(int)
    struck = Signal()
    moved = Signal(int)

    def __init__(self, bench: Bench, job: Job) -> None:
        super().__init__()
        self.job = job
        self._asked: Ask | None = None
        self.setObjectName("job")
        self.setProperty("role", "job")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        self.what = label("", "strong", wrap=True)
        self.reason = label("", "quiet", wrap=True)
        self.number = _number_field(self)
        self.number_words = label("", "quiet")
        self.done_button = button("", self._do, name="job-done")
        self.later_button = button(tr("later"), lambda: self.later.emit(1), "link", name="job-later")
        self.later_button.setToolTip(tr("Put it off until tomorrow (L)"))
        self.more = self._more_button()
        self.why = WhyLink(bench, lambda: self.job.why)
        self._lay_out()
        self.show_job(job)

    def show_job(self, job: Job) -> None:
        """Show a job; a number that is being corrected is left as it is while the job asks for the same."""
        self.job = job
        self.what.setText(job.what)
        self.reason.setText(job.reason)
        self.done_button.setText(job.button)
        self.done_button.setAccessibleName(tr("{name}: {what}", name=job.button, what=job.what))
        self.later_button.setAccessibleName(tr("put off until tomorrow: {what}", what=job.what))
        self.more.setAccessibleName(tr("more choices: {what}", what=job.what))
        self.why.setAccessibleName(tr("why: {what}", what=job.what))
        self.why.setVisible(job.why is not None)
        urgent = job.urgency is Urgency.NOW
        restyle(self, "urgent", "yes" if urgent else "no")
        restyle(self.done_button, "kind", "urgent" if urgent else "")
        self.setAccessibleName(tr("Urgent: {what}", what=job.what) if urgent else job.what)
        self.setAccessibleDescription(job.reason)
        self._show_number()

    def do_or_open(self) -> None:
        """Do the job, or open the page where hands are needed."""
        self._do()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in DONE_KEYS:
            self._do()
        elif key in STEPS:
            self.moved.emit(STEPS[key])
        elif key == Qt.Key.Key_L:
            self.later.emit(1)
        elif key == Qt.Key.Key_W and self.job.why is not None:
            self.why.click()
        elif key == Qt.Key.Key_Delete:
            self.struck.emit()
        else:
            super().keyPressEvent(event)

    def _do(self) -> None:
        if self.job.doing is None:
            self.opened.emit()
        else:
            self.number.interpretText()
            self.done.emit(self.number.value())

    def _show_number(self) -> None:
        ask, before = self.job.ask, self._asked
        self._asked = ask
        for part in (self.number, self.number_words):
            part.setVisible(ask is not None)
        if ask is None or ask == before:
            return
        self.number.setDecimals(ask.decimals)
        self.number.setRange(ask.least, ask.most)
        self.number.setSuffix(f" {ask.unit}" if ask.unit else "")
        self.number.setValue(ask.value)
        self.number.setAccessibleName(tr("{name}: {what}", name=ask.words, what=self.job.what))
        self.number.setToolTip(ask.words)
        self.number_words.setText(ask.words)

    def _more_button(self) -> QToolButton:
        made = QToolButton()
        made.setObjectName("job-more")
        made.setText("⋯")
        made.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        menu = QMenu(made)
        for words, days in LATER:
            menu.addAction(self._action(words, partial(self.later.emit, days)))
        menu.addSeparator()
        menu.addAction(self._action(tr("Never again"), self.struck.emit))
        if self.job.page and self.job.doing is not None:
            menu.addAction(self._action(tr("Open its page"), self.opened.emit))
        made.setMenu(menu)
        return made

    def _action(self, words: str, act: Callable[[], object]) -> QAction:
        made = QAction(words, self)
        made.triggered.connect(lambda _checked=False: act())
        return made

    def _lay_out(self) -> None:
        layout = QHBoxLayout(self)
        layout.setContentsMargins(GAP + 4, 5, GAP, 5)
        layout.setSpacing(GAP)
        layout.addLayout(column(self.what, self.reason, gap=1), 1)
        parts: tuple[QWidget, ...] = (
            self.number_words,
            self.number,
            self.done_button,
            self.later_button,
            self.more,
            self.why,
        )
        for part in parts:
            layout.addWidget(part)
        self.done_button.setMinimumWidth(112)


def _number_field(row: JobRow) -> QDoubleSpinBox:
    made = QDoubleSpinBox()
    made.setObjectName("job-number")
    made.setFixedWidth(104)
    made.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    made.lineEdit().returnPressed.connect(row.do_or_open)
    return made
