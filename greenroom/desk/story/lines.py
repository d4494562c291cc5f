"""The lines of a story, one below the other along a rail of days."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QIcon, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QFrame, QPushButton, QScrollArea, QVBoxLayout, QWidget

from greenroom.desk.look import GAP, Look
from greenroom.desk.parts import button, label, plain_tip, row, show_words
from greenroom.desk.story.thumbs import THUMB, Shown
from greenroom.season.hardening_words import day_words
from greenroom.season.story import Line
from greenroom.speech import tr

RAIL_PX = 20
DOT_PX = 4.0
DAY_PX = 24
FIRST_SHOWN, HIDDEN_STEP = 60, 20  # hidden in steps, so that a new line moves none of the others
HERE_BEFORE = tr("Here before")
NOTHING = tr("Nothing has happened here yet.")


def _with_years(lines: Sequence[Line]) -> list[Line | str]:
    """Return lines with the year above the first of each, if they are of more than one."""
    years = {line.day.year for line in lines}
    items: list[Line | str] = []
    told: int | None = None
    for line in lines:
        if len(years) > 1 and line.day.year != told:
            told = line.day.year
            items.append(f"{told}")
        items.append(line)
    return items


class StoryLine(QWidget):
    """One line of a story: its day, its words, its picture, and the way to take it back."""

    def __init__(self, look: Look, line: Line, take_back: Callable[[Line], object], written: str) -> None:
        super().__init__()
        self._look = look
        self.line = line
        self.setAccessibleDescription(tr("{name}: {what}", name=day_words(line.day), what=line.words))
        self.picture: QPushButton | None = None
        self.trouble = label("", "alert", wrap=True)
        self.trouble.hide()
        day = label(day_words(line.day), "quiet")
        day.setMinimumHeight(DAY_PX)
        self.back = button(tr("take back"), lambda: take_back(line), "link")
        self.back.setAccessibleName(
            tr("take back: {words}, {day}", words=line.words, day=day_words(line.day))
        )
        if line.fixed or line.others:
            self.back.hide()  # never shown here, where it stands in nothing yet and would be a window
        self.setToolTip(plain_tip(written))
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(RAIL_PX, 0, GAP, GAP // 2)
        self._layout.setSpacing(0)
        self._layout.addLayout(row(day, None, self.back))
        self._layout.addWidget(label(line.words, wrap=True))
        self._layout.addWidget(self.trouble)

    def show_picture(self, shown: Shown, opened: Callable[[Line], object]) -> None:
        """Show the line's picture small, or what is wrong with its file."""
        show_words(self.trouble, shown.trouble)
        if shown.trouble or self.picture is not None:
            return
        self.picture = button("", lambda: opened(self.line), name="picture")
        self.picture.setAccessibleName(tr("picture of {day}: open it larger", day=day_words(self.line.day)))
        self.picture.setIcon(QIcon(QPixmap.fromImage(shown.image)))
        self.picture.setIconSize(shown.image.size().scaled(THUMB, Qt.AspectRatioMode.KeepAspectRatio))
        self._layout.addLayout(row(self.picture, None))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the rail: a dot for the plant's own marks, a ring for a whole tray, a square for pictures."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        x, y = RAIL_PX / 2 - 1, DAY_PX / 2
        painter.setPen(QPen(self._look.colour("line"), 2))
        painter.drawLine(QPointF(x, 0), QPointF(x, self.height()))
        colour = self._look.colour("quiet" if self.line.earlier else "leaf")
        painter.setPen(QPen(colour, 2))
        painter.setBrush(self._look.colour("card") if self.line.whole else colour)
        dot = QRectF(x - DOT_PX, y - DOT_PX, 2 * DOT_PX, 2 * DOT_PX)
        if self.line.picture is not None:
            painter.drawRect(dot)
        else:
            painter.drawEllipse(dot)
        painter.end()


class LineList(QScrollArea):
    """All lines of a story, the latest at the foot; lines that stay are not made anew."""

    opened = Signal(object)

    def __init__(
        self, look: Look, take_back: Callable[[Line], object], written: Callable[[Line], str]
    ) -> None:
        super().__init__()
        self._look = look
        self._take_back = take_back
        self._written = written
        self._items: list[Line | str] = []
        self._told: tuple[Line, ...] = ()
        self._all = False
        self._at_foot = True
        self.setObjectName("story-lines")
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("story"))
        inside = QWidget()
        inside.setObjectName("ground")
        self.rows = QVBoxLayout(inside)
        self.rows.setContentsMargins(0, 0, 0, 0)
        self.rows.setSpacing(0)
        self.rows.addStretch(1)
        self.setWidget(inside)
        self.verticalScrollBar().rangeChanged.connect(self._on_range)
        self.verticalScrollBar().valueChanged.connect(self._on_scrolled)
        look.changed.connect(self._dress)
        self._dress()

    @property
    def made(self) -> list[StoryLine]:
        """The lines that are shown, in order."""
        items = (self.rows.itemAt(place) for place in range(self.rows.count()))
        widgets = (item.widget() for item in items if item is not None)
        return [one for one in widgets if isinstance(one, StoryLine)]

    def start_anew(self) -> None:
        """Be ready for another story, told from its latest lines."""
        self._all = False
        self._at_foot = True

    def tell(self, lines: Sequence[Line]) -> None:
        """Show a story."""
        self._told = tuple(lines)
        items = self._arranged()
        same = 0
        while same < min(len(items), len(self._items)) and items[same] == self._items[same]:
            same += 1
        if same == len(items) == len(self._items):
            return
        while self.rows.count() > same + 1:
            item = self.rows.takeAt(same)
            widget = item.widget() if item is not None else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for place, entry in enumerate(items[same:], start=same):
            self.rows.insertWidget(place, self._made(entry))
        self._items = items

    def show_pictures(self, shown: dict[str, Shown]) -> None:
        """Show the pictures that were read."""
        for one in self.made:
            if one.line.fact in shown:
                one.show_picture(shown[one.line.fact], self.opened.emit)

    def _arranged(self) -> list[Line | str]:
        earlier = [line for line in self._told if line.earlier]
        present = [line for line in self._told if not line.earlier]
        hidden = 0 if self._all else max(0, len(present) - FIRST_SHOWN) // HIDDEN_STEP * HIDDEN_STEP
        items: list[Line | str] = [tr("Show {n} earlier lines", n=hidden)] if hidden else []
        items += _with_years(present[hidden:])
        if earlier:
            items += [HERE_BEFORE, *earlier]
        return items or [NOTHING]

    def _made(self, entry: Line | str) -> QWidget:
        if isinstance(entry, Line):
            return StoryLine(self._look, entry, self._take_back, self._written(entry))
        if entry == NOTHING:
            return label(entry, "quiet", wrap=True)
        if entry == HERE_BEFORE or entry.isdigit():
            return label(entry, "strong")
        return button(entry, self._show_all, "link", name="all-lines")

    def _on_range(self, _least: int, most: int) -> None:
        """Keep the latest lines in view, unless the grower scrolled away from them."""
        if self._at_foot:
            self.verticalScrollBar().setValue(most)

    def _on_scrolled(self, value: int) -> None:
        self._at_foot = value >= self.verticalScrollBar().maximum()

    def _dress(self) -> None:
        focus = f"border: 2px solid {self._look.palette.focus}; border-radius: 4px;"
        self.setStyleSheet(f"QScrollArea#story-lines:focus {{ {focus} }}")
        self.viewport().update()

    def _show_all(self) -> None:
        self._all, self._at_foot = True, False
        self.tell(self._told)
