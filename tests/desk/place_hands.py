"""What a grower's hands do on the page of the place; shared by its tests."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.desk.place.page import PlacePage

NO_SCREEN = "This plugin does not support"
LEFT = Qt.MouseButton.LeftButton


def open_page(qtbot, bench, service=None, part="where"):
    """Return the page, shown at the smallest size, with one part in front."""
    made = PlacePage(bench, service)
    qtbot.addWidget(made, before_close_func=lambda page: page.closing())
    bench.keeper.changed.connect(made.take)
    made.resize(1024, 614)
    made.show()
    qtbot.waitExposed(made)
    qtbot.waitUntil(made.isActiveWindow)
    made.entered()
    made.tabs.open_tab(part)
    return made


def click(button):
    """Click a button that can be seen."""
    assert button.isVisible()
    QTest.mouseClick(button, LEFT)


def choose(chooser, key):
    """Choose an entry by what it stands for, as with the keys in its list."""
    chooser.setFocus()
    chooser.setCurrentIndex(chooser.findData(key))
    chooser.activated.emit(chooser.currentIndex())


def fill(field, text):
    """Type over what a field holds."""
    field.setFocus()
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
