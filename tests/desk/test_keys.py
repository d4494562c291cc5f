"""The list of keys opens on F1 and names every key there is."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from greenroom.desk.keys_panel import KeysPanel
from greenroom.desk.page import Page
from greenroom.desk.shortcuts import CELLS, PICK, SIDE, WINDOW
from greenroom.desk.window import Window


class BlankPage(Page):
    key = "seed"


@pytest.fixture
def window(bench, qtbot):
    shown = Window(bench, {"seed": BlankPage, "place": BlankPage})
    qtbot.addWidget(shown)
    shown.show_page("seed")
    shown.show()
    shown.activateWindow()
    qtbot.waitUntil(shown.isActiveWindow)
    return shown


def test_f1_lists_every_key_with_what_it_does_and_escape_closes_the_list(window, qtbot):
    QTest.keyClick(window, Qt.Key.Key_F1)
    qtbot.waitUntil(lambda: isinstance(QApplication.activePopupWidget(), KeysPanel))
    panel = QApplication.activePopupWidget()
    words = {label.text() for label in panel.findChildren(QLabel)}
    assert {shortcut.words for shortcut in (*WINDOW, *CELLS, *PICK, *SIDE)} <= words
    assert any("Ctrl+Z" in text for text in words)
    QTest.keyClick(panel, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: QApplication.activePopupWidget() is None)
