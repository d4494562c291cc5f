"""Bringing a season archive in: read and checked whole, shown, then written as one act."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtWidgets import QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.file_field import FileField
from greenroom.desk.parts import Card, button, label, row, show_words
from greenroom.desk.place.archive_words import brought_words, found_words, merge_words
from greenroom.desk.share_bar import ShareBar
from greenroom.desk.story.room import ON_A_SERVER, room_of
from greenroom.desk.worker import Cancelled as AskedToStop
from greenroom.desk.worker import Progress, Worker
from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.season_archive_merge import Merge, merge_of
from greenroom.exchange.season_archive_read import Archive, read_archive, unpack_pictures
from greenroom.ledger import Change, LedgerError
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.ledger import Ledger

ABOUT = tr(
    "Choose an archive that greenroom saved. It is read and checked first; nothing is "
    "written before you say so."
)
NOTHING = tr("Nothing was brought in.")


class Look(NamedTuple):
    """An archive, and what bringing it in would do."""

    found: Archive
    merge: Merge


class ArchiveIn(Card):
    """File, what is in it, progress, and what came in."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Bring an archive in"))
        self.aside.hide()
        self._bench = bench
        self._look: Look | None = None
        self._pictures = 0
        expected = (BadFileError, Cancelled, LedgerError)
        self._reader: Worker[Look] = Worker(expected, self)
        self._unpacker: Worker[int] = Worker(expected, self)
        self.file = FileField(tr("Archive"), tr("Season archives (*.zip);;All files (*)"))
        self.file.path.setPlaceholderText(tr("path of an archive; or drop the file here"))
        self.told = label(ABOUT, "quiet", wrap=True)
        self.would = label("", wrap=True)
        self.trouble = label("", "alert", wrap=True)
        self.bar = ShareBar(tr("share of the archive read"))
        self.bring = button(tr("Bring it in"), self.bring_in, "primary", name="bring-archive")
        self.cancel = button(tr("Cancel"), self.stop, name="cancel-archive-in")
        self.deeds = QWidget()
        self.deeds.setLayout(row(self.bring, self.cancel, None))
        for part in (self.file, self.told, self.would, self.trouble, self.bar, self.deeds):
            self.body.addWidget(part)
        self._connect()
        self._show("idle")

    def look_at(self, path: str) -> None:
        """Read and check an archive; nothing is written."""
        file, ledger = Path(path).expanduser(), self._bench.keeper.ledger

        def work(progress: Progress, stopped: AskedToStop) -> Look:
            found = read_archive(file, progress, stopped)
            return Look(found, merge_of(ledger.book(), found.book))

        self._look = None
        self._say(tr("Reading {file} …", file=file.name[:60]))
        self._show("busy")
        self._reader.start(work)

    def bring_in(self) -> None:
        """Put the pictures beside the ledger, then write the facts as one act."""
        look, store = self._look, room_of(self._bench.keeper).store
        if look is None:
            return
        if store is None or not look.found.pictures:
            self._pictures = 0
            self._write()
            return
        self._say(tr("Putting the pictures beside the ledger …"))
        self._show("busy")
        self._unpacker.start(lambda progress, stopped: unpack_pictures(look.found, store, progress, stopped))

    def stop(self) -> None:
        """Call the reading off, or put the archive aside; no fact is kept of it."""
        busy = self._reader.running or self._unpacker.running
        self._reader.cancel()
        self._unpacker.cancel()
        self._put_aside(tr("Called off. {outcome}", outcome=NOTHING) if busy else ABOUT)

    def closing(self) -> None:
        """Stop what still runs."""
        self._reader.cancel()
        self._unpacker.cancel()

    def _on_look(self, look: Look) -> None:
        self._look = look
        self._say(found_words(look.found), merge_words(look.merge, look.found.book))
        if look.found.pictures and room_of(self._bench.keeper).store is None:
            self.trouble.setText(ON_A_SERVER)
            self.trouble.show()
        self._show("looked")
        self.bring.setEnabled(not look.merge.nothing)
        if self.bring.isEnabled():
            self.bring.setFocus()

    def _on_unpacked(self, pictures: int) -> None:
        self._pictures = pictures
        self._write()

    def _write(self) -> None:
        look = self._look
        if look is None:
            return
        book, name = look.found.book, tr("brought in {file}", file=look.found.path.name[:60])

        def write(ledger: Ledger) -> Change:
            merge = merge_of(ledger.book(), book)
            return ledger.bring_in(name, book, aside=merge.aside, strike=merge.strike, restore=merge.restore)

        self._say(tr("Writing it down …"))
        self._show("writing")
        # Into an empty ledger it comes with its own history; undo would not take the bringing in back.
        self._bench.keeper.write_apart(write, self._on_written, quietly=look.merge.empty)

    def _on_written(self, written: bool) -> None:
        look = self._look
        if look is None:
            return
        self._put_aside(brought_words(look.merge, self._pictures) if written else NOTHING)

    def _on_trouble(self, error: Exception) -> None:
        self._put_aside(ABOUT)
        self._say("", trouble=f"{str(error).rstrip('.')}. {NOTHING}")

    def _put_aside(self, words: str) -> None:
        """Be ready for another archive."""
        self._look = None
        self.file.clear()
        self._say(words)
        self._show("idle")

    def _say(self, told: str, would: str = "", trouble: str = "") -> None:
        for part, words in ((self.told, told), (self.would, would), (self.trouble, trouble)):
            show_words(part, words)

    def _show(self, state: str) -> None:
        """Show what belongs to a state: "idle", "busy", "looked" or "writing"."""
        if state == "busy":
            self.bar.setValue(0)
        self.bar.setVisible(state in ("busy", "writing"))
        self.bring.setVisible(state == "looked")
        self.cancel.setVisible(state in ("busy", "looked"))
        self.file.setEnabled(state in ("idle", "looked"))
        if state == "busy":
            self.cancel.setFocus()

    def _connect(self) -> None:
        self.file.chosen.connect(self.look_at)
        self._reader.finished.connect(self._on_look)
        self._unpacker.finished.connect(self._on_unpacked)
        for worker in (self._reader, self._unpacker):
            worker.progressed.connect(self.bar.show_share)
            worker.failed.connect(self._on_trouble)
