"""The measures of a sheet of labels, typed in by who has the sheet and a ruler."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDoubleSpinBox, QGridLayout, QSpinBox, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import label
from greenroom.exchange.paper.sizes import MOST_PLACES, Paper, SheetSize
from greenroom.speech import tr

FIELDS = {
    "columns": tr("Labels across"),
    "rows": tr("Labels down"),
    "width_mm": tr("Label width"),
    "height_mm": tr("Label height"),
    "left_mm": tr("Left edge to first"),
    "top_mm": tr("Top edge to first"),
    "across_mm": tr("One to next, across"),
    "down_mm": tr("One to next, down"),
}
SIDES = ("width_mm", "height_mm", "left_mm", "top_mm", "across_mm", "down_mm")
LONGEST_MM = 400.0


class Measures(QWidget):
    """Eight numbers; ``changed`` tells that one of them was changed by hand."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._quiet = False
        self.fields: dict[str, QSpinBox | QDoubleSpinBox] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(GAP // 2)
        for place, (key, words) in enumerate(FIELDS.items()):
            field = self._field(key, words)
            caption = label(words, "quiet")
            caption.setBuddy(field)
            grid.addWidget(caption, place, 0)
            grid.addWidget(field, place, 1)
            self.fields[key] = field

    def show_sheet(self, sheet: SheetSize) -> None:
        """Begin with the measures of a sheet."""
        self._quiet = True
        for key, field in self.fields.items():
            field.setValue(getattr(sheet, key))
        self._quiet = False

    def sheet(self, paper: Paper) -> SheetSize:
        """Return the sheet as measured.

        Raises
        ------
        SizeError
            If the labels overlap or do not fit on the paper.
        """
        rows, columns = (int(self.fields[key].value()) for key in ("rows", "columns"))
        width, height, left, top, across, down = (round(self.fields[key].value(), 2) for key in SIDES)
        return SheetSize(paper, rows, columns, width, height, left, top, across, down)

    def _field(self, key: str, words: str) -> QSpinBox | QDoubleSpinBox:
        field: QSpinBox | QDoubleSpinBox
        if key.endswith("_mm"):
            field = QDoubleSpinBox()
            field.setRange(0.0, LONGEST_MM)
            field.setDecimals(2)
            field.setSingleStep(0.1)
            field.setSuffix(" mm")
        else:
            field = QSpinBox()
            field.setRange(1, MOST_PLACES)
        field.setKeyboardTracking(False)
        field.setAccessibleName(words)
        field.setObjectName(f"measure-{key}")
        field.valueChanged.connect(self._tell)
        return field

    def _tell(self) -> None:
        if not self._quiet:
            self.changed.emit()
