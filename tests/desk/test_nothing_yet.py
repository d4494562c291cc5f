"""What is said where nothing is there yet, and lines of words and buttons that go on in a next line."""

import pytest
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.elided import broken
from greenroom.desk.flow import Flow
from greenroom.desk.look import Look, font
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.pages import page_makers
from greenroom.desk.parts import button
from greenroom.desk.window import Window

WORDS = "Click what came up, again to take it back; drag to a pot; keys work too"

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def test_what_is_not_there_is_told_with_the_next_step(qtbot):
    sow, seed = button("Sow a tray", lambda: None), button("Add seed", lambda: None)
    shown = NothingYet("Nothing grows here yet", "Sow a tray first.", sow, seed)
    qtbot.addWidget(shown)
    shown.resize(900, 600)
    shown.show()
    assert sow.accessibleDescription() == "Nothing grows here yet. Sow a tray first."
    assert shown.title.mapTo(shown, shown.title.rect().center()).y() < 300, "above the middle"
    sow.hide()
    shown.take_focus()
    assert shown.focusWidget() is seed


@pytest.mark.parametrize("width", [60, 160, 303, 431, 900])
@pytest.mark.parametrize("lines", [1, 2, 3])
def test_broken_words_keep_to_their_room_and_lose_nothing_that_fits(qapp, width, lines):
    metrics = QFontMetrics(font())
    found = broken(WORDS, metrics, width, lines)
    assert len(found) <= lines
    assert all(metrics.horizontalAdvance(one) <= width for one in found)
    assert "…" in found[-1] or " ".join(found) == WORDS
    assert (" ".join(found) == WORDS) or metrics.horizontalAdvance(WORDS) > width


def test_buttons_that_have_no_room_in_a_line_go_on_in_the_next(qtbot):
    home, first, second = QWidget(), button("Begin", lambda: None), button("Later", lambda: None)
    qtbot.addWidget(home)
    flow = Flow(first, second)
    column = QVBoxLayout(home)
    column.setContentsMargins(0, 0, 0, 0)
    column.addWidget(flow)
    column.addStretch(1)
    home.resize(400, 120)
    home.show()
    assert (first.y(), second.y()) == (0, 0)
    assert first.geometry().right() < second.x()
    home.resize(first.sizeHint().width() + 10, 120)
    qtbot.waitUntil(lambda: second.y() > first.geometry().bottom())
    assert flow.height() >= second.geometry().bottom()
    first.hide()
    qtbot.waitUntil(lambda: second.y() == 0)
    second.setText("Later, when the nights are warm enough")
    assert flow.sizeHint().width() == second.sizeHint().width()


def test_on_each_page_the_keys_are_where_work_begins(qtbot, keeper, shelf):
    makers = {key: page_makers()[key] for key in ("seed", "grow", "place")}
    window = Window(Bench(keeper, Look(dark=False)), makers)
    qtbot.addWidget(window)
    window.show()
    window.top.code.take_focus()
    window.show_page("grow")
    assert window.focusWidget() is window.pages["grow"].main.view
    window.show_page("seed")
    assert window.focusWidget() is window.pages["seed"].table
    window.pages["seed"].filter.setFocus()
    window.show_page("place")
    assert window.pages["place"].isAncestorOf(window.focusWidget())
    window.show_page("seed")
    assert window.focusWidget() is window.pages["seed"].filter, "where it was left"
    window.close()
