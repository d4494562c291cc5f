"""The list of keys opens on F1 and names every key there is, with no key answered that is not listed."""

import ast
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

import greenroom.desk
from greenroom.desk import shortcuts
from greenroom.desk.help.panel import HelpPanel
from greenroom.desk.keys_panel import in_columns
from greenroom.desk.page import Page
from greenroom.desk.shortcuts import GROUPS, Shortcut
from greenroom.desk.start import make_application
from greenroom.desk.window import Window

DESK = Path(greenroom.desk.__file__).parent
SAME = {"Return": "Enter", "Plus": "+", "Minus": "-", "PageUp": "Page Up", "PageDown": "Page Down"}
ARROWS = {"Left", "Right", "Up", "Down"}
TABLES = {
    name: value for name, value in vars(shortcuts).items() if name.isupper() and isinstance(value, tuple)
}
ANSWERED_IN = {
    "Anywhere": (),
    "In the seed box": ("seed",),
    "On the sowing plan": ("sow/want_table", "sow/odds_chart", "sow/season_strip"),
    "Filling trays": ("sow/sow_view", "sow/packet_list"),
    "Trays laid out from the plan": ("sow/layout_canvas",),
    "On the list of trays": ("grow/holder_list",),
    "In a tray or rack": ("grow/cell_keys", "care/care_view"),
    "On a photo of a tray": ("grow/photo_view",),
    "In a story": ("story",),
    "On trays side by side": ("harden/tray_grid",),
    "On the plan of the plot": ("set_out/plan_keys",),
    "While picking": ("pick",),
    "On the round": ("round",),
    "In forms and panels": ("grow/", "sow/new_holder", "harden/", "paper"),
    "On the walk": ("help/walk",),
    "Among the words of the help": ("help/words_part",),
}
"""The folders and modules of the desk that answer each group of keys."""


class BlankPage(Page):
    key = "seed"


@pytest.fixture
def window(bench, qtbot):
    make_application()  # with the typeface that the widths are meant for
    shown = Window(bench, {"seed": BlankPage, "place": BlankPage})
    qtbot.addWidget(shown)
    shown.dress()
    shown.show_page("seed")
    shown.resize(1024, 700)
    shown.show()
    shown.activateWindow()
    qtbot.waitUntil(shown.isActiveWindow)
    return shown


def answered():
    """The keys named in the code of the desk, by module; not those of the shortcuts themselves."""
    for file in sorted(DESK.rglob("*.py")):
        module = file.relative_to(DESK).with_suffix("").as_posix()
        text = file.read_text("utf-8")
        if module == "shortcuts" or "Key_" not in text:
            continue
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.Attribute) and node.attr.startswith("Key_"):
                yield module, node.attr.removeprefix("Key_")


def listed(module):
    """The keys that are listed for a module; Escape closes whatever opens in a page."""
    told = {"Escape"} & {key for shortcut in shortcuts.FORMS for key in shortcut.keys}
    for group in GROUPS:
        if any(module.startswith(code) for code in ANSWERED_IN[group.title]):
            told |= {key for shortcut in group.shortcuts for key in shortcut.keys}
    if "Arrow keys" in told:
        told |= ARROWS
    if any(key[0].isdigit() for key in told):
        told |= set("0123456789")  # the code names the first and the last digit only
    return told


def test_f1_lists_every_key_with_what_it_does_and_escape_closes_the_list(window, qtbot):
    QTest.keyClick(window, Qt.Key.Key_F1)
    qtbot.waitUntil(lambda: isinstance(QApplication.activePopupWidget(), HelpPanel))
    panel = QApplication.activePopupWidget()
    words = {label.text() for label in panel.findChildren(QLabel)}
    every = [one for table in TABLES.values() for one in table if isinstance(one, Shortcut)]
    assert len(every) > 50
    assert {shortcut.words for shortcut in every} <= words
    assert {", ".join(shortcut.shown()) for shortcut in every} <= words
    assert panel.width() <= 1000
    assert panel.height() <= window.height()
    area = panel.tabs.area("keys")
    assert area.widget().width() <= area.viewport().width(), "no key is cut off at the side"
    clipped = [
        one.text()
        for one in panel.tabs.part("keys").findChildren(QLabel)
        for word in one.text().split(" ")
        if one.fontMetrics().horizontalAdvance(word) > one.width()
    ]
    assert clipped == []
    QTest.keyClick(panel, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: QApplication.activePopupWidget() is None)


def test_every_table_of_keys_is_in_a_group_and_every_group_in_a_column():
    in_groups = {shortcut for group in GROUPS for shortcut in group.shortcuts}
    for table in TABLES.values():
        assert {one for one in table if isinstance(one, Shortcut)} <= in_groups
    assert [group for column in in_columns(GROUPS) for group in column] == list(GROUPS)
    assert all(in_columns(GROUPS))


def test_no_page_answers_a_key_that_is_not_listed_for_it():
    found = list(answered())
    assert len(found) > 60
    unlisted = [f"{module}: {key}" for module, key in found if SAME.get(key, key) not in listed(module)]
    assert unlisted == []


def test_every_key_that_is_listed_by_its_name_is_one_that_qt_knows():
    names = {"Arrow keys", "Shift+Arrow keys", "0 to 9", "1 to 9", "Enter", "Page Up", "Page Down", "Escape"}
    for group in GROUPS:
        for shortcut in group.shortcuts:
            for key in set(shortcut.keys) - names:
                assert QKeySequence(key)[0].key() != Qt.Key.Key_unknown, key
