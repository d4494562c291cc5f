"""The Set out page: puts the named parts together and tells them what changed."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QHBoxLayout, QStackedLayout, QStackedWidget, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.care.care_view import CareStack
from greenroom.desk.care.part import CareErrand
from greenroom.desk.cover_bar import CoverBar
from greenroom.desk.elided import Elided
from greenroom.desk.grow.cell_art import CellArt
from greenroom.desk.grow.hand import Hand
from greenroom.desk.grow.holder_view import HolderView
from greenroom.desk.grow.in_hand import InHand
from greenroom.desk.grow.page_style import page_style
from greenroom.desk.look import PAGE_MARGIN
from greenroom.desk.on_day import OnDay
from greenroom.desk.page import Page
from greenroom.desk.paper.errand import PLOT, Errand
from greenroom.desk.paper.way import paper_button
from greenroom.desk.parts import Card, button, scrolled
from greenroom.desk.set_out.acts import SetOutActs
from greenroom.desk.set_out.care_hint import CareHint
from greenroom.desk.set_out.carrier import PlanCarrier
from greenroom.desk.set_out.empty import EmptyPlot
from greenroom.desk.set_out.gate_card import GateCard, shut_words
from greenroom.desk.set_out.mind_card import MindCard
from greenroom.desk.set_out.places_card import PlacesCard
from greenroom.desk.set_out.plan_state import DRAW, PLANT
from greenroom.desk.set_out.plan_sun import PlanSun, Told
from greenroom.desk.set_out.plan_view import PlanView
from greenroom.desk.set_out.ready_card import ReadyCard
from greenroom.desk.set_out.sun_bar import SunBar
from greenroom.desk.set_out.tables import PlanTables
from greenroom.desk.set_out.thing_form import ThingForm
from greenroom.desk.sheets import BETWEEN, in_column, lay_across
from greenroom.desk.story.beside import StoryBeside
from greenroom.desk.story.panel import StoryPanel
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.place import place_of
from greenroom.season.plot import Bed, Shade, plot_of
from greenroom.season.plot_plants import free_spots, plants_of
from greenroom.season.set_out import Gate, gate
from greenroom.season.spots import SpotKey
from greenroom.season.state import Touched
from greenroom.speech import tr

SETTLE_MS = 40
LEFT_PX, RIGHT_PX = (272, 300), (236, 320)


class SetOutPage(Page):
    """The gate and a rack on the left, the plan in the middle, what follows from it on the right."""

    key = "setout"

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._stale = True
        self.gate: Gate | None = None
        self.on = OnDay(bench, tr("set out on"), tr("The day on which they are set out"), "plants-set-out-on")
        self.acts = SetOutActs(bench, lambda: self.on.day)
        self.hand = Hand(bench.keeper, self.acts, self)
        self.art = CellArt(bench.look)
        self.rack = HolderView(bench, self.acts, self.hand, self.art)
        self.cover = CoverBar(bench)
        self.ready = ReadyCard(bench, self.rack, self.on)
        self.gate_card = GateCard(bench)
        self.bar = SunBar(bench)
        self.plan = PlanView(bench, self.hand, self.art)
        self.tables = PlanTables()
        self.foot = Elided(bench.look, lines=2)
        self.panel = StoryPanel(bench, lambda: self.on.day)
        self.story_button = button(tr("Story"), self._open_story, "link", name="story-of-plant")
        self.care_button = button(tr("Care"), self._open_care, "link", name="care-of-bed")
        self.care_button.setToolTip(
            tr("Water, feed and look over the bed or pots chosen on the plan (Ctrl+K)")
        )
        self.places = PlacesCard(bench)
        self.mind = MindCard(bench)
        self.form = ThingForm()
        self.empty = EmptyPlot(bench, self._add)
        self.sun = PlanSun(bench, self.bar, self.plan, Told(self.places, self.mind, self.tables))
        self._lay_out()
        self.picture = InHand(bench, self.hand, self.art, self)
        self.carrier = PlanCarrier(self, self.hand, self.rack, self.plan, self.picture)
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._connect()
        self._dress()

    def take(self, touched: Touched) -> None:
        self.hand.take(touched)
        if not self.isVisible():
            self._stale = True
            return
        self.care.take(touched)
        self.panel.take(touched)
        self.rack.take(touched)
        self._settle.start()

    def tick(self, now: datetime) -> None:  # noqa: ARG002 the keeper tells the day
        self.care.tick()
        if self.on.follow_today():
            self._stale = True
            if self.isVisible():
                self._settle.start()

    def entered(self) -> None:
        if self._stale:
            self.refresh()
            self.care.entered()
        errand = self.bench.errand(self.key)
        if isinstance(errand, CareErrand):
            self.care.open_care(errand.holder, errand.tab)
        elif isinstance(errand, SpotKey):
            self.story.open_story(errand)
        elif isinstance(errand, str):
            self._open_holder(errand)
        else:
            self._focus_on(self.ready.view if self.ready.key is not None else self.plan)

    def _open_holder(self, key: str) -> None:
        """Show a bed on the plan, or open a rack or tray to set out from."""
        bed = self.plan.state.plot.bed(key)
        self.care.close_care()
        if bed is None:
            self.ready.show_holder(key)
            self._focus_on(self.ready.view)
        else:
            self.plan.go_to(next((spot for spot, _ in bed.places()), None))
            self._focus_on(self.plan)

    def _focus_on(self, part: QWidget) -> None:
        """Give the keyboard to a part, unless the care of a bed or the drawing is in front."""
        if self.care.open_holder is None and part.isVisible():
            part.setFocus(Qt.FocusReason.OtherFocusReason)

    def closing(self) -> None:
        self.care.closing()
        self.panel.closing()

    def leave(self) -> None:
        self.hand.let_go()
        self.form.commit()
        self.care.leave()
        self.panel.keep_note()
        self.on.back_to_today()
        self._stale = self._stale or self._settle.isActive() or self.sun.running
        self._settle.stop()
        self.sun.stop()

    def refresh(self) -> None:
        """Show everything anew."""
        self._stale = False
        self._settle.stop()
        season, state = self.bench.keeper.season, self.plan.state
        state.plot = plot_of(season)
        state.plants = plants_of(season, state.plot)
        if state.thing is None:
            state.chosen = None
        if state.current is not None and state.plot.bed(state.current.holder) is None:
            state.current = None
        known = place_of(season).known
        self.empty.refresh()
        self._stack.setCurrentWidget(self.empty if state.plot.empty or not known else self._work)
        self.bar.show_plot(state.plot)
        self.form.show_thing(state.plot, state.chosen)
        self.cover.refresh()
        self.ready.refill()
        self.sun.ask()

    def _show_gate(self) -> None:
        keeper, holder = self.bench.keeper, self.ready.key
        self.gate = None
        if holder is not None:
            stand = self.ready.stand_of(holder)
            self.gate = gate(keeper.season, holder, stand, keeper.today, keeper.now)
        self.gate_card.show_gate(self.gate)
        self._show_foot()

    def _show_foot(self) -> None:
        if not self.hand.active:
            self.foot.show_text(self.plan.words(), "quiet")
            return
        shut = self.gate is not None and not self.gate.open
        bad = self.hand.target is not None and not self.hand.takes
        words = f"{shut_words(self.gate)} · {self.hand.words()}" if shut else self.hand.words()
        self.foot.show_text(words, "clay_text" if bad or shut else "leaf_text")

    def _open_story(self) -> None:
        """Show the story of the plant that is chosen on the plan."""
        if self.plan.state.current is None:
            self.bench.say(tr("Choose a plant on the plan first."))
        self.story.open_story(self.plan.state.current)

    def _open_care(self) -> None:
        """Show the care of the bed or the pots that are chosen on the plan."""
        state = self.plan.state
        key = state.chosen if state.mode == DRAW else (state.current.holder if state.current else state.seen)
        bed = state.plot.bed(key) if key is not None else None
        if bed is None:
            self.bench.say(tr("Choose a bed or a group of pots on the plan first."))
            return
        self.hand.let_go()
        self.care.open_care(bed.key)

    def _add(self, kind: str) -> None:
        key = self.acts.add(kind)
        if key is not None:
            self.bar.draw.setChecked(True)
            self.refresh()
            self.plan.choose(key)
            self._focus_on(self.plan)

    def _lay(self, key: str, new: Bed | Shade) -> None:  # noqa: ARG002 the thing knows its key
        self.acts.lay(new)
        self.refresh()

    def _take_away(self, key: str) -> None:
        if self.acts.take_away(key):
            self.plan.choose(None)
            self.refresh()

    def _on_mode(self, mode: str) -> None:
        self.plan.state.mode = mode
        if mode == DRAW:
            self.hand.let_go()
        self.story.show_other(self._drawing if mode == DRAW else self._planting)
        self.plan.refresh()
        self._show_foot()

    def _on_place(self, spot: SpotKey) -> None:
        self.bar.plant.setChecked(True)
        self.plan.go_to(spot)
        self.plan.setFocus(Qt.FocusReason.OtherFocusReason)

    def _on_hand(self) -> None:
        """By keys, go from the rack to the current place of the plan."""
        self._show_foot()
        if self.hand.active and self.hand.by_keys and self.hand.target is None:
            self.bar.plant.setChecked(True)  # while drawing, the keys move the bed
            self.plan.setFocus(Qt.FocusReason.OtherFocusReason)
            free = free_spots(self.bench.keeper.season, self.plan.state.plot)
            current = self.plan.state.current
            self.plan.go_to(current if current in free else next(iter(free), current))

    def _connect(self) -> None:
        self._settle.timeout.connect(self.refresh)
        self.care.asked.connect(self._open_care)
        self.care.closed.connect(lambda: self.plan.setFocus(Qt.FocusReason.OtherFocusReason))
        self.sun.shown.connect(self._show_foot)
        self.bar.mode_changed.connect(self._on_mode)
        self.bar.table_asked.connect(
            lambda on: self._shown.setCurrentWidget(self.tables if on else self.plan)
        )
        self.ready.chosen.connect(self._show_gate)
        self.gate_card.soil_felt.connect(self.acts.feel_soil)
        self.places.chosen.connect(self._on_place)
        self.plan.current_changed.connect(self._show_foot)
        self.plan.current_changed.connect(lambda: self.story.follow(self.plan.state.current))
        self.plan.story_asked.connect(self.story.open_story)
        self.rack.story_asked.connect(self.story.open_story)
        self.plan.chosen_changed.connect(self._on_chosen)
        self.plan.laid.connect(self._lay)
        self.plan.taken_away.connect(self._take_away)
        self.form.added.connect(self._add)
        self.form.chosen.connect(self.plan.choose)
        self.form.changed.connect(self._lay)
        self.form.taken_away.connect(self._take_away)
        self.hand.changed.connect(self._on_hand)
        self.bench.look.changed.connect(self._dress)

    def _on_chosen(self) -> None:
        self.form.show_thing(self.plan.state.plot, self.plan.state.chosen)
        self._show_foot()

    def _lay_out(self) -> None:
        self._left, self._right = in_column((self.cover, 0), (self.gate_card, 0), (self.ready, 1)), QWidget()
        middle = Card()
        middle.title.hide()
        middle.aside.hide()
        self._shown = QStackedWidget()
        self._shown.addWidget(self.plan)
        self._shown.addWidget(self.tables)
        middle.body.addWidget(self.bar)
        middle.body.addWidget(self._shown, 1)
        foot = QHBoxLayout()
        foot.addWidget(self.foot, 1)
        foot.addWidget(self.story_button)
        foot.addWidget(TableButton(self.bench, lambda one: sources.sun(one, self.plan.state.sun)))
        foot.addWidget(self.care_button)
        foot.addWidget(paper_button(self.bench, lambda: Errand(PLOT, back=self.key), kind="link"))
        middle.body.addLayout(foot)
        self._planting = in_column((self.places, 3), (self.mind, 3), (CareHint(), 0))
        self._drawing = scrolled(self.form)
        self._beside = QStackedWidget(self._right)
        self._beside.addWidget(self._planting)
        self._beside.addWidget(self._drawing)
        self.story = StoryBeside(self.panel, self._beside, lambda: self.plan)
        right = QVBoxLayout(self._right)
        right.setContentsMargins(0, 0, 0, 0)
        right.addWidget(self._beside)
        self._work, plan = QWidget(), QWidget()
        self.care = CareStack(self.bench, plan, self, tr("Back to the plan"))
        lay_across(plan, (middle, 5), (self._right, 2))
        lay_across(self._work, (self._left, 2), (self.care, 7))
        for part, (least, most) in ((self._left, LEFT_PX), (self._right, RIGHT_PX)):
            part.setMinimumWidth(least)
            part.setMaximumWidth(most)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(PAGE_MARGIN, BETWEEN, PAGE_MARGIN, BETWEEN)
        self._stack = QStackedLayout()
        outer.addLayout(self._stack)  # first: a stack that is in nothing shows its widgets as windows
        self._stack.addWidget(self._work)
        self._stack.addWidget(self.empty)
        self.plan.state.mode = PLANT

    def _dress(self) -> None:
        self.setStyleSheet(page_style(self.bench.look))
