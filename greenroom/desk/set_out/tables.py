"""The plan as tables: the positions with their sun, and the squares of the map."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QComboBox, QHeaderView, QTableView, QVBoxLayout, QWidget

from greenroom.desk.parts import label, row
from greenroom.desk.set_out.plan_state import PlanState
from greenroom.season.plot_sun import Hours, SunMap, sun_word
from greenroom.season.spots import SpotKey
from greenroom.speech import figure, tr

Index = QModelIndex | QPersistentModelIndex
ROOT = QModelIndex()
DISPLAY, SPOKEN = Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole
ACROSS = Qt.Orientation.Horizontal
HEADINGS = (
    tr("Place", sense="in a bed"),
    tr("Stands", sense="what does"),
    tr("Morning"),
    tr("Afternoon"),
    tr("Day", sense="the whole of it"),
    "",
)
STANDS_COLUMN = 1


class PlacesModel(QAbstractTableModel):
    """One row a position, in the order of the beds."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows: list[tuple[str, ...]] = []

    def show_places(self, state: PlanState, places: dict[SpotKey, Hours]) -> None:
        """Show the positions of the plot."""
        planted = {plant.spot: plant.name for plant in state.plants}
        self.beginResetModel()
        self._rows = [
            _place_row(bed.name, spot, planted.get(spot, ""), places[spot])
            for bed in state.plot.beds
            for spot, _ in bed.places()
            if spot in places
        ]
        self.endResetModel()

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(HEADINGS)

    def data(self, index: Index, role: int = DISPLAY) -> Any:  # noqa: ANN401 as Qt has it
        if not index.isValid():
            return None
        text = self._rows[index.row()][index.column()]
        if role == SPOKEN:
            heading = HEADINGS[index.column()]
            return tr("{name}: {what}", name=heading, what=text) if heading else text
        return text if role == DISPLAY else None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = DISPLAY) -> Any:  # noqa: ANN401 as Qt has it
        if role != DISPLAY or orientation != ACROSS or not 0 <= section < len(HEADINGS):
            return None
        return HEADINGS[section]


class SquaresModel(QAbstractTableModel):
    """The map as it lies: rows from north to south, columns from west to east, hours in each."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._sun: SunMap | None = None
        self._half = "day"

    def show_map(self, sun: SunMap | None, half: str) -> None:
        """Show another map, or another half of the day."""
        self.beginResetModel()
        self._sun, self._half = sun, half
        self.endResetModel()

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() or self._sun is None else self._sun.rows

    def columnCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() or self._sun is None else self._sun.columns

    def data(self, index: Index, role: int = DISPLAY) -> Any:  # noqa: ANN401 as Qt has it
        if not index.isValid() or self._sun is None or role not in (DISPLAY, SPOKEN):
            return None
        hours = figure(self._sun.of(self._half)[index.row(), index.column()], ".1f")
        if role == DISPLAY:
            return hours
        x, y = self._sun.middle(index.row(), index.column())
        return tr("{east:g} m east, {north:g} m north: {hours} hours", east=x, north=y, hours=hours)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = DISPLAY) -> Any:  # noqa: ANN401 as Qt has it
        if self._sun is None or role != DISPLAY:
            return None
        if orientation == ACROSS:
            return (
                tr("{metres:g} E", metres=self._sun.middle(0, section)[0])
                if section < self._sun.columns
                else None
            )
        return (
            tr("{metres:g} N", metres=self._sun.middle(section, 0)[1]) if section < self._sun.rows else None
        )


class PlanTables(QWidget):
    """A chooser over the one or the other table."""

    def __init__(self) -> None:
        super().__init__()
        self.places, self.squares = PlacesModel(self), SquaresModel(self)
        self.chooser = QComboBox()
        self.chooser.setObjectName("which-table")
        self.chooser.addItem(tr("Places in the beds"), self.places)
        self.chooser.addItem(tr("Squares of the map"), self.squares)
        self.view = QTableView()
        self.view.setObjectName("plan-table")
        self.view.setAlternatingRowColors(True)
        self.view.verticalHeader().setDefaultSectionSize(28)
        self.chooser.currentIndexChanged.connect(lambda _: self._on_choice())
        words = label(tr("Hours of direct sun"), "quiet")
        words.setBuddy(self.chooser)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(row(words, self.chooser, None))
        layout.addWidget(self.view, 1)
        self._on_choice()

    def show_state(self, state: PlanState, places: dict[SpotKey, Hours]) -> None:
        """Show the plan as it stands."""
        self.places.show_places(state, places)
        self.squares.show_map(state.sun, state.half)

    def _on_choice(self) -> None:
        model = self.chooser.currentData()
        self.view.setModel(model)
        self.view.setAccessibleName(self.chooser.currentText())
        places = model is self.places
        self.view.verticalHeader().setVisible(not places)
        header = self.view.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        if places:
            header.setSectionResizeMode(STANDS_COLUMN, QHeaderView.ResizeMode.Stretch)


def _place_row(bed: str, spot: SpotKey, name: str, hours: Hours) -> tuple[str, ...]:
    parts = (hours.morning, hours.afternoon, hours.day)
    return (
        f"{bed} {spot.label}",
        name,
        *(tr("{hours:.1f} h", hours=part) for part in parts),
        sun_word(hours.day),
    )
