"""The open tray and what belongs to it: which it is, ways to choose cells, the cells, a line of words."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QComboBox, QPushButton

from greenroom.desk.bench import Bench
from greenroom.desk.elided import Elided
from greenroom.desk.flow import Flow
from greenroom.desk.grow.scroll import CellScroll
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.parts import Card, button
from greenroom.desk.sow.sow_view import SowView
from greenroom.season.spots import Stage
from greenroom.season.story import glance_words
from greenroom.speech import tr

CHOOSE_HINT = tr("Click or drag to choose cells, Space sows; or drag a packet over them.")
NO_HOLDER = tr("No tray in use yet")
HOLDER_WORDS = tr("Take one into use on the right; its cells then stand here.")
NO_PACKET = tr("No packet to sow from yet")
PACKET_WORDS = tr("Put your packets into the seed box first; they are sown from here.")
BRUSH_HINT = tr("Drag over the cells to sow the chosen packet in each; Escape lets go.")


class OpenCard(Card):
    """Shows one tray or rack to be sown."""

    opened = Signal(str)
    new_asked = Signal()

    def __init__(self, bench: Bench, view: SowView) -> None:
        super().__init__()
        self._bench = bench
        self.view = view
        self.aside.hide()
        self.foot = Elided(bench.look)
        self.chooser = QComboBox()
        self.chooser.setAccessibleName(tr("Tray or rack to sow"))
        self.chooser.setMinimumContentsLength(8)
        self.count = Elided(bench.look, "leaf_text")
        self.new = button(tr("New tray or rack"), self.new_asked.emit, name="new-holder")
        self.head.addWidget(self.chooser)
        self.head.addWidget(self.count, 1)
        self.head.addWidget(self.new)
        self.modes = QButtonGroup(self)
        self.choose_mode = self._mode(tr("Choose cells"), brush=False)
        self.brush_mode = self._mode(tr("Sow as I drag"), brush=True)
        self.choose_mode.setChecked(True)
        tools = [
            _tool(tr("All empty"), view.choose_empty, "choose-empty", tr("Choose every empty cell (E)")),
            _tool(tr("Row"), view.choose_rows, "choose-row", tr("Choose the whole row (R)")),
            _tool(tr("Column"), view.choose_columns, "choose-column", tr("Choose the whole column (C)")),
        ]
        self.scroller = CellScroll(view)
        self.tools = Flow(self.choose_mode, self.brush_mode, *tools, gap=6)
        self.to_seed = button(
            tr("Go to the seed box"), lambda: bench.show_page("seed"), "primary", name="go-seed"
        )
        self.to_new = button(tr("New tray or rack"), self.new_asked.emit, "primary", name="first-holder")
        self.empty = NothingYet(NO_HOLDER, HOLDER_WORDS, self.to_seed, self.to_new, inside=True)
        self.body.addWidget(self.tools)
        self.body.addWidget(self.empty, 1)
        self.body.addWidget(self.scroller, 1)
        self.body.addWidget(self.foot)
        self.body.addStretch(0)
        self.chooser.activated.connect(lambda place: self.opened.emit(self.chooser.itemData(place)))
        view.current_changed.connect(self.refresh_foot)
        self.refresh_foot()

    def fill(self, open_key: str | None) -> None:
        """List the trays and racks in use."""
        season = self._bench.keeper.season
        holders = [*season.holders("tray"), *season.holders("rack")]
        self.chooser.clear()
        for one in holders:
            self.chooser.addItem(one.name, one.key)
        self.chooser.setCurrentIndex(self.chooser.findData(open_key))
        for part in (self.chooser, self.tools, self.scroller, self.foot, self.new):
            part.setVisible(bool(holders))
        self.empty.setVisible(not holders)

    def say_first(self, *, packets: bool) -> None:
        """Say what comes first while no tray is in use: a packet to sow from, then a tray."""
        self.empty.say(*((NO_HOLDER, HOLDER_WORDS) if packets else (NO_PACKET, PACKET_WORDS)))
        self.to_seed.setVisible(not packets)
        self.to_new.setVisible(packets)

    def refresh(self) -> None:
        """Count anew."""
        holder, season = self.view.holder, self._bench.keeper.season
        if holder is None:
            self.count.show_text("")
            return
        free = sum(spot.free for spot in season.spots(holder.key))
        stages = season.counts(holder.key).stages
        sown = stages.get(Stage.SOWN, 0)
        self.count.show_text(
            tr("{free} of {total} empty, {sown} sown", free=free, total=holder.spots, sown=sown)
        )
        self.refresh_foot()

    def refresh_foot(self) -> None:
        """Say what the current cell holds, or what to do."""
        key, chosen = self.view.current, len(self.view.choice.chosen)
        if key is None:
            self.foot.show_text(BRUSH_HINT if self.view.brush else CHOOSE_HINT)
            return
        words = glance_words(self._bench.keeper.season, key)
        self.foot.show_text(tr("{count} chosen · {cell}", count=chosen, cell=words) if chosen > 1 else words)

    def _mode(self, words: str, *, brush: bool) -> QPushButton:
        made = QPushButton(words)
        made.setCheckable(True)
        made.setAutoDefault(False)
        made.setProperty("tight", "yes")
        made.setObjectName("mode-brush" if brush else "mode-choose")
        made.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        made.toggled.connect(lambda on: self._set_brush(brush) if on else None)
        self.modes.addButton(made)
        return made

    def _set_brush(self, brush: bool) -> None:
        self.view.brush = brush
        self.view.setCursor(Qt.CursorShape.CrossCursor if brush else Qt.CursorShape.ArrowCursor)
        self.refresh_foot()


def _tool(words: str, act: Callable[[], None], name: str, tip: str) -> QPushButton:
    made = button(words, act, name=name)
    made.setProperty("tight", "yes")
    made.setToolTip(tip)
    # A click on a button must not take the keys away from the tray.
    made.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    return made
