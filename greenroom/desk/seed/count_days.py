"""The days of a germination test, week below week, with what was counted on each."""

from __future__ import annotations

from datetime import date, timedelta

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QFont,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import BODY_PX, SMALL_PX, Look, font
from greenroom.desk.sharp import sharp_box
from greenroom.season.hardening_words import day_words, short_day_words
from greenroom.season.home_tests import HomeTest
from greenroom.speech import tr, trn

WEEK = 7
DAY_PX = 40
GAP_PX = 3
STEPS = {
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_Up: -WEEK,
    Qt.Key.Key_Down: WEEK,
}
DIGITS = "0123456789"
LAST = tr("last", sense="count of a test")


class CountDays(QWidget):
    """Arrow keys or the mouse go to a day; a digit writes that day's count, + and Backspace change it."""

    gone_to = Signal(object)
    one_more = Signal()
    one_less = Signal()
    written = Signal(int)
    cleared = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._test: HomeTest | None = None
        self._counts: dict[date, int] = {}
        self._today = date.min
        self.day = date.min
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setToolTip(
            tr("Arrow keys go to a day; a digit writes its count, + adds one, Backspace takes one off")
        )
        look.changed.connect(self.update)

    @property
    def days(self) -> list[date]:
        """The days shown: from the first to the last count, or to the last day that was counted."""
        if self._test is None:
            return []
        last = max(self._test.due, self._test.last_look or self._test.due)
        return [self._test.begun + timedelta(days=one) for one in range((last - self._test.begun).days + 1)]

    def count_on(self, day: date) -> int | None:
        """Return what was counted on a day, None if it was not looked at."""
        return self._counts.get(day)

    def show_test(self, test: HomeTest, today: date) -> None:
        """Show a test; the day that was gone to stays while it is shown."""
        another = self._test is None or self._test.key != test.key
        self._test, self._today = test, today
        self._counts = {}
        for day, count in test.counts:
            self._counts[day] = self._counts.get(day, 0) + count
        if another or self.day not in self.days:
            self.day = max(day for day in self.days if day <= max(today, test.begun))
        self.updateGeometry()
        self.update()
        self._speak()

    def go_to(self, day: date) -> None:
        """Go to a day that may be counted: of the test, and not ahead."""
        if day in self.days and day <= self._today and day != self.day:
            self.day = day
            self.gone_to.emit(day)
            self.update()
            self._speak()

    def words_of(self, day: date) -> str:
        """Return a day as it is read aloud."""
        if self._test is None:
            return ""
        count = self._counts.get(day)
        told = tr("not looked at") if count is None else trn("1 germinated", "{n} germinated", count)
        number = (day - self._test.begun).days
        if day == self._test.due:
            return tr("{date}, day {day}, last count due: {told}", date=day_words(day), day=number, told=told)
        return tr("{date}, day {day}: {told}", date=day_words(day), day=number, told=told)

    def sizeHint(self) -> QSize:
        return QSize(WEEK * DAY_PX, self._weeks() * DAY_PX)

    def minimumSizeHint(self) -> QSize:
        return QSize(WEEK * 34, self._weeks() * DAY_PX)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, text = event.key(), event.text()
        if key in STEPS:
            self.go_to(self.day + timedelta(days=STEPS[Qt.Key(key)]))
        elif text and text in DIGITS:
            self.written.emit(int(text))
        elif text == "+":
            self.one_more.emit()
        elif text == "-" or key == Qt.Key.Key_Backspace:
            self.one_less.emit()
        elif key == Qt.Key.Key_Delete:
            self.cleared.emit()
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        spot = event.position()
        found = [day for place, day in enumerate(self.days) if self.rect_of(place).contains(spot)]
        if found:
            self.go_to(found[0])

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for place, day in enumerate(self.days):
            self._paint_day(painter, self.rect_of(place), day)
        painter.end()

    def rect_of(self, place: int) -> QRectF:
        """Return where a day stands, by its number from the first."""
        down, across = divmod(place, WEEK)
        width = self.width() / WEEK
        left, top = across * width, down * DAY_PX
        return QRectF(left + GAP_PX / 2, top + GAP_PX / 2, width - GAP_PX, DAY_PX - GAP_PX)

    def _paint_day(self, painter: QPainter, rect: QRectF, day: date) -> None:
        count, ahead = self._counts.get(day), day > self._today
        here = day == self.day
        edge = QPen(self._look.colour("edge"), 1, Qt.PenStyle.DashLine if ahead else Qt.PenStyle.SolidLine)
        if here:
            edge = QPen(self._look.colour("focus" if self.hasFocus() else "leaf"), 2)
        painter.setPen(edge)
        painter.setBrush(self._look.colour("leaf_soft" if count else "card"))
        painter.drawRoundedRect(sharp_box(painter, rect.adjusted(1, 1, -1, -1)), 5, 5)
        painter.setPen(self._look.colour("quiet" if not count else "ink"))
        painter.setFont(font(SMALL_PX))
        top = rect.adjusted(2, 3, -2, 0)
        painter.drawText(
            top, Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop, self._head(day, rect)
        )
        painter.setPen(self._look.colour("ink"))
        painter.setFont(font(BODY_PX, QFont.Weight.DemiBold if count else QFont.Weight.Normal))
        foot = rect.adjusted(2, 0, -2, -3)
        painter.drawText(foot, Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom, self._foot(day))

    def _head(self, day: date, rect: QRectF) -> str:
        first = self.days[0]
        long = short_day_words(day)
        wide = QFontMetrics(font(SMALL_PX)).horizontalAdvance(long) < rect.width() - 4
        return long if wide and (day == first or day.day == 1) else str(day.day)

    def _foot(self, day: date) -> str:
        count = self._counts.get(day)
        if count is not None:
            return str(count)
        return LAST if self._test is not None and day == self._test.due else ""

    def _weeks(self) -> int:
        return max(1, -(-len(self.days) // WEEK))

    def _speak(self) -> None:
        """Let a screen reader hear where one stands."""
        words = self.words_of(self.day)
        if words != self.accessibleName():
            self.setAccessibleName(words)
            if self.hasFocus():
                QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.NameChanged))
