"""Names with markup, right to left, control characters and ten thousand letters are shown as text everywhere.

The whole demo is told with such names, and every page and panel of the window is walked at its smallest size.
"""

import html
from dataclasses import fields, replace
from datetime import UTC, datetime
from itertools import count

import pytest
from PySide6.QtCore import QAbstractItemModel, QAbstractListModel
from PySide6.QtGui import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QLabel,
    QTabBar,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.care.care_view import CareView
from greenroom.desk.clock import Clock
from greenroom.desk.keeper import Keeper
from greenroom.desk.look import Look
from greenroom.desk.pages import page_makers
from greenroom.desk.parts import WhyLink
from greenroom.desk.story.panel import StoryPanel
from greenroom.desk.tables.table_button import TableButton
from greenroom.desk.why_panel import WhyPanel
from greenroom.desk.window import SMALLEST, Window
from greenroom.ledger import Ledger
from greenroom.ledger.facts import BadFactError
from greenroom.season.spots import SpotKey
from tests.season.demo_season import demo_entries

NOW = datetime(2027, 5, 14, 7, 54, tzinfo=UTC)
BOLD = '<b>bold</b><img src="file:///etc/hostname"> & <a href="x">link</a>'
NAMES = (BOLD, "\u202e<i>evil\u202c عربي &amp;", "\x07\x1b[31m<u>\n\tred", "<h1>" + "W" * 9_960)
NAMED = frozenset({"name", "place", "feed", "text", "lot", "source", "note", "where"})
OWN_TIP = ("<span>", "<qt>")
ROLES = (
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.StatusTipRole,
    Qt.ItemDataRole.WhatsThisRole,
)
ROWS, COLUMNS = 12, 12
WHYS_A_PLACE = 3


def renamed(facts):
    """The facts with every name another one, the same for the same; what cannot be stays as it was."""
    known, numbers = {}, count(1)
    for fact in facts:
        changed = {}
        for entry in fields(fact):
            value = getattr(fact, entry.name)
            if entry.name in NAMED and isinstance(value, str) and value:
                if value not in known:
                    number = next(numbers)
                    known[value] = f"{number} {NAMES[number % len(NAMES)]}"
                changed[entry.name] = known[value]
        yield possible(fact, changed)


def possible(fact, changed):
    for name, value in changed.items():
        other = replace(fact, **{name: value})
        try:
            other.check()
        except BadFactError:
            continue
        fact = other
    return fact


@pytest.fixture(scope="module")
def hostile_keeper(qapp):
    with Ledger.open("sqlite://", clock=lambda: NOW, who=BOLD) as ledger:
        ledger.record(*renamed(entry.fact for entry in demo_entries()))
        yield Keeper(ledger, Clock(lambda: NOW))


@pytest.fixture
def window(hostile_keeper, qtbot):
    made = Window(Bench(hostile_keeper, Look(dark=False)), page_makers())
    qtbot.addWidget(made)
    made.dress()
    made.resize(*SMALLEST)
    made.show()
    yield made
    made.close()


def faults(root, where):
    """What is shown, said or offered under a widget as anything but text."""
    for widget in (root, *root.findChildren(QWidget)):
        for words in (widget.toolTip(), widget.whatsThis(), widget.statusTip()):
            if rich(words):
                yield f"{where}: tip of {name(widget)}: {words[:80]!r}"
        if isinstance(widget, QLabel) and label_is_rich(widget):
            yield f"{where}: label {name(widget)}: {widget.text()[:80]!r}"
        if isinstance(widget, QAbstractButton) and BOLD in widget.text():
            yield f"{where}: the & of {name(widget)} becomes a shortcut: {widget.text()!r}"
        if isinstance(widget, QAbstractItemView | QComboBox) and widget.model() is not None:
            yield from model_faults(widget.model(), f"{where}: {name(widget)}")


def rich(words):
    """Whether Qt would take a tip for markup that the program did not write itself, or did not escape."""
    if not Qt.mightBeRichText(words):
        return False
    own = next((start for start in OWN_TIP if words.startswith(start)), None)
    if own is None:
        return True
    inner = words.removeprefix(own).removesuffix(own.replace("<", "</")).replace("<br>", "")
    return "<" in inner


def label_is_rich(widget):
    if widget.textFormat() == Qt.TextFormat.PlainText or not widget.text():
        return False
    return widget.textFormat() != Qt.TextFormat.AutoText or Qt.mightBeRichText(widget.text())


def model_faults(model: QAbstractItemModel, where):
    columns = 1 if isinstance(model, QAbstractListModel) else min(model.columnCount(), COLUMNS)
    for row in range(min(model.rowCount(), ROWS)):
        for column in range(columns):
            for role in ROLES:
                words = model.data(model.index(row, column), role)
                if isinstance(words, str) and rich(words):
                    yield f"{where}: tip of cell {row}, {column}: {words[:80]!r}"


def name(widget):
    return f"{type(widget).__name__} {widget.objectName()}".strip()


def whys(root, where, window):
    """What the why-panels of all that is shown would show as anything but text."""
    for link in [one for one in root.findChildren(WhyLink) if one.isVisible()][:WHYS_A_PLACE]:
        why = link._why()
        if why is not None:
            panel = WhyPanel(why, window)
            yield from faults(panel, f"{where}: why {why.figure[:30]!r}")
            panel.deleteLater()


class Walk:
    """Goes through a window and gathers what is wrong where."""

    def __init__(self, window, qtbot):
        self.window, self.qtbot, self.found, self.seen = window, qtbot, [], set()

    def look(self, root, where, wait_ms=20):
        self.qtbot.wait(wait_ms)
        self.seen.add(where)
        self.found += faults(root, where)
        self.found += whys(root, where, self.window)
        if self.window.width() > SMALLEST[0] or root.width() > SMALLEST[0]:
            self.found.append(f"{where} is {root.width()} wide, in a window of {self.window.width()}")
        assert not self.window.grab().isNull()

    def page(self, key):
        self.window.show_page(key)
        page = self.window.page(key)
        self.look(page, key)
        for bar in page.findChildren(QTabBar):
            for place in range(bar.count()) if bar.isVisible() else ():
                bar.setCurrentIndex(place)
                self.look(page, f"{key}, tab {bar.tabText(place)}")
        return page

    def tables(self, page, key):
        for button in page.findChildren(TableButton):
            if button.isVisible() and button.isEnabled():
                button.click()
                for panel in self.window.findChildren(QWidget):
                    if panel.windowType() == Qt.WindowType.Popup and panel.isVisible():
                        self.look(panel, f"{key}, {name(panel)}", wait_ms=0)
                        panel.close()


def test_every_name_is_shown_as_text_on_every_page_and_in_every_panel(window, qtbot, hostile_keeper):
    walk, season = Walk(window, qtbot), hostile_keeper.season
    assert any("<b>bold" in one.name for one in season.holders())
    for key in page_makers():
        page = walk.page(key)
        walk.tables(page, key)
    grow = window.page("grow")
    window.show_page("grow")
    for made in season.holders("tray")[:1]:
        grow.open_story(SpotKey(made.key, 0, 0))
        walk.look(grow, f"grow, story of {made.key}")
        grow._show_care(made.key)
        care = grow.findChild(CareView)
        for place in range(care.tabs.bar.count()):
            care.tabs.bar.setCurrentIndex(place)
            walk.look(grow, f"care, {care.tabs.bar.tabText(place)}", wait_ms=10)
    window.show_page("harden")
    harden = window.page("harden")
    for key in harden.views.buttons:
        harden.views.open(key)
        walk.look(harden, f"harden, {key}")
    assert window.findChildren(StoryPanel)
    assert len(walk.seen) > 30
    assert walk.found == []


def test_a_tip_with_markup_of_a_name_would_be_noticed(qtbot):
    made = QLabel("plain")
    qtbot.addWidget(made)
    made.setToolTip(f"Tray {BOLD}")
    assert len(list(faults(made, "here"))) == 1
    made.setToolTip(f"<span>{html.escape(BOLD)}</span>")
    assert list(faults(made, "here")) == []
    made.setText(BOLD)
    assert len(list(faults(made, "here"))) == 1
