"""Carrying a packet over the cells with the mouse: paints what would be sown, and sows it on release."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QPoint, Qt, QTimer, Signal
from PySide6.QtWidgets import QLabel, QWidget

from greenroom.desk.grow.grid import Place
from greenroom.desk.sow.packet_list import PacketList
from greenroom.desk.sow.sow_view import SowView
from greenroom.desk.sow.stroke import Stroke

BESIDE = QPoint(16, 12)
SCROLL_MS = 60

Begin = Callable[[Callable[[Place], bool]], Stroke | None]


class Carrier(QObject):
    """Joins the list and the view while a button is held down; ``done`` carries the stroke to be sown."""

    done = Signal(object)

    def __init__(
        self, page: QWidget, packets: PacketList, view: SowView, begin: Begin, words: Callable[[Stroke], str]
    ) -> None:
        super().__init__(page)
        self._page = page
        self._view = view
        self._begin = begin
        self._words = words
        self._stroke: Stroke | None = None
        self._pointer = QPoint()
        self.picture = QLabel(page)
        self.picture.setObjectName("packet-in-hand")
        self.picture.setTextFormat(Qt.TextFormat.PlainText)
        self.picture.setProperty("role", "in-hand")
        self.picture.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.picture.hide()
        self._scroller = QTimer(self, interval=SCROLL_MS)
        self._scroller.timeout.connect(self._scroll)
        for source in (packets, view):
            source.stroke_started.connect(self.start)
            source.stroke_moved.connect(self.carry)
            source.stroke_ended.connect(self.drop)
            source.stroke_dropped.connect(self.let_go)

    def start(self, pointer: QPoint) -> None:
        """Take the chosen packet in hand (screen coordinates)."""
        if self._view.holder is None:
            return
        self._stroke = self._begin(self._is_free)
        if self._stroke is not None:
            self._view.show_stroke(self._stroke)
            self._scroller.start()
            self.carry(pointer)

    def carry(self, pointer: QPoint) -> None:
        """Follow the pointer over the cells."""
        if self._stroke is None:
            return
        self._pointer = pointer
        point = self._view.mapFromGlobal(pointer)
        self._view.repaint_places(self._stroke.go_to(self._view.grid, point))
        self.picture.setText(self._words(self._stroke))
        self.picture.adjustSize()
        self._move_picture(self._page.mapFromGlobal(pointer) + BESIDE)

    def drop(self, pointer: QPoint) -> None:
        """Sow what was passed."""
        self.carry(pointer)
        stroke = self._stroke
        self.let_go()
        if stroke is not None and stroke.places:
            self.done.emit(stroke)

    def let_go(self) -> None:
        """Put the packet back; nothing is sown."""
        self._stroke = None
        self._scroller.stop()
        self._view.show_stroke(None)
        self.picture.hide()

    def _is_free(self, place: Place) -> bool:
        return self._view.season.spot(self._view.key_of(place)).free

    def _move_picture(self, corner: QPoint) -> None:
        page = self._page.rect()
        x = min(corner.x(), page.right() - self.picture.width())
        y = min(corner.y(), page.bottom() - self.picture.height())
        self.picture.move(x, y)
        if self.picture.isHidden():
            self.picture.show()
            self.picture.raise_()

    def _scroll(self) -> None:
        """Scroll on where the pointer rests on the edge of what is seen."""
        point = self._view.mapFromGlobal(self._pointer)
        if self._view.visibleRegion().boundingRect().contains(point):
            self._view.see_point(point)
