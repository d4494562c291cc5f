"""What this program is: version, licence, where records and log are, and how to report a fault."""

from __future__ import annotations

import logging
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFormLayout, QVBoxLayout

from greenroom import __version__
from greenroom.desk.keeper import Keeper
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, row
from greenroom.desk.tabs import Part
from greenroom.desk.trouble_report import report_text
from greenroom.speech import tr

LICENCE = tr(
    "No licence has been chosen yet for greenroom's own code. The towns are from "
    "GeoNames (CC BY 4.0), the typeface is Inter (SIL Open Font License 1.1); the "
    "libraries keep their own licences."
)
REPORT = tr(
    "Copy the report, add what you did and what came of it, and send both to whoever you "
    "had greenroom from. Neither it nor the log holds names, places, paths or marks; "
    "read them before you send them."
)
DEMO = tr("the demo: in memory only, and gone when this window closes")
SERVER = tr("on a database server")
NO_LOG = tr("none is kept")


class AboutPart(Part):
    """A few lines, and a button that copies a report with nothing of the grower's in it."""

    def __init__(self, keeper: Keeper) -> None:
        super().__init__()
        self._season = keeper.season
        form = QFormLayout()
        form.setContentsMargins(0, 0, 0, 0)
        form.setHorizontalSpacing(2 * GAP)
        form.setVerticalSpacing(GAP)
        for name, words in (
            *about_lines(keeper),
            (tr("Licence"), LICENCE),
            (tr("To report a fault"), REPORT),
        ):
            told = label(words, wrap=True)
            told.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            told.setAccessibleName(tr("{name}: {what}", name=name, what=words))
            form.addRow(label(name, "quiet"), told)
        self.copy_button = button(tr("Copy a report"), self.copy, name="copy-about")
        self.copied = label("", "quiet")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2 * GAP)
        layout.addLayout(form)
        layout.addLayout(row(self.copy_button, self.copied, None))
        layout.addStretch(1)

    def copy(self) -> None:
        """Put a report on the clipboard."""
        QGuiApplication.clipboard().setText(report_text((), self._season))
        self.copied.setText(tr("Copied."))


def about_lines(keeper: Keeper) -> tuple[tuple[str, str], ...]:
    """Return the version, and where records and log are."""
    file = keeper.ledger.file
    kept = str(file) if file is not None else (DEMO if keeper.demo else SERVER)
    return (
        ("greenroom", __version__),
        (tr("Records"), kept),
        (tr("Log"), str(log_file() or NO_LOG)),
    )


def log_file() -> Path | None:
    """Return the file that what goes wrong is written to, or None if no log is kept."""
    handlers = logging.getLogger().handlers
    return next((Path(one.baseFilename) for one in handlers if isinstance(one, logging.FileHandler)), None)
