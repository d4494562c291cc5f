"""The copies of the ledger: where they are, one taken when asked for, and going back to any of them."""

from __future__ import annotations

from collections.abc import Sequence

from greenroom.desk.bench import Bench
from greenroom.desk.keeping.copies_list import CopiesList
from greenroom.desk.keeping.copy_words import ASKED_FOR, UNDO_WORDS
from greenroom.desk.keeping.keeping import Keeping, keeping_of
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, column, label, row
from greenroom.desk.tabs import Part
from greenroom.ledger.backups import Kept
from greenroom.speech import tr

ABOUT = tr(
    "A copy is taken by itself after opening and every day the window stays open, if "
    "anything was marked since the last one, and read through before it counts. All "
    "copies of the last day stay, then one a day for two weeks, one a week for three "
    "months, and one a month from there on. Copies you ask for and those taken before "
    "restoring stay until you delete them. Pictures are not in a copy; they stay beside "
    "the ledger."
)
ELSEWHERE = tr(
    "This ledger is not a file, so no copies are kept beside it: a server's are taken "
    "with the server's own tools, and the demo is thrown away."
)
NONE_YET = tr("There is no copy yet: the first is taken once something was marked.")
TAKING = tr("Taking a copy …")


class CopiesTab(Part):
    """One card: the copies, a button to take one, and one to go back."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._keeping: Keeping = keeping_of(bench.keeper)
        self.list = CopiesList(tr("copies of the ledger"))
        self.where = label("", "quiet", wrap=True)
        self.told = label("", wrap=True)
        self.take = button(tr("Take a copy now"), self.take_copy, name="take-copy")
        self.restore = button(tr("Restore the chosen copy"), self.go_back, "primary", name="restore-copy")
        self.note = label(UNDO_WORDS, "quiet", wrap=True)
        card = Card(tr("Copies of this ledger"))
        card.aside.hide()
        for part in (label(ABOUT, "quiet", wrap=True), self.where, self.list, self.told, self.note):
            card.body.addWidget(part)
        card.body.addLayout(row(self.restore, self.take, None))
        layout = column(card, None, gap=GAP + 4)
        layout.setContentsMargins(0, 0, 0, 0)
        self.setLayout(layout)
        self.list.changed.connect(self._show_choice)
        self._keeping.kept.connect(self._on_kept)
        self._keeping.told.connect(self.told.setText)
        self.told.setText(self._keeping.news)
        self.refresh()

    def refresh(self) -> None:
        backups = self._keeping.backups
        for part in (self.list, self.take, self.restore, self.note):
            part.setVisible(backups is not None)
        if backups is None:
            self.where.setText(ELSEWHERE)
            return
        copies = backups.copies()
        folders = list(dict.fromkeys(str(copy.path.parent) for copy in copies if copy.number))
        self.where.setText(_kept_words(folders))
        self.list.show_copies(copies, self._bench.keeper.place.zone)

    def take_copy(self) -> None:
        """Take a copy now."""
        self.told.setText(TAKING)
        self._keeping.take(ASKED_FOR)

    def go_back(self) -> None:
        """Go back to the chosen copy; the window is made anew on it."""
        look = self.list.chosen
        if look is not None:
            self.told.setText(tr("Going back …"))
            self._keeping.restore(look.copy)

    def closing(self) -> None:
        self.list.closing()

    def _on_kept(self, kept: Kept) -> None:
        asked_for = kept.copy is not None and kept.copy.mark == ASKED_FOR
        if kept.notice or asked_for:
            self.told.setText(kept.notice or tr("A copy was taken and read through."))
        self.refresh()

    def _show_choice(self) -> None:
        self.restore.setEnabled(self.list.chosen is not None)
        self.note.setText(self.list.trouble or UNDO_WORDS)


def _kept_words(folders: Sequence[str]) -> str:
    if not folders:
        return NONE_YET
    if len(folders) == 1:
        return tr("Kept in {folder}.", folder=folders[0])
    return tr("Kept in {first} and {last}.", first=", ".join(folders[:-1]), last=folders[-1])
