"""Bringing a seed list in: choose the file, put the match of its columns right, bring the packets in."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox

from greenroom.desk.bench import Bench
from greenroom.desk.file_field import FileField
from greenroom.desk.parts import Card, button, label, row, show_words
from greenroom.desk.seed.list_rows import Incoming, incoming, notes
from greenroom.desk.seed.preview_model import PreviewModel
from greenroom.desk.seed.preview_table import PreviewTable
from greenroom.desk.worker import Worker
from greenroom.exchange.errors import BadFileError
from greenroom.exchange.seed_list import (
    FIELD_WORDS,
    ColumnMatch,
    SeedListLook,
    look_at_seed_list,
    read_seed_list,
)
from greenroom.season.deeds_shelf import add_packets
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.speech import tr, trn

FILTERS = tr("Seed lists (*.csv *.tsv *.txt);;All files (*)")
FIRST = tr(
    "A seed list is a table in a text file (CSV), one packet a row, its first row the "
    "names of the columns. Comma, semicolon, tab or bar may part the cells. Only the "
    "name of the variety is needed."
)
NOTHING = tr("Nothing was brought in.")
NOT_WRITTEN = tr("The packets could not be written down.")
CHECK_MATCH = tr(
    "Each column is taken for what the chooser over it says; choose another where that is wrong."
)


def _bring_words(count: int) -> str:
    if count == 0:
        return tr("Nothing to bring in")
    return trn("Bring in 1 packet", "Bring in {n:,} packets", count)


class ListImport(Card):
    """Looks at a list, shows its first rows under choosers, and brings all of it in as one act."""

    closed = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Import a seed list"))
        self._bench = bench
        self._look: SeedListLook | None = None
        self._coming: Incoming | None = None
        self._looker: Worker[SeedListLook] = Worker((BadFileError,), self)
        self._reader: Worker[Incoming] = Worker((BadFileError,), self)
        self._filer: Worker[Proposal] = Worker((RefusedError,), self)
        self.file = FileField(tr("File"), FILTERS)
        self.told = label(FIRST, "quiet", wrap=True)
        self.trouble = label("", "alert", wrap=True)
        self.preview = PreviewModel(ColumnMatch(), FIELD_WORDS, self)
        self.table = PreviewTable(self.preview, tr("The first rows of the seed list"))
        self.leave_out = QCheckBox()
        self.bring = button(tr("Bring in"), self.bring_in, "primary", name="bring-in-list")
        self.close_button = button(tr("Close"), self.close_panel, name="close-list")
        self._assemble()
        self._connect()
        self._forget()

    def close_panel(self) -> None:
        """Go back to the seed box; the list is forgotten."""
        self._looker.cancel()
        self._reader.cancel()
        self.file.clear()
        self._forget()
        self.closed.emit()

    def bring_in(self) -> None:
        """Add the packets of the list, as one act; a long list is filed and written off this thread."""
        keeper, coming = self._bench.keeper, self._coming
        if coming is None:
            return
        chosen = coming.chosen(leave_out=self.leave_out.isChecked())
        season, today = keeper.season, keeper.today
        self._show_busy(busy=True)
        self._filer.start(lambda _progress, _cancelled: add_packets(season, chosen, today))

    def _on_filed(self, proposal: Proposal) -> None:
        self._bench.keeper.do_apart(lambda: proposal, self._on_written)

    def _on_written(self, written: bool) -> None:
        self._show_busy(busy=False)
        if written:
            self.close_panel()
        else:
            self._say(trouble=f"{NOT_WRITTEN} {NOTHING}")

    def _on_refused(self, error: RefusedError) -> None:
        self._show_busy(busy=False)
        self._say(trouble=f"{str(error).rstrip('.')}. {NOTHING}")

    def _show_busy(self, *, busy: bool) -> None:
        """Let nothing be changed while the packets are on their way."""
        for part in (self.file, self.table, self.leave_out, self.bring, self.close_button):
            part.setEnabled(not busy)
        if busy:
            self._say(tr("Writing the packets down …"))

    def _assemble(self) -> None:
        self.head.addWidget(self.close_button)
        for widget in (self.file, self.told, self.trouble):
            self.body.addWidget(widget)
        self.body.addWidget(self.table, 1)
        self.body.addLayout(row(self.leave_out, None, self.bring))
        self.leave_out.setChecked(True)

    def _connect(self) -> None:
        self.file.chosen.connect(self._look_at)
        self._looker.finished.connect(self._on_look)
        self._looker.failed.connect(self._on_trouble)
        self._reader.finished.connect(self._on_rows)
        self._reader.failed.connect(self._on_trouble)
        self._filer.finished.connect(self._on_filed)
        self._filer.failed.connect(self._on_refused)
        self.preview.rematched.connect(self._read)
        self.leave_out.toggled.connect(lambda _on: self._show_outcome())

    def _forget(self) -> None:
        self._look = self._coming = None
        self.preview.show_look(None)
        self._say(FIRST)
        self._show_outcome()

    def _look_at(self, path: str) -> None:
        self._forget()
        file = Path(path).expanduser()
        self._looker.start(lambda _progress, _cancelled: look_at_seed_list(file))

    def _on_look(self, look: SeedListLook) -> None:
        self._look = look
        self.preview.show_look(look)
        self._read()

    def _read(self) -> None:
        self._coming = None
        self._show_outcome()
        if self.preview.matching.name is None:
            self._say(trouble=tr("No column is chosen for the variety name; choose one above the rows."))
            return
        file, match = Path(self.file.path.text().strip()).expanduser(), self.preview.matching
        season, guide = self._bench.keeper.season, self._bench.guide
        # Both read lists of facts and nothing that the season keeps of what it worked out.
        self._reader.start(lambda _progress, _cancelled: incoming(season, guide, read_seed_list(file, match)))

    def _on_rows(self, coming: Incoming) -> None:
        if self._look is None:
            return
        self._coming = coming
        found = trn("1 packet in the list.", "{n:,} packets in the list.", len(coming.entries))
        self._say(" ".join([found, CHECK_MATCH, *notes(self._look, self._coming)]))
        self._show_outcome()

    def _on_trouble(self, error: BadFileError) -> None:
        self._coming = None
        self._say(trouble=f"{str(error).rstrip('.')}. {NOTHING}")
        self._show_outcome()

    def _say(self, told: str = "", trouble: str = "") -> None:
        show_words(self.told, told)
        show_words(self.trouble, trouble)

    def _show_outcome(self) -> None:
        coming = self._coming
        doubles = coming.doubles if coming else 0
        self.table.setVisible(self._look is not None)
        self.leave_out.setVisible(doubles > 0)
        self.leave_out.setText(
            trn(
                "Leave out the 1 that is in the seed box already: same variety and lot",
                "Leave out the {n:,} that are in the seed box already: same variety and lot",
                doubles,
            )
        )
        count = len(coming.chosen(leave_out=self.leave_out.isChecked())) if coming else 0
        self.bring.setText(_bring_words(count))
        self.bring.setEnabled(count > 0)
        self.bring.setVisible(self._look is not None)
