"""Who is going out: a card a holder, the next to come in first."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtWidgets import QCheckBox, QFrame, QListView, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.flow import Flow
from greenroom.desk.harden.holder_card import HolderCard
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, plain_tip
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.door import AtDoor, Where, in_words, next_words, ready_words, state_words
from greenroom.season.hardening_words import time_words, whole_minutes
from greenroom.season.place import Place
from greenroom.season.within import in_row
from greenroom.speech import tr

Index = QModelIndex | QPersistentModelIndex
HERE = Qt.ItemDataRole.UserRole
KEY = Qt.ItemDataRole.UserRole + 1
WIDTH_PX = 232
CAUTION = tr(
    "Lift with bent knees and carry little at a time. The sun is on you, too: a hat, "
    "water, shade at noon. Local advice comes first."
)


class DoorModel(QAbstractListModel):
    """The holders on the ramp as they are now."""

    def __init__(self, place: Place) -> None:
        super().__init__()
        self._place = place
        self._rows: list[AtDoor] = []

    @property
    def rows(self) -> list[AtDoor]:
        """The holders, in the order they are shown."""
        return self._rows

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 Qt's signature
        return 0 if parent.isValid() else len(self._rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or not 0 <= index.row() < len(self._rows):
            return None
        here = self._rows[index.row()]
        answers = {HERE: here, KEY: here.key, Qt.ItemDataRole.DisplayRole: here.name}
        if role in (Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.ToolTipRole):
            words = spoken(here, self._place)
            return plain_tip(words) if role == Qt.ItemDataRole.ToolTipRole else words
        return answers.get(role)

    def show_rows(self, rows: list[AtDoor], place: Place) -> None:
        """Show holders; the view is rebuilt only if there are others or they stand in another order."""
        same = [here.key for here in rows] == [here.key for here in self._rows] and place == self._place
        self._place = place
        if same:
            before, self._rows = self._rows, rows
            for line, (old, new) in enumerate(zip(before, rows, strict=True)):
                if old != new:
                    self.dataChanged.emit(self.index(line), self.index(line))
            return
        self.beginResetModel()
        self._rows = rows
        self.endResetModel()

    def row_of(self, key: str) -> int:
        """Return the line of a holder, or -1."""
        return next((line for line, here in enumerate(self._rows) if here.key == key), -1)


class GoingOut(QWidget):
    """The list, and what is done with all at once; ``chosen`` carries a holder's key."""

    chosen = Signal(str)
    all_out = Signal()
    all_in = Signal()
    start = Signal()
    quiet = Signal(bool)

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self.setFixedWidth(WIDTH_PX)
        self.model = DoorModel(bench.keeper.place)
        self.view = _view()
        self.view.setModel(self.model)
        self._delegate = HolderCard(bench.look, bench.keeper.place, self.view)
        self.view.setItemDelegate(self._delegate)
        self.send_all = button(tr("Send all o&ut"), self.all_out.emit, name="all-out")
        self.send_all.setToolTip(tr("Into the sun: all that wait and are not kept in"))
        self.bring_all = button(tr("Bring all &in"), self.all_in.emit, name="all-in")
        self.begin = button(tr("Start harde&ning"), self.start.emit, "link", name="start-hardening")
        self.hush = QCheckBox(tr("&Quiet: show, do not ring"))
        self.hush.setObjectName("quiet")
        self.hush.setMinimumHeight(24)
        self.hush.toggled.connect(self.quiet.emit)
        self.numbers = TableButton(bench, sources.hardening)
        self.snoozed = label("", "quiet", wrap=True)
        self.snoozed.hide()
        self.caution = label(CAUTION, "quiet", wrap=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(Flow(label(tr("Going out today"), "title"), self.begin))
        layout.addWidget(self.view, 1)
        layout.addWidget(Flow(self.send_all, self.bring_all))
        layout.addWidget(self.snoozed)
        layout.addWidget(Flow(self.hush, self.numbers))
        layout.addWidget(self.caution)
        self.view.selectionModel().currentChanged.connect(self._tell)
        bench.look.changed.connect(self.view.viewport().update)

    @property
    def current(self) -> str:
        """The key of the chosen holder, or an empty text."""
        return str(self.view.currentIndex().data(KEY) or "")

    def choose(self, key: str) -> None:
        """Choose a holder, if it is there."""
        line = self.model.row_of(key)
        if line >= 0:
            self.view.setCurrentIndex(self.model.index(line))

    def show_now(self, rows: list[AtDoor]) -> None:
        """Show the holders as they are; the chosen one stays chosen."""
        key = self.current
        place = self._bench.keeper.place
        self._delegate.set_place(place)
        self.model.show_rows(rows, place)
        if rows and not self.current:
            self.choose(key if self.model.row_of(key) >= 0 else rows[0].key)
        for part in (self.begin, self.send_all, self.bring_all, self.caution):
            part.setVisible(bool(rows))
        self.view.setFocusPolicy(Qt.FocusPolicy.StrongFocus if rows else Qt.FocusPolicy.NoFocus)
        self.send_all.setEnabled(bool(sendable(rows)))
        self.bring_all.setEnabled(any(here.out for here in rows))

    def show_snoozed(self, snoozed: Sequence[tuple[AtDoor, datetime]]) -> None:
        """Show who was left longer, and until when."""
        place = self._bench.keeper.place
        words = [
            tr("{name} rings again at {time}", name=here.name, time=time_words(until, place))
            for here, until in snoozed
        ]
        self.snoozed.setText(in_row(words))
        self.snoozed.setVisible(bool(words))

    def _tell(self, current: QModelIndex, _before: QModelIndex) -> None:
        if current.isValid():
            self.chosen.emit(str(current.data(KEY)))


def sendable(rows: list[AtDoor]) -> list[str]:
    """Return the holders that would go out with all: those that wait, whatever the weather says."""
    return [here.key for here in rows if here.where is Where.WAITING]


def spoken(here: AtDoor, place: Place) -> str:
    """Return a holder in one line for a screen reader."""
    sun = tr(
        "{done} of {limit} minutes of sun",
        done=whole_minutes(here.sun),
        limit=here.stand.sun.limit,
    )
    parts = [here.name, state_words(here, place), sun, next_words(here, place), in_words(here)]
    face, light = here.stand.sun, here.counted.light_mol_m2
    if light:
        parts.append(tr("{light:.1f} mol/m² of light", light=light))
    if here.stand.shade_target:
        parts.append(
            tr(
                "{done} of {asked} in shade",
                done=whole_minutes(here.counted.shade),
                asked=here.stand.shade_target,
            )
        )
    if face.step < face.ramp.outings:
        parts.append(tr("step {step} of {outings}", step=face.step + 1, outings=face.ramp.outings))
    return ", ".join(part for part in [*parts, ready_words(here.stand)] if part)


def _view() -> QListView:
    view = QListView()
    view.setObjectName("going-out")
    view.setAccessibleName(tr("Going out today"))
    view.setFrameShape(QFrame.Shape.NoFrame)
    view.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
    view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    view.setSpacing(0)
    view.setMouseTracking(True)
    view.setStyleSheet("QListView { background: transparent; border: none; }")
    view.viewport().setAutoFillBackground(False)
    return view
