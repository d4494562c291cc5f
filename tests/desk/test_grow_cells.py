"""Marking cells: what is clicked or keyed is written, shown, and can be taken back."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from greenroom.season import deeds_spots
from greenroom.season.packets import packets
from greenroom.season.spots import SpotKey, Stage
from tests.desk.grow_hands import (
    CTRL,
    LEFT,
    NO_SCREEN,
    SHIFT,
    Drag,
    click,
    go,
    key,
    middle,
    open_page,
    press_key,
    spot,
)

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

TODAY = date(2027, 5, 14)
K = Qt.Key


@pytest.fixture
def page(qtbot, bench, shelf):
    return open_page(qtbot, bench)


@pytest.fixture
def view(page):
    return page.main.view


def picture(view, label):
    return view.grab(view.grid.slot((ord(label[0]) - 65, int(label[1:]) - 1))).toImage()


def chosen(view):
    return {f"{chr(65 + row)}{column + 1}" for row, column in view.choice.chosen}


def sow_two(page, label):
    """Two seeds of Brass Bell in a cell that is bare."""
    keeper = page.bench.keeper
    brass = packets(keeper.season)[0].key
    assert keeper.do(
        lambda: deeds_spots.sow(
            keeper.season, brass, [key(page.main.view, label)], date(2027, 3, 12), seeds=2
        )
    )


def test_a_click_marks_a_sown_cell_up_today_and_shows_it(page, view):
    before = picture(view, "A4")
    click(view, "A4")
    assert spot(page, "A4").stage is Stage.UP
    assert spot(page, "A4").first_up == TODAY
    assert picture(view, "A4") != before


def test_a_second_click_takes_the_mark_back_and_the_cell_looks_as_before(page, view):
    click(view, "C6")
    press_key(view, K.Key_Up)  # the ring of the current cell goes elsewhere
    click(view, "C4")
    click(view, "C4")
    assert spot(page, "C4").stage is Stage.SOWN
    assert spot(page, "C6").stage is Stage.UP
    press_key(view, K.Key_Up)
    assert picture(view, "C4") == picture(view, "D4")


def test_two_quick_clicks_are_two_clicks(page, view):
    at = middle(view, "A4")
    QTest.mouseClick(view, LEFT, pos=at)
    QTest.mouseDClick(view, LEFT, pos=at)  # as Qt reports the second of two quick clicks
    QTest.mouseRelease(view, LEFT, pos=at)
    assert spot(page, "A4").stage is Stage.SOWN


def test_a_mark_is_durable_before_the_cell_changes(page, view, ledger_path):
    from greenroom.ledger import Ledger

    click(view, "A4")
    page.bench.keeper.ledger.close()
    with Ledger.open(ledger_path) as anew:
        assert any((fact.row, fact.column) == (0, 3) for fact in anew.facts("sprouted"))


def test_only_the_marked_cell_is_painted_again(page, view, monkeypatch, qtbot):
    from greenroom.desk.grow import view_paint

    click(view, "A4")
    qtbot.wait(60)
    painted = []
    paint_cell = view_paint._paint_cell
    monkeypatch.setattr(
        view_paint,
        "_paint_cell",
        lambda view, painter, at: (painted.append(at), paint_cell(view, painter, at)),
    )
    view.acts.click(key(view, "A4"))
    qtbot.waitUntil(lambda: bool(painted))
    assert (0, 3) in painted
    assert len(painted) <= 9  # the cell and the neighbours its ring may touch, of 72


def test_a_click_on_a_seedling_with_true_leaves_only_chooses_it(page, view):
    go(view, "A1")
    press_key(view, K.Key_4)
    click(view, "A1")
    assert spot(page, "A1").stage is Stage.LEAVES


def test_space_leaves_a_grown_seedling_alone_and_backspace_does_not(page, view, bench):
    go(view, "A1")
    press_key(view, K.Key_4)
    press_key(view, K.Key_Space)
    assert spot(page, "A1").stage is Stage.LEAVES
    assert bench.said[-1].startswith("It has true leaves")
    press_key(view, K.Key_Backspace)
    assert spot(page, "A1").stage is Stage.SOWN


def test_a_click_on_a_bare_cell_says_what_it_is_and_writes_nothing(page, view, keeper):
    acts = len(keeper.ledger.acts(1000))
    click(view, "F12")
    assert page.main.foot.text == "F12: nothing sown"
    assert len(keeper.ledger.acts(1000)) == acts


def test_with_two_seeds_in_a_cell_each_click_adds_one_and_backspace_takes_one_off(page, view):
    sow_two(page, "A9")
    click(view, "A9")
    assert (spot(page, "A9").up, spot(page, "A9").waiting) == (1, 1)
    click(view, "A9")
    assert (spot(page, "A9").up, spot(page, "A9").waiting) == (2, 0)
    press_key(view, K.Key_Backspace)
    assert spot(page, "A9").up == 1
    press_key(view, K.Key_Plus, SHIFT)
    assert spot(page, "A9").up == 2
    click(view, "A9")
    assert spot(page, "A9").up == 1


def test_a_mark_for_an_earlier_day_is_written_for_that_day(page, view, bench):
    page.seen_on.edit.setDate(page.seen_on.edit.date().addDays(-3))
    assert page.main.notice.isVisible()
    assert page.main.notice.words.text() == "Marks are written for 11 May, 3 days ago."
    click(view, "A4")
    assert spot(page, "A4").first_up == date(2027, 5, 11)
    QTest.mouseClick(page.main.notice.today, LEFT)
    assert not page.main.notice.isVisible()
    click(view, "A5")
    assert spot(page, "A5").first_up == TODAY


def test_a_mark_before_the_sowing_is_refused_in_one_sentence(page, view, bench):
    page.seen_on.edit.setDate(page.seen_on.edit.date().addDays(-70))
    click(view, "A4")
    assert spot(page, "A4").stage is Stage.SOWN
    assert "A4 of Tray A was sown on 12 March" in bench.said[-1]


def test_no_mark_can_be_written_for_tomorrow(page):
    page.seen_on.edit.setDate(page.seen_on.edit.date().addDays(1))
    assert page.seen_on.day == TODAY


def test_at_midnight_marks_go_on_to_the_new_day(page, moment, keeper):
    moment.go_on(hours=15)
    page.tick(keeper.now.replace(second=0))
    assert page.seen_on.day == date(2027, 5, 15)
    assert page.seen_on.is_today


def test_shift_and_click_chooses_the_block_between(view):
    click(view, "B2")
    click(view, "D4", SHIFT)
    assert chosen(view) == {f"{row}{column}" for row in "BCD" for column in (2, 3, 4)}


def test_ctrl_and_click_chooses_one_more_or_one_less(view):
    click(view, "B2", CTRL)
    click(view, "D4", CTRL)
    assert chosen(view) == {"B2", "D4"}
    click(view, "B2", CTRL)
    assert chosen(view) == {"D4"}


def test_a_drag_over_sown_cells_draws_a_block(page, view):
    Drag(view, "A4").to(view, "C6").drop()
    assert chosen(view) == {f"{row}{column}" for row in "ABC" for column in (4, 5, 6)}
    assert all(spot(page, label).stage is Stage.SOWN for label in chosen(view))
    assert not page.hand.active


def test_a_click_between_the_cells_chooses_none(view):
    click(view, "D4", CTRL)
    QTest.mouseClick(view, LEFT, pos=QPoint(2, 2))
    assert chosen(view) == set()


def test_space_marks_a_whole_block_and_space_again_takes_it_back(page, view):
    go(view, "A4")
    press_key(view, K.Key_Right, SHIFT)
    press_key(view, K.Key_Down, SHIFT)
    assert chosen(view) == {"A4", "A5", "B4", "B5"}
    press_key(view, K.Key_Space)
    assert all(spot(page, label).up == 1 for label in chosen(view))
    press_key(view, K.Key_Space)
    assert all(spot(page, label).up == 0 for label in chosen(view))


def test_space_on_a_bare_cell_says_why_not(page, view, bench):
    go(view, "F12")
    press_key(view, K.Key_Space)
    assert bench.said[-1] == "F12 of Tray A is bare; there is nothing to mark up."


def test_arrows_stop_at_the_edge_and_home_and_end_go_there(view):
    go(view, "A1")
    press_key(view, K.Key_Up)
    press_key(view, K.Key_Left)
    assert view.choice.current == (0, 0)
    press_key(view, K.Key_End)
    assert view.choice.current == (0, 11)
    press_key(view, K.Key_Home)
    assert view.choice.current == (0, 0)


def test_ctrl_a_chooses_every_cell_and_escape_none(view):
    press_key(view, K.Key_A, CTRL)
    assert len(view.choice.chosen) == 72
    press_key(view, K.Key_Escape)
    assert chosen(view) == set()


@pytest.mark.parametrize(("digit", "leaves"), [(K.Key_2, 2), (K.Key_6, 6), (K.Key_0, 0)])
def test_a_digit_counts_the_true_leaves(page, view, digit, leaves):
    go(view, "B1")
    press_key(view, digit)
    assert spot(page, "B1").leaves == leaves
    assert spot(page, "B1").stage is (Stage.LEAVES if leaves else Stage.UP)


def test_the_leaves_menu_counts_for_all_chosen_seedlings(page, view):
    click(view, "A1", CTRL)
    click(view, "B2", CTRL)
    action = next(one for one in page.main.bar.leaves.menu().actions() if one.text() == "4 true leaves")
    action.trigger()
    assert (spot(page, "A1").leaves, spot(page, "B2").leaves) == (4, 4)


def test_delete_asks_for_the_cause_and_enter_writes_it(page, view):
    go(view, "A1")
    press_key(view, K.Key_Delete)
    assert page.main.loss.isVisible()
    assert page.main.loss.causes.hasFocus()
    assert page.main.loss.causes.currentText() == "damping-off"
    press_key(page.main.loss.causes, K.Key_Down)
    press_key(page.main.loss.causes, K.Key_Return)
    assert not page.main.loss.isVisible()
    assert spot(page, "A1").stage is Stage.LOST
    assert spot(page, "A1").cause == "dried out"
    assert view.hasFocus()


def test_a_loss_can_be_thought_better_of(page, view):
    go(view, "A1")
    press_key(view, K.Key_Delete)
    press_key(page.main.loss.causes, K.Key_Escape)
    assert spot(page, "A1").stage is Stage.UP
    assert not page.main.loss.isVisible()
    assert view.hasFocus()


def test_for_cells_with_nothing_up_the_likely_cause_is_that_nothing_came(page, view):
    Drag(view, "A4").to(view, "A6").drop()
    QTest.mouseClick(page.main.bar.lost, LEFT)
    assert page.main.loss.causes.currentText() == "did not come up"
    assert page.main.loss.yes.text() == "Mark 3 lost"
    QTest.mouseClick(page.main.loss.yes, LEFT)
    assert [spot(page, label).stage for label in ("A4", "A5", "A6")] == [Stage.LOST] * 3


def test_nothing_can_be_lost_where_nothing_stands(page, view, bench):
    go(view, "F12")
    press_key(view, K.Key_Delete)
    assert not page.main.loss.isVisible()
    assert "nothing stands or waits there" in bench.said[-1]


def test_undo_brings_a_mark_back_into_the_picture(page, view, keeper):
    before = picture(view, "B4")
    view.acts.click(key(view, "B4"))
    assert keeper.undo()
    assert spot(page, "B4").stage is Stage.SOWN
    assert picture(view, "B4") == before
    assert keeper.redo()
    assert spot(page, "B4").stage is Stage.UP


def test_the_counts_follow_each_mark(page, view):
    assert page.main.headline.count.text() == "10 of 36 up · 28 %"
    click(view, "A4")
    assert page.main.headline.count.text() == "11 of 36 up · 31 %"


def test_a_screen_reader_is_told_the_current_cell(page, view):
    go(view, "B2")
    assert view.accessibleName() == (
        "Tray A, row B, column 2, Cinder Lantern: up since 21 March, sown 12 March"
    )
    press_key(view, K.Key_Space)
    assert (
        view.accessibleName() == "Tray A, row B, column 2, Cinder Lantern: waiting to come up, sown 12 March"
    )


def test_the_bar_does_nothing_until_a_cell_is_chosen(page, view):
    assert not any(one.isEnabled() for one in page.main.bar.buttons)
    go(view, "A4")
    assert all(one.isEnabled() for one in page.main.bar.buttons)
    QTest.mouseClick(page.main.bar.up, LEFT)
    assert spot(page, "A4").stage is Stage.UP


def test_the_tip_over_a_cell_is_its_whole_story_in_a_line(page, view):
    assert view.words_at(middle(view, "A1")) == "A1, Cinder Lantern: up since 21 March, sown 12 March"
    assert view.words_at(QPoint(middle(view, "B2").x(), 6)) == "Cinder Lantern"


def test_each_state_looks_different_from_every_other(page, view):
    """Bare, sown, up, true leaves, lost and moved on are told apart without reading a word."""
    keeper = page.bench.keeper
    rack = page.beside.view.holder.key
    view.acts.leaves([key(view, "A1")], 4)
    view.acts.lost([key(view, "A2")], "cold")
    view.acts.move([key(view, "B1")], SpotKey(rack, 0, 0))
    labels = {
        "A12": Stage.BARE,
        "A4": Stage.SOWN,
        "B2": Stage.UP,
        "A1": Stage.LEAVES,
        "A2": Stage.LOST,
        "B1": Stage.MOVED,
    }
    assert {label: keeper.season.spot(key(view, label)).stage for label in labels} == labels
    pictures = [picture(view, label) for label in labels]
    assert all(one != other for at, one in enumerate(pictures) for other in pictures[at + 1 :])


@pytest.mark.parametrize("dark", [False, True])
def test_the_cells_follow_the_theme(page, view, bench, dark):
    bench.look.set_dark(not dark)
    other = picture(view, "A1")
    bench.look.set_dark(dark)
    assert picture(view, "A1") != other
