"""What is shown before the window where the ledger is damaged or gone: its copies, and a way on."""

from __future__ import annotations

from collections.abc import Callable
from datetime import tzinfo

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.clock import system_now
from greenroom.desk.keeping.copies_list import CopiesList
from greenroom.desk.keeping.copy_words import mended_words, restored_words
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.parts import button, label, restyle, row
from greenroom.desk.worker import Worker
from greenroom.exchange.mending import Mended, mend
from greenroom.ledger import LedgerError
from greenroom.ledger.backups import Backups
from greenroom.ledger.restore import restore
from greenroom.speech import tr, trn

SIZE = (860, 560)
ZONE, WHO = "UTC", "greenroom"
DAMAGED = tr("The ledger is damaged")
GONE = tr("The ledger is not where it was")
WAY_ON = tr(
    "Going on puts the chosen copy in its place and adds what can still be read of the "
    "damaged ledger: every fact that the copy does not hold yet. The damaged ledger gets "
    "another name and is kept as it is."
)
WITHOUT = tr(
    "There is no sound copy of it. Going on makes a new ledger of what can still be read "
    "of the damaged one, which gets another name and is kept as it is."
)
WAY_BACK = tr(
    "Going on puts the chosen copy in its place. If you moved the ledger, close this and put it back instead."
)
WORKING = tr("Reading, adding and checking; this may take a minute …")


class MendingWindow(QWidget):
    """One sentence, the copies, and what going on does; afterwards what came of it, in numbers.

    ``go_on`` tells after closing whether the ledger can be opened now.
    """

    def __init__(
        self,
        sentence: str,
        backups: Backups,
        zone: tzinfo,
        open_demo: Callable[[], None],
    ) -> None:
        super().__init__()
        self.setObjectName("page")
        self.setWindowTitle("greenroom")
        self.resize(*SIZE)
        self._backups = backups
        self._zone = zone
        self.damaged = backups.ledger.exists()
        self.go_on = False
        self._worker: Worker[tuple[str, ...]] = Worker((LedgerError,), self)
        self._worker.finished.connect(self._on_mended)
        self._worker.failed.connect(self._on_failed)
        self.title = label(DAMAGED if self.damaged else GONE, "page-title")
        self.sentence = label(sentence, wrap=True)
        self.list = CopiesList(tr("copies of the ledger"))
        self.list.changed.connect(self._show_choice)
        self.way = label("", "quiet", wrap=True)
        self.told = label("", wrap=True)
        self.mend = button(tr("Restore the chosen copy"), self.begin, "primary", name="mend")
        self.anew = button(tr("Begin an empty ledger"), self.begin_anew, name="begin-anew")
        self.demo = button(tr("Look at the demo"), open_demo, name="open-demo")
        self.leave = button(tr("Close"), self.close, name="close")
        self._lay_out()
        self.anew.setVisible(not self.damaged)
        self.list.show_copies(backups.copies(), zone)

    def begin(self) -> None:
        """Mend the ledger off the window's thread."""
        look = self.list.chosen
        copy, now, backups = (look.copy if look is not None else None), system_now(), self._backups

        def work(_progress: object, _stopped: object) -> tuple[str, ...]:
            if backups.ledger.exists():
                done: Mended = mend(backups, copy.path if copy is not None else None, now, zone=ZONE, who=WHO)
                return mended_words(done)
            if copy is None:
                raise LedgerError(tr("There is no sound copy to restore."))
            return (restored_words(copy, restore(backups, copy.path, now), self._zone),)

        self.told.setText(WORKING)
        self._show_busy(busy=True)
        self._worker.start(work)

    def begin_anew(self) -> None:
        """Go on without the ledger that is gone; its copies stay."""
        self.go_on = True
        self.close()

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._worker.running:
            event.ignore()  # what was begun is written to its end
            return
        self.list.closing()
        event.accept()

    def _on_mended(self, words: tuple[str, ...]) -> None:
        self._show_busy(busy=False)
        self.go_on = True
        self.title.setText(tr("The ledger is whole again"))
        self.told.setText("\n".join(words))
        for part in (self.sentence, self.list, self.way, self.anew, self.demo):
            part.hide()
        self.mend.hide()
        self.leave.setText(tr("Open the ledger"))
        restyle(self.leave, "kind", "primary")
        self.leave.setFocus()

    def _on_failed(self, error: Exception) -> None:
        self._show_busy(busy=False)
        self.told.setText(str(error))

    def _show_busy(self, *, busy: bool) -> None:
        for part in (self.mend, self.anew, self.demo, self.leave, self.list):
            part.setEnabled(not busy)

    def _show_choice(self) -> None:
        chosen = self.list.chosen
        if not self.damaged:
            self.way.setText(WAY_BACK)
            self.mend.setEnabled(chosen is not None)
            return
        self.way.setText(WITHOUT if chosen is None and self.list.read else WAY_ON)
        self.mend.setText(
            tr("Restore the chosen copy") if chosen is not None else tr("Save what can be read")
        )
        self.mend.setEnabled(self.list.read)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*(2 * PAGE_MARGIN,) * 4)
        layout.setSpacing(GAP + 4)
        self.told.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        for part in (self.title, self.sentence, self.list, self.way, self.told):
            layout.addWidget(part)
        layout.addStretch(1)
        layout.addLayout(row(self.mend, self.anew, None, self.demo, self.leave))


def copies_hint(backups: Backups, sentence: str) -> str:
    """Return a refusal with where the copies are, still one sentence, for where there is no window."""
    copies = backups.copies()
    if not copies:
        return sentence
    return trn(
        "{sentence}; {n:,} copy of it is in {folder}, and the window of greenroom offers to restore one.",
        "{sentence}; {n:,} copies of it are in {folder}, and the window of greenroom offers to restore one.",
        len(copies),
        sentence=sentence.rstrip("."),
        folder=copies[0].path.parent.name,
    )
