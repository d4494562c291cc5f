"""A panel that opens in the page itself: a heading, what it is about, and Confirm or Cancel."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFormLayout, QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, button, label, restyle, row
from greenroom.season.proposal import Proposal
from greenroom.season.why import Why
from greenroom.speech import tr


class InlinePanel(QFrame):
    """Closed by Confirm, which does what is proposed, Cancel or Escape; ``closed`` tells so."""

    closed = Signal()

    def __init__(self, bench: Bench, confirm: str, propose: Callable[[], Proposal]) -> None:
        super().__init__()
        self._keeper = bench.keeper
        self._propose = propose
        self._answer: Why | None = None
        self.heading = label("", "title", wrap=True)
        self.effect = label("", "strong", wrap=True)
        self.effect.setObjectName("effect")
        self.confirm = button(confirm, self._confirm, "primary", name="confirm")
        self.cancel = button(tr("C&ancel"), self.closed.emit, name="cancel")
        self._foreseen = QFrame()
        self._foreseen.setProperty("role", "hint")
        self.why = WhyLink(bench, lambda: self._answer)
        self.why.setAccessibleName(tr("why this plan"))
        inside = QHBoxLayout(self._foreseen)
        inside.setContentsMargins(GAP + 4, GAP, GAP, GAP)
        inside.addWidget(self.effect, 1)
        inside.addWidget(self.why)
        sheet = QWidget()
        sheet.setObjectName("ground")
        # What a panel is about comes first, then what confirming would do, then the buttons.
        self.body = QVBoxLayout()
        self.body.setSpacing(GAP)
        self.body.addWidget(self.heading)
        inner = QVBoxLayout(sheet)
        inner.setContentsMargins(0, 0, GAP, 0)
        inner.setSpacing(GAP)
        inner.addLayout(self.body)
        inner.addWidget(self._foreseen)
        inner.addLayout(row(self.confirm, self.cancel, None))
        self.after = QVBoxLayout()
        inner.addLayout(self.after)
        inner.addStretch(1)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setWidget(sheet)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(area)

    def refresh(self) -> None:
        """Work out anew what confirming would do; called when something changed."""

    def foresee(self, lines: list[str], *, sound: bool, why: Why | None = None) -> None:
        """Show what confirming would do and ``why``, or, if not ``sound``, why it cannot be."""
        words = " ".join(lines)
        self._answer = why
        self.why.setVisible(why is not None)
        self.effect.setText(words)
        self.effect.setAccessibleName(words)
        self._foreseen.setVisible(bool(words))
        restyle(self._foreseen, "role", "hint" if sound else "notice")
        self.confirm.setEnabled(sound)

    def did(self) -> None:
        """Go on after what was proposed is done: close, unless a panel has more to offer."""
        self.closed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        else:
            super().keyPressEvent(event)

    def _confirm(self) -> None:
        if self._keeper.do(self._propose):
            self.did()


def form() -> QFormLayout:
    """Return an empty form: labels left, fields right."""
    made = QFormLayout()
    made.setContentsMargins(0, 0, 0, 0)
    made.setHorizontalSpacing(2 * GAP)
    made.setVerticalSpacing(GAP)
    made.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
    return made


def left(field: QWidget, *beside: QWidget) -> QWidget:
    """Return a field at its own width, what stands beside it, and nothing more; it takes the focus."""
    made = QWidget()
    made.setLayout(row(field, *beside, None))
    made.setFocusProxy(field)
    return made
