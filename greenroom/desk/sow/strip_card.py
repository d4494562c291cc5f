"""The card of the season strip: months over it, what its signs mean below it."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, QSize, Qt, QTimer
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QWidget

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.parts import Card
from greenroom.desk.sharp import sharp_box, straight
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.sow.season_strip import SeasonStrip
from greenroom.desk.sow.strip_axis import StripAxis
from greenroom.desk.tables import sources
from greenroom.desk.tables.calendars import plan_calendar_button
from greenroom.desk.tables.table_button import TableButton, plan_picture_of
from greenroom.speech import tr

SIGN_PX, SPACE_PX, LINE_PX = 18, 14, 20
SIGNS = (
    ("soil", tr("comes up")),
    ("seedling", tr("grows on")),
    ("pot", tr("pot up")),
    ("sun", tr("hardens")),
    ("leaf", tr("outdoors")),
    ("rail", tr("set out, by the years")),
    ("fruit", tr("first ripe; pale: by the years")),
    ("frost", tr("first frost")),
)


class Key(QWidget):
    """What the signs of the strip mean, in one line or more."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.setFont(font(SMALL_PX))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("Signs: {signs}", signs=", ".join(words for _, words in SIGNS)))
        look.changed.connect(self.update)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for (sign, words), corner in zip(SIGNS, self._corners(), strict=True):
            self._sign(painter, QRectF(corner.x(), corner.y() + LINE_PX / 2 - 6, SIGN_PX, 12), sign)
            painter.setPen(self._look.colour("quiet"))
            room = QRect(corner.x() + SIGN_PX + 6, corner.y(), self.width(), LINE_PX)
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, words)
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.setFixedHeight(self._corners()[-1].y() + LINE_PX)

    def _corners(self) -> list[QPoint]:
        """Return where each sign begins, in as many lines as it takes."""
        metrics, corner, found = QFontMetrics(self.font()), QPoint(0, 0), []
        for _, words in SIGNS:
            wide = SIGN_PX + 6 + metrics.horizontalAdvance(words)
            if corner.x() and corner.x() + wide > self.width():
                corner = QPoint(0, corner.y() + LINE_PX)
            found.append(corner)
            corner = QPoint(corner.x() + wide + SPACE_PX, corner.y())
        return found

    def _sign(self, painter: QPainter, rect: QRectF, sign: str) -> None:
        middle = rect.center()
        painter.setPen(Qt.PenStyle.NoPen)
        if sign == "pot":
            painter.setBrush(self._look.colour("clay"))
            painter.drawPolygon([middle + QPointF(x, y) for x, y in ((-5, -4), (5, -4), (3, 4), (-3, 4))])
        elif sign == "rail":
            painter.setPen(QPen(self._look.colour("quiet"), 2))
            straight(painter, QPointF(rect.left(), middle.y()), QPointF(rect.right(), middle.y()))
            for x in (rect.left(), rect.right()):
                straight(painter, QPointF(x, middle.y() - 3), QPointF(x, middle.y() + 3))
        elif sign == "fruit":
            pale = self._look.colour("clay")
            pale.setAlpha(90)
            painter.setBrush(pale)
            painter.drawRoundedRect(rect.adjusted(0, 1, 0, -1), 4, 4)
            painter.setBrush(self._look.colour("clay"))
            painter.drawEllipse(middle, 5, 5)
        elif sign == "frost":
            painter.setPen(QPen(self._look.colour("link"), 1.8, Qt.PenStyle.DashLine))
            straight(painter, QPointF(middle.x(), rect.top() - 2), QPointF(middle.x(), rect.bottom() + 2))
        else:
            painter.setPen(QPen(self._look.colour("soil_edge"), 1))
            painter.setBrush(self._look.colour(sign))
            painter.drawRoundedRect(sharp_box(painter, rect), 3, 3)

    def sizeHint(self) -> QSize:
        return QSize(200, 20)


class StripCard(Card):
    """The strip in its frame; many varieties are scrolled, the months stay."""

    def __init__(self, desk: PlanDesk, look: Look) -> None:
        super().__init__(tr("The season of each"))
        self.aside.setText(tr("drag a bar to try another sowing day"))
        bench, plan = desk.bench, lambda: desk.plan
        self.numbers = TableButton(bench, lambda one: sources.plan(one, plan()), plan_picture_of(bench, plan))
        self.head.addWidget(self.numbers)
        self.head.addWidget(plan_calendar_button(bench, plan))
        self.axis = StripAxis(look)
        self.strip = SeasonStrip(desk, look)
        self.scroller = QScrollArea()
        self.scroller.setFrameShape(QFrame.Shape.NoFrame)
        self.scroller.setWidgetResizable(True)
        self.scroller.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.scroller.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.scroller.setWidget(self.strip)
        for part in (self.scroller.viewport(), self.strip):
            part.setAutoFillBackground(False)  # the card shows through
        self.body.setSpacing(2)
        self.body.addWidget(self.axis)
        self.body.addWidget(self.scroller, 1)
        self.body.addWidget(Key(look))
        self.strip.scaled.connect(self.axis.show_scale)
        self.strip.shown_row.connect(self._see)

    def _see(self, rect: QRect) -> None:
        """Scroll to a row, once what came with it is laid out."""
        QTimer.singleShot(0, self, lambda: self._scroll_to(rect))

    def _scroll_to(self, rect: QRect) -> None:
        self.scroller.ensureVisible(rect.left(), rect.center().y(), 0, rect.height())
