"""Choosing a file: by its path, by dropping it, or in the system's own chooser."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QFileDialog, QLineEdit, QWidget

from greenroom.desk.parts import button, label, row
from greenroom.speech import tr


class FileField(QWidget):
    """A path; ``chosen`` carries it each time another file is named."""

    chosen = Signal(str)

    def __init__(self, words: str, filters: str) -> None:
        super().__init__()
        self._filters = filters
        self._told = ""
        self.path = QLineEdit()
        self.path.setAccessibleName(words)
        self.path.setPlaceholderText(tr("path of a CSV file; or drop the file here"))
        self.path.returnPressed.connect(self._tell_anew)
        self.path.editingFinished.connect(self._tell)
        self.browse = button(tr("Choose a file…"), self._browse)
        title = label(words, "quiet")
        title.setBuddy(self.path)
        self.setLayout(row(title, self.path, self.browse))
        self.setAcceptDrops(True)
        self.path.setAcceptDrops(False)

    def choose(self, path: str) -> None:
        """Name a file; the one named before is taken up anew."""
        self.path.setText(path)
        self._tell_anew()

    def clear(self) -> None:
        """Name no file; the same one may be named again."""
        self._told = ""
        self.path.clear()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.setDropAction(Qt.DropAction.CopyAction)
            event.accept()

    def dropEvent(self, event: QDropEvent) -> None:
        local = [url.toLocalFile() for url in event.mimeData().urls() if url.isLocalFile()]
        if local:
            self.choose(local[0])
            event.acceptProposedAction()

    def _tell_anew(self) -> None:
        self._told = ""
        self._tell()

    def _tell(self) -> None:
        path = self.path.text().strip()
        if path and path != self._told:
            self._told = path
            self.chosen.emit(path)

    def _browse(self) -> None:
        dialog = QFileDialog(self, tr("Choose a file"), self._folder(), self._filters)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.fileSelected.connect(self.choose)
        dialog.open()

    def _folder(self) -> str:
        named = Path(self.path.text().strip() or "~").expanduser()
        return str(named if named.is_dir() else named.parent)
