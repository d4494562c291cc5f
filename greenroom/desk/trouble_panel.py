"""The quiet panel: what went wrong, what is safe, and a report to read, copy and save."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent
from PySide6.QtWidgets import QFrame, QPlainTextEdit, QVBoxLayout, QWidget

from greenroom.desk.look import CARD_PADDING, GAP, PAGE_MARGIN
from greenroom.desk.parts import button, label, row, show_words
from greenroom.desk.trouble import Mishap
from greenroom.desk.trouble_report import report_text
from greenroom.exchange.errors import BadFileError
from greenroom.season.state import Season
from greenroom.speech import tr, trn

WIDTH_PX, TEXT_PX = 460, 150
TITLE = tr("Something went wrong that should not")
CRASHED = tr("The last time, greenroom ended at once")
CRASH_WORDS = tr("It was not closed as usual. What it was doing then is in the report.")
SAFE = tr("All that was marked before is safe in the ledger, and you can go on.")
NAME = tr("greenroom report")


class TroublePanel(QFrame):
    """Stands in the lower right corner of its window and takes no focus; Escape in it closes it."""

    def __init__(self, window: QWidget, season: Callable[[], Season | None]) -> None:
        super().__init__(window)
        self.setObjectName("trouble")
        self.setProperty("role", "card")
        self.setFixedWidth(WIDTH_PX)
        self._season = season
        self.title = label(TITLE, "title", wrap=True)
        self.what = label("", wrap=True)
        self.safe = label(SAFE, wrap=True)
        self.told = label("", "quiet", wrap=True)
        self.text = QPlainTextEdit()
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        self.text.setFixedHeight(TEXT_PX)
        self.text.setAccessibleName(tr("the report, as it would be saved"))
        self.save_button = button(tr("Save a report…"), self._ask_file, name="trouble-save")
        self.copy_button = button(tr("Copy", sense="to the clipboard"), self._copy, name="trouble-copy")
        self.close_button = button(tr("Close"), self.hide, name="trouble-close")
        sheet = QVBoxLayout(self)
        sheet.setContentsMargins(CARD_PADDING, CARD_PADDING, CARD_PADDING, CARD_PADDING)
        sheet.setSpacing(GAP)
        for part in (self.title, self.what, self.safe, self.text, self.told):
            sheet.addWidget(part)
        sheet.addLayout(row(self.save_button, self.copy_button, None, self.close_button))
        window.installEventFilter(self)
        self.hide()

    def show_mishap(self, mishap: Mishap, all_of_them: Sequence[Mishap]) -> None:
        """Tell of a mishap; one that came before is counted, and where several came that is said."""
        others = len(all_of_them) - 1
        told = [f"{mishap.words}."]
        if mishap.count > 1:
            told.append(tr("It happened {n} times.", n=mishap.count))
        if others:
            told.append(trn("{n} other came before.", "{n} others came before.", others))
        self._show(TITLE, " ".join(told), report_text(all_of_them, self._season()))

    def show_crash(self, lines: Sequence[str]) -> None:
        """Tell that the program ended at once the last time."""
        self._show(CRASHED, CRASH_WORDS, report_text((), self._season(), lines))

    def save_to(self, path: Path) -> None:
        """Write the report as it is shown."""
        from greenroom.exchange.tables_file import write_text

        try:
            write_text(path, self.text.toPlainText())
        except BadFileError as error:
            self._tell(str(error))
            return
        self._tell(tr("{name} was saved.", name=path.name))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.parent() and event.type() == QEvent.Type.Resize:
            self._place()
        return super().eventFilter(watched, event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.hide()
            return
        super().keyPressEvent(event)

    def _show(self, title: str, what: str, text: str) -> None:
        self.title.setText(title)
        self.what.setText(what)
        self.text.setPlainText(text)
        self._tell("")
        self.setAccessibleName(f"{title}. {what} {self.safe.text()}")
        self.show()
        self._place()
        self.raise_()

    def _tell(self, words: str) -> None:
        show_words(self.told, words)
        self._place()

    def _place(self) -> None:
        home = self.parentWidget()
        if home is None or not self.isVisible():
            return
        height = min(self.sizeHint().height(), home.height() - 2 * PAGE_MARGIN)
        self.resize(WIDTH_PX, max(height, self.heightForWidth(WIDTH_PX)))
        self.move(home.width() - WIDTH_PX - PAGE_MARGIN, home.height() - self.height() - PAGE_MARGIN)

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.text.toPlainText())
        self._tell(tr("The report is on the clipboard."))

    def _ask_file(self) -> None:
        from greenroom.desk.tables.saving import choose_file

        choose_file(self.window(), NAME, "txt", tr("Text", sense="files"), self.save_to)
