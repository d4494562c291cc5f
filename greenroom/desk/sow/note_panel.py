"""The variety chosen in words: seeds, dates, odds, each with its why; what falls short and would help."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.flow import Flow
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, button, label, plain_words, restyle, row, show_words
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.season.deeds_plan import forget_sowing, want
from greenroom.season.hardening_words import day_words
from greenroom.season.plan import Basis, PlanRow
from greenroom.season.plan_help import short_words, shortfall
from greenroom.season.plan_why import frosts_why, odds_why, seeds_why, window_why
from greenroom.season.why import Why
from greenroom.speech import many, tr, trn

HELP_MS = 120
"""What would help is worked out once the hand rests on a variety."""

COVERED = tr(
    "Odds are counted out of doors. A greenhouse or tunnel is not in them; it brings the "
    "heat sooner and keeps the first frosts off."
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
            "seeds": WhyLink(bench, self._seeds_why, tr("seeds: why?")),
            "window": WhyLink(bench, self._window_why, tr("window: why?")),
            "odds": WhyLink(bench, self._odds_why, tr("odds and heat: why?")),
        }
        self.leave_day = button(tr("Leave the day to the plan"), self._leave_day, name="leave-day")
        self.take_off = button(tr("Take off the plan"), self._take_off, name="take-off")
        self.missing = label("", "quiet", wrap=True)
        self.to_place = button(tr("Go to the place"), lambda: bench.show_page("place"), name="plan-to-place")
        self.others_title = label(tr("Short of the odds you want, too"), "strong", wrap=True)
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
        self.helps.setText("\n".join([tr("What would change that:"), *helps]) if helps else "")
        if found is not None and not helps:
            self.helps.setText(
                tr("Nothing tried here (sooner, warmer, covered at night, an earlier kind) would.")
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
        show_words(self.short, words)
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
        down.addWidget(Flow(self.links["odds"], self.links["window"], gap=2))
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
        return tr("{plants} wanted; no packet of it in the seed box is worth sowing.", plants=wanted)
    words = tr(
        "{seeds}, {each} a cell, for {plants}, {percent:.0f} % sure; about {blanks:.0f} of {cells} stay "
        "bare.",
        seeds=many(need.seeds, "seed"),
        each=tr("one", sense="seed a cell") if need.a_cell == 1 else need.a_cell,
        plants=wanted,
        percent=need.confidence * 100,
        blanks=need.blanks,
        cells=many(need.cells, "cell"),
    )
    if need.enough:
        return words
    left = trn(
        "Only 1 is left, which is {percent:.0f} % sure.",
        "Only {n} are left, which is {percent:.0f} % sure.",
        need.left or 0,
        percent=need.sure * 100,
    )
    return f"{words} {left}"


def _window(desk: PlanDesk, chosen: PlanRow) -> str:
    if chosen.window is None:
        return tr("When to sow cannot be told yet.")
    first, last = chosen.window
    percent = desk.plan.rules.odds * 100
    words = tr("Sow between {first} and {last}.", first=day_words(first), last=day_words(last))
    if chosen.latest is not None:
        day = day_words(chosen.latest)
        return f"{words} {tr('{day} is the latest day for {percent:.0f} %.', day=day, percent=percent)}"
    return (
        words if chosen.sowing is None else f"{words} {tr('No day gives {percent:.0f} %.', percent=percent)}"
    )


def _odds(desk: PlanDesk, chosen: PlanRow) -> str:
    sowing, frosts, day = desk.sowing_of(chosen), desk.frosts_of(chosen), desk.day_of(chosen)
    if chosen.sown or desk.trial is not None:
        start = tr("Sown on {day}", day=day_words(day))
    elif chosen.chosen:
        start = tr("Sown, as chosen, on {day}", day=day_words(day))
    else:
        start = tr("If sown on {day}", day=day_words(day))
    if sowing is not None:
        odds = sowing.odds
        return tr(
            "{sown}: ripe in {odds} ({low:.0f} to {high:.0f} %).",
            sown=start,
            odds=odds.words,
            low=odds.low * 100,
            high=odds.high * 100,
        )
    if frosts is not None:
        return tr("{sown}: ripe {odds}, by the calendar alone.", sown=start, odds=frosts.verdict)
    return tr("{sown}: whether it ripens cannot be told.", sown=start)


def _dates(desk: PlanDesk, chosen: PlanRow) -> str:
    sowing, frosts = desk.sowing_of(chosen), desk.frosts_of(chosen)
    if sowing is not None:
        out = day_words(sowing.set_out_on)
        if sowing.ripe is None:
            return tr("Set out about {day}.", day=out)
        return tr("Set out about {day}, first ripe about {ripe}.", day=out, ripe=day_words(sowing.ripe.usual))
    if frosts is not None:
        return tr("Set out {day}, ripe {ripe}.", day=day_words(frosts.set_out), ripe=day_words(frosts.ripe))
    return ""
