"""The choices of the print desk: what, of which tray, on which paper, from which label on."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QLocale, Signal
from PySide6.QtWidgets import QButtonGroup, QComboBox, QRadioButton, QSpinBox, QVBoxLayout, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.paper.choice import OF_HOLDERS, ON_LABELS, Choice, holders_for
from greenroom.desk.paper.errand import KINDS, REPORT, TAGS
from greenroom.desk.paper.measures import Measures
from greenroom.desk.parts import column, label, row
from greenroom.exchange.paper.sizes import A4, LETTER, PAPERS, Paper, SheetSize, sheets_of
from greenroom.season.state import Season
from greenroom.speech import tr

OWN = tr("Own measures…")
EACH = (tr("each plant"), tr("each sowing"))


def usual_paper() -> Paper:
    """Return the paper that is usual where the system says the grower is."""
    imperial = QLocale.MeasurementSystem.ImperialUSSystem
    return LETTER if QLocale.system().measurementSystem() == imperial else A4


class Form(QWidget):
    """Fields that follow what is chosen; ``changed`` tells that something was."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._quiet = False
        self.kinds = QButtonGroup(self)
        self.radios = {key: self._radio(key, words) for key, words in KINDS.items()}
        self.holder = self._chooser(tr("Of", sense="which holder to print"))
        self.season = self._chooser(tr("Season"))
        self.each = self._chooser(tr("One tag for"))
        for words in EACH:
            self.each.addItem(words)
        self.paper = self._chooser(tr("Paper"))
        for paper in PAPERS:
            self.paper.addItem(
                tr(
                    "{name}, {width_mm:g} x {height_mm:g} mm",
                    name=paper.name,
                    width_mm=paper.width_mm,
                    height_mm=paper.height_mm,
                ),
                paper,
            )
        self.sheet = self._chooser(tr("Sheet of labels"))
        self.measures = Measures()
        self.start = QSpinBox()
        self.start.setMinimum(1)
        self.start.setAccessibleName(tr("First label to use"))
        self.start.setKeyboardTracking(False)
        self.where = label("", "quiet", wrap=True)
        self._lay_out()
        self.paper.setCurrentIndex(PAPERS.index(usual_paper()))
        self._offer_sheets()
        self.radios[TAGS].setChecked(True)
        self._connect()
        self._show_fields()

    @property
    def kind(self) -> str:
        """What is to be printed."""
        checked = self.kinds.checkedButton()
        return checked.objectName().removeprefix("print-") if checked is not None else TAGS

    def choice(self) -> Choice:
        """Return what is chosen.

        Raises
        ------
        SizeError
            If the measures of the sheet cannot be.
        """
        paper: Paper = self.paper.currentData()
        chosen = Choice(self.kind, self.holder.currentData(), self.each.currentIndex() == 1, paper)
        if self.kind not in ON_LABELS:
            return replace(chosen, year=self.season.currentData())
        sheet = self.sheet_size()
        return replace(chosen, sheet=sheet, start=min(self.start.value() - 1, sheet.places - 1))

    def sheet_size(self) -> SheetSize:
        """Return the sheet of labels that is chosen, or as it was measured."""
        listed: SheetSize | None = self.sheet.currentData()
        return self.measures.sheet(self.paper.currentData()) if listed is None else listed

    def choose(self, kind: str) -> None:
        """Choose what to print."""
        self.radios[kind].setChecked(True)

    def offer_years(self, years: list[int]) -> None:
        """Offer seasons, keeping the one that was chosen."""
        if years == [self.season.itemData(place) for place in range(self.season.count())]:
            return
        before, self._quiet = self.season.currentData(), True
        self.season.clear()
        for year in years:
            self.season.addItem(tr("Season {year}", year=year), year)
        self.season.setCurrentIndex(max(0, self.season.findData(before)))
        self._quiet = False

    def offer(self, season: Season, wanted: str | None = None) -> None:
        """Offer the trays there are for what is chosen, keeping the one that was, or the one wanted."""
        self._quiet = True
        before = wanted or self.holder.currentData()
        self.holder.clear()
        self.holder.addItem(tr("all of them", sense="holders"), None)
        for made in holders_for(season, self.kind):
            self.holder.addItem(made.name, made.key)
        self.holder.setCurrentIndex(max(0, self.holder.findData(before)))
        self._quiet = False
        self._show_fields()

    def begin_at(self, place: int) -> None:
        """Begin at a label of the sheet, counted from 0."""
        self.start.setValue(place + 1)

    def show_start(self, sheet: SheetSize) -> None:
        """Show which label of a sheet is the first."""
        before, self._quiet = self._quiet, True
        self.start.setMaximum(sheet.places)
        self._quiet = before
        down, across = divmod(self.start.value() - 1, sheet.columns)
        words = tr(
            "row {row}, column {column}; or click a label in the preview", row=down + 1, column=across + 1
        )
        self.where.setText(words)

    def _radio(self, key: str, words: str) -> QRadioButton:
        made = QRadioButton(words)
        made.setObjectName(f"print-{key}")
        self.kinds.addButton(made)
        return made

    @staticmethod
    def _chooser(words: str) -> QComboBox:
        made = QComboBox()
        made.setAccessibleName(words)
        made.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        made.setMinimumContentsLength(8)
        return made

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        halves = list(self.radios.values())
        middle = len(halves) // 2
        layout.addLayout(row(_stack(*halves[:middle]), _stack(*halves[middle:]), None, gap=2 * GAP))
        self._lines: dict[QWidget, QWidget] = {}
        for field in (self.holder, self.season, self.each, self.paper, self.sheet):
            self._line(layout, field.accessibleName(), field)
        layout.addWidget(self.measures)
        self._line(layout, tr("First label"), self.start)
        layout.addWidget(self.where)

    def _line(self, layout: QVBoxLayout, words: str, field: QWidget) -> None:
        caption = label(words, "quiet")
        caption.setBuddy(field)
        line = QWidget()
        line.setLayout(column(caption, field, gap=2))
        self._lines[field] = line
        layout.addWidget(line)

    def _connect(self) -> None:
        self.kinds.buttonClicked.connect(self._on_change)
        for chooser in (self.holder, self.season, self.each):
            chooser.currentIndexChanged.connect(self._on_change)
        self.paper.currentIndexChanged.connect(self._on_paper)
        self.sheet.currentIndexChanged.connect(self._on_sheet)
        self.measures.changed.connect(self._on_change)
        self.start.valueChanged.connect(self._on_change)

    def _offer_sheets(self) -> None:
        self._quiet = True
        self.sheet.clear()
        for sheet in sheets_of(self.paper.currentData()):
            self.sheet.addItem(sheet.name, sheet)
        self.sheet.addItem(OWN, None)
        self.measures.show_sheet(self.sheet.itemData(0))
        self._quiet = False

    def _on_paper(self) -> None:
        self._offer_sheets()
        self._on_change()

    def _on_sheet(self) -> None:
        listed: SheetSize | None = self.sheet.currentData()
        if listed is not None:
            self.measures.show_sheet(listed)
        self._on_change()

    def _on_change(self) -> None:
        if not self._quiet:
            self._show_fields()
            self.changed.emit()

    def _show_fields(self) -> None:
        on_labels = self.kind in ON_LABELS
        self._lines[self.holder].setVisible(self.kind in OF_HOLDERS)
        self._lines[self.season].setVisible(self.kind == REPORT)
        self._lines[self.each].setVisible(self.kind == TAGS)
        self._lines[self.sheet].setVisible(on_labels)
        self._lines[self.start].setVisible(on_labels)
        self.where.setVisible(on_labels)
        self.measures.setVisible(on_labels and self.sheet.currentData() is None)


def _stack(*widgets: QWidget) -> QWidget:
    made = QWidget()
    made.setLayout(column(*widgets, gap=0))
    return made
