"""Carrying plants from a rack onto the plan, and about the plan, with the mouse."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPoint
from PySide6.QtWidgets import QWidget

from greenroom.desk.grow.hand import Hand
from greenroom.desk.grow.holder_view import HolderView
from greenroom.desk.grow.in_hand import InHand
from greenroom.desk.set_out.plan_view import PlanView
from greenroom.season.spots import SpotKey


class PlanCarrier(QObject):
    """Finds the target under the pointer, on the plan or in the rack, and moves the picture along."""

    def __init__(self, page: QWidget, hand: Hand, rack: HolderView, plan: PlanView, picture: InHand) -> None:
        super().__init__(page)
        self._page = page
        self._hand = hand
        self._views = (plan, rack)
        self._picture = picture
        for view in self._views:
            view.carry_started.connect(self.start)
            view.carried.connect(self.carry)
            view.dropped.connect(self.drop)

    def start(self, keys: list[SpotKey], pointer: QPoint) -> None:
        """Lift plants under the pointer (screen coordinates)."""
        if self._hand.lift(keys):
            self.carry(pointer)

    def carry(self, pointer: QPoint) -> None:
        """Follow the pointer."""
        if self._hand.active:
            self._hand.aim(self._target(pointer))
            self._picture.go_to(self._page.mapFromGlobal(pointer))

    def drop(self, pointer: QPoint) -> None:
        """Put down what is in hand where the pointer is; over nothing, let it go."""
        if not self._hand.active:
            return
        self._hand.aim(self._target(pointer))
        if self._hand.target is None:
            self._hand.let_go()
        else:
            self._hand.put_down()

    def _target(self, pointer: QPoint) -> SpotKey | None:
        for view in self._views:
            point = view.mapFromGlobal(pointer)
            if view.isVisible() and view.visibleRegion().contains(point):
                key = view.spot_at(point)
                return None if key in self._hand.sources else key
        return None
