"""What can be seen in place of the trays' own cards: all side by side, a crop's ramp, and cool nights."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton, QStackedWidget, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.paper.errand import CARD, Errand
from greenroom.desk.paper.way import paper_button
from greenroom.desk.parts import column, row
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.state import Touched
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.harden.cool_panel import CoolPanel
    from greenroom.desk.harden.ramp_numbers import RampPanel
    from greenroom.desk.harden.side_by_side import SideBySide

SIDE, RAMP, COOL = "side", "ramp", "cool"
WORDS = {SIDE: tr("Side by side"), RAMP: tr("Ramp numbers"), COOL: tr("Cool nights")}
BACK = tr("Back to the trays")


class Views(QStackedWidget):
    """Each view is made when it is first asked for; ``bar`` holds the buttons that open and close them.

    ``chosen`` carries the tray that was opened from a view.
    """

    chosen = Signal(str)
    turned = Signal()

    def __init__(
        self, bench: Bench, stands: Callable[[], list[TwoClocks]], current: Callable[[], str]
    ) -> None:
        super().__init__()
        self._bench = bench
        self._stands = stands
        self._current = current
        self.side: SideBySide | None = None
        self.ramp: RampPanel | None = None
        self.cool: CoolPanel | None = None
        self.buttons = {key: self._button(key) for key in WORDS}
        self.bar = QWidget()
        lines = column(gap=0)
        lines.addLayout(row(self.buttons[SIDE], self.buttons[RAMP], None))
        cards = paper_button(bench, lambda: Errand(CARD, back="harden"), kind="link")
        lines.addLayout(row(self.buttons[COOL], cards, None))
        self.bar.setLayout(lines)

    @property
    def open_view(self) -> str | None:
        """Which view is open, or None while the cards are shown."""
        return next((key for key, made in self.buttons.items() if made.isChecked()), None)

    def set_work(self, work: QWidget) -> None:
        """Take what is shown while no view is open."""
        self.insertWidget(0, work)
        self.setCurrentIndex(0)

    def fit_work(self) -> None:
        """Take the size of the cards anew, now that a part of them has come or gone."""
        cards = self.widget(0)
        layout = cards.layout() if cards is not None else None
        if layout is not None:
            layout.activate()
        self.updateGeometry()

    def open(self, key: str | None) -> None:
        """Open a view, or none."""
        for name, made in self.buttons.items():
            made.blockSignals(True)
            made.setChecked(name == key)
            made.setText(BACK if name == key else WORDS[name])
            made.blockSignals(False)
        if key is None:
            self.setCurrentIndex(0)
        else:
            self.setCurrentWidget(self._made(key))
            self._open(key)
        self.turned.emit()

    def close_view(self) -> None:
        """Go back to the cards; the focus goes to the button that opened the view."""
        key = self.open_view
        if key is not None:
            self.open(None)
            self.buttons[key].setFocus(Qt.FocusReason.OtherFocusReason)

    def take(self, touched: Touched) -> None:
        """Show what changed in holders that are not being hardened."""
        if self.open_view == COOL and touched.holders and self.isVisible():
            self.refresh()

    def refresh(self) -> None:
        """Let the open view see what has changed."""
        key = self.open_view
        if key == SIDE and self.side is not None:
            self.side.show_stands(self._stands())
        elif key == RAMP and self.ramp is not None:
            self.ramp.refresh()
        elif key == COOL and self.cool is not None:
            self.cool.refresh()

    def stop(self) -> None:
        """Work nothing out until it is asked for again."""
        for made in (self.side, self.ramp):
            if made is not None:
                made.stop()

    def _button(self, key: str) -> QPushButton:
        made = QPushButton(WORDS[key])
        made.setObjectName(f"view-{key}")
        made.setProperty("kind", "link")
        made.setCheckable(True)
        made.toggled.connect(lambda on: self.open(key if on else None))
        return made

    def _made(self, key: str) -> QWidget:
        if key == SIDE:
            return self.side or self._make_side()
        return (self.ramp or self._make_ramp()) if key == RAMP else (self.cool or self._make_cool())

    def _make_side(self) -> SideBySide:
        from greenroom.desk.harden.side_by_side import SideBySide

        self.side = SideBySide(self._bench)
        self.side.opened.connect(self._choose)
        self.addWidget(self.side)
        return self.side

    def _make_ramp(self) -> RampPanel:
        from greenroom.desk.harden.ramp_numbers import RampPanel

        self.ramp = RampPanel(self._bench)
        self.ramp.closed.connect(self.close_view)
        self.addWidget(self.ramp)
        return self.ramp

    def _make_cool(self) -> CoolPanel:
        from greenroom.desk.harden.cool_panel import CoolPanel

        self.cool = CoolPanel(self._bench)
        self.cool.closed.connect(self.close_view)
        self.addWidget(self.cool)
        return self.cool

    def _open(self, key: str) -> None:
        """Show a view as things stand, and give it the keys."""
        if key == RAMP and self.ramp is not None:
            self.ramp.open(self._current())
            return
        self.refresh()
        if key == SIDE and self.side is not None:
            self.side.take_focus()
        elif self.cool is not None:
            self.cool.take_focus()

    def _choose(self, key: str) -> None:
        self.close_view()
        if key:
            self.chosen.emit(key)
