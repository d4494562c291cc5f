"""Help: words found as they are typed, unfolded in a why, what the program is, and the ways to the walk."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from greenroom import __version__
from greenroom.app import parse
from greenroom.desk import pages
from greenroom.desk.help import walk
from greenroom.desk.help.about_part import about_lines
from greenroom.desk.help.panel import ABOUT, WORDS, HelpPanel
from greenroom.desk.page import Page
from greenroom.desk.place.first_run import DEMO_WORDS, FirstRun
from greenroom.desk.place.page import PlacePage
from greenroom.desk.why_panel import WhyPanel
from greenroom.desk.window import Window
from greenroom.guide.glossary_reading import own_glossary
from greenroom.season.why import Why

LEFT = Qt.MouseButton.LeftButton
TERMS = own_glossary().terms


class BlankPage(Page):
    key = "seed"


@pytest.fixture
def window(bench, qtbot):
    first = {"first": lambda made: FirstRun(made, lambda: None)}
    shown = Window(bench, {"seed": BlankPage, "place": PlacePage, **first})
    qtbot.addWidget(shown)
    shown.show_page("seed")
    shown.resize(1024, 700)
    shown.show()
    shown.activateWindow()
    qtbot.waitUntil(shown.isActiveWindow)
    return shown


@pytest.fixture
def started(monkeypatch):
    """The arguments of every program that was started; none is."""
    asked = []
    monkeypatch.setattr(pages.QProcess, "startDetached", lambda _program, arguments: asked.append(arguments))
    return asked


def test_words_are_found_as_they_are_typed_and_one_leads_to_another(window):
    panel = HelpPanel(window.bench, window)
    panel.open_over(window, WORDS)
    part = panel.tabs.part(WORDS)
    assert part.found.count() == len(TERMS)
    QTest.keyClicks(QApplication.focusWidget(), "set")
    assert part.key == "setback"
    assert part.card.words.text() == TERMS["setback"].words
    QTest.keyClick(part.field, Qt.Key.Key_Down)
    assert part.key != "setback"
    QTest.keyClick(part.field, Qt.Key.Key_Up)
    QTest.mouseClick(part.card.see[0], LEFT)
    assert (part.key, part.field.text()) == (TERMS["setback"].see[0], "")
    QTest.keyClicks(part.field, "photosynth")
    assert part.none.isVisible()
    assert not part.card.isVisible()
    part.field.clear()
    QTest.keyClicks(part.field, "damping")
    assert part.card.sources.text().startswith("Utah State University Extension")
    QTest.keyClick(panel, Qt.Key.Key_Escape)
    assert not panel.isVisible()


def test_a_word_in_a_why_unfolds_its_meaning_there_and_folds_away_again(window):
    """The panel stays inside the window whatever is unfolded."""
    rule = "Half of them are up by then; heat counts as degree days."
    panel = WhyPanel(Why("Up on day 8", rule, (("light", "13 mol/m² a day"),)), window)
    panel.open_beside(window.top.place)
    words = panel.words_here
    assert [link.text() for link in words.links] == ["degree days", "daily light"]
    QTest.mouseClick(words.links[0], LEFT)
    assert words.card.isVisible()
    assert words.card.words.text() == TERMS["degree-days"].words
    assert window.frameGeometry().contains(panel.geometry())
    QTest.keyClick(words.links[0], Qt.Key.Key_Space)
    assert not words.card.isVisible()
    panel.close()
    plain = WhyPanel(Why("3 trays", "Every tray is counted."), window)
    plain.open_beside(window.top.place)
    assert not plain.words_here.isVisible()
    plain.close()


def test_about_says_where_records_and_log_are_and_copies_a_report(window, ledger_path, started):
    window.show_page("place")
    about = window.page("place").findChild(object, "place-about")
    QTest.mouseClick(about, LEFT)
    panel = QApplication.activePopupWidget()
    assert panel.tabs.current == ABOUT
    part = panel.tabs.part(ABOUT)
    QTest.mouseClick(part.copy_button, LEFT)
    copied = QGuiApplication.clipboard().text()
    assert f"greenroom {__version__}, Python" in copied
    assert str(ledger_path.parent) not in copied, "a report holds no paths"
    told = {one.text() for one in part.findChildren(QLabel)}
    assert {"Log", "Licence", __version__, str(ledger_path)} <= told
    window.bench.keeper.demo = True
    assert Path(dict(about_lines(window.bench.keeper))["Records"]) == ledger_path
    panel.close()
    assert started == []


def test_from_an_own_ledger_the_walk_opens_the_demo_in_a_window_of_its_own(window, started, keeper, capsys):
    before = keeper.ledger.facts()
    window.show_page("place")
    ways = [window.page("place").findChild(object, "place-walk"), window.page("first").walk]
    for way in ways:
        QTest.mouseClick(way, LEFT)
    QTest.keyClick(window, Qt.Key.Key_F1)
    QTest.mouseClick(QApplication.activePopupWidget().walk_button, LEFT)
    assert QApplication.activePopupWidget() is None
    assert [arguments[-3:] for arguments in started] == [["--walk", "--language", "en"]] * 3
    assert window.messages.text.text() == DEMO_WORDS
    assert window.findChildren(walk.Walk) == []
    assert keeper.ledger.facts() == before
    assert parse(["--walk"]).demo
    with pytest.raises(SystemExit):
        parse(["--walk", "season.greenroom"])
    assert "--walk opens a ledger of its own; leave" in capsys.readouterr().err
