"""A card that writes one large file off the window's thread, and can be called off until it is whole."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from greenroom.desk.parts import Card, button, label, row
from greenroom.desk.share_bar import ShareBar
from greenroom.desk.tables.saving import choose_file
from greenroom.desk.worker import Cancelled as AskedToStop
from greenroom.desk.worker import Progress, Worker
from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.ledger import LedgerError
from greenroom.speech import tr

CALLED_OFF = tr("Called off; nothing was saved.")

Work = Callable[[Progress, AskedToStop], str]
"""Writes the file, and returns what is said of it then."""


@dataclass(frozen=True, slots=True)
class SaveWords:
    """What a card says; ``key`` ends the names of its buttons, ``file`` is what a file is called at first."""

    key: str
    title: str
    about: str
    act: str
    share: str
    file: str


class SaveCard(Card):
    """One button, progress, and what was saved.

    ``begin`` takes the path and returns the work, which does not run on the window's thread.
    """

    def __init__(self, words: SaveWords, begin: Callable[[Path], Work]) -> None:
        super().__init__(words.title)
        self.aside.hide()
        self._words = words
        self._begin = begin
        self._worker: Worker[str] = Worker((BadFileError, Cancelled, LedgerError), self)
        self.bar = ShareBar(words.share)
        self.write = button(words.act, self.choose, "primary", name=f"save-{words.key}")
        self.cancel = button(tr("Cancel"), self.stop, name=f"cancel-{words.key}")
        self.told = label("", wrap=True)
        self.told.hide()
        for part in (label(words.about, "quiet", wrap=True), self.bar, self.told):
            self.body.addWidget(part)
        self.body.addLayout(row(self.write, self.cancel, None))
        self._worker.progressed.connect(self.bar.show_share)
        self._worker.finished.connect(self._end)
        self._worker.failed.connect(lambda error: self._end(str(error) or CALLED_OFF))
        self._show_busy(busy=False)

    def choose(self) -> None:
        """Let the grower choose where the file is to be."""
        choose_file(self.window(), self._words.file, "zip", tr("Zip files"), self.start)

    def start(self, path: Path) -> None:
        """Write the file."""
        self._tell(tr("Writing {file} …", file=path.name))
        self.bar.show_share(0)
        self._worker.start(self._begin(path))
        self._show_busy(busy=True)
        self.cancel.setFocus()

    def stop(self) -> None:
        """Call the writing off; what was there before stays."""
        if self._worker.running:
            self._worker.cancel()
            self._end(CALLED_OFF)

    def _end(self, words: str) -> None:
        self._show_busy(busy=False)
        self._tell(words)

    def _tell(self, words: str) -> None:
        self.told.setText(words)
        self.told.show()

    def _show_busy(self, *, busy: bool) -> None:
        self.bar.setVisible(busy)
        self.cancel.setVisible(busy)
        self.write.setVisible(not busy)
