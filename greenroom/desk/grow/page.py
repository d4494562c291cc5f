"""The Grow on page: puts the named parts together and tells them what changed."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QStackedLayout, QStackedWidget, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.care.care_view import CareStack
from greenroom.desk.care.part import CareErrand
from greenroom.desk.grow.acts import Acts
from greenroom.desk.grow.beside_card import BesideCard
from greenroom.desk.grow.carrier import Carrier
from greenroom.desk.grow.cell_art import CellArt
from greenroom.desk.grow.chart_card import ChartCard
from greenroom.desk.grow.empty import empty_page
from greenroom.desk.grow.hand import Hand
from greenroom.desk.grow.holder_list import HolderList
from greenroom.desk.grow.holder_model import SHELF_KINDS
from greenroom.desk.grow.holder_view import HolderView
from greenroom.desk.grow.in_hand import InHand
from greenroom.desk.grow.main_card import MainCard
from greenroom.desk.grow.new_holder import NewHolder
from greenroom.desk.grow.page_style import page_style
from greenroom.desk.grow.photo_door import PhotoDoor
from greenroom.desk.grow.resow_card import ResowCard
from greenroom.desk.look import PAGE_MARGIN
from greenroom.desk.on_day import seen_on
from greenroom.desk.page import Page
from greenroom.desk.sheets import BETWEEN, lay_across
from greenroom.desk.story.panel import StoryPanel
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.spots import SpotKey
from greenroom.season.state import Touched
from greenroom.speech import tr

SETTLE_MS = 40  # the curve follows a burst of clicks at once
ADVISE_MS = 400  # the advice asks every tray that holds the lot; it waits for the hand to pause
WIDE_PX, NARROW_PX = 1300, 1100
WORD_KINDS = frozenset({"variety", "packet", "units_set", "place_set"})


class GrowPage(Page):
    """The list on the left, the open tray with its curve in the middle, a rack and advice on the right."""

    key = "grow"

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._stale = True
        self.seen_on = seen_on(bench)
        self.acts = Acts(bench, lambda: self.seen_on.day)
        self.hand = Hand(bench.keeper, self.acts, self)
        self.art = CellArt(bench.look)
        self.holders = HolderList(bench, self.hand)
        self.new_holder = NewHolder(bench)
        views = [HolderView(bench, self.acts, self.hand, self.art) for _ in range(2)]
        self.main = MainCard(bench, self.acts, self.hand, views[0], self.seen_on)
        self.beside = BesideCard(bench, self.hand, views[1])
        self.chart = ChartCard(bench)
        self.resow = ResowCard(bench, self.acts)
        self.panel = StoryPanel(bench, lambda: self.seen_on.day)
        self.empty = empty_page(bench)
        self._lay_out()
        self.picture = InHand(bench, self.hand, self.art, self)
        self.carrier = Carrier(self, self.hand, views, self.holders, self.picture)
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._advise = QTimer(self, singleShot=True)
        self._connect(views)
        self._dress()

    @property
    def main_key(self) -> str | None:
        """The holder that is open."""
        return self.main.view.holder_key

    @property
    def beside_key(self) -> str | None:
        """The holder that stands beside it."""
        return self.beside.view.holder_key

    def open_holder(self, key: str) -> None:
        """Open a tray in the middle, or a rack beside it; without trays a rack goes to the middle."""
        season = self.bench.keeper.season
        if key not in self._in_use():
            self.bench.say(tr("That tray is not in use any more."))
            return
        if season.holder(key).form == "tray" or not season.holders("tray"):
            self._open(key, self.beside_key)
        else:
            self._open(self.main_key, key)
        if self.care.open_holder is not None:
            self._show_care(key)
        elif self.photos.open:
            self._open_photo()

    def open_story(self, key: SpotKey) -> None:
        """Open a tray or rack at a cell, with the cell's story; of a bed the story alone."""
        if key.holder in self._in_use():
            self.open_holder(key.holder)
            for view in (self.main.view, self.beside.view):
                if view.holder is not None and view.holder.key == key.holder:
                    view.go_to((key.row, key.column))
                    break
        self._open_story(key)

    def open_beside(self, key: str) -> None:
        """Let a holder stand beside the open one."""
        self._open(self.main_key, key)

    def take(self, touched: Touched) -> None:
        self.hand.take(touched)
        self.photos.take(touched)
        if not self.isVisible():
            self._stale = True
            return
        if touched.kinds & SHELF_KINDS or touched.kinds & WORD_KINDS:
            self._refresh()
            self.care.take(touched)
            return
        self.care.take(touched)
        self.holders.take(touched)
        for card in (self.main, self.beside):
            card.view.take(touched)
            if card.view.holder is not None and card.view.holder.key in touched.holders:
                card.refresh()
        self.panel.take(touched)
        self._show_later(ADVISE_MS)

    def tick(self, now: datetime) -> None:  # noqa: ARG002 the keeper tells the day
        self.care.tick()
        self.photos.follow_today()
        if self.seen_on.follow_today():
            self._show_later()

    def entered(self) -> None:
        if self._stale:
            self._refresh()
            self.care.entered()
        self._run(self.bench.errand(self.key))

    def take_focus(self) -> None:
        if self.main.view.isVisible():
            self.main.view.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            super().take_focus()

    def closing(self) -> None:
        self.care.closing()
        self.photos.closing()
        self.panel.closing()

    def leave(self) -> None:
        self.hand.let_go()
        self.care.leave()
        self.main.edit.commit()
        self.panel.keep_note()
        self.seen_on.back_to_today()
        self._stale = self._stale or self._settle.isActive() or self._advise.isActive()
        self._settle.stop()
        self._advise.stop()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._set_widths()

    def _run(self, errand: object) -> None:
        """Open what the page was gone to for: the story of a spot, or a holder."""
        if errand is not None:
            self.care.close_care()
            self.photos.close()
        if isinstance(errand, SpotKey):
            self.open_story(errand)
        elif isinstance(errand, str):
            self.open_holder(errand)
        elif isinstance(errand, CareErrand):
            self._show_care(errand.holder, errand.tab)

    def _in_use(self) -> list[str]:
        return [one.key for one in self.bench.keeper.season.holders() if one.form != "bed"]

    def _refresh(self) -> None:
        """Show everything anew, keeping open what is still in use."""
        self._stale = False
        self.holders.holders.refill()
        season, in_use = self.bench.keeper.season, self._in_use()
        trays = [one.key for one in season.holders("tray")] or in_use
        main = self.main_key if self.main_key in in_use else next(iter(trays), None)
        beside = self.beside_key if self.beside_key in in_use else self._rack_for(main)
        self._open(main, beside)

    def _rack_for(self, main: str | None) -> str | None:
        """Return the rack to stand beside a holder: the first with a pot free, else the first."""
        season = self.bench.keeper.season
        racks = [one.key for one in season.holders("rack") if one.key != main]
        with_room = (key for key in racks if season.counts(key).living < season.counts(key).spots)
        return next(with_room, racks[0] if racks else None)

    def _open(self, main: str | None, beside: str | None) -> None:
        if beside == main:
            beside = self._rack_for(main)
        self.main.show_holder(main)
        self.beside.fill(main)
        self.beside.show_holder(beside)
        cared = self.care.open_holder
        self.holders.show_open(*((main, beside) if cared is None else (cared,)))
        self._stack.setCurrentWidget(self.empty if main is None else self._work)
        if self.panel.key is not None and self.panel.key.holder not in (main, beside):
            self.panel.close_panel()
        self.panel.refresh()
        self._show_later()

    def _show_later(self, advise_ms: int = SETTLE_MS) -> None:
        """Show what takes a while to work out after the cells have been painted."""
        self._settle.start()
        self._advise.start(advise_ms)

    def _open_story(self, key: SpotKey | None) -> None:
        if key is not None:
            self.panel.open_for(key)
            self.below.setCurrentWidget(self.panel)
            self._give_room()
            self.panel.note.setFocus(Qt.FocusReason.OtherFocusReason)

    def _open_care(self, holder: str | None = None) -> None:
        """Show the care of a holder, by default of the one whose cells were used last."""
        used = self.main.asked.holder or self.main.view.holder
        key = holder or (used.key if used is not None else None)
        if key is not None:
            self.hand.let_go()
            self.main.edit.commit()
            self._show_care(key)

    def _show_care(self, holder: str, tab: str | None = None) -> None:
        self.care.open_care(holder, tab)
        self.holders.show_open(holder)

    def _open_photo(self) -> None:
        """Read photographs of the open tray in place of its cells."""
        if self.main_key is not None:
            self.hand.let_go()
            self.main.edit.commit()
            self.photos.open_for(self.main_key)

    def _close_care(self) -> None:
        self.holders.show_open(self.main_key, self.beside_key)
        self.main.asked.setFocus(Qt.FocusReason.OtherFocusReason)

    def _give_room(self) -> None:
        """Let the story of a cell of the open tray have the rack's room, until something is in hand."""
        told = self.panel.key
        aside = told is not None and told.holder != self.beside_key and not self.hand.active
        self.beside.setVisible(not aside)

    def _close_story(self) -> None:
        self.below.setCurrentWidget(self.resow)
        self._give_room()
        self.main.asked.setFocus(Qt.FocusReason.OtherFocusReason)

    def _on_current(self, view: HolderView) -> None:
        self.main.use(view)
        if self.panel.key is not None and view.current is not None:
            self.panel.follow(view.current)
            self._give_room()

    def _on_hand(self) -> None:
        """By keys, go to the first empty place of the other holder."""
        self._give_room()
        if not (self.hand.active and self.hand.by_keys and self.hand.target is None):
            return
        source = self.hand.sources[0].holder
        view = self.beside.view if source == self.main_key else self.main.view
        if view.holder is not None:
            view.setFocus(Qt.FocusReason.OtherFocusReason)
            view.go_to(view.first_free())

    def _connect(self, views: list[HolderView]) -> None:
        self._settle.timeout.connect(lambda: self.chart.show_holder(self.main_key))
        self._advise.timeout.connect(lambda: self.resow.show_holder(self.main_key))
        self.holders.opened.connect(self.open_holder)
        self.beside.chosen.connect(self.open_beside)
        self.new_holder.made.connect(self.open_holder)
        self.main.story_asked.connect(self._open_story)
        self.main.headline.care_asked.connect(lambda: self._open_care(self.main_key))
        self.beside.care_asked.connect(lambda: self._open_care(self.beside_key))
        self.care.asked.connect(self._open_care)
        self.care.closed.connect(self._close_care)
        self.main.photo_asked.connect(self._open_photo)
        self.photos.closed.connect(self._close_care)
        self.panel.closed.connect(self._close_story)
        self.hand.changed.connect(self._on_hand)
        self.bench.look.changed.connect(self._dress)
        for view in views:
            view.current_changed.connect(lambda view=view: self._on_current(view))
            view.story_asked.connect(self._open_story)
            view.loss_asked.connect(self.main.ask_loss)

    def _lay_out(self) -> None:
        self._left, self._right = QWidget(), QWidget()
        self.shelf_table = TableButton(self.bench, sources.holders, text=tr("All as a table"))
        self.below = QStackedWidget()
        self.below.addWidget(self.resow)
        self.below.addWidget(self.panel)
        middle = QWidget()
        for column, parts in (
            (self._left, ((self.holders, 1), (self.shelf_table, 0), (self.new_holder, 0))),
            (middle, ((self.main, 1), (self.chart, 0))),
            (self._right, ((self.beside, 0), (self.below, 1))),
        ):
            layout = QVBoxLayout(column)
            layout.setContentsMargins(0, 0, 0, 0)
            layout.setSpacing(BETWEEN)
            for part, stretch in parts:
                layout.addWidget(part, stretch)
        self._work = QWidget()
        cells = QWidget()
        self.care = CareStack(self.bench, cells, self, tr("Back to the cells"))
        self.photos = PhotoDoor(self.bench, self.care, cells)
        lay_across(cells, (middle, 1), (self._right, 0))
        lay_across(self._work, (self._left, 0), (self.care, 1))
        outer = QVBoxLayout(self)
        outer.setContentsMargins(PAGE_MARGIN, BETWEEN, PAGE_MARGIN, BETWEEN)
        self._stack = QStackedLayout()
        outer.addLayout(self._stack)  # first: a stack that is in nothing shows its widgets as windows
        self._stack.addWidget(self._work)
        self._stack.addWidget(self.empty)

    def _set_widths(self) -> None:
        """Give the middle what it needs; the sides are narrower in a small window."""
        wide = self.width() >= WIDE_PX
        self._left.setFixedWidth(232 if wide else 200)
        self._right.setFixedWidth(340 if wide else (260 if self.width() >= NARROW_PX else 236))
        self.chart.setFixedHeight(230 if self.height() >= 740 else 168)

    def _dress(self) -> None:
        self.setStyleSheet(page_style(self.bench.look))
