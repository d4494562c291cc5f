"""The walk through the demo: beside a real part of the window, never over it, done by the grower's hands."""

import pytest
from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from greenroom.desk.help import offer, walk
from greenroom.desk.help.offer import Offer
from greenroom.desk.help.placing import beside
from greenroom.desk.help.walk import Walk
from greenroom.desk.help.walk_left import NAME, was_left
from greenroom.desk.help.walk_steps import STEPS
from greenroom.desk.look import DARK, LIGHT, Look
from greenroom.desk.session import demo_ledger
from greenroom.desk.start import make_window
from greenroom.desk.why_panel import WhyPanel
from tests.desk.seeing import contrast

LEFT = Qt.MouseButton.LeftButton
CARD = QSize(312, 160)
ROOM = QRect(0, 90, 1024, 610)

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen


@pytest.fixture(scope="module")
def window(qapp):
    """The demo's window, at the smallest size it may have."""
    with demo_ledger(still=True) as keeper:
        shown = make_window(keeper, Look(dark=False))
        shown.resize(1024, 700)
        shown.show()
        shown.activateWindow()
        yield shown
        shown.close()
        shown.deleteLater()


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Where it is remembered that the walk was left."""
    for module in (walk, offer):
        monkeypatch.setattr(module, "state_folder", lambda: tmp_path)
    return tmp_path


@pytest.fixture
def begun(window, folder, qtbot):
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    made = Walk(window, folder, done_ms=0)
    made.go_to(0)
    yield made
    for left in window.findChildren(Walk):
        left.end()


def cell_of(view, begun):
    """The middle of what the walk points at, in the tray."""
    return view.mapFrom(begun.card.parentWidget(), begun.outline.around.center())


def explain(link):
    QTest.mouseClick(link, LEFT)
    panel = QApplication.activePopupWidget()
    assert isinstance(panel, WhyPanel)
    panel.close()


def act(place, window, begun):
    """Do with mouse and keyboard what a step asks for."""
    page = window.stack.currentWidget()
    if place == 0:
        QTest.keyClick(window, Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier)
    elif place == 1:
        spot = page.table.visualRect(page.model.index(3, 0)).center()
        QTest.mouseClick(page.table.viewport(), LEFT, pos=spot)
    elif place == 2:
        explain(page.panel.tabs.part("expect").share_why)
    elif place == 3:
        QTest.keyClick(page.plan.chart, Qt.Key.Key_Left)
    elif place == 4:
        QTest.mouseClick(page.switches["trays"], LEFT)
    elif place == 5:
        QTest.mouseClick(page.main.view, LEFT, pos=cell_of(page.main.view, begun))
    elif place == 6:
        QTest.mouseClick(window.messages.undo, LEFT)
    elif place == 7:
        QTest.mouseClick(page.card.buttons.back, LEFT)
    elif place == 8:
        explain(page.gate_card.rows[0].why)
    elif place == 9:
        QTest.mouseClick(page.log.write, LEFT)
    elif place == 10:
        rows = [row for where in page.places.values() for row in where.ordered()]
        QTest.mouseClick(rows[0].later_button, LEFT)
    else:
        page.tabs.bar.setCurrentIndex(1)


@pytest.mark.parametrize(
    "target",
    [
        QRect(10, 100, 620, 590),
        QRect(700, 100, 310, 590),
        QRect(0, 0, 1024, 84),
        QRect(20, 170, 980, 50),
        QRect(20, 480, 980, 200),
        QRect(500, 380, 24, 24),
        QRect(0, 676, 24, 24),
        QRect(1000, 90, 24, 24),
    ],
)
def test_a_card_stands_inside_the_window_beside_what_it_speaks_of(target):
    stands = beside(target, CARD, ROOM)
    assert stands.size() == CARD
    assert ROOM.contains(stands)
    assert not stands.intersects(target)


def test_where_there_is_no_room_beside_it_the_card_hides_as_little_as_can_be():
    whole = beside(ROOM, CARD, ROOM)
    assert ROOM.contains(whole)
    most = QRect(12, 102, 900, 580)
    stands = beside(most, CARD, ROOM)
    hidden = stands.intersected(most)
    assert hidden.width() < CARD.width()


@pytest.mark.parametrize("palette", [LIGHT, DARK])
def test_the_line_around_it_stands_out_from_whatever_it_is_drawn_on(palette):
    """WCAG 2.2, 1.4.11: 3 to 1 for what is needed to understand; of the line and of the card's edge."""
    for ground in (palette.ground, palette.card, palette.leaf_wash):
        assert contrast(palette.plum_text, ground) >= 3


def test_the_walk_goes_on_by_itself_as_the_grower_does_what_each_step_asks_for(window, begun, qtbot):
    assert 8 <= len(STEPS) <= 12
    home = window.centralWidget().rect()
    for place, step in enumerate(STEPS):
        qtbot.waitUntil(lambda step=step: begun.step is step)
        qtbot.waitUntil(lambda: begun.outline.isVisible())
        qtbot.waitUntil(lambda: begun.outline.card == begun.card.geometry())
        card, around = begun.card.geometry(), begun.outline.around
        assert step.page in ("", window.current)
        assert home.contains(card), step.title
        assert home.contains(around), step.title
        assert not card.intersects(around), step.title
        assert begun.card.words.height() >= begun.card.words.heightForWidth(begun.card.words.width())
        assert begun.card.accessibleDescription() == step.words
        assert step.words.count(". ") <= 2
        act(place, window, begun)
    qtbot.waitUntil(lambda: bool(begun.card.done.text()))
    assert window.findChildren(Walk) == [begun], "the last step waits for Finish"
    QTest.mouseClick(begun.card.next_button, LEFT)
    assert window.findChildren(Walk) == []


def test_the_walk_is_gone_through_and_left_by_keyboard_and_leaves_nothing(window, begun, folder, qtbot):
    alt = Qt.KeyboardModifier.AltModifier
    window.stack.setFocus()
    QTest.keyClick(window, Qt.Key.Key_Right, alt)
    QTest.keyClick(window, Qt.Key.Key_Right, alt)
    assert begun.step is STEPS[2]
    QTest.keyClick(window, Qt.Key.Key_Left, alt)
    assert (begun.step, window.current) == (STEPS[1], "seed")
    table = window.page("seed").table
    table.setFocus()
    QTest.keyClick(window, Qt.Key.Key_F6)
    assert begun.card.next_button.hasFocus()
    QTest.keyClick(window, Qt.Key.Key_F6)
    assert table.hasFocus()
    QTest.keyClick(window, Qt.Key.Key_F6)
    QTest.keyClick(begun.card.next_button, Qt.Key.Key_Space)
    assert begun.step is STEPS[2]
    assert not was_left(folder)
    QTest.keyClick(begun.card.next_button, Qt.Key.Key_Escape)
    assert window.findChildren(Walk) == []
    assert [one.name for one in folder.iterdir()] == [NAME]
    QTest.keyClick(window, Qt.Key.Key_Right, alt)
    assert window.current == "seed"


def test_away_from_its_page_a_step_waits_in_the_corner_and_leads_back(window, begun, qtbot):
    begun.go_to(1)
    window.show_page("place")
    begun.look()
    card = begun.card
    assert not begun.outline.isVisible()
    assert card.return_button.text() == "Back to Seed"
    assert card.geometry().bottomRight() == window.centralWidget().rect().bottomRight() - QPoint(12, 12)
    QTest.mouseClick(card.return_button, LEFT)
    begun.look()
    assert window.current == "seed"
    assert begun.outline.isVisible()
    assert not card.return_button.isVisible()


def test_the_demo_offers_the_walk_until_it_was_left(window, folder):
    offer.offer_walk(window)
    (card,) = window.findChildren(Offer)
    assert window.centralWidget().rect().contains(card.geometry())
    whole = window.size()
    window.resize(900, 560)  # smaller than a page, which is scrolled then
    QApplication.sendPostedEvents()
    assert window.centralWidget().rect().contains(card.geometry())
    window.resize(whole)
    QApplication.sendPostedEvents()
    window.messages.say("Said at the foot of the window.")
    QApplication.sendPostedEvents()
    assert window.messages.isVisible()
    assert not card.geometry().intersects(window.messages.geometry()), "what is said can be read and answered"
    QTest.mouseClick(card.start_button, LEFT)
    (made,) = window.findChildren(Walk)
    assert made.step is STEPS[0]
    QTest.mouseClick(made.card.leave_button, LEFT)
    QApplication.sendPostedEvents(card, 52)
    offer.offer_walk(window)
    assert [one for one in window.findChildren(Offer) if one.isVisible()] == []
    (folder / NAME).unlink()
    offer.offer_walk(window)
    card = next(one for one in window.findChildren(Offer) if one.isVisible())
    QTest.mouseClick(card.decline_button, LEFT)
    assert was_left(folder)
    assert window.findChildren(Walk) == []
