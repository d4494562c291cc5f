"""The jobs of one place where one stands, and what was done there today."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button
from greenroom.desk.round.done_row import QuietRow
from greenroom.desk.round.job_row import JobRow
from greenroom.season.jobs.done import Done
from greenroom.season.jobs.job import Job
from greenroom.speech import many, tr

SHOWN_JOBS, SHOWN_DONE = 12, 3


class PlaceCard(Card):
    """Rows are kept for as long as their job is there, so that the keyboard keeps its place."""

    done = Signal(object, float)
    opened = Signal(object)
    later = Signal(object, int)
    struck = Signal(object)
    moved = Signal(object, int)
    taken_back = Signal(object)

    def __init__(self, bench: Bench, where: str) -> None:
        super().__init__(where)
        self._bench = bench
        self.setObjectName("round-place")
        self.rows: dict[str, JobRow] = {}
        self.done_rows: list[QuietRow] = []
        self._all_jobs = self._all_done = False
        self._jobs: Sequence[Job] = ()
        self._told: Sequence[Done] = ()
        self._job_box, self._done_box = QVBoxLayout(), QVBoxLayout()
        for box in (self._job_box, self._done_box):
            box.setSpacing(2)
        self.more_jobs = button("", self._show_all_jobs, "link", name="more-jobs")
        self.more_done = button("", self._show_all_done, "link", name="more-done")
        self.body.setSpacing(GAP // 2)
        self.body.addLayout(self._job_box)
        self.body.addWidget(self.more_jobs)
        self.body.addLayout(self._done_box)
        self.body.addWidget(self.more_done)

    def show_round(self, jobs: Sequence[Job], told: Sequence[Done]) -> None:
        """Show what is to be done here and what was done."""
        again = told != self._told or not self.done_rows
        self._jobs, self._told = jobs, told
        left, did = many(len(jobs), "thing"), tr("{n} done", n=len(told))
        self.aside.setText(", ".join([*([left] if jobs else []), *([did] if told else [])]))
        self._show_jobs()
        if again:
            self._show_done()
        self.setVisible(bool(jobs or told))

    def ordered(self) -> list[JobRow]:
        """Return the rows as they stand, from the top."""
        return [self.rows[job.key] for job in self._jobs if job.key in self.rows]

    def _show_jobs(self) -> None:
        shown = self._jobs if self._all_jobs else self._jobs[:SHOWN_JOBS]
        keys = {job.key for job in shown}
        for key in [key for key in self.rows if key not in keys]:
            gone = self.rows.pop(key)
            self._job_box.removeWidget(gone)
            gone.hide()
            gone.deleteLater()
        for place, job in enumerate(shown):
            row = self.rows.get(job.key)
            if row is None:
                row = self.rows[job.key] = self._row(job)
            else:
                row.show_job(job)
            if self._job_box.indexOf(row) != place:
                self._job_box.removeWidget(row)
                self._job_box.insertWidget(place, row)
                row.show()
        hidden = len(self._jobs) - len(shown)
        self.more_jobs.setText(tr("Show {n} more", n=hidden))
        self.more_jobs.setVisible(hidden > 0)

    def _show_done(self) -> None:
        for row in self.done_rows:
            self._done_box.removeWidget(row)
            row.hide()
            row.deleteLater()
        latest = list(reversed(self._told))
        shown = latest if self._all_done else latest[:SHOWN_DONE]
        self.done_rows = [self._done_row(done) for done in shown]
        hidden = len(latest) - len(shown)
        self.more_done.setText(tr("Show {n} more done today", n=hidden))
        self.more_done.setVisible(hidden > 0)

    def _row(self, job: Job) -> JobRow:
        row = JobRow(self._bench, job)
        row.done.connect(lambda value: self.done.emit(row.job, value))
        row.opened.connect(lambda: self.opened.emit(row.job))
        row.later.connect(lambda days: self.later.emit(row.job, days))
        row.struck.connect(lambda: self.struck.emit(row.job))
        row.moved.connect(lambda step: self.moved.emit(row, step))
        return row

    def _done_row(self, done: Done) -> QuietRow:
        row = QuietRow(done.what, done.words, tr("take back"))
        row.back.connect(lambda: self.taken_back.emit(done))
        self._done_box.addWidget(row)
        return row

    def _show_all_jobs(self) -> None:
        self._all_jobs = True
        self._show_jobs()

    def _show_all_done(self) -> None:
        self._all_done = True
        self._show_done()
