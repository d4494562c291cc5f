"""Everything one can go to by the keys on these pages has a name, and is big enough to hit."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QScrollBar,
    QWidget,
)

from greenroom.desk.place.first_run import FirstRun
from greenroom.desk.place.page import PlacePage
from greenroom.desk.seed.page import SeedPage
from greenroom.desk.sow.page import SowPage
from greenroom.desk.window import Window
from tests.desk.grow_hands import NO_SCREEN
from tests.desk.page_walk import spoken

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

SMALLEST_TARGET_PX = 24
PAGES = {
    "seed": SeedPage,
    "sow": SowPage,
    **{f"place {part}": part for part in ("where", "record", "service", "care")},
    "first": lambda bench: FirstRun(bench, lambda: None),
}


@pytest.fixture(params=PAGES)
def page(request, qtbot, qapp, bench, shelf):
    Window.dress_application(bench.look)
    make = PAGES[request.param]
    made = PlacePage(bench) if isinstance(make, str) else make(bench)
    qtbot.addWidget(made)
    made.resize(1024, 614)
    made.show()
    qtbot.waitExposed(made)
    made.entered()
    if isinstance(make, str):
        made.tabs.open_tab(make)
    return made


def reachable(page):
    """The widgets the Tab key stops at; fields inside a chooser stand for the chooser."""
    for one in page.findChildren(QWidget):
        stops = one.focusPolicy() & Qt.FocusPolicy.TabFocus and one.isVisible() and one.isEnabled()
        inner = isinstance(one.parent(), QComboBox | QAbstractSpinBox) or isinstance(one, QScrollBar)
        if stops and not inner:
            yield one


def test_everything_the_tab_key_stops_at_has_a_name(page):
    nameless = [one for one in reachable(page) if not spoken(one).strip()]
    assert nameless == []


def test_everything_to_be_clicked_is_big_enough(page):
    targets = [one for one in reachable(page) if isinstance(one, QAbstractButton | QLineEdit | QComboBox)]
    small = [(spoken(one), one.height()) for one in targets if one.height() < SMALLEST_TARGET_PX]
    assert small == []
    assert targets or isinstance(page, PlacePage)


def test_names_of_varieties_are_never_taken_for_markup(page):
    labels = [one for one in page.findChildren(QLabel) if one.text()]
    assert labels
    assert {one.textFormat() for one in labels} == {Qt.TextFormat.PlainText}
