"""The round: everything to do today, by where one stands, and the week below."""

from __future__ import annotations

from datetime import datetime, timedelta

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.care.part import CareErrand
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.nothing_yet import MOST, NothingYet
from greenroom.desk.page import Page
from greenroom.desk.paper.errand import ROUND, Errand
from greenroom.desk.paper.way import paper_button
from greenroom.desk.parts import WhyLink, button, column, label, row, short_label
from greenroom.desk.pick.errand import PickErrand
from greenroom.desk.round.aside_card import AsideCard
from greenroom.desk.round.job_row import JobRow
from greenroom.desk.round.place_card import PlaceCard
from greenroom.desk.round.week_card import WeekCard
from greenroom.desk.slices import Slices
from greenroom.desk.tables import sources
from greenroom.desk.tables.calendars import round_calendar_button
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.deeds_round import bring_back, put_off, strike_out
from greenroom.season.jobs.done import Done, take_done_back
from greenroom.season.jobs.job import WHERE, Job, Walk
from greenroom.season.packets import varieties
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.round import DayAhead, Round, job_now, the_round, week, worked_out
from greenroom.season.state import Touched
from greenroom.season.week_why import week_why
from greenroom.season.weekdays import weekday_words
from greenroom.speech import tr

REFRESH_MS = 40
AT_ONCE_MS = 60
WORKING = tr("working the round out…")
NOTHING = tr("Nothing to do now")
FILLS = tr("The round fills itself, from what is sown, weighed, watered and fed, and from the weather.")
FILLED = tr("All that is due is done; what comes next stands in the week below.")
HINT = tr("Enter: done   L: later   W: why   Delete: never again")


def errand_of(job: Job) -> object | None:
    """Return what the page of a job is gone to for: a tab of care, a variety to pick, or a holder."""
    if job.care is not None:
        return CareErrand(*job.care)
    if job.page == "pick" and job.about:
        return PickErrand(*job.about)
    return job.about[0] if job.about else None


class RoundPage(Page):
    """Jobs stand in a card for each place; the list scrolls, the week stays."""

    key = "round"

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._minute: datetime | None = None
        self._ahead: list[DayAhead] = []
        self.head = label(tr("The round"), "page-title")
        self.figure = label("", "quiet")
        self.hint = short_label(HINT, "quiet")
        self.aside_button = button("", self._toggle_aside, "link", name="round-put-aside")
        self.aside = AsideCard()
        self.aside.brought_back.connect(self._bring_back)
        self.aside.hide()
        self.places = {where: self._place_card(where) for where in WHERE}
        self.to_seed = self._step(tr("To the seed box"), "seed")
        self.to_sow = self._step(tr("Sow a tray"), "sow")
        self.nothing = NothingYet(NOTHING, "", self.to_seed, self.to_sow)
        self.nothing.hide()  # until it is known
        self.week = WeekCard(bench.look)
        self.week.head.addWidget(WhyLink(bench, lambda: week_why(self._ahead)))
        self.week.head.addWidget(TableButton(bench, sources.week))
        self._slices = Slices(self)
        self._slices.ended.connect(self._show_first)
        self._timer = QTimer(self, singleShot=True, interval=REFRESH_MS)
        self._timer.timeout.connect(self.refresh)
        self._lay_out()

    def take(self, touched: Touched) -> None:
        if self.isVisible() and touched.kinds and not self._slices.running:
            self._timer.start()

    def tick(self, now: datetime) -> None:
        minute = now.replace(second=0, microsecond=0)
        if self.isVisible() and minute != self._minute and not self._slices.running:
            self.refresh()

    def entered(self) -> None:
        """Show the round; what takes longer to work out is done in slices, and shown when it is there."""
        keeper = self.bench.keeper
        if self._slices.at_once(worked_out(keeper.season, keeper.today, keeper.now), AT_ONCE_MS):
            self._show_first()
        else:
            self.figure.setText(WORKING)

    def _show_first(self) -> None:
        self.refresh()
        first = next(iter(self.rows()), None)
        if first is not None:
            first.setFocus()

    def leave(self) -> None:
        self._timer.stop()
        self._slices.stop()

    def rows(self) -> list[JobRow]:
        """Return the jobs' rows as they stand, from the top of the page."""
        return [one for card in self.places.values() for one in card.ordered()]

    def refresh(self) -> None:
        """Show the round as it is now; the keyboard stays where it was, or goes to what took its place."""
        keeper = self.bench.keeper
        self._timer.stop()
        self._minute = keeper.now.replace(second=0, microsecond=0)
        before = self._focused()
        found = the_round(keeper.season, keeper.today, keeper.now)
        self._show_head(found)
        for where, card in self.places.items():
            card.show_round(
                [job for job in found.jobs if job.where == where],
                [one for one in found.done if one.where == where],
            )
        self.aside.show_round(found)
        self._show_nothing(found)
        self._ahead = week(keeper.season, keeper.today, keeper.now, found)
        self.week.show_week(self._ahead)
        self._refocus(before)

    def _show_head(self, found: Round) -> None:
        told = [tr("{n} to do", n=len(found.jobs))]
        if found.done:
            told.append(tr("{n} done", n=len(found.done)))
        self.figure.setText(f"{weekday_words(found.today)} · {', '.join(told)}")
        hidden = len(found.put_off) + len(found.struck)
        self.aside_button.setText(tr("{n} put aside", n=hidden))
        self.aside_button.setVisible(hidden > 0)
        if not hidden:
            self.aside.hide()
        self.hint.setVisible(bool(found.jobs))

    def _focused(self) -> tuple[int, str] | None:
        """Return the place and the job of the row that holds the keyboard, or None."""
        widget = QApplication.focusWidget()
        for place, one in enumerate(self.rows()):
            if widget is one or (widget is not None and one.isAncestorOf(widget)):
                return place, one.job.key
        return None

    def _refocus(self, before: tuple[int, str] | None) -> None:
        """Give the keyboard to what took the place of the row that held it, if that is gone."""
        rows = self.rows()
        if before is None or not rows or before[1] in {one.job.key for one in rows}:
            return
        rows[min(before[0], len(rows) - 1)].setFocus()

    def _do(self, job: Job, value: float) -> None:
        self.bench.keeper.do(lambda: self._fresh(job).done(value))

    def _fresh(self, job: Job) -> Job:
        """Return a job as it is at this very moment: what is done at the door is done now."""
        keeper = self.bench.keeper
        fresh = job_now(keeper.season, keeper.today, keeper.now, job.key)
        if fresh is None:
            raise RefusedError(tr("{what}: that is no longer to be done.", what=job.what))
        return fresh

    def _later(self, job: Job, days: int) -> None:
        today = self.bench.keeper.today
        self.bench.keeper.do(lambda: put_off(job.key, job.what, today, today + timedelta(days=days)))

    def _strike(self, job: Job) -> None:
        keeper = self.bench.keeper
        keeper.do(lambda: strike_out(keeper.season, job.key, job.what, keeper.today))

    def _bring_back(self, job: Job) -> None:
        keeper = self.bench.keeper
        keeper.do(lambda: bring_back(keeper.season, job.key, job.what))

    def _take_back(self, done: Done) -> None:
        keeper = self.bench.keeper

        def struck() -> Proposal:
            return take_done_back(Walk.of(keeper.season, keeper.today, keeper.now), done)

        keeper.do(struck)

    def _open(self, job: Job) -> None:
        errand = errand_of(job)
        if errand is not None:
            self.bench.send(job.page, errand)
        else:
            self.bench.show_page(job.page)

    def _move(self, at: JobRow, step: int) -> None:
        rows = self.rows()
        place = rows.index(at) + step
        if 0 <= place < len(rows):
            rows[place].setFocus()
            self.scroller.ensureWidgetVisible(rows[place])

    def _toggle_aside(self) -> None:
        self.aside.setVisible(self.aside.isHidden())
        if self.aside.isVisible():
            self.scroller.verticalScrollBar().setValue(0)  # it stands on top of the list

    def _place_card(self, where: str) -> PlaceCard:
        card = PlaceCard(self.bench, where)
        card.done.connect(self._do)
        card.opened.connect(self._open)
        card.later.connect(self._later)
        card.struck.connect(self._strike)
        card.moved.connect(self._move)
        card.taken_back.connect(self._take_back)
        return card

    def _step(self, words: str, page: str) -> QPushButton:
        return button(words, lambda: self.bench.show_page(page), "primary", name=f"round-to-{page}")

    def _show_nothing(self, found: Round) -> None:
        """Say that nothing is to be done, and the next step where a season is only beginning."""
        season = self.bench.keeper.season
        seed, trays = bool(varieties(season)), bool(season.holders())
        self.nothing.say(NOTHING, FILLED if trays else FILLS)
        self.to_seed.setVisible(not seed)
        self.to_sow.setVisible(seed and not trays)
        self.nothing.setVisible(not found.jobs)

    def _lay_out(self) -> None:
        inner = QWidget()
        inner.setObjectName("ground")
        listed = QVBoxLayout(inner)
        listed.setContentsMargins(0, 0, GAP, 0)
        listed.setSpacing(GAP)
        for card in (self.aside, self.nothing, *self.places.values()):
            listed.addWidget(card)
        listed.setStretchFactor(self.nothing, MOST)
        listed.addStretch(1)
        self.scroller = QScrollArea()
        self.scroller.setWidgetResizable(True)
        self.scroller.setFrameShape(QFrame.Shape.NoFrame)
        self.scroller.setFocusPolicy(self.scroller.focusPolicy().NoFocus)
        self.scroller.setWidget(inner)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(PAGE_MARGIN, GAP + 4, PAGE_MARGIN, GAP + 4)
        top = row(self.head, self.figure, self.aside_button, None, self.hint, gap=GAP + 4)
        top.addWidget(paper_button(self.bench, lambda: Errand(ROUND, back=self.key), kind="link"))
        top.addWidget(TableButton(self.bench, sources.the_round))
        top.addWidget(round_calendar_button(self.bench))
        body = column(gap=GAP)
        body.addLayout(top)
        body.addWidget(self.scroller, 1)
        body.addWidget(self.week)
        layout.addLayout(body)
