"""The strip over the page while a holder is due: bring it in, into the shade, or ten more minutes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QFrame, QHBoxLayout

from greenroom.desk.harden.alarm import message
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label
from greenroom.season.door import AtDoor
from greenroom.speech import tr


class AlarmStrip(QFrame):
    """Hidden while nothing is due."""

    def __init__(
        self,
        bring_in: Callable[[list[str]], object],
        into_shade: Callable[[list[str]], object],
        snooze: Callable[[], object],
    ) -> None:
        super().__init__()
        self.setObjectName("alarm")
        self.setProperty("role", "notice")
        self._keys: list[str] = []
        self._shady: list[str] = []
        self.words = label("", "alert", wrap=True)
        self.bring = button(tr("Brin&g in now"), lambda: bring_in(self._keys), "urgent", name="alarm-in")
        self.shade = button(tr("Int&o shade"), lambda: into_shade(self._shady), name="alarm-shade")
        self.later = button(tr("Ten &more minutes"), snooze, name="alarm-later")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(2 * GAP, GAP, GAP, GAP)
        layout.addWidget(self.words, 1)
        layout.addWidget(self.bring)
        layout.addWidget(self.shade)
        layout.addWidget(self.later)
        self.hide()

    def show_due(self, due: Sequence[AtDoor]) -> None:
        """Show who is due, or hide."""
        self._keys = [here.key for here in due]
        self._shady = [here.key for here in due if here.shade_left >= 1 and not here.dark]
        self.shade.setVisible(bool(self._shady))
        self.shade.setToolTip(tr("Those whose shade of today is still to come"))
        if due:
            title, text = message(due)
            self.words.setText(f"{title}. {text}")
            self.words.setAccessibleName(self.words.text())
        self.setVisible(bool(due))
