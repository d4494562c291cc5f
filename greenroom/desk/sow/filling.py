"""Filling trays by hand: packets on the left, the open tray in the middle, what is sown on the right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QScrollArea, QStackedWidget, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.grow.acts import Acts
from greenroom.desk.grow.cell_art import CellArt
from greenroom.desk.grow.grid import Place
from greenroom.desk.grow.hand import Hand
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.page import Page
from greenroom.desk.parts import Card, button, column
from greenroom.desk.seed.packet_rows import rows_of
from greenroom.desk.sow.carrier import Carrier
from greenroom.desk.sow.new_holder import NewHolder
from greenroom.desk.sow.open_card import OpenCard
from greenroom.desk.sow.packet_list import PacketList
from greenroom.desk.sow.page_style import page_style
from greenroom.desk.sow.sow_card import Asked, SowCard
from greenroom.desk.sow.sow_view import SowView
from greenroom.desk.sow.stroke import Stroke
from greenroom.season.coherence import coherent
from greenroom.season.deeds_spots import sow
from greenroom.season.spots import SpotKey, Stage
from greenroom.season.state import Touched
from greenroom.speech import many, tr, trn

SHELF_KINDS = frozenset(("holder_made", "holder_retired", "holder_placed"))
PACKET_KINDS = frozenset(("packet", "variety", "sown"))
WORD_KINDS = frozenset(("units_set", "place_set"))
WIDE_PX = 1300


class Filling(Page):
    """Packets go into cells by dragging them over the cells, or by choosing cells and sowing them."""

    key = "sow"

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._stale = True
        self.card = SowCard(bench)
        acts = Acts(bench, lambda: self.card.day)
        self.view = SowView(bench, acts, Hand(bench.keeper, acts, self), CellArt(bench.look))
        self.packets = PacketList(bench.look)
        self.filter = QLineEdit()
        self.to_seed = button(tr("Go to the seed box"), lambda: bench.show_page("seed"), name="to-seed")
        self.open = OpenCard(bench, self.view)
        self.new = NewHolder(bench, lambda: self.card.day)
        self.side = QStackedWidget()
        self._lay_out()
        self.carrier = Carrier(self, self.packets, self.view, self._begin_stroke, self._stroke_words)
        self._connect()
        self._dress()

    @property
    def holder_key(self) -> str | None:
        """The tray or rack that is open."""
        return self.view.holder_key

    def open_holder(self, key: str) -> None:
        """Open a tray or rack."""
        self.view.show_holder(key)
        self.open.fill(key)
        self.open.refresh()
        self._show_asked()

    def sow_chosen(self) -> None:
        """Sow the chosen packet into the chosen cells that are empty."""
        packet, keys = self.packets.key, self.view.free_targets
        if packet is None:
            self.bench.say(tr("No packet is chosen; choose one on the left, then sow."))
        elif not keys:
            self.bench.say(tr("No empty cell is chosen; choose cells in the tray, then sow."))
        elif self._sow(packet, keys):
            self.view.choice.clear()
            self.view.chosen()

    def take(self, touched: Touched) -> None:
        if not self.isVisible():
            self._stale = True
            return
        if touched.kinds & (SHELF_KINDS | WORD_KINDS):
            self._refresh()
            return
        if touched.kinds & PACKET_KINDS:
            self._show_packets()
        self.view.take(touched)
        if self.holder_key in touched.holders:
            self.open.refresh()
        self._show_asked()

    def tick(self, now: datetime) -> None:
        if now.second == 0:
            self.card.follow_today()

    def entered(self) -> None:
        if self._stale:
            self._refresh()

    def leave(self) -> None:
        self.carrier.let_go()
        self.card.back_to_today()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        wide = self.width() >= WIDE_PX
        self._left.setFixedWidth(280 if wide else 220)
        self.side.setFixedWidth(320 if wide else 268)

    def _refresh(self) -> None:
        """Show everything anew, keeping open what is still in use."""
        self._stale = False
        season = self.bench.keeper.season
        self._show_packets()
        in_use = [one.key for one in (*season.holders("tray"), *season.holders("rack"))]
        key = self.holder_key if self.holder_key in in_use else self._emptiest()
        self.view.show_holder(key)
        self.open.fill(key)
        self.open.refresh()
        self._show_asked()
        if not in_use:
            self._open_new()

    def _emptiest(self) -> str | None:
        """Return the holder with the most cells that were never sown, the newest of equals; trays first."""
        season = self.bench.keeper.season
        bare = {
            one.key: season.counts(one.key).stages.get(Stage.BARE, 0)
            for one in (season.holders("tray") or season.holders("rack"))
        }
        return max(reversed(bare), key=lambda key: bare[key], default=None)

    def _show_packets(self) -> None:
        keeper = self.bench.keeper
        self.packets.packets.show_rows(rows_of(keeper.season, self.bench.guide, keeper.today))
        some = bool(self.packets.packets.rows)
        self.open.say_first(packets=some)
        self._left.setVisible(some or self.view.holder is not None)
        for part, shown in ((self.packets, some), (self.filter, some), (self.to_seed, not some)):
            part.setVisible(shown)

    def _show_asked(self) -> None:
        rows = self.packets.packets.rows
        packet = next((one for one in rows if one.key == self.packets.key), None)
        targets = self.view.targets
        free = sum(self.view.season.spot(key).free for key in targets)
        self.card.show_asked(Asked(packet, self.holder_key, len(targets), len(targets) - free))

    def _sow(self, packet: str, keys: Sequence[SpotKey]) -> bool:
        keeper, day, seeds = self.bench.keeper, self.card.day, self.card.seeds_a_cell
        return keeper.do(lambda: coherent(keeper.season, sow(keeper.season, packet, keys, day, seeds)))

    def _begin_stroke(self, free: Callable[[Place], bool]) -> Stroke | None:
        packet = next((one for one in self.packets.packets.rows if one.key == self.packets.key), None)
        if packet is None:
            self.bench.say(tr("No packet is chosen; choose one on the left, then drag."))
            return None
        seeds = self.card.seeds_a_cell
        if packet.left is not None and packet.left < seeds:
            self.bench.say(
                trn(
                    "{variety} has 1 seed left; {each} a cell are asked for.",
                    "{variety} has {n} seeds left; {each} a cell are asked for.",
                    packet.left,
                    variety=packet.name,
                    each=seeds,
                )
            )
            return None
        return Stroke(packet.key, seeds, packet.left, free)

    def _stroke_words(self, stroke: Stroke) -> str:
        row_ = next((one for one in self.packets.packets.rows if one.key == stroke.packet), None)
        words = [row_.name if row_ else "", many(len(stroke.places), "cell")]
        if stroke.remaining is not None:
            words.append(
                tr("none left", sense="seeds")
                if stroke.full and stroke.remaining == 0
                else tr("{seeds} left", seeds=stroke.remaining)
            )
        return " · ".join(words)

    def _sow_stroke(self, stroke: Stroke) -> None:
        self._sow(stroke.packet, [self.view.key_of(place) for place in stroke.places])

    def _open_new(self) -> None:
        self.new.begin()
        self.side.setCurrentIndex(1)
        self.open.new.setEnabled(False)

    def _ask_new(self) -> None:
        self._open_new()
        self.new.take_focus()

    def _close_new(self) -> None:
        self.side.setCurrentIndex(0)
        self.open.new.setEnabled(True)

    def _on_made(self, key: str) -> None:
        self._close_new()
        self.open_holder(key)
        self._to_cells()

    def _to_cells(self) -> None:
        """From the list to the cells, on the first empty one."""
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)
        if self.view.holder is not None and self.view.choice.current is None:
            self.view.go_to(self.view.first_free())

    def _connect(self) -> None:
        self.filter.textChanged.connect(self.packets.packets.set_filter)
        self.packets.chosen.connect(lambda _key: self._show_asked())
        self.packets.entered_cells.connect(self._to_cells)
        self.view.chosen_changed.connect(self._show_asked)
        self.view.sow_asked.connect(self.sow_chosen)
        self.view.seeds_asked.connect(self.card.seeds.setValue)
        self.card.sow_asked.connect(self.sow_chosen)
        self.carrier.done.connect(self._sow_stroke)
        self.open.opened.connect(self.open_holder)
        self.open.new_asked.connect(self._ask_new)
        self.new.made.connect(self._on_made)
        self.new.closed.connect(self._close_new)
        self.bench.look.changed.connect(self._dress)

    def _lay_out(self) -> None:
        self.filter.setPlaceholderText(tr("filter packets"))
        self.filter.setAccessibleName(tr("Filter packets"))
        self.filter.setClearButtonEnabled(True)
        self._left = Card(tr("Packets"))
        self._left.aside.hide()
        for part in (self.filter, self.to_seed):
            self._left.body.addWidget(part)
        self._left.body.addWidget(self.packets, 1)
        self._left.body.addStretch(0)
        for card in (self.card, self.new):
            self.side.addWidget(_scrolled(card))
        across = QHBoxLayout(self)
        across.setContentsMargins(PAGE_MARGIN, PAGE_MARGIN - 4, PAGE_MARGIN, PAGE_MARGIN - 4)
        across.setSpacing(GAP + 4)
        across.addWidget(self._left)
        across.addWidget(self.open, 1)
        across.addWidget(self.side)

    def _dress(self) -> None:
        self.setStyleSheet(page_style(self.bench.look))


def _scrolled(card: QWidget) -> QScrollArea:
    """Return a card at the top of an area that scrolls where the window is too low for it."""
    inside = QWidget()
    inside.setObjectName("ground")
    inside.setLayout(column(card, None))
    area = QScrollArea()
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(inside)
    return area
