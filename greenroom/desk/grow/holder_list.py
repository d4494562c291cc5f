"""The list of trays and racks: opens them, and takes seedlings that are dropped on it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QItemSelectionModel, QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QListView

from greenroom.desk.bench import Bench
from greenroom.desk.grow.hand import Hand
from greenroom.desk.grow.holder_card import HolderCard
from greenroom.desk.grow.holder_model import HolderModel, Index
from greenroom.season.state import Touched
from greenroom.speech import tr


class HolderList(QListView):
    """One card a holder. Going to a card opens its holder; with seedlings in hand it aims at it."""

    opened = Signal(str)

    def __init__(self, bench: Bench, hand: Hand) -> None:
        super().__init__()
        self._hand = hand
        self.holders = HolderModel(bench.keeper)
        self.cards = HolderCard(bench, self)
        self._quiet = False
        self.setModel(self.holders)
        self.setItemDelegate(self.cards)
        self.setObjectName("holders")
        self.setAccessibleName(tr("trays and racks"))
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setMouseTracking(False)
        self.selectionModel().currentChanged.connect(self._on_current)
        self.clicked.connect(self._on_click)
        bench.look.changed.connect(self.viewport().update)
        hand.changed.connect(self._show_drop)

    def take(self, touched: Touched) -> None:
        """Show what a change touched."""
        self._quiet = True
        self.holders.take(touched)
        self._quiet = False

    def show_open(self, main: str | None, *others: str | None) -> None:
        """Show which holders are open; the current card is the main one's unless another open one has it."""
        self.cards.open_keys = frozenset(key for key in (main, *others) if key is not None)
        if self.holders.holder_at(self.currentIndex()) not in self.cards.open_keys:
            self._quiet = True
            index = self.holders.index_of(main)
            self.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
            self._quiet = False
        self.viewport().update()

    def holder_under(self, point: QPoint) -> str | None:
        """Return the holder whose card is at a point of the viewport."""
        return self.holders.holder_at(self.indexAt(point))

    def dataChanged(  # noqa: N802 Qt's own name
        self, first: Index, last: Index, _roles: Sequence[int] = ()
    ) -> None:
        """Repaint the cards that changed; Qt would lay all of them out anew though none changes its size."""
        for place in range(first.row(), last.row() + 1):
            self.update(self.holders.index(place))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self._hand.active and event.key() in (Qt.Key.Key_M, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._aim(self.currentIndex())
            self._hand.put_down()
        elif self._hand.active and event.key() == Qt.Key.Key_Escape:
            self._hand.let_go()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self._open(self.currentIndex())
        else:
            super().keyPressEvent(event)

    def _on_current(self, current: Index, _before: Index) -> None:
        if self._quiet:
            return
        if self._hand.active:
            self._aim(current)
        else:
            self._open(current)

    def _on_click(self, index: Index) -> None:
        if self._hand.active:
            self._aim(index)
            self._hand.put_down()
        else:
            self._open(index)

    def _open(self, index: Index) -> None:
        key = self.holders.holder_at(index)
        if key is not None:
            self.opened.emit(key)

    def _aim(self, index: Index) -> None:
        key = self.holders.holder_at(index)
        if key is not None:
            self._hand.aim_at_holder(key)

    def _show_drop(self) -> None:
        target = self._hand.target
        drop = (target.holder, self._hand.takes) if target is not None else None
        if drop != self.cards.drop:
            self.cards.drop = drop
            self.viewport().update()
