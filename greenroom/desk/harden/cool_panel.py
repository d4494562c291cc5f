"""Cool nights of all trays that are not being hardened yet: whose turn it is, and one of them at a time."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.harden.cool_nights import CoolNights
from greenroom.desk.look import GAP
from greenroom.desk.nothing_yet import MOST, NothingYet
from greenroom.desk.parts import button, column, row
from greenroom.season.cool_nights import CoolPlan, cool_plan
from greenroom.season.hardening import hardening_since
from greenroom.season.hardening_words import day_words
from greenroom.speech import tr

LIST_PX, LINE_PX = 200, 28
TITLE = tr("No tray for cool nights")
NOTHING = tr("Every tray and rack with a seedling is being hardened already, or nothing is up yet.")
KEY = Qt.ItemDataRole.UserRole


class CoolPanel(QWidget):
    """The list tells whose evening it is; the card beside it plans and writes down."""

    closed = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self.trays = QListWidget()
        self.trays.setObjectName("cool-trays")
        self.trays.setAccessibleName(tr("Trays and racks not being hardened yet"))
        self.trays.setFixedWidth(LIST_PX)
        self.card = CoolNights(bench)
        to_grow = button(tr("Go to Grow on"), lambda: bench.show_page("grow"), "primary", name="cool-to-grow")
        self.nothing = NothingYet(TITLE, NOTHING, to_grow)
        beside = QWidget()
        beside.setLayout(column(self.card, None))
        both = row(self.trays, beside, gap=GAP + 4)
        both.setStretch(1, 1)
        lines = column(self.nothing)
        lines.addLayout(both, 1)
        lines.setStretch(0, MOST)
        self.setLayout(lines)
        self.trays.currentItemChanged.connect(lambda *_: self._show_current())

    def refresh(self) -> None:
        """Show the trays and the plan of the current one as they are."""
        season, today = self._bench.keeper.season, self._bench.keeper.today
        keys = [
            one.key
            for one in season.holders()
            if one.form != "bed"
            and season.counts(one.key).living > 0
            and hardening_since(season, one.key) is None
        ]
        plans = sorted((cool_plan(season, key, today) for key in keys), key=lambda plan: plan.due is None)
        kept = self.card.holder
        self.trays.blockSignals(True)
        self.trays.clear()
        for plan in plans:
            item = QListWidgetItem(self._words(plan), self.trays)
            item.setData(KEY, plan.holder)
            item.setSizeHint(QSize(0, LINE_PX))
            if plan.holder == kept:
                self.trays.setCurrentItem(item)
        if self.trays.currentItem() is None:
            self.trays.setCurrentRow(0)
        self.trays.blockSignals(False)
        self.nothing.setVisible(not plans)
        self.trays.setVisible(bool(plans))
        self.card.setVisible(bool(plans))
        self._show_current()

    def take_focus(self) -> None:
        """Give the keyboard to the trays, or to the next step where there are none."""
        if self.trays.count():
            self.trays.setFocus()
        else:
            self.nothing.take_focus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        else:
            super().keyPressEvent(event)

    def _show_current(self) -> None:
        item = self.trays.currentItem()
        if item is None:
            return
        if item.data(KEY) == self.card.holder:
            self.card.refresh()
        else:
            self.card.show_holder(item.data(KEY))

    def _words(self, plan: CoolPlan) -> str:
        keeper = self._bench.keeper
        name = keeper.season.holder(plan.holder).name
        if plan.due is None:
            return tr("{name}: none planned", name=name)
        when = tr("tonight") if plan.due == keeper.today else day_words(plan.due)
        return tr("{name}: {when}, {counted} so far", name=name, when=when, counted=plan.counted)
