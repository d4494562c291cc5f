"""A grower's hands on the Sow page: packets chosen and dragged, cells named as on the tray's edge."""

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from greenroom.desk.sow.page import SowPage
from greenroom.season.spots import SpotKey
from tests.desk.grow_hands import LEFT, PLAIN, middle, place

NO_BUTTON = Qt.MouseButton.NoButton


def open_page(qtbot, bench, size=(1440, 814)):
    """Show the page as the window does, with the trays in front, and return their part of it."""
    whole = open_whole(qtbot, bench, size)
    whole.show_view("trays")
    whole.filling.whole = whole
    return whole.filling


def open_whole(qtbot, bench, size=(1440, 814)):
    """Show the page as the window does, and hear of changes as the window lets it."""
    page = SowPage(bench)
    qtbot.addWidget(page, before_close_func=lambda page: page.leave())
    bench.keeper.changed.connect(page.take)
    page.resize(*size)
    page.show()
    qtbot.waitExposed(page)
    page.entered()
    page.activateWindow()
    return page


def packet_named(page, name):
    return next(row for row in page.packets.packets.rows if row.name == name)


def take_packet(page, name):
    """Choose a packet with a click in the list."""
    QTest.mouseClick(page.packets.viewport(), LEFT, PLAIN, packet_point(page, name))
    assert page.packets.key == packet_named(page, name).key


def packet_point(page, name):
    index = page.packets.packets.index_of(packet_named(page, name).key)
    return page.packets.visualRect(index).center()


def key(page, label):
    return SpotKey(page.view.holder.key, *place(label))


def spot(page, label):
    return page.bench.keeper.season.spot(key(page, label))


def sown(page, name=None):
    """The labels of the cells in which seeds wait, of one variety if it is named."""
    season = page.bench.keeper.season
    packet = packet_named(page, name).key if name else None
    spots = season.spots(page.view.holder.key)
    return [one.key.label for one in spots if one.waiting and (packet is None or one.packet == packet)]


class Pull:
    """The left button held down on a widget and moved over points of others, then let up."""

    def __init__(self, widget, point):
        self.widget = widget
        self.at = point
        QTest.mousePress(widget, LEFT, PLAIN, point)

    def to_point(self, widget, point):
        self.at = self.widget.mapFromGlobal(widget.mapToGlobal(point))
        self._send(QEvent.Type.MouseMove, NO_BUTTON, LEFT)
        return self

    def to(self, page, label):
        return self.to_point(page.view, middle(page.view, label))

    def drop(self):
        self._send(QEvent.Type.MouseButtonRelease, LEFT, NO_BUTTON)

    def _send(self, kind, button, buttons):
        there = QPointF(self.widget.mapToGlobal(self.at))
        event = QMouseEvent(kind, QPointF(self.at), there, button, buttons, PLAIN)
        QApplication.sendEvent(self.widget, event)


def pull_packet(page, name):
    """Take hold of a packet in the list."""
    start = packet_point(page, name)
    pull = Pull(page.packets.viewport(), start)
    return pull.to_point(page.packets.viewport(), start + start.__class__(12, 0))
