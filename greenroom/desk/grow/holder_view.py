"""The open tray or rack: every cell painted, under the mouse and the keys."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QScrollArea, QSizePolicy, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.grow import view_paint
from greenroom.desk.grow.acts import Acts
from greenroom.desk.grow.bands import Bands, bands_of
from greenroom.desk.grow.cell_art import CellArt
from greenroom.desk.grow.cell_keys import CellKeys
from greenroom.desk.grow.cell_mouse import CellMouse
from greenroom.desk.grow.choice import Choice
from greenroom.desk.grow.grid import (
    LARGEST_PITCH,
    SMALLEST_PITCH,
    USUAL_PITCH,
    Grid,
    Margins,
    Place,
    fit,
    room_for,
)
from greenroom.desk.grow.hand import Hand
from greenroom.desk.parts import told_under
from greenroom.season.holders import Holder
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season, Touched
from greenroom.season.story import glance_words, spoken_words
from greenroom.speech import tr, trn

RING = 2  # a ring reaches this far past a cell's slot


class HolderView(QWidget):
    """Shows one holder; what is done in it goes through ``acts``, what is lifted into ``hand``."""

    current_changed = Signal()
    chosen_changed = Signal()
    story_asked = Signal(object)
    loss_asked = Signal()
    carry_started = Signal(list, QPoint)
    carried = Signal(QPoint)
    dropped = Signal(QPoint)

    def __init__(self, bench: Bench, acts: Acts, hand: Hand, art: CellArt) -> None:
        super().__init__()
        self.bench = bench
        self.acts = acts
        self.hand = hand
        self.art = art
        self.holder: Holder | None = None
        self.choice = Choice()
        self.bands = Bands()
        self.rubber: QRect | None = None
        self.grid = Grid(1, 1, 0, 0, SMALLEST_PITCH, SMALLEST_PITCH)
        self._shown = self.choice.shown
        self._keys = CellKeys(self)
        self._mouse = CellMouse(self)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMouseTracking(False)
        bench.look.changed.connect(self.update)
        hand.changed.connect(self.update)

    @property
    def holder_key(self) -> str | None:
        """The key of the holder that is open, None if none is."""
        return self.holder.key if self.holder is not None else None

    @property
    def season(self) -> Season:
        """The season as it stands."""
        return self.bench.keeper.season

    @property
    def is_rack(self) -> bool:
        """Whether pots are shown, not cells."""
        return self.holder is not None and self.holder.form == "rack"

    @property
    def strip(self) -> int:
        """The room wanted below each pot for the name of its variety; over a tray the bands name them."""
        return view_paint.NAME_STRIP if self.is_rack else 0

    @property
    def margins(self) -> Margins:
        """The room round the cells."""
        return view_paint.margins_for(self.holder, self.bands)

    def show_holder(self, key: str | None) -> None:
        """Show another holder, or the same anew."""
        same = self.holder is not None and self.holder.key == key
        self.holder = self.season.holder(key) if key is not None else None
        if not same:
            self.choice = Choice()
            self._shown = self.choice.shown
            self._mouse.forget()
        if self.holder is not None:
            self.choice.rows, self.choice.columns = self.holder.rows, self.holder.columns
        self.refresh_bands()
        self._fit()
        self.updateGeometry()
        self.update()
        self.tell()

    def take(self, touched: Touched) -> None:
        """Repaint the cells that were touched, and no others."""
        if self.holder is None:
            return
        for key in touched.spots:
            if key.holder == self.holder.key:
                self.update(self._ringed(self.place_of(key)))
        if touched.kinds & {"sown", "moved", "packet", "variety"} and self.holder.key in touched.holders:
            self.refresh_bands()
        if self.current in touched.spots:
            self.tell()

    def refresh_bands(self) -> None:
        """Work out anew which variety stands where."""
        before = self.bands
        tray = self.holder is not None and not self.is_rack
        self.bands = bands_of(self.season, self.holder.key) if tray and self.holder else Bands()
        if self.bands != before:
            self._fit()
            self.updateGeometry()
            self.update()

    def key_of(self, place: Place) -> SpotKey:
        """Return the spot at a place of the open holder."""
        if self.holder is None:
            raise LookupError("no tray is open")
        return SpotKey(self.holder.key, *place)

    @staticmethod
    def place_of(key: SpotKey) -> Place:
        """Return where a spot lies."""
        return key.row, key.column

    @property
    def current(self) -> SpotKey | None:
        """The cell the keys act on."""
        return None if self.choice.current is None else self.key_of(self.choice.current)

    @property
    def targets(self) -> list[SpotKey]:
        """The cells an act is for: the chosen ones, else the current one."""
        return [self.key_of(place) for place in self.choice.targets]

    def spot_at(self, point: QPoint) -> SpotKey | None:
        """Return the spot under a point of this widget."""
        place = self.grid.at(point) if self.holder is not None else None
        return None if place is None else self.key_of(place)

    def first_free(self) -> Place:
        """Return the first empty place, else the first of all."""
        if self.holder is not None:
            for spot in self.season.spots(self.holder.key):
                if spot.free:
                    return self.place_of(spot.key)
        return (0, 0)

    def go_to(self, place: Place) -> None:
        """Make a cell the current one."""
        self.choice.go(place)
        self.chosen()

    def chosen(self) -> None:
        """Show what is current and chosen after it changed."""
        shown = self.choice.shown
        for place, _ in shown ^ self._shown:
            self.update(self._ringed(place))
        self._shown = shown
        self.tell()
        if self.hand.active and self.hand.by_keys and self.current is not None:
            self.hand.aim(self.current)
        self.see(self.choice.current)
        self.current_changed.emit()
        self.chosen_changed.emit()

    def see(self, place: Place | None) -> None:
        """Scroll a cell into sight."""
        area = self._scroll_area()
        if area is not None and place is not None:
            middle = self.grid.slot(place).center()
            area.ensureVisible(middle.x(), middle.y(), self.grid.pitch_x, self.grid.pitch_y)

    def see_point(self, point: QPoint) -> None:
        """Scroll a point into sight."""
        area = self._scroll_area()
        if area is not None:
            area.ensureVisible(point.x(), point.y(), SMALLEST_PITCH, SMALLEST_PITCH)

    def tell(self) -> None:
        """Tell a screen reader what the current cell holds."""
        name = self.holder.name if self.holder is not None else tr("no tray")
        key = self.current
        words = spoken_words(self.season, key) if key is not None else tr("arrow keys go from cell to cell")
        told = f"{name}, {words}"
        if told == self.accessibleName():
            return
        self.setAccessibleName(told)
        chosen = len(self.choice.chosen)
        self.setAccessibleDescription(
            trn("{n} cell chosen", "{n} cells chosen", chosen) if chosen else self._told_in_all()
        )
        if QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.NameChanged))

    def _told_in_all(self) -> str:
        """Return in words what is seen of the holder at a glance."""
        if self.holder is None:
            return tr("no tray is open")
        counts = self.season.counts(self.holder.key)
        told = tr(
            "{rows} rows of {columns}: {living} with a living seedling",
            rows=self.holder.rows,
            columns=self.holder.columns,
            living=counts.living,
        )
        up = tr("{up} of {sown} sown up", up=counts.up, sown=counts.sown)
        return f"{told}, {up}" if counts.sown else told

    def words_at(self, point: QPoint) -> str:
        """Return what there is to read about a point: the cell's words or a band's names."""
        key = self.spot_at(point)
        if key is not None:
            return glance_words(self.season, key)
        return view_paint.band_words_at(self, point)

    def height_at(self, width: int) -> int:
        """Return the height the cells take at a width."""
        if self.holder is None:
            return 0
        rows, columns = self.holder.rows, self.holder.columns
        tall = (rows + 2) * LARGEST_PITCH + rows * self.strip
        grid = fit(rows, columns, QSize(width, tall), self.margins, self.strip)
        return grid.area.bottom() + 1 + self.margins.bottom

    def sizeHint(self) -> QSize:
        return self._room(USUAL_PITCH)

    def minimumSizeHint(self) -> QSize:
        return self._room(SMALLEST_PITCH)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        view_paint.paint(self, painter, event.rect())
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.holder is None or not self._keys.press(event):
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._mouse.press(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self._mouse.press(event)  # the second of two quick clicks is a click like any other

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._mouse.move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._mouse.release(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        key = self.spot_at(event.pos()) if event.reason() == QContextMenuEvent.Reason.Mouse else self.current
        if key is not None:
            self.go_to(self.place_of(key))
            self.story_asked.emit(key)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        by_tab = event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason)
        if self.choice.current is None and self.holder is not None and by_tab:
            self.go_to((0, 0))
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self.words_at) or super().event(event)

    def _ringed(self, place: Place) -> QRect:
        """Return what must be repainted for a cell with its ring."""
        return self.grid.slot(place).adjusted(-RING, -RING, RING, RING)

    def _fit(self) -> None:
        if self.holder is not None:
            rows, columns = self.holder.rows, self.holder.columns
            self.grid = fit(rows, columns, self.size(), self.margins, self.strip)

    def _room(self, pitch: int) -> QSize:
        if self.holder is None:
            return QSize(2 * USUAL_PITCH, 2 * USUAL_PITCH)
        return room_for(self.holder.rows, self.holder.columns, self.margins, pitch)

    def _scroll_area(self) -> QScrollArea | None:
        viewport = self.parentWidget()
        area = viewport.parentWidget() if viewport is not None else None
        return area if isinstance(area, QScrollArea) else None
