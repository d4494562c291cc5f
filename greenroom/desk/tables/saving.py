"""Saving a file: the system's own chooser, and what is said when it is done or cannot be."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QFileDialog, QWidget

from greenroom.desk.bench import Bench
from greenroom.exchange.errors import BadFileError
from greenroom.speech import tr

LONGEST_STEM = 80


def file_name(name: str, ending: str) -> str:
    """Return what a file is called by default: small letters, digits and dashes, on every system."""
    stem = re.sub(r"[^\w]+", "-", name.casefold()).strip("-_")[:LONGEST_STEM] or "table"
    return f"{stem}.{ending}"


def usual_folder() -> str:
    """Return the folder that the system keeps for documents."""
    return QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)


def choose_file(
    parent: QWidget, name: str, ending: str, kind: str, then: Callable[[Path], object]
) -> QFileDialog:
    """Let the grower choose where to save; ``then`` hears of the place, if one is chosen."""
    dialog = QFileDialog(parent, tr("Save {name}", name=name), usual_folder(), f"{kind} (*.{ending})")
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setFileMode(QFileDialog.FileMode.AnyFile)
    dialog.setDefaultSuffix(ending)
    dialog.selectFile(file_name(name, ending))
    dialog.fileSelected.connect(lambda chosen: then(Path(chosen)))
    dialog.finished.connect(dialog.deleteLater)
    dialog.open()
    return dialog


def save(bench: Bench, path: Path, write: Callable[[Path], object]) -> bool:
    """Write a file and say so, or why not; True if it was written."""
    try:
        write(path)
    except BadFileError as error:
        bench.say(str(error))
        return False
    bench.say(tr("{name} was saved.", name=path.name))
    return True
