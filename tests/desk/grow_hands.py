"""A grower's hands on the Grow on page: clicks, keys and drags at cells named as on the tray's edge."""

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from greenroom.desk.grow.page import GrowPage
from greenroom.desk.start import make_application
from greenroom.desk.window import Window
from greenroom.season.spots import SpotKey

LEFT = Qt.MouseButton.LeftButton
PLAIN = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
CTRL = Qt.KeyboardModifier.ControlModifier
NO_SCREEN = "This plugin does not support"  # said by the platform without a screen


def open_page(qtbot, bench, size=(1440, 814)):
    """Show the page as the window does, and hear of changes as the window lets it."""
    make_application()
    Window.dress_application(bench.look)
    page = GrowPage(bench)
    qtbot.addWidget(page, before_close_func=lambda page: page.leave())
    bench.keeper.changed.connect(page.take)
    page.resize(*size)
    page.show()
    qtbot.waitExposed(page)
    page.entered()
    page.activateWindow()
    page.main.view.setFocus()
    qtbot.waitUntil(lambda: not page._settle.isActive())
    return page


def place(label):
    """Row and column of a cell: B3 is (1, 2)."""
    return ord(label[0]) - ord("A"), int(label[1:]) - 1


def key(view, label):
    return SpotKey(view.holder.key, *place(label))


def spot(page, label, view=None):
    view = view or page.main.view
    return page.bench.keeper.season.spot(key(view, label))


def middle(view, label):
    return view.grid.slot(place(label)).center()


def click(view, label, modifiers=PLAIN):
    QTest.mouseClick(view, LEFT, modifiers, middle(view, label))


def press_key(view, named, modifiers=PLAIN):
    QTest.keyClick(view, named, modifiers)


def go(view, label):
    """Make a cell the current one by the keys alone."""
    view.setFocus()
    press_key(view, Qt.Key.Key_Right)  # the first step lands on A1
    row, column = place(label)
    now = view.choice.current
    for _ in range(abs(row - now[0])):
        press_key(view, Qt.Key.Key_Down if row > now[0] else Qt.Key.Key_Up)
    for _ in range(abs(column - now[1])):
        press_key(view, Qt.Key.Key_Right if column > now[1] else Qt.Key.Key_Left)
    assert view.choice.current == (row, column)


class Drag:
    """The left button held down: over one cell, then wherever it is carried, then let up."""

    def __init__(self, view, label, modifiers=PLAIN):
        self.view = view
        self.modifiers = modifiers
        self.at = middle(view, label)
        QTest.mousePress(view, LEFT, modifiers, self.at)

    def to_point(self, widget, point):
        """Carry to a point of any widget, in two steps as a mouse does."""
        there = self.view.mapFromGlobal(widget.mapToGlobal(point))
        for step in (QPoint((self.at + there) / 2), there):
            self._send(QEvent.Type.MouseMove, step, Qt.MouseButton.NoButton, LEFT)
        self.at = there
        return self

    def to(self, view, label):
        return self.to_point(view, middle(view, label))

    def drop(self):
        self._send(QEvent.Type.MouseButtonRelease, self.at, LEFT, Qt.MouseButton.NoButton)

    def _send(self, kind, point, button, buttons):
        where = QPointF(point)
        event = QMouseEvent(
            kind, where, QPointF(self.view.mapToGlobal(point)), button, buttons, self.modifiers
        )
        QApplication.sendEvent(self.view, event)


def drag(view, label, to_view, to_label):
    Drag(view, label).to(to_view, to_label).drop()
