"""The buttons under the arc: out, in, sun, shade; and what was seen on the plants."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import button, restyle, row
from greenroom.season.door import AtDoor, Where
from greenroom.speech import tr


class DoorButtons(QWidget):
    """``moved`` carries "sun", "shade" or "in"; ``seen`` a kind of setback, or "kept"."""

    moved = Signal(str)
    seen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.sun = self._mover(tr("Going &out (sun)"), "sun", "primary")
        self.shade = self._mover(tr("Going out (s&hade)"), "shade", "")
        self.back = self._mover(tr("&Back in"), "in", "primary")
        self.into_sun = self._mover(tr("Into the &sun"), "sun", "")
        self.into_shade = self._mover(tr("Into s&hade"), "shade", "")
        self.droop = self._sign(tr("&Drooping"), "droop", "sun")
        self.wilt = self._sign(tr("&Wilted"), "wilt", "clay")
        self.scorch = self._sign(tr("&Leaf scorch"), "scorch", "plum")
        self.kept = self._sign(tr("&Kept in"), "kept", "")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addLayout(row(None, self.sun, self.shade, self.back, self.into_sun, self.into_shade, None))
        layout.addLayout(row(None, self.droop, self.wilt, self.scorch, self.kept, None))

    def show_for(self, here: AtDoor) -> None:
        """Offer what can be done with a holder as it is now."""
        shown = [self.back] if here.out else [self.sun, self.shade]
        shown += [self.into_sun] if here.where is Where.SHADE else []
        shown += [self.into_shade] if here.where is Where.SUN else []
        movers = (self.sun, self.shade, self.back, self.into_sun, self.into_shade)
        # Hidden first, so that the row is at no time wider than what it shows.
        for one in movers:
            if one not in shown:
                one.hide()
        for one in shown:
            one.show()
        over = here.over
        restyle(self.back, "kind", "urgent" if over else "primary")
        restyle(self.sun, "kind", "" if here.stand.resting or here.where is Where.KEPT_IN else "primary")

    def _mover(self, text: str, where: str, kind: str) -> QPushButton:
        return button(text, lambda: self.moved.emit(where), kind, name=f"move-{where}")

    def _sign(self, text: str, what: str, kind: str) -> QPushButton:
        return button(text, lambda: self.seen.emit(what), kind, name=f"seen-{what}")
