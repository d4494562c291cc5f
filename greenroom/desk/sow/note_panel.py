"""The variety chosen in words: seeds, dates, odds, each with its why; what falls short and would help."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, button, label, plain_words, restyle, row
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.season.deeds_plan import forget_sowing, want
from greenroom.season.hardening_words import day_words
from greenroom.season.plan import Basis, PlanRow
from greenroom.season.plan_help import short_words, shortfall
from greenroom.season.plan_why import frosts_why, odds_why, seeds_why, window_why
from greenroom.season.why import Why
from greenroom.speech import many

HELP_MS = 120
"""What would help is worked out once the hand rests on a variety."""

COVERED = (
    "Odds are counted out of doors. A greenhouse or tunnel is not in them; it brings the heat sooner and "
    "keeps the first frosts off."
)


class NotePanel(QWidget):
    """Words beside the chart; they follow the day that is tried."""

    def __init__(self, bench: Bench, desk: PlanDesk) -> None:
        super().__init__()
        self._bench = bench
        self._desk = desk
        self.name = label("", "strong", wrap=True)
        self.seeds, self.when, self.odds, self.dates = (label("", wrap=True) for _ in range(4))
        self.short = label("", "alert", wrap=True)
        self.helps = label("", wrap=True)
        self.covered = label(COVERED, "quiet", wrap=True)
        self.links = {
            "seeds": WhyLink(bench, self._seeds_why, "seeds: why?"),
            "window": WhyLink(bench, self._window_why, "window: why?"),
            "odds": WhyLink(bench, self._odds_why, "odds and heat: why?"),
        }
        self.leave_day = button("Leave the day to the plan", self._leave_day, name="leave-day")
        self.take_off = button("Take off the plan", self._take_off, name="take-off")
        self.missing = label("", "quiet", wrap=True)
        self.to_place = button("Go to the place", lambda: bench.show_page("place"), name="plan-to-place")
        self.others_title = label("Short of the odds you want, too", "strong", wrap=True)
        self.others = QVBoxLayout()
        self.others.setSpacing(2)
        self._lay_out()
        self._help = QTimer(self, singleShot=True, interval=HELP_MS)
        self._help.timeout.connect(self.show_help)
        desk.changed.connect(self.refresh)
        desk.picked.connect(self.refresh)
        desk.tried.connect(self._follow)
        self.refresh()

    def refresh(self) -> None:
        """Show the plan as it stands."""
        if not self.isVisible() and self.name.text():
            return
        plan, chosen = self._desk.plan, self._desk.row
        self.missing.setText("\n".join(plan.missing))
        self.missing.setVisible(bool(plan.missing) and bool(plan.rows))
        self.to_place.setVisible(bool(plan.rows) and plan.basis is not Basis.RECORD)
        parts = (self.name, self.seeds, self.when, self.odds, self.dates, self.take_off)
        for part in (*parts, *self.links.values()):
            part.setVisible(chosen is not None)
        self._show_others()
        self.leave_day.setVisible(chosen is not None and chosen.chosen and not chosen.sown)
        if chosen is None:
            for part in (self.short, self.helps, self.covered):
                part.hide()
            return
        self.name.setText(chosen.name)
        self.seeds.setText(_seeds(chosen))
        self.when.setText(_window(self._desk, chosen))
        self.links["seeds"].setVisible(chosen.seeds is not None)
        self.links["odds"].setVisible(chosen.sowing is not None or chosen.frosts is not None)
        self._follow()
        self._help.start()

    def show_help(self) -> None:
        """Say what would help the variety chosen."""
        self._help.stop()
        chosen, keeper = self._desk.row, self._bench.keeper
        found = None
        if chosen is not None and self._desk.trial is None:
            found = shortfall(keeper.season, self._desk.plan, chosen, keeper.today, self._desk.say_c)
        helps = [f"\u2022 {one.words}" for one in found.helps] if found is not None else []
        self.helps.setText("\n".join(["What would change that:", *helps]) if helps else "")
        if found is not None and not helps:
            self.helps.setText(
                "Nothing tried here (sooner, warmer, covered at night, an earlier kind) would."
            )
        self.helps.setVisible(found is not None)
        self.covered.setVisible(found is not None)

    def stop(self) -> None:
        """Leave what waits."""
        self._help.stop()

    def _follow(self) -> None:
        chosen = self._desk.row
        if chosen is None:
            return
        self.odds.setText(_odds(self._desk, chosen))
        self.dates.setText(_dates(self._desk, chosen))
        tried = self._desk.trial is not None
        words = "" if tried else short_words(self._desk.plan, chosen)
        self.short.setText(words)
        self.short.setVisible(bool(words))
        role = "" if words else "alert" if self._desk.is_short(chosen) else "good"
        restyle(self.odds, "role", role)
        if tried:
            self.helps.hide()
            self.covered.hide()

    def _show_others(self) -> None:
        while (item := self.others.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.deleteLater()
        chosen = self._desk.row
        rows = [one for one in self._desk.plan.rows if one.short and one is not chosen]
        self.others_title.setVisible(bool(rows))
        for one in rows:
            words = one.name if one.sowing is None else f"{one.name}, {one.sowing.odds.words}"
            made = button(plain_words(words), partial(self._desk.pick, one.variety), "link")
            made.setAccessibleDescription(short_words(self._desk.plan, one))
            self.others.addWidget(made, 0, Qt.AlignmentFlag.AlignLeft)

    def _seeds_why(self) -> Why | None:
        chosen = self._desk.row
        keeper = self._bench.keeper
        return seeds_why(keeper.season, chosen, keeper.today) if chosen is not None else None

    def _window_why(self) -> Why | None:
        chosen, season = self._desk.row, self._bench.keeper.season
        return window_why(season, self._desk.plan, chosen, self._desk.say_c) if chosen is not None else None

    def _odds_why(self) -> Why | None:
        chosen, season = self._desk.row, self._bench.keeper.season
        if chosen is None:
            return None
        found = odds_why(season, self._desk.plan, chosen, self._desk.say_c)
        return found if found is not None else frosts_why(season, chosen, self._desk.say_c)

    def _leave_day(self) -> None:
        chosen, keeper = self._desk.row, self._bench.keeper
        if chosen is not None:
            keeper.do(lambda: forget_sowing(keeper.season, chosen.variety, self._desk.year))

    def _take_off(self) -> None:
        chosen, keeper = self._desk.row, self._bench.keeper
        if chosen is not None:
            keeper.do(lambda: want(keeper.season, chosen.variety, self._desk.year, 0, keeper.today))

    def _lay_out(self) -> None:
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, GAP, 0)
        down.setSpacing(GAP - 2)
        parts: tuple[QLabel, ...] = (self.name, self.short, self.helps, self.covered, self.odds)
        for part in parts:
            down.addWidget(part)
        down.addWidget(self.dates)
        down.addWidget(self.when)
        down.addWidget(self.seeds)
        down.addLayout(row(self.links["odds"], self.links["window"], None, gap=2))
        down.addLayout(row(self.links["seeds"], None))
        down.addLayout(row(self.leave_day, None))
        down.addLayout(row(self.take_off, None))
        down.addWidget(self.missing)
        down.addLayout(row(self.to_place, None))
        down.addWidget(self.others_title)
        down.addLayout(self.others)
        down.addStretch(1)


def _seeds(chosen: PlanRow) -> str:
    need = chosen.seeds
    wanted = many(chosen.plants, "plant")
    if need is None:
        return f"{wanted} wanted; no packet of it in the seed box is worth sowing."
    each = "one a cell" if need.a_cell == 1 else f"{need.a_cell} a cell"
    words = (
        f"{many(need.seeds, 'seed')}, {each}, for {wanted}, {need.confidence * 100:.0f} % sure; about "
        f"{need.blanks:.0f} of {many(need.cells, 'cell')} stay bare."
    )
    if need.enough:
        return words
    return f"{words} Only {need.left} are left, which is {need.sure * 100:.0f} % sure."


def _window(desk: PlanDesk, chosen: PlanRow) -> str:
    if chosen.window is None:
        return "When to sow cannot be told yet."
    first, last = chosen.window
    wanted = f"{desk.plan.rules.odds * 100:.0f} %"
    words = f"Sow between {day_words(first)} and {day_words(last)}."
    if chosen.latest is not None:
        return f"{words} {day_words(chosen.latest)} is the latest day for {wanted}."
    return words if chosen.sowing is None else f"{words} No day gives {wanted}."


def _odds(desk: PlanDesk, chosen: PlanRow) -> str:
    sowing, frosts, day = desk.sowing_of(chosen), desk.frosts_of(chosen), desk.day_of(chosen)
    verb = (
        "Sown"
        if chosen.sown or desk.trial is not None
        else "Sown, as chosen,"
        if chosen.chosen
        else "If sown"
    )
    start = f"{verb} on {day_words(day)}"
    if sowing is not None:
        odds = sowing.odds
        return f"{start}: ripe in {odds.words} ({odds.low * 100:.0f} to {odds.high * 100:.0f} %)."
    if frosts is not None:
        return f"{start}: ripe {frosts.verdict}, by the calendar alone."
    return f"{start}: whether it ripens cannot be told."


def _dates(desk: PlanDesk, chosen: PlanRow) -> str:
    sowing, frosts = desk.sowing_of(chosen), desk.frosts_of(chosen)
    if sowing is not None:
        words = f"Set out about {day_words(sowing.set_out_on)}"
        return f"{words}, first ripe about {day_words(sowing.ripe.usual)}." if sowing.ripe else f"{words}."
    if frosts is not None:
        return f"Set out {day_words(frosts.set_out)}, ripe {day_words(frosts.ripe)}."
    return ""
