"""Carrying seedlings with the mouse: finds the target under the pointer and moves the picture along."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QObject, QPoint, QTimer
from PySide6.QtWidgets import QWidget

from greenroom.desk.grow.hand import Hand
from greenroom.desk.grow.holder_list import HolderList
from greenroom.desk.grow.holder_view import HolderView
from greenroom.desk.grow.in_hand import InHand
from greenroom.season.spots import SpotKey

SCROLL_MS = 60
SCROLL_EDGE = 28
LIST_STEP = 16


class Carrier(QObject):
    """Joins the views, the list and the hand while a mouse button is held down."""

    def __init__(
        self, page: QWidget, hand: Hand, views: Sequence[HolderView], holders: HolderList, picture: InHand
    ) -> None:
        super().__init__(page)
        self._page = page
        self._hand = hand
        self._views = tuple(views)
        self._holders = holders
        self._picture = picture
        self._pointer = QPoint()
        self._scroller = QTimer(self, interval=SCROLL_MS)
        self._scroller.timeout.connect(self._scroll)
        for view in self._views:
            view.carry_started.connect(self.start)
            view.carried.connect(self.carry)
            view.dropped.connect(self.drop)
        hand.changed.connect(self._on_hand)

    def start(self, keys: list[SpotKey], pointer: QPoint) -> None:
        """Lift seedlings under the pointer (screen coordinates)."""
        if self._hand.lift(keys):
            self._scroller.start()
            self.carry(pointer)

    def carry(self, pointer: QPoint) -> None:
        """Follow the pointer."""
        if not self._hand.active:
            return
        self._pointer = pointer
        self._aim(pointer)
        self._picture.go_to(self._page.mapFromGlobal(pointer))

    def drop(self, pointer: QPoint) -> None:
        """Put down what is in hand where the pointer is; over nothing, let it go."""
        if not self._hand.active:
            return
        self._aim(pointer)
        if self._hand.target is None:
            self._hand.let_go()
        else:
            self._hand.put_down()

    def _aim(self, pointer: QPoint) -> None:
        for view in self._views:
            point = view.mapFromGlobal(pointer)
            if view.isVisible() and view.visibleRegion().contains(point):
                self._hand.aim(self._target_in(view, point))
                return
        viewport = self._holders.viewport()
        point = viewport.mapFromGlobal(pointer)
        holder = self._holders.holder_under(point) if viewport.rect().contains(point) else None
        if holder is None:
            self._hand.aim(None)
        else:
            self._hand.aim_at_holder(holder)

    def _target_in(self, view: HolderView, point: QPoint) -> SpotKey | None:
        """Return the spot under the pointer; the cells that were just lifted are no target."""
        key = view.spot_at(point)
        return None if key in self._hand.sources else key

    def _scroll(self) -> None:
        """Scroll the view whose edge the pointer rests on."""
        for view in self._views:
            point = view.mapFromGlobal(self._pointer)
            region = view.visibleRegion().boundingRect()
            inner = region.adjusted(SCROLL_EDGE, SCROLL_EDGE, -SCROLL_EDGE, -SCROLL_EDGE)
            if view.isVisible() and region.contains(point) and not inner.contains(point):
                view.see_point(point)
                self._aim(self._pointer)
        self._scroll_list()

    def _scroll_list(self) -> None:
        viewport, bar = self._holders.viewport(), self._holders.verticalScrollBar()
        point = viewport.mapFromGlobal(self._pointer)
        if not viewport.rect().contains(point):
            return
        if point.y() < SCROLL_EDGE:
            bar.setValue(bar.value() - LIST_STEP)
        elif point.y() > viewport.height() - SCROLL_EDGE:
            bar.setValue(bar.value() + LIST_STEP)
        else:
            return
        self._aim(self._pointer)

    def _on_hand(self) -> None:
        if not self._hand.active:
            self._scroller.stop()
