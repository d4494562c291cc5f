"""The card in the middle: one holder, the sun's arc with its counter, and what is done and seen."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QStackedWidget, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.harden.arc_hours import ArcHours, warmth_along
from greenroom.desk.harden.arc_words import described
from greenroom.desk.harden.counter_lines import CounterLines, Light, light_words
from greenroom.desk.harden.days_ahead import measured, span_words
from greenroom.desk.harden.door_buttons import DoorButtons
from greenroom.desk.harden.hours_ahead import HoursAhead
from greenroom.desk.harden.inline_panel import InlinePanel
from greenroom.desk.harden.kept_in_panel import KeptInPanel
from greenroom.desk.harden.outing_panel import OutingPanel
from greenroom.desk.harden.setback_panel import SetbackPanel
from greenroom.desk.harden.sky_bar import SkyBar
from greenroom.desk.harden.standings import Standings
from greenroom.desk.harden.start_panel import NOTHING_UP, StartPanel
from greenroom.desk.harden.sun_arc import ArcScene, SunArc
from greenroom.desk.harden.yard_panel import YardPanel
from greenroom.desk.look import GAP
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.parts import Card, WhyLink, button, column, label, restyle, row, short_label, show_words
from greenroom.ledger.facts import YardSun
from greenroom.season.deeds_harden import come_in, go_out, outing_of, switch_light
from greenroom.season.door import AtDoor, in_words, light_until, next_words, state_words
from greenroom.season.hardening import forecast_from, todays_verdict
from greenroom.season.hardening_why import minutes_why, step_words, verdict_words
from greenroom.season.hardening_words import whole_minutes
from greenroom.season.outdoors_why import counted_why, hold_why, shade_plan_words, shade_why
from greenroom.season.outings import Stretch, stretches_on
from greenroom.season.proposal import Proposal
from greenroom.season.ramp_rules import RampRules, rules_of, rules_of_holder
from greenroom.season.sun_day import sun_day
from greenroom.season.why import Why
from greenroom.season.within import in_row, inside
from greenroom.season.yard_sun import yard_sun
from greenroom.speech import tr

NO_PLACE = tr(
    "The path of the sun needs your place. Until it is set, times of day are UTC; minutes are right."
)
NO_HOLDER = tr("Nothing is going out yet")
BEGIN = tr("Begin hardening")


class OutingCard(Card):
    """Shows one holder; its panels open in place of the arc and close onto it."""

    panel_changed = Signal()

    def __init__(self, bench: Bench, standings: Standings, hours: HoursAhead) -> None:
        super().__init__(NO_HOLDER)
        self._bench = bench
        self._standings = standings
        self._hours = hours
        self._shown_hours = ArcHours()
        self._key = ""
        self._sun_of: tuple[object, object] | None = None
        self._sun = sun_day(bench.keeper.place, bench.keeper.today)
        self.lines = CounterLines(bench, self._minutes_why, self._light_why, self._shade_why)
        self.best = label("")
        self.best_part = short_label("", "quiet")
        self.best_shade = label("", "quiet")
        self.sky = SkyBar(bench)
        self.best_why = WhyLink(bench, lambda: hours.why(bench.keeper.today))
        self.best_why.setAccessibleName(tr("why these hours"))
        self.corner = QWidget()
        self.arc = SunArc(bench.look, self.lines, self.corner)
        self.buttons = DoorButtons()
        self.verdict = label("", wrap=True)
        self.verdict_why = WhyLink(bench, self._verdict_why)
        self.verdict_why.setAccessibleName(tr("why this verdict"))
        self.times = button(tr("Enter &times"), self._enter_times, "link", name="enter-times")
        self.step_sun = button(tr("Sun on the ste&p"), self._open_yard, "link", name="sun-on-step")
        self.no_place = label(NO_PLACE, "quiet", wrap=True)
        self.to_place = button(tr("Set the &place"), lambda: bench.show_page("place"), name="to-place")
        self.setback = SetbackPanel(bench)
        self.kept_in = KeptInPanel(bench)
        self.outing = OutingPanel(bench)
        self.start = StartPanel(bench)
        self.yard = YardPanel(bench)
        to_grow = button(tr("Go to Grow on"), lambda: bench.show_page("grow"), "primary", name="to-grow")
        self.nothing = NothingYet(NO_HOLDER, NOTHING_UP, to_grow, inside=True)
        self.stack = QStackedWidget()
        self._before_panel: QPushButton | None = None
        self._assemble()

    @property
    def key(self) -> str:
        """The holder that is shown, or an empty text."""
        return self._key

    @property
    def panel(self) -> InlinePanel | None:
        """The panel that is open, or None."""
        found = self.stack.currentWidget()
        return found if isinstance(found, InlinePanel) else None

    def show_holder(self, key: str) -> None:
        """Show a holder; an open panel closes, as it is about another."""
        if key != self._key:
            self._key = key
            self.close_panel()
            self.title.show()
            if self.stack.currentWidget() is self.nothing:
                self.stack.setCurrentIndex(0)
            self.show_day()

    def show_now(self, here: AtDoor, now: datetime) -> None:
        """Show the holder as it is now."""
        beginning = self.panel is self.start
        self.title.setText(BEGIN if beginning else here.name)
        self.aside.setText("" if beginning else f"{here.pots} · {step_words(here.stand)}")
        place = self._bench.keeper.place
        stretches = tuple(stretches_on(here.stand.outings, here.stand.today, place.zone, now))
        light = self._light(here, now)
        self.lines.show_holder(here, light, place)
        self._show_arc(here, stretches, now, light)
        self.sky.show_holder(here.key, here.stand.by)
        self.buttons.show_for(here)
        self.times.setVisible(self.panel is None)
        self.step_sun.setVisible(self.panel is None and place.known)

    def show_day(self) -> None:
        """Show what holds for the whole day: the weather's verdict, and whether the place is known."""
        keeper = self._bench.keeper
        known = keeper.place.known
        self.no_place.setVisible(not known)
        self.to_place.setVisible(not known)
        said = todays_verdict(keeper.season, keeper.today, self._rules().limits)
        self.verdict_why.setVisible(said is not None)
        if said is None:
            self.verdict.setText(
                f"{self._with_tender(tr('No weather is known for today; look at the sky'))}."
            )
            restyle(self.verdict, "role", "quiet")
            return
        weather = forecast_from(keeper.season, keeper.today)[keeper.today]
        reasons = tuple(measured(reason, weather, keeper.place) for reason in said[1])
        words = inside(verdict_words((said[0], reasons)))
        self.verdict.setText(
            tr("Today's weather: {verdict}", verdict=words if said[0] == "hold" else self._with_tender(words))
        )
        restyle(
            self.verdict, "role", "alert" if said[0] == "hold" else "good" if said[0] == "out" else "strong"
        )

    def show_hours(self) -> None:
        """Show the best hours of today, when the sun is on the step, and how warm it gets."""
        keeper = self._bench.keeper
        found = self._hours.of(keeper.today)
        best = found.windows.best if found else None
        told = keeper.season.latest(YardSun) is not None and keeper.place.known
        yard = yard_sun(keeper.season, keeper.today) if told else None
        self._shown_hours = ArcHours(best, yard, warmth_along(keeper.season, keeper.today))
        asked = found is not None and found.windows.asked > 0
        self.best.setText(span_words(best, keeper.place) if asked else tr("shade alone"))
        self.best_part.setText(best.part.value if best else "")
        show_words(self.best_shade, shade_plan_words(found.windows.outing, keeper.place) if found else "")
        self.corner.setVisible(found is not None and keeper.place.known)
        self.corner.adjustSize()

    def show_empty(self) -> None:
        """Show that no holder is on a ramp, and how to begin."""
        self._key = ""
        self.title.setText(NO_HOLDER)
        self.aside.setText("")
        self.times.setVisible(False)
        self.step_sun.setVisible(False)
        some = bool(self.start.candidates)
        self.title.setVisible(some)
        if not some:
            self._show_nothing()
            return
        if self.panel is not self.start:
            self.open_start()
        self.start.cancel.setVisible(False)

    def _show_nothing(self) -> None:
        """Say that nothing can be hardened yet."""
        if self.stack.currentWidget() is not self.nothing:
            self.stack.setCurrentWidget(self.nothing)
            self.nothing.take_focus()
            self.panel_changed.emit()

    def open_start(self) -> None:
        """Open the panel that begins hardening."""
        self.start.cancel.setVisible(True)
        self._open(self.start, self.start.open)

    def close_panel(self) -> None:
        """Close the open panel; the focus goes back to where it was opened from."""
        if self.panel is None:
            return
        self.stack.setCurrentIndex(0)
        self.panel_changed.emit()
        if self._before_panel is not None and self._before_panel.isVisible():
            self._before_panel.setFocus()

    def refresh_panel(self) -> None:
        """Let the open panel see what has changed."""
        if self.panel is not None:
            self.panel.refresh()

    def _assemble(self) -> None:
        door = QWidget()
        layout = QVBoxLayout(door)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        for words, beside in ((self.verdict, self.verdict_why), (self.no_place, self.to_place)):
            line = row(words, beside)
            line.setStretch(0, 1)
            layout.addLayout(line)
        layout.addWidget(self.sky)
        layout.addWidget(self.arc, 1)
        corner = column(self.best, gap=0)
        corner.addLayout(row(self.best_part, self.best_why, None))
        corner.addWidget(self.best_shade)
        self.corner.setLayout(corner)
        self.corner.hide()
        layout.addWidget(self.buttons)
        self.stack.addWidget(door)
        self.stack.addWidget(self.nothing)
        for panel in (self.setback, self.kept_in, self.outing, self.start, self.yard):
            self.stack.addWidget(panel)
            panel.closed.connect(partial(self._closed, panel))
        self.head.addWidget(self.step_sun)
        self.head.addWidget(self.times)
        self.body.addWidget(self.stack, 1)
        self.buttons.moved.connect(self._move)
        self.buttons.seen.connect(self._see)

    def _open(self, panel: InlinePanel, prepare: Callable[[], None]) -> None:
        sender = self.focusWidget()
        self._before_panel = sender if isinstance(sender, QPushButton) else None
        self.stack.setCurrentWidget(panel)
        prepare()
        self.panel_changed.emit()

    def _see(self, what: str) -> None:
        if what == "kept":
            self._open(self.kept_in, lambda: self.kept_in.open_for(self._key))
        else:
            self._open(self.setback, lambda: self.setback.open_for(self._key, what))

    def _enter_times(self) -> None:
        self._open(self.outing, lambda: self.outing.open_for(self._key))

    def _open_yard(self) -> None:
        self._open(self.yard, self.yard.open)

    def _closed(self, panel: InlinePanel) -> None:
        """Close a panel that asks for it; what it did may have opened another already."""
        if self.panel is panel:
            self.close_panel()

    def _move(self, where: str) -> None:
        self._bench.keeper.do(lambda: self._moving(where))

    def _moving(self, where: str) -> Proposal:
        season, now = self._bench.keeper.season, self._bench.keeper.now
        if where == "in":
            return come_in(season, self._key, now)
        if outing_of(season, self._key) is not None:
            return switch_light(season, self._key, now, where)
        return go_out(season, self._key, now, where)

    def _show_arc(
        self, here: AtDoor, stretches: tuple[Stretch, ...], now: datetime, light: Light | None
    ) -> None:
        keeper = self._bench.keeper
        if self._sun_of != (keeper.place, keeper.today):
            self._sun_of = (keeper.place, keeper.today)
            self._sun = sun_day(keeper.place, keeper.today)
        minute = now.replace(second=0, microsecond=0)
        shown = tuple(
            Stretch(one.light, one.start, minute if one.end == now else one.end) for one in stretches
        )
        due = here.due.replace(second=0, microsecond=0) if here.due else None
        counter = str(whole_minutes(here.sun))
        scene = ArcScene(self._sun, keeper.place, minute, shown, due, counter, self._shown_hours)
        words = [
            tr("{done} of {limit} minutes of sun", done=counter, limit=here.stand.sun.limit),
            state_words(here, keeper.place),
            next_words(here, keeper.place),
            in_words(here),
            light_words(light),
        ]
        self.arc.show_scene(scene, described(scene, here.name, words))

    def _light(self, here: AtDoor, now: datetime) -> Light | None:
        """Return the light in the sun so far, and with what is left of today's sun minutes."""
        so_far = here.counted.light_mol_m2
        if so_far is None:
            return None
        if here.due is not None:
            return Light(so_far, so_far + light_until(self._bench.keeper.season, here, now))
        best = self._shown_hours.best
        if here.out or best is None or best.light_mol_m2 is None:
            return Light(so_far)
        return Light(so_far, so_far + best.light_mol_m2)

    def _with_tender(self, words: str) -> str:
        """Add where a tender holder belongs that is on its first steps outdoors."""
        stand = self._standings.of(self._key) if self._key else None
        return in_row((words, tr("sheltered still"))) if stand and stand.sheltered_first else words

    def _rules(self) -> RampRules:
        season = self._bench.keeper.season
        return rules_of_holder(season, self._key) if self._key else rules_of(season, None)

    def _minutes_why(self) -> Why | None:
        stand = self._standings.of(self._key)
        return minutes_why(stand) if stand else None

    def _shade_why(self) -> Why | None:
        stand = self._standings.of(self._key)
        return shade_why(stand) if stand else None

    def _light_why(self) -> Why | None:
        stand = self._standings.of(self._key)
        return counted_why(stand, self._bench.keeper.place) if stand else None

    def _verdict_why(self) -> Why | None:
        keeper, rules = self._bench.keeper, self._rules()
        said = todays_verdict(keeper.season, keeper.today, rules.limits)
        weather = forecast_from(keeper.season, keeper.today).get(keeper.today)
        return hold_why(said, weather, rules, keeper.place) if said and weather else None
