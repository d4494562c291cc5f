"""The Pick page: puts the named parts together and tells them what changed."""

from __future__ import annotations

from datetime import date, datetime

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.grow.page_style import page_style
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.page import Page
from greenroom.desk.parts import column
from greenroom.desk.pick.again_tab import AgainTab
from greenroom.desk.pick.ahead_card import AheadCard
from greenroom.desk.pick.compare_tab import CompareTab
from greenroom.desk.pick.empty import empty_pick
from greenroom.desk.pick.errand import PickErrand
from greenroom.desk.pick.keeping_tab import KeepingTab
from greenroom.desk.pick.last_picks import LastPicks
from greenroom.desk.pick.log_card import LogCard
from greenroom.desk.pick.pick_words import targets
from greenroom.desk.pick.totals_tab import TotalsTab
from greenroom.desk.tabs import Tab, Tabs
from greenroom.season.packets import varieties
from greenroom.season.picking import season_now
from greenroom.season.picking_ahead import KINDS as AHEAD_KINDS
from greenroom.season.picking_ahead import RipeAhead, ripe_ahead
from greenroom.season.plan import plan_of
from greenroom.season.state import Touched
from greenroom.speech import tr

SETTLE_MS = 40
BETWEEN = 12
LEAST_LEFT_PX, LEAST_RIGHT_PX = 500, 430
KINDS = frozenset(cls.kind for cls in AHEAD_KINDS)


class PickPage(Page):
    """The form and what is ripe by when on the left; on the right totals, comparison, advice and keeping."""

    key = "pick"

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._stale = True
        self._old_tabs: set[str] = set()
        self._day: date | None = None
        self.log = LogCard(bench)
        self.last = LastPicks(bench)
        self.ahead = AheadCard(bench)
        self.empty = empty_pick(bench)
        self.tabs = Tabs(
            bench.look,
            tr("What was picked"),
            {
                "totals": Tab(tr("Totals"), lambda: TotalsTab(bench)),
                "compare": Tab(tr("Compare"), lambda: CompareTab(bench)),
                "again": Tab(tr("Grow again"), lambda: AgainTab(bench)),
                "keeping": Tab(tr("Keeping"), lambda: KeepingTab(bench)),
            },
        )
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._settle.timeout.connect(self.refresh)
        self._lay_out()
        self.tabs.shown.connect(lambda _key: self._refresh_tab())
        self.ahead.taken.connect(self._take_to_form)
        bench.look.changed.connect(self._dress)
        self._dress()

    def take(self, touched: Touched) -> None:
        if not touched.kinds & KINDS and not touched.spots:
            return
        self._stale = True
        if self.isVisible():
            self.last.refresh()
            self._settle.start()

    def tick(self, now: datetime) -> None:  # noqa: ARG002 the keeper tells the day
        if self._day not in (None, self.bench.keeper.today):
            self.log.on.follow_today()
            self._stale = True
            if self.isVisible():
                self._settle.start()

    def entered(self) -> None:
        if self._stale:
            self.refresh()
        errand = self.bench.errand(self.key)
        if isinstance(errand, PickErrand):
            self.log.choose(errand.variety, errand.holder)
        self.log.start_at_count()  # so that picks can be typed at once

    def leave(self) -> None:
        self._settle.stop()
        self.log.on.back_to_today()

    def refresh(self) -> None:
        """Show everything anew."""
        self._settle.stop()
        self._stale = False
        keeper = self.bench.keeper
        self._day = keeper.today
        known = bool(varieties(keeper.season))
        self._stack.setCurrentWidget(self._work if known else self.empty)
        if not known:
            return
        found = ripe_ahead(keeper.season, keeper.today)
        frost = plan_of(keeper.season, season_now(keeper.season, keeper.today), keeper.today).frost
        self.log.show_targets(targets(keeper.season, found))
        self.last.refresh()
        self.ahead.show_rows(found, frost)
        self._old_tabs.update(self.tabs.made)
        if not self.tabs.made:
            self.tabs.open_tab("totals")
        self._refresh_tab()

    def _refresh_tab(self) -> None:
        """Show the part in front as it stands, if anything changed."""
        key = self.tabs.current
        around = self.tabs.part(key).parentWidget()
        sheet = around.layout() if around is not None else None
        if sheet is not None:
            sheet.setContentsMargins(0, GAP // 2, GAP // 2, 0)
        if key in self._old_tabs:
            self._old_tabs.discard(key)
            self.tabs.part(key).refresh()

    def _take_to_form(self, one: RipeAhead) -> None:
        self.log.choose(one.variety, one.lot.holder if one.lot is not None else None)
        self.log.start_at_count()

    def _lay_out(self) -> None:
        left, right = QWidget(), QWidget()
        left.setMinimumWidth(LEAST_LEFT_PX)
        self.log.body.addWidget(self.last)
        down = QVBoxLayout(left)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(BETWEEN)
        down.addWidget(self.log)
        down.addWidget(self.ahead, 1)
        right.setMinimumWidth(LEAST_RIGHT_PX)
        beside = column(self.tabs.bar, self.tabs, gap=0)
        beside.setStretch(1, 1)
        right.setLayout(beside)
        self._work = QWidget()
        across = QHBoxLayout(self._work)
        across.setContentsMargins(0, 0, 0, 0)
        across.setSpacing(BETWEEN)
        across.addWidget(left, 11)
        across.addWidget(right, 9)
        self._stack = QStackedWidget()
        self._stack.addWidget(self._work)
        self._stack.addWidget(self.empty)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(PAGE_MARGIN, BETWEEN, PAGE_MARGIN, BETWEEN)
        outer.addWidget(self._stack)

    def _dress(self) -> None:
        self.setStyleSheet(page_style(self.bench.look))
