"""The season ribbon: the stages laid on the year's months, today's marker under them.

The months keep their order and the marker its true place between them, but a stage is never drawn
narrower than its words: time runs evenly within each stage, not from one to the next.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from datetime import date, timedelta

from dateutil.relativedelta import relativedelta
from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from greenroom.desk.look import BODY_PX, RADIUS, SMALL_PX, Look, font
from greenroom.desk.sharp import straight
from greenroom.season.hardening_words import MONTHS_SHORT, day_words
from greenroom.season.ribbon import RibbonStage
from greenroom.season.within import in_row
from greenroom.speech import tr

STAGE_TOP_PX = 10
STAGE_HEIGHT_PX = 44
AXIS_PX = STAGE_TOP_PX + STAGE_HEIGHT_PX + 7
HEIGHT_PX = 84
STAGE_GAP_PX = 4
WORDS_MARGIN_PX = 24


class StageButton(QAbstractButton):
    """One stage of the ribbon: its title and its live figure."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self._look = look
        self._figure = ""
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def set_stage(self, stage: RibbonStage) -> None:
        """Show a stage."""
        self.setText(stage.title)
        self._figure = stage.figure
        self.setAccessibleName(f"{stage.title}, {stage.figure}")
        days = f"{day_words(stage.start)} – {day_words(stage.end - timedelta(days=1))}"
        told = tr("{name}: {what}", name=stage.title, what=stage.figure)
        self.setToolTip(f"{told}\n{days}, {stage.known}" if stage.known else "")
        self.setAccessibleDescription(f"{days}, {stage.known}" if stage.known else "")
        self.update()

    def words_width(self) -> float:
        """Return the width its words need."""
        title = QFontMetricsF(font(BODY_PX, QFont.Weight.DemiBold)).horizontalAdvance(self.text())
        figure = QFontMetricsF(font(SMALL_PX)).horizontalAdvance(self._figure)
        return max(title, figure) + WORDS_MARGIN_PX

    def sizeHint(self) -> QSize:
        return QSize(round(self.words_width()), STAGE_HEIGHT_PX)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002 the whole button is painted
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        fill = "leaf" if self.isChecked() else ("leaf_soft" if self.underMouse() else "leaf_wash")
        painter.setBrush(self._look.colour(fill))
        painter.setPen(QPen(self._look.colour("focus"), 2) if self.hasFocus() else QPen(Qt.PenStyle.NoPen))
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.drawRoundedRect(box, RADIUS, RADIUS)
        ink, quiet = (
            ("on_leaf", "on_leaf") if self.isChecked() else ("ink", "ink" if self.underMouse() else "quiet")
        )
        half = box.height() / 2
        self._write(
            painter, QRectF(box.left(), box.top() + 3, box.width(), half), self.text(), ink, bold=True
        )
        self._write(
            painter, QRectF(box.left(), box.top() + half - 1, box.width(), half - 3), self._figure, quiet
        )
        painter.end()

    def _write(self, painter: QPainter, box: QRectF, text: str, colour: str, *, bold: bool = False) -> None:
        painter.setFont(font(BODY_PX, QFont.Weight.DemiBold) if bold else font(SMALL_PX))
        painter.setPen(self._look.colour(colour))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)


class RibbonView(QWidget):
    """The ribbon across the top of the window; choosing a stage goes to its page."""

    chosen = Signal(str)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._stages: list[RibbonStage] = []
        self._buttons: dict[str, StageButton] = {}
        self._today: date | None = None
        self._edges: list[float] = []
        self._current = ""
        self.setFixedHeight(HEIGHT_PX)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.update)

    def show_season(self, stages: Sequence[RibbonStage], today: date) -> None:
        """Show the stages and today's marker."""
        if list(stages) == self._stages and today == self._today:
            return
        self._stages, self._today = list(stages), today
        self.setAccessibleName(tr("The season"))
        told = in_row(f"{one.title}, {one.figure}" for one in stages)
        self.setAccessibleDescription(tr("Today is {day}. {told}", day=day_words(today), told=told))
        for stage in stages:
            if stage.key not in self._buttons:
                self._add_button(stage.key)
            self._buttons[stage.key].set_stage(stage)
        self._lay_out()
        self.update()

    def set_current(self, key: str) -> None:
        """Show which page is in front."""
        self._current = key
        for name, one in self._buttons.items():
            one.setChecked(name == key)

    def focus(self, key: str) -> None:
        """Put the keyboard on a stage; a page outside the season, such as the place, has none."""
        if key in self._buttons:
            self._buttons[key].setFocus()

    def button(self, key: str) -> StageButton:
        """Return the button of a stage."""
        return self._buttons[key]

    def x_of(self, day: date) -> float:
        """Return where a day lies along the ribbon [px]."""
        starts = [stage.start for stage in self._stages]
        place = max(0, min(len(starts) - 1, bisect_right(starts, day) - 1))
        stage = self._stages[place]
        share = (day - stage.start).days / max(1, (stage.end - stage.start).days)
        left, right = self._edges[place], self._edges[place + 1]
        return max(0.0, min(self._edges[-1], left + share * (right - left)))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: ARG002 only the new size counts
        self._lay_out()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002 the axis is painted whole
        if not self._stages or self._today is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        marker = self._marker_box()
        self._paint_months(painter, marker)
        self._paint_marker(painter, marker)
        painter.end()

    def _add_button(self, key: str) -> None:
        made = StageButton(self._look, self)
        made.setObjectName(f"stage-{key}")
        made.clicked.connect(lambda _checked=False: self.chosen.emit(key))
        made.setChecked(key == self._current)
        self._buttons[key] = made
        made.show()

    def _lay_out(self) -> None:
        if not self._stages:
            return
        widths = self._widths(float(self.width()))
        self._edges = [0.0]
        for width in widths:
            self._edges.append(self._edges[-1] + width)
        for stage, left, right in zip(self._stages, self._edges, self._edges[1:], strict=False):
            self._buttons[stage.key].setGeometry(
                round(left), STAGE_TOP_PX, max(1, round(right - left) - STAGE_GAP_PX), STAGE_HEIGHT_PX
            )

    def _widths(self, total: float) -> list[float]:
        """Share the width out by days, but give each stage the room its words need."""
        least = [self._buttons[stage.key].words_width() + STAGE_GAP_PX for stage in self._stages]
        if sum(least) >= total:
            return [total * one / sum(least) for one in least]
        days = [max(1, (stage.end - stage.start).days) for stage in self._stages]
        tight: set[int] = set()
        while True:
            free = total - sum(least[place] for place in tight)
            loose = sum(day for place, day in enumerate(days) if place not in tight)
            found = {
                place
                for place, day in enumerate(days)
                if place not in tight and free * day / loose < least[place]
            }
            if not found:
                break
            tight |= found
        return [least[p] if p in tight else free * day / loose for p, day in enumerate(days)]

    def _marker_box(self) -> QRectF:
        text = self._marker_text()
        width = QFontMetricsF(font(SMALL_PX, QFont.Weight.DemiBold)).horizontalAdvance(text) + 18
        centre = self.x_of(self._today) if self._today else 0.0
        left = max(0.0, min(self.width() - width, centre - width / 2))
        return QRectF(left, AXIS_PX + 3, width, 18)

    def _marker_text(self) -> str:
        return day_words(self._today) if self._today else ""

    def _paint_months(self, painter: QPainter, marker: QRectF) -> None:
        painter.setPen(QPen(self._look.colour("edge"), 1.5))
        straight(painter, QPointF(0, AXIS_PX), QPointF(self._edges[-1] - STAGE_GAP_PX, AXIS_PX))
        painter.setFont(font(SMALL_PX))
        metrics = QFontMetricsF(painter.font())
        month = self._stages[0].start.replace(day=1) + relativedelta(months=1)
        free_from = 0.0
        while month < self._stages[-1].end:
            x, name = self.x_of(month), MONTHS_SHORT[month.month - 1]
            painter.setPen(QPen(self._look.colour("quiet"), 1))
            straight(painter, QPointF(x, AXIS_PX - 3), QPointF(x, AXIS_PX + 3))
            box = QRectF(x + 4, AXIS_PX + 3, metrics.horizontalAdvance(name), 18)
            inside = box.right() <= self._edges[-1]
            if inside and box.left() >= free_from and not box.adjusted(-4, 0, 4, 0).intersects(marker):
                painter.drawText(box.adjusted(0, 0, 8, 0), Qt.AlignmentFlag.AlignVCenter, name)
                free_from = box.right() + 6
            month += relativedelta(months=1)

    def _paint_marker(self, painter: QPainter, box: QRectF) -> None:
        x = self.x_of(self._today) if self._today else 0.0
        painter.setPen(QPen(self._look.colour("clay"), 2))
        straight(painter, QPointF(x, AXIS_PX - 5), QPointF(x, AXIS_PX + 4))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._look.colour("clay"))
        painter.drawRoundedRect(box, 9, 9)
        painter.setPen(self._look.colour("on_clay"))
        painter.setFont(font(SMALL_PX, QFont.Weight.DemiBold))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self._marker_text())
