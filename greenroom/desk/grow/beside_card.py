"""The rack or tray that stands beside the open one, to take its seedlings."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QSizePolicy

from greenroom.desk.bench import Bench
from greenroom.desk.elided import Elided
from greenroom.desk.grow.hand import Hand
from greenroom.desk.grow.holder_head import count_words
from greenroom.desk.grow.holder_view import HolderView
from greenroom.desk.grow.scroll import CellScroll
from greenroom.desk.parts import Card, button, label, row, short_label
from greenroom.season.story import glance_words
from greenroom.speech import tr


class BesideCard(Card):
    """A chooser of holders over the view of one of them."""

    chosen = Signal(str)
    care_asked = Signal()

    def __init__(self, bench: Bench, hand: Hand, view: HolderView) -> None:
        super().__init__()
        self._bench = bench
        self._hand = hand
        self.view = view
        self.setObjectName("beside")
        self.aside.hide()
        self.chooser = QComboBox()
        self.chooser.setObjectName("beside-chooser")
        self.chooser.setAccessibleName(tr("rack or tray beside"))
        self.chooser.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.chooser.setMinimumWidth(96)
        self.chooser.activated.connect(self._on_choice)
        self.count = short_label("", "alert")
        self.head.addWidget(self.chooser, 1)
        self.head.addWidget(self.count)
        self.empty = label(
            tr(
                "No rack of pots is in use. Take one into use on the left, then drag seedlings onto its pots."
            ),
            "quiet",
            wrap=True,
        )
        self.scroller = CellScroll(view)
        self.foot = Elided(bench.look)
        self.body.addWidget(self.empty)
        self.body.addWidget(self.scroller, 1)
        self.care = button(tr("Care"), self.care_asked.emit, "link", name="care-of-beside")
        self.care.setToolTip(tr("Water, feed and look over (Ctrl+K)"))
        below = row(gap=0)
        below.addWidget(self.foot, 1)
        below.addWidget(self.care)
        self.body.addLayout(below)
        hand.changed.connect(self.refresh_foot)
        view.current_changed.connect(self.refresh_foot)

    def fill(self, main: str | None) -> None:
        """List the holders that may stand beside the open one: racks first."""
        self.chooser.clear()
        season = self._bench.keeper.season
        for holder in [*season.holders("rack"), *season.holders("tray")]:
            if holder.key != main:
                self.chooser.addItem(holder.name, holder.key)

    def show_holder(self, key: str | None) -> None:
        """Show a holder, or none."""
        self.view.show_holder(key)
        self.scroller.updateGeometry()
        self.chooser.setCurrentIndex(self.chooser.findData(key) if key is not None else -1)
        for widget, shown in (
            (self.scroller, True),
            (self.chooser, True),
            (self.count, True),
            (self.care, True),
            (self.empty, False),
        ):
            widget.setVisible(shown if key is not None else not shown)
        self.refresh()

    def refresh(self) -> None:
        """Count anew."""
        holder = self.view.holder
        if holder is not None:
            season = self._bench.keeper.season
            self.count.setText(count_words(season.holder(holder.key), season.counts(holder.key)))
        self.refresh_foot()

    def refresh_foot(self) -> None:
        """Say what is in hand, else what the current pot holds."""
        if self._hand.active:
            bad = self._hand.target is not None and not self._hand.takes
            self.foot.show_text(self._hand.words(), "clay_text" if bad else "leaf_text")
            return
        key = self.view.current
        season = self._bench.keeper.season
        self.foot.show_text(glance_words(season, key) if key is not None else self._hint(), "quiet")

    def _hint(self) -> str:
        holder = self.view.holder
        if holder is None:
            return ""
        free = any(spot.free for spot in self._bench.keeper.season.spots(holder.key))
        return tr("Drag seedlings here") if free else tr("Nothing is free here")

    def _on_choice(self, place: int) -> None:
        key = self.chooser.itemData(place)
        if key is not None:
            self.chosen.emit(key)
