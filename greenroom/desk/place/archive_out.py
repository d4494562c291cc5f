"""Saving a season archive, off the window's thread; it can be called off until the file is whole."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QProgressBar

from greenroom.desk.bench import Bench
from greenroom.desk.parts import Card, button, label, row
from greenroom.desk.place.archive_words import written_words
from greenroom.desk.story.room import room_of
from greenroom.desk.tables.saving import choose_file
from greenroom.desk.worker import Cancelled as AskedToStop
from greenroom.desk.worker import Progress, Worker
from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.season_archive import Written, write_archive
from greenroom.ledger import LedgerError
from greenroom.speech import tr

FULL = 100
ABOUT = tr(
    "One zip with everything: every fact, also those struck out, with who wrote it and "
    "when, and every picture. It is JSON with its schema beside it, so that other "
    "programs can read it, and it can be brought in again, here or on another computer."
)
CALLED_OFF = tr("Called off; nothing was saved.")


class ArchiveOut(Card):
    """One button, progress, and what was saved."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Save an archive"))
        self.aside.hide()
        self._bench = bench
        self._worker: Worker[Written] = Worker((BadFileError, Cancelled, LedgerError), self)
        self.bar = QProgressBar()
        self.bar.setRange(0, FULL)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName(tr("share of the archive written"))
        self.write = button(tr("Save an archive…"), self.choose, "primary", name="save-archive")
        self.cancel = button(tr("Cancel"), self.stop, name="cancel-archive")
        self.told = label("", wrap=True)
        for part in (label(ABOUT, "quiet", wrap=True), self.bar, self.told):
            self.body.addWidget(part)
        self.body.addLayout(row(self.write, self.cancel, None))
        self._worker.progressed.connect(lambda share: self.bar.setValue(int(share * FULL)))
        self._worker.finished.connect(lambda written: self._end(written_words(written)))
        self._worker.failed.connect(lambda error: self._end(str(error) or CALLED_OFF))
        self._show_busy(busy=False)
        self.told.hide()

    def choose(self) -> None:
        """Let the grower choose where the archive is to be."""
        choose_file(self.window(), tr("greenroom season"), "zip", tr("Zip files"), self.start)

    def start(self, path: Path) -> None:
        """Write the archive."""
        keeper = self._bench.keeper
        ledger, now, store = keeper.ledger, keeper.now, room_of(keeper).store

        def work(progress: Progress, stopped: AskedToStop) -> Written:
            return write_archive(path, ledger.book(), store, now, progress, stopped)

        self.told.setText(tr("Writing {file} …", file=path.name))
        self.bar.setValue(0)
        self._worker.start(work)
        self._show_busy(busy=True)
        self.cancel.setFocus()

    def stop(self) -> None:
        """Call the writing off; what was there before stays."""
        if self._worker.running:
            self._worker.cancel()
            self._end(CALLED_OFF)

    def _end(self, words: str) -> None:
        self._show_busy(busy=False)
        self.told.setText(words)

    def _show_busy(self, *, busy: bool) -> None:
        self.bar.setVisible(busy)
        self.cancel.setVisible(busy)
        self.write.setVisible(not busy)
        self.told.show()
